package ringsize

import (
	"math"

	"castweek/metal/measure"
)

// A Gauge is what the finger was measured with.
type Gauge string

const (
	Narrow Gauge = "narrow" // a set of narrow rings
	Wide   Gauge = "wide"   // a set of wide rings
	Stick  Gauge = "stick"  // a ring of the customer's, read on a stick
)

// NarrowUpTo is the band width up to which a narrow gauge is used, a wide one
// above it (benchmark page of a gemmological institute on finger size).
const NarrowUpTo measure.MM = 4

// GaugeFor is the gauge ring set that suits a band of this width.
func GaugeFor(band measure.MM) Gauge {
	if band <= NarrowUpTo {
		return Narrow
	}
	return Wide
}

// A WideBand is the house rule for a finger that was measured with a narrow
// gauge for a wide band, which grips more of the finger. Sources disagree: half
// a UK letter, half a US size, a whole US size, or nothing at all at 10 mm.
// So the rule advises, and a person changes the size.
type WideBand struct {
	From   measure.MM // band width from which the rule speaks
	Add    measure.MM // to the circumference
	Source string
}

// DefaultWideBand adds half a UK letter from 5 mm on, the smallest of the
// printed additions: a ring cut too small can be stretched.
func DefaultWideBand() WideBand {
	return WideBand{From: 5, Add: 0.625, Source: sourceWideBand}
}

// Advice gives the size to think about for a band of a width, and whether the
// rule speaks at all. It is silent for a wide gauge, which has the allowance in
// it, and where nothing is known of the gauge.
func (w WideBand) Advice(s Size, band measure.MM, gauge Gauge) (Size, bool) {
	if gauge != Narrow && gauge != Stick || band < w.From || w.Add <= 0 {
		return Size{}, false
	}
	return OfCircumference(s.Circumference + w.Add), true
}

// BlankExtra is added to the strip of a band wider than [NarrowUpTo]
// (shop page on blank lengths).
const BlankExtra measure.MM = 0.5

// Blank is the length of straight strip for a ring: L = π (d + t), with d the
// inside diameter and t the thickness of the metal, and 0.5 mm more for a band
// wider than 4 mm. A thickness or width that is not positive gives 0.
func Blank(inside, thickness, band measure.MM) measure.MM {
	if inside <= 0 || thickness <= 0 || band <= 0 {
		return 0
	}
	l := (inside + thickness) * math.Pi
	if band > NarrowUpTo {
		l += BlankExtra
	}
	return l
}
