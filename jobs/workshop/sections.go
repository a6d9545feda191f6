package workshop

import (
	"slices"

	"castweek/jobs/setting"
	"castweek/jobs/source"
	"castweek/metal"
	"castweek/metal/measure"
)

// section is the map under a key that may be left out; the keys below then take
// their defaults.
func section(m *source.Map, key string, read func(*source.Map)) {
	if s := m.Map(key); s != nil {
		read(s)
		s.Done()
	}
}

func readGaps(m *source.Map) Gaps {
	g := Gaps{DefaultNeighbour, DefaultWall, DefaultWallResin, DefaultTop}
	section(m, "gaps", func(s *source.Map) {
		g.Neighbour = source.Maybe(s, "neighbour", g.Neighbour, source.Within(measure.ParseMM, 0.5, 50))
		g.Wall = source.Maybe(s, "wall", g.Wall, source.Within(measure.ParseMM, 1, 50))
		g.WallResin = source.Maybe(s, "wall_resin", g.WallResin, source.Within(measure.ParseMM, 1, 50))
		g.Top = source.Maybe(s, "top", g.Top, source.Within(measure.ParseMM, 1, 100))
		if g.WallResin < g.Wall {
			s.Bad("wall_resin", "gap-order", "write at least "+g.Wall.String(), "the gap for resin (%s) is smaller than the one for wax (%s)", g.WallResin, g.Wall)
		}
	})
	return g
}

func readLimits(m *source.Map) Limits {
	l := Limits{DefaultMinWall, DefaultMinGap, DefaultGapDepth, DefaultCleanUp, DefaultCleanInside, DefaultFitTolerance, DefaultStoneFits, DefaultStoneReturn, DefaultCulet, DefaultClawWire, DefaultClawOverlap, DefaultBezelWall, DefaultFlushBelow, DefaultStoneSpares, DefaultRecount}
	section(m, "limits", func(s *source.Map) {
		length := func(key string, to *measure.MM) {
			*to = source.Maybe(s, key, *to, source.Within(measure.ParseMM, 0, 5))
		}
		length("wall", &l.Wall)
		length("gap", &l.Gap)
		length("clean_up", &l.CleanUp)
		length("clean_inside", &l.CleanInside)
		length("fit_tolerance", &l.FitTolerance)
		length("stone_fits", &l.StoneFits)
		length("stone_return", &l.StoneReturn)
		length("culet", &l.Culet)
		length("claw_wire", &l.ClawWire)
		length("bezel_wall", &l.BezelWall)
		length("flush_below", &l.FlushBelow)
		l.ClawOverlap = source.Maybe(s, "claw_overlap", l.ClawOverlap, source.Within(measure.ParsePercent, 0, 100))
		l.GapDepth = source.Maybe(s, "gap_depth", l.GapDepth, source.Within(measure.Number, 0, 100))
		l.StoneSpares = source.Maybe(s, "stone_spares", l.StoneSpares, source.Within(measure.ParsePercent, 0, 100))
		l.Recount = source.Maybe(s, "recount", l.Recount, source.Within(measure.ParsePercent, 0.5, 10))
		if l.StoneReturn < l.StoneFits {
			s.Bad("stone_return", "limit-order", "write at least "+l.StoneFits.String(), "a stone would go back (%s) that still fits (%s)", l.StoneReturn, l.StoneFits)
		}
	})
	return l
}

// readTools reads the sizes of burs and drills; those of a common bench stand
// in for a list that is left out.
func readTools(m *source.Map) Tools {
	common := setting.DefaultHouse()
	t := Tools{common.Burs, common.Drills}
	section(m, "tools", func(s *source.Map) {
		list := func(key string, to *[]measure.MM) {
			if s.Has(key) {
				*to = source.Each(s, key, source.Within(measure.ParseMM, 0.1, 20))
				slices.Sort(*to)
			}
		}
		list("burs", &t.Burs)
		list("drills", &t.Drills)
	})
	return t
}

func readPaper(m *source.Map) Paper {
	p := Paper{Series: "A", Decimal: "point", Words: "en"}
	section(m, "paper", func(s *source.Map) {
		p.Series = source.Maybe(s, "series", p.Series, source.OneOf("A", "letter"))
		p.Decimal = source.Maybe(s, "decimal", p.Decimal, source.OneOf("point", "comma"))
		p.TwoUp = source.Maybe(s, "two_up", false, source.YesNo)
		p.Short = source.Maybe(s, "short_bags", false, source.YesNo)
		p.Words = source.Maybe(s, "words", p.Words, source.Line)
		p.WordsAt = s.Place("words")
	})
	return p
}

func readButton(m *source.Map) metal.ButtonRule {
	s := m.Map("button")
	if s == nil {
		if !m.Has("button") {
			m.Missing("button")
		}
		return metal.ButtonRule{}
	}
	r := source.Need(s, "rule", metal.ParseButtonRule)
	r.Minimum = source.Maybe(s, "minimum", 0, source.Within(measure.ParseGram, 0, 1000))
	s.Done()
	return r
}

// readMeltLoss reads the default share and those of single alloys or families.
func readMeltLoss(m *source.Map, w *Workshop) {
	percent := source.Within(measure.ParsePercent, 0, 20)
	section(m, "melt_loss", func(s *source.Map) {
		w.MeltLoss.Default = source.Maybe(s, "default", w.MeltLoss.Default, percent)
		for _, a := range s.Maps("alloys") {
			name := source.Need(a, "alloy", source.Line)
			loss := source.Need(a, "loss", percent)
			checkAlloys(w.Alloys, "alloy", valuesOf(a, "alloy"))
			if _, double := w.MeltLoss.Alloys[name]; double {
				a.Bad("alloy", "name-double", "remove one of the two", "%q is given twice", name)
			}
			if w.MeltLoss.Alloys == nil {
				w.MeltLoss.Alloys = map[string]measure.Percent{}
			}
			w.MeltLoss.Alloys[name] = loss
			a.Done()
		}
	})
}

func valuesOf(m *source.Map, key string) []source.Value {
	if v, ok := m.Value(key); ok {
		return []source.Value{v}
	}
	return nil
}
