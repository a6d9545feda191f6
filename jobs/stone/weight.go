package stone

import (
	"castweek/metal/measure"
)

// A Measured stone is what an estimate of its weight is made from.
type Measured struct {
	Kind                 Kind
	Cut                  Cut
	Length, Width, Depth measure.MM
	DepthAssumed         bool
	Girdle               string // "thin", "medium", …; empty: not said, no correction
}

// A Reckoning is one way to the weight of a stone. Formula names the product
// and the factor, Worked has this stone's numbers in it.
type Reckoning struct {
	Carat           measure.Carat
	Formula, Worked string
	Source          string
}

// An Estimate is the weight of one stone by every formula that speaks of it.
// It is empty when the SG of the kind is not known.
type Estimate struct {
	Ways []Reckoning
}

// Low is the smallest of the reckonings, 0 for an empty estimate.
func (e Estimate) Low() measure.Carat {
	var low measure.Carat
	for i, w := range e.Ways {
		if i == 0 || w.Carat < low {
			low = w.Carat
		}
	}
	return low
}

// High is the largest of the reckonings, 0 for an empty estimate.
func (e Estimate) High() measure.Carat {
	var high measure.Carat
	for _, w := range e.Ways {
		high = max(high, w.Carat)
	}
	return high
}

// Weigh estimates the weight of one stone. The first way is the one to show
// when there is room for one. A size that is not positive gives an empty
// estimate.
func Weigh(m Measured) Estimate {
	if m.Length <= 0 || m.Width <= 0 || m.Depth <= 0 || m.Kind.SG <= 0 {
		return Estimate{}
	}
	if m.Width > m.Length {
		m.Length, m.Width = m.Width, m.Length
	}
	var e Estimate
	for _, f := range formulas(m) {
		e.Ways = append(e.Ways, f.reckon(m))
	}
	if w, ok := melee(m); ok {
		e.Ways = append(e.Ways, w)
	}
	return e
}

// SameSize gives the weight of a stone of another kind with the size and make
// of one that is known: c × SG(to) / SG(from). A 6.5 mm round diamond of 1.00 ct
// as a sapphire is 1.14 ct. It is 0 when an SG is not known.
func SameSize(c measure.Carat, from, to Kind) measure.Carat {
	if from.SG <= 0 || to.SG <= 0 {
		return 0
	}
	return c * measure.Carat(to.SG/from.SG)
}
