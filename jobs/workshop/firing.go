package workshop

import (
	"fmt"
	"strings"

	"castweek/jobs/source"
	"castweek/metal"
	"castweek/metal/burnout"
	"castweek/metal/measure"
)

// Firing is how the house burns out and pours.
type Firing struct {
	burnout.House
	Kilns int            // how many loads can burn at the same time
	Heats []burnout.Heat // the house's own rows; see [Firing.HeatOf]
}

// DefaultKilns is the one kiln of a small workshop: common practice, no source.
const DefaultKilns = 1

// HeatOf finds how hot an alloy is poured: in the house's own rows first, then
// in the general table; in each its name goes before its family.
func (f Firing) HeatOf(a metal.Alloy) (burnout.Heat, bool) {
	if h, ok := burnout.HeatOf(f.Heats, a.Name, a.Family); ok {
		return h, true
	}
	return burnout.HeatOf(burnout.Heats(), a.Name, a.Family)
}

// StonesTop is the hottest that stones in the wax may get in this house.
func (f Firing) StonesTop() measure.Celsius {
	if f.StonesSheet != "" {
		return max(f.StonesMost, burnout.StonesCeiling)
	}
	return burnout.StonesCeiling
}

// readFiring reads burnout and heat.
func readFiring(m *source.Map, alloys metal.Alloys, flasks []Flask) Firing {
	f := Firing{House: burnout.DefaultHouse(), Kilns: DefaultKilns}
	section(m, "burnout", func(s *source.Map) {
		section(s, "stones", func(x *source.Map) {
			f.StonesMost = source.Need(x, "ceiling", source.Within(measure.ParseCelsius, burnout.StonesCeiling, burnout.GypsumCeiling))
			f.StonesSheet = source.Need(x, "sheet", source.Line)
		})
		f.Programmes = withProgrammes(f.Programmes, f.readProgrammes(s))
		f.ResinWithWax = source.Maybe(s, "resin_with_wax", f.ResinWithWax, source.YesNo)
		f.Cooling = source.Maybe(s, "cooling", f.Cooling, source.Within(parseRate, 10, 1000))
		f.BetweenPours = source.Maybe(s, "between_pours", f.BetweenPours, minutesWithin(1, 240))
		f.OutOfKiln = source.Maybe(s, "out_of_kiln", f.OutOfKiln, minutesWithin(0.25, 15))
		f.Kilns = source.Maybe(s, "kilns", f.Kilns, source.Within(measure.Whole, 1, 20))
		section(s, "kiln", func(k *source.Map) { f.Room = readRoom(k, flasks) })
	})
	f.Heats = readHeats(m, alloys)
	return f
}

// withProgrammes puts the house's own programmes in the place of all general
// ones for the same pattern material and bond.
func withProgrammes(general, own []burnout.Programme) []burnout.Programme {
	out := own
	for _, g := range general {
		replaced := false
		for _, o := range own {
			replaced = replaced || o.Class == g.Class && o.Phosphate == g.Phosphate
		}
		if !replaced {
			out = append(out, g)
		}
	}
	return out
}

var classes = map[string]burnout.Class{"wax": burnout.Wax, "resin": burnout.Resin, "stones in the wax": burnout.StonesInWax}

func (f Firing) readProgrammes(m *source.Map) []burnout.Programme {
	var out []burnout.Programme
	names := once{}
	for _, s := range m.Maps("programmes") {
		p := burnout.Programme{
			Name:      source.Need(s, "name", source.Line),
			Class:     classes[source.Need(s, "pattern", source.OneOf("wax", "resin", "stones in the wax"))],
			Phosphate: source.Need(s, "bond", source.OneOf("gypsum", "phosphate")) == "phosphate",
			Diameter:  source.Need(s, "diameter", source.Within(measure.ParseMM, 20, 300)),
			Height:    source.Need(s, "height", source.Within(measure.ParseMM, 20, 600)),
			Soak:      source.Need(s, "soak", hoursWithin(0, 24)),
			Ramp:      source.Need(s, "ramp", source.Within(parseRate, 10, 1000)),
			Source:    source.Need(s, "sheet", source.Line),
		}
		names.check(s, "name", p.Name)
		if !s.Has("holds") {
			s.Missing("holds")
		}
		held := source.Each(s, "holds", parseHold)
		for _, h := range held {
			if h.Hours > 0 {
				p.Holds = append(p.Holds, h)
			}
		}
		s.Done()
		if len(p.Holds) < len(held) || len(held) == 0 || p.Ramp <= 0 {
			continue // said already
		}
		r := f.Check(p)
		if r == nil {
			_, r = p.Path(p.Top())
		}
		if r != nil {
			s.Bad("holds", r.Code, r.Remedy, "%s", r.Message)
			continue
		}
		out = append(out, p)
	}
	return out
}

// parseHold reads "2 h at 149 °C".
func parseHold(text string) (burnout.Hold, error) {
	span, heat, ok := strings.Cut(text, " at ")
	if !ok {
		return burnout.Hold{}, &measure.SyntaxError{Code: "hold-form", Message: fmt.Sprintf("%q is not a hold", text), Remedy: "write hours and temperature, such as 2 h at 149 °C"}
	}
	hours, err := hoursWithin(0.1, 48)(span)
	if err != nil {
		return burnout.Hold{}, err
	}
	at, err := source.Within(measure.ParseCelsius, 30, 1200)(heat)
	if err != nil {
		return burnout.Hold{}, err
	}
	return burnout.Hold{Hours: hours, At: at}, nil
}

func hoursWithin(low, high float64) func(string) (float64, error) {
	return func(text string) (float64, error) {
		m, err := minutesWithin(low*60, high*60)(text)
		return m / 60, err
	}
}

// parseRate reads "100 K/h".
func parseRate(text string) (float64, error) {
	number, ok := strings.CutSuffix(strings.TrimSpace(text), "K/h")
	if !ok {
		return 0, &measure.SyntaxError{Code: "rate-form", Message: fmt.Sprintf("%q is not a rate of heating or cooling", text), Remedy: "write kelvin an hour, such as 100 K/h"}
	}
	return measure.Number(strings.TrimSpace(number))
}

// readHeats reads the house's own temperatures at the pour.
func readHeats(m *source.Map, alloys metal.Alloys) []burnout.Heat {
	var out []burnout.Heat
	names := once{}
	for _, s := range m.Maps("heat") {
		flask := source.Within(measure.ParseCelsius, 100, 1100)
		wait := minutesWithin(0, 600)
		h := burnout.Heat{
			Alloys:   neededAlloys(s, alloys),
			Metal:    source.Need(s, "metal", source.Within(measure.ParseCelsius, 500, 2200)),
			Thin:     source.Need(s, "thin", flask),
			Medium:   source.Need(s, "medium", flask),
			Heavy:    source.Need(s, "heavy", flask),
			WaitLow:  source.Need(s, "wait", wait),
			WaitHigh: source.Maybe(s, "wait_most", 0, wait),
			Quench:   source.Maybe(s, "quench", "", source.Line),
			Source:   source.Need(s, "sheet", source.Line),
		}
		for _, v := range s.Values("alloys") {
			names.check(s, "alloys", v.Text)
		}
		if !s.Has("wait_most") {
			h.WaitHigh = h.WaitLow
		} else if h.WaitHigh < h.WaitLow {
			s.Bad("wait_most", "wait-order", "write the longer one as wait_most", "the longest wait is shorter than the shortest")
		}
		if h.Thin < h.Heavy {
			s.Bad("thin", "heat-order", "check the two: thin sections need the hotter flask", "the flask for thin castings (%s) is colder than the one for heavy ones (%s)", h.Thin, h.Heavy)
		}
		s.Done()
		out = append(out, h)
	}
	return out
}
