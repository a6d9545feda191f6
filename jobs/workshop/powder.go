package workshop

import (
	"castweek/jobs/source"
	"castweek/metal/invest"
	"castweek/metal/measure"
)

// needSheet refuses figures without the sheet that they are from: nobody could
// check them later.
func needSheet(s *source.Map, keys ...string) {
	for _, k := range keys {
		if s.Has(k) && !s.Has("sheet") {
			s.Bad(k, "sheet-missing", "add sheet: with the name of the sheet that it is from", "%s replaces a general figure, and no sheet is named for it", k)
			return
		}
	}
}

// readMixing reads the figures of a powder, over the general ones of its bond.
func readMixing(s *source.Map, name string, phosphate bool) invest.Powder {
	p := invest.Gypsum(name)
	if phosphate {
		p = invest.Phosphate(name)
	}
	needSheet(s, "liquid", "slurry", "working")
	p.Sheet = source.Maybe(s, "sheet", p.Sheet, source.Line)
	section(s, "liquid", func(m *source.Map) {
		share := source.Within(measure.ParsePercent, 10, 60)
		p.Thin = source.Need(m, "thin", share)
		p.Medium = source.Need(m, "medium", share)
		p.Heavy = source.Need(m, "heavy", share)
	})
	p.Slurry = source.Maybe(s, "slurry", p.Slurry, source.Within(measure.ParseGramPerCC, 1.2, 2.5))
	p.Spare = source.Maybe(s, "spare", p.Spare, source.Within(measure.ParsePercent, 0, 100))
	section(s, "working", func(m *source.Map) {
		minutes := func(key string, low float64, to *float64) {
			*to = source.Maybe(m, key, *to, minutesWithin(low, 60))
		}
		c := &p.Clock
		c.Source = p.Sheet
		minutes("gloss_off", 1, &c.Gloss)
		minutes("margin", 0, &c.Margin)
		minutes("mix", 0.25, &c.Mixing)
		minutes("bowl_vacuum", 0, &c.Bowl)
		minutes("fill", 0.25, &c.Filling)
		minutes("flask_vacuum", 0, &c.Flask)
		if _, late := c.Marks(); late > 0 {
			s.Bad("working", "working-late", "shorten the steps, or mix fewer flasks at a time",
				"mixing, filling and vacuum end %s min after the time by which the flasks are left alone", measure.Decimals(late, 1))
		}
	})
	return p
}
