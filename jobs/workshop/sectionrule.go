package workshop

import (
	"castweek/jobs/source"
	"castweek/metal/measure"
)

// Mixing says whether thin, medium and heavy castings may share a tree, which
// is poured at one flask temperature.
type Mixing string

const (
	MixNever Mixing = "never" // apart
	MixAvoid Mixing = "avoid" // apart, and the price of it is told; mixed by a wish
	MixAllow Mixing = "allow" // mixed, poured at the finest piece's temperature
)

// SectionRule parts castings by their thickest section.
type SectionRule struct {
	Mixing     Mixing
	ThinBelow  measure.MM // filigree
	HeavyAbove measure.MM // signets and other heavy pieces
}

// The classes are common practice, no source: sheets give flask temperatures
// for "fine", "medium" and "heavy" without a measure.
const (
	DefaultThinBelow  measure.MM = 1.2
	DefaultHeavyAbove measure.MM = 3
)

// Of names the section of a casting by its thickest part; "medium" when
// nothing is known.
func (r SectionRule) Of(thickest measure.MM) string {
	switch {
	case thickest <= 0:
		return "medium"
	case thickest < r.ThinBelow:
		return "thin"
	case thickest > r.HeavyAbove:
		return "heavy"
	}
	return "medium"
}

func readSectionRule(m *source.Map) SectionRule {
	r := SectionRule{MixAvoid, DefaultThinBelow, DefaultHeavyAbove}
	section(m, "sections", func(s *source.Map) {
		r.Mixing = Mixing(source.Maybe(s, "mixing", string(r.Mixing), source.OneOf(string(MixNever), string(MixAvoid), string(MixAllow))))
		r.ThinBelow = source.Maybe(s, "thin_below", r.ThinBelow, source.Within(measure.ParseMM, 0.2, 10))
		r.HeavyAbove = source.Maybe(s, "heavy_above", r.HeavyAbove, source.Within(measure.ParseMM, 0.2, 20))
		if r.HeavyAbove < r.ThinBelow {
			s.Bad("heavy_above", "section-order", "write at least "+r.ThinBelow.String(), "heavy (above %s) begins before thin (below %s) ends", r.HeavyAbove, r.ThinBelow)
		}
	})
	return r
}
