// Package burnout plans how flasks are burned out and poured: one programme for
// a kiln load, the path of its temperature, and the minute of each pour. All
// figures are house data with a default and its source; the makers' sheets of
// powder, resin and alloy win.
package burnout

import (
	"castweek/metal/measure"
)

// Class is what burns out of a flask.
type Class int

const (
	Wax Class = iota
	Resin
	StonesInWax // stones set in the wax and cast in place
)

func (c Class) String() string {
	return [...]string{"wax", "resin", "stones in the wax"}[c]
}

// A Hold keeps the kiln at a temperature for so many hours. Published names of
// programmes are sums of holds; the way up to each is part of the hold.
type Hold struct {
	Hours float64
	At    measure.Celsius
}

// A Programme burns out flasks up to a size.
type Programme struct {
	Name      string
	Class     Class
	Phosphate bool
	Diameter  measure.MM // largest flask it is meant for
	Height    measure.MM
	Holds     []Hold  // up to the top; the soak at casting temperature follows
	Soak      float64 // hours
	Ramp      float64 // K an hour at the most
	Source    string
}

// Hours is the length of the whole programme, soak included.
func (p Programme) Hours() float64 {
	h := p.Soak
	for _, x := range p.Holds {
		h += x.Hours
	}
	return h
}

// Top is the highest temperature of the programme.
func (p Programme) Top() measure.Celsius {
	var top measure.Celsius
	for _, x := range p.Holds {
		top = max(top, x.At)
	}
	return top
}

const (
	// GypsumCeiling is above every published gypsum cycle (732 °C) and at the
	// upper end of what the trade calls the limit (732 to 750 °C); one class
	// book puts the limit at 704 °C. With carbon left in the mould gypsum gives
	// off sulphur dioxide from about 700 °C (from memory, Ott and Faccenda,
	// Handbook on Investment Casting, World Gold Council, 2003).
	GypsumCeiling measure.Celsius = 750
	// StonesCeiling is never passed with stones in the wax, unless the
	// investment maker's sheet is named (text on burning out with stones in
	// place: never above 454 °C).
	StonesCeiling measure.Celsius = 454
	// mostRamp is 400 °F an hour (casting house).
	mostRamp = 222
)

const inch = 25.4

// Defaults are the programmes of a house that names none.
func Defaults() []Programme {
	const maker = "investment maker's cycles, quoted at second hand"
	return []Programme{
		{"small, wax", Wax, false, 2.5 * inch, 2.5 * inch, []Hold{{2, 149}, {1, 371}, {2, 732}}, 1, 2 * mostRamp, maker + "; small flasks may rise faster"},
		{"medium, wax", Wax, false, 3.5 * inch, 4 * inch, []Hold{{2, 149}, {2, 371}, {3, 732}}, 1, mostRamp, maker},
		{"large, wax", Wax, false, 4 * inch, 8 * inch, []Hold{{2, 149}, {2, 315}, {2, 482}, {4, 732}}, 2, mostRamp, maker},
		{"resin", Resin, false, 4 * inch, 8 * inch, []Hold{{3, 149}, {3, 371}, {4, 732}}, 2, 111,
			"a resin maker's cycle runs about 12 h to 732 °C with a slow first rise; the steps between are from memory: use the resin maker's own table"},
		{"stones in the wax", StonesInWax, false, 3.5 * inch, 6 * inch, []Hold{{2, 149}, {2, 260}, {10, 427}}, 1, 111,
			"text on burning out with stones in place: 2 h at 149, 2 h at 260, 10 h at 399 to 427, never above 454 °C"},
		{"phosphate, wax", Wax, true, 4 * inch, 8 * inch, []Hold{{2, 149}, {2, 371}, {4, 871}}, 2, mostRamp, "from memory; use the investment maker's sheet"},
		{"phosphate, resin", Resin, true, 4 * inch, 8 * inch, []Hold{{3, 149}, {3, 371}, {6, 871}}, 2, 111, "from memory; use the makers' sheets"},
	}
}
