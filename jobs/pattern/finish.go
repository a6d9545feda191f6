package pattern

import (
	"castweek/metal/measure"
)

// A Finishing says what happens to a pattern until it is a finished piece.
type Finishing struct {
	// Shrinkage is the linear shrinkage from pattern to casting.
	Shrinkage measure.Percent
	// Least and Most bound what cleaning up takes off every surface, in mm of
	// depth; half of what it takes off a diameter.
	Least, Most measure.MM
}

// Cleaning of one measured ring (E. Teague, Santa Fe Symposium): inside
// diameter 19.63 mm cast and 19.82 finished, thickness 1.91 and 1.72, width
// 4.12 and 3.82, which is 0.095 to 0.15 mm off each surface.
const (
	LeastCleaned measure.MM = 0.095
	MostCleaned  measure.MM = 0.15
)

// A Range is a computed weight with its band.
type Range struct{ Least, Likely, Most measure.Gram }

// Cast is the expected weight of the casting, without feeders: volume ×
// density, as it is charged. Nothing is taken off for shrinkage, which is a
// measure of lengths: in the one chain that is published with its weights
// (Teague, as above) the finger hole shrank by 1.60 % from model to casting, and
// the weight went from 5.930 to 5.877 g, 0.9 % less and not the 4.7 % of
// 1 − (1 − s)³. The least allows for all of that, and for the bound of the volume.
func (r Report) Cast(density measure.GramPerCC, f Finishing) Range {
	k := linear(f)
	at := func(v measure.CubicMM) measure.Gram { return max(0, v).Times(density) }
	return Range{at((r.Volume - r.Bound) * k * k * k), at(r.Volume), at(r.Volume + r.Bound)}
}

// Finished is the expected weight of the finished metal, stones apart: that of
// the casting less what is cleaned off, the skin times the depth. The skin
// shrinks a little while it is cleaned, which the depth of a tenth of a
// millimetre lets neglect; the likely weight takes the middle of the two depths.
func (r Report) Finished(density measure.GramPerCC, f Finishing) Range {
	cast := r.Cast(density, f)
	off := func(depth measure.MM) measure.Gram {
		return (measure.CubicMM(r.Area) * measure.CubicMM(depth)).Times(density)
	}
	return Range{
		max(0, cast.Least-off(f.Most)),
		max(0, cast.Likely-off((f.Least+f.Most)/2)),
		max(0, cast.Most-off(f.Least)),
	}
}

func linear(f Finishing) measure.CubicMM { return measure.CubicMM(1 - float64(f.Shrinkage)/100) }

// OverlapWeight is what adding up the solids would have charged too much.
func (r Report) OverlapWeight(density measure.GramPerCC) measure.Gram {
	return r.Overlap().Times(density)
}
