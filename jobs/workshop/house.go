package workshop

import (
	"strings"

	"castweek/jobs/source"
	"castweek/metal"
	"castweek/metal/measure"
)

// once finds names that are given twice, in whatever case.
type once map[string]int

func (o once) check(m *source.Map, key, name string) {
	folded := strings.ToLower(name)
	if first, double := o[folded]; double && name != "" {
		m.Bad(key, "name-double", "give one of them another name", "%q is given twice, first on line %d", name, first)
		return
	}
	o[folded] = m.Place(key).Line
}

// needed are the maps of a list that must not be left out.
func needed(m *source.Map, key string) []*source.Map {
	if !m.Has(key) {
		m.Missing(key)
	}
	return m.Maps(key)
}

// named reads a list that must not be left out and whose entries go by a name,
// each its own.
func named[T any](m *source.Map, key string, read func(s *source.Map, name string) T) []T {
	var out []T
	names := once{}
	for _, s := range needed(m, key) {
		name := source.Need(s, "name", source.Line)
		out = append(out, read(s, name))
		names.check(s, "name", name)
		s.Done()
	}
	return out
}

func readMaterials(m *source.Map) []Material {
	return named(m, "materials", func(s *source.Map, name string) Material {
		return Material{
			At:        s.At(),
			Name:      name,
			Density:   source.Need(s, "density", source.Within(measure.ParseGramPerCC, 0.5, 2.5)),
			Resin:     source.Need(s, "burnout", source.OneOf("wax", "resin")) == "resin",
			Shrinkage: source.Maybe(s, "shrinkage", DefaultShrinkage, source.Within(measure.ParsePercent, 0, 10)),
		}
	})
}

func readFlasks(m *source.Map, gaps Gaps) []Flask {
	return named(m, "flasks", func(s *source.Map, name string) Flask {
		x := Flask{
			At:            s.At(),
			Name:          name,
			InnerDiameter: source.Need(s, "inner_diameter", source.Within(measure.ParseMM, 20, 300)),
			Height:        source.Need(s, "height", source.Within(measure.ParseMM, 20, 600)),
			Count:         source.Need(s, "count", source.Positive(measure.Whole)),
			ButtonCavity:  source.Need(s, "button_cavity", source.Positive(measure.ParseCubicMM)),
		}
		trunk := source.Need(s, "trunk", parseTrunk)
		x.TrunkDiameter, x.TrunkLength = trunk[0], trunk[1]
		if x.Height > 0 && x.TrunkLength+gaps.Top > x.Height {
			s.Bad("trunk", "trunk-long", "write at most "+(x.Height-gaps.Top).String()+" as its length",
				"a trunk of %s and the gap of %s above it do not fit into a flask %s high", x.TrunkLength, gaps.Top, x.Height)
		}
		if x.InnerDiameter > 0 && x.TrunkDiameter+2*gaps.Wall >= x.InnerDiameter {
			s.Bad("trunk", "trunk-thick", "check diameter and length: the diameter stands first",
				"a trunk %s thick leaves no room in a flask %s wide", x.TrunkDiameter, x.InnerDiameter)
		}
		return x
	})
}

// parseTrunk reads "8 x 110 mm": diameter and length.
func parseTrunk(text string) ([2]measure.MM, error) {
	l, err := measure.ParseLengths(text)
	if err != nil {
		return [2]measure.MM{}, err
	}
	if len(l) != 2 || l[0] <= 0 || l[1] <= 0 {
		return [2]measure.MM{}, &measure.SyntaxError{Code: "trunk-form", Message: "\"" + text + "\" is not a trunk", Remedy: "write diameter x length, such as 8 x 110 mm"}
	}
	return [2]measure.MM{l[0], l[1]}, nil
}

func readCrucibles(m *source.Map, alloys metal.Alloys) []Crucible {
	return named(m, "crucibles", func(s *source.Map, name string) Crucible {
		return Crucible{At: s.At(), Name: name, Limit: source.Need(s, "limit", source.Positive(measure.ParseGram)), Alloys: neededAlloys(s, alloys)}
	})
}

func neededAlloys(s *source.Map, alloys metal.Alloys) []string {
	if !s.Has("alloys") {
		s.Missing("alloys")
	}
	return checkAlloys(alloys, "alloys", s.Values("alloys"))
}

// readMelts reads what the house can melt. That it has no crucible for it is
// said here, where it can be mended, not only at the first tree.
func readMelts(m *source.Map, w *Workshop) []string {
	if !m.Has("melts") {
		m.Missing("melts")
	}
	out := checkAlloys(w.Alloys, "melts", m.Values("melts"))
	for _, name := range out {
		if len(w.Crucibles) > 0 && !w.anyCrucible(name) {
			m.Remark("melts", "crucible-none", "add it to the alloys of a crucible", "no crucible may hold %s", name)
		}
	}
	return out
}

func (w *Workshop) anyCrucible(melt string) bool {
	for _, c := range w.Crucibles {
		for _, held := range c.Alloys {
			a, isAlloy := w.Alloys.Find(held)
			b, _ := w.Alloys.Find(melt)
			if held == melt || isAlloy && a.Family == melt || b.Family == held && held != "" {
				return true
			}
		}
	}
	return false
}

// hot are the families that gypsum-bonded powder does not stand: calcium
// sulphate breaks down far below their flask and metal temperatures and gives
// off sulphur dioxide.
var hot = []string{"platinum", "palladium"}

func readPowders(m *source.Map, alloys metal.Alloys) []Powder {
	return named(m, "powders", func(s *source.Map, name string) Powder {
		x := Powder{
			At:        s.At(),
			Name:      name,
			Phosphate: source.Need(s, "bond", source.OneOf("gypsum", "phosphate")) == "phosphate",
			Alloys:    neededAlloys(s, alloys),
		}
		x.Mixing = readMixing(s, x.Name, x.Phosphate)
		gypsum := s.Has("bond") && !x.Phosphate
		for _, v := range s.Values("alloys") {
			a, _ := alloys.Find(v.Text)
			if gypsum && (contains(hot, v.Text) || contains(hot, a.Family)) {
				v.Bad("powder-gypsum-hot", "use a phosphate-bonded powder for it", "%s must not be cast in gypsum-bonded powder", v.Text)
			}
		}
		return x
	})
}
