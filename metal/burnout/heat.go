package burnout

import (
	"strings"

	"castweek/metal/measure"
)

// Heat is how hot metal and flask are at the pour, by section, and how long to
// wait before quenching. A 0 is not known.
type Heat struct {
	Alloys              []string // names or families
	Metal               measure.Celsius
	Thin, Medium, Heavy measure.Celsius // of the flask
	WaitLow, WaitHigh   float64         // minutes before quenching
	Quench              string          // what sheets say, in words
	Source              string
	Disputed            bool // sheets disagree about the wait
}

// For is the flask temperature for a section; one that is not known is poured
// as medium.
func (h Heat) For(section string) measure.Celsius {
	switch section {
	case "thin":
		return h.Thin
	case "heavy":
		return h.Heavy
	}
	return h.Medium
}

// Heats are the default table, the particular before the general. Metal of
// carat gold without a sheet is its liquidus and 50 to 100 K more (rule of
// thumb); 0 asks for the alloy maker's sheet.
func Heats() []Heat {
	return []Heat{
		{[]string{"750 red"}, 975, 620, 550, 450, 10, 15, "one waits 10 to 15 min in the flask, others quench from dull red, above 370 °C, before it turns brittle; ask the alloy maker",
			"refiner's sheet for 750 rosé; two other sheets contradict its wait", true},
		{[]string{"585 red", "375 red"}, 0, 640, 520, 430, 5, 15, "some quench from dull red, others wait; ask the alloy maker", "carat gold in general, refiner's tips", true},
		{[]string{"585 yellow"}, 1030, 620, 620, 520, 12, 15, "when the button no longer glows; 12 to 15 min advised, 2 to 3 min practised", "refiner's sheet for pale 585; wait from a caster's forum", true},
		{[]string{"916 yellow"}, 1075, 650, 600, 500, 12, 15, "when the button no longer glows; 12 to 15 min advised, 2 to 3 min practised", "refiner's sheet for 917 yellow; wait from a caster's forum", true},
		{[]string{"585 white", "750 white"}, 0, 704, 540, 480, 15, 17, "17 min was used and went well; nickel white is left to cool in air", "carat gold in general, white at the high end, refiner's tips; wait from a caster's forum and an alloy maker's page", true},
		{[]string{"gold"}, 0, 640, 520, 430, 12, 15, "when the button no longer glows; 12 to 15 min advised, 2 to 3 min practised", "carat gold in general, refiner's tips: 427 to 538 °C, fine 593 to 704 °C", true},
		{[]string{"silver"}, 970, 600, 540, 440, 15, 20, "", "refiner's sheet for 925; flask from casters' forum", false},
		{[]string{"platinum"}, 1780, 950, 900, 850, 10, 20, "steam scalds: tongs and face shield", "platinum casting paper; flask common practice, no source", false},
		{[]string{"palladium"}, 1375, 0, 0, 0, 0, 0, "ask the alloy maker", "palladium casting tips: 1 350 to 1 400 °C", false},
	}
}

// HeatOf finds the row for an alloy by its name, else by its family.
func HeatOf(table []Heat, name, family string) (Heat, bool) {
	for _, want := range []string{name, family} {
		for _, h := range table {
			for _, a := range h.Alloys {
				if strings.EqualFold(a, want) {
					return h, true
				}
			}
		}
	}
	return Heat{}, false
}
