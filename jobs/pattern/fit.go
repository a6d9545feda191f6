package pattern

import (
	"fmt"
	"math"

	"castweek/metal/problem"
)

// plausible is the range in mm in which the telling size of a kind of piece
// lies: the finger hole of a ring (12 mm is a child's, 25 mm beyond the
// largest sizes of the tables), the longest side of anything else. The ranges
// of the others are common practice, no source.
func plausible(k Kind) (least, most float64) {
	switch k {
	case Ring:
		return 12, 25
	case Pendant, Brooch:
		return 5, 90
	case Earrings, Links:
		return 3, 70
	case Chain, Head:
		return 1.5, 40
	case Stock:
		return 2, 150
	}
	return 2, 120
}

// wouldFit finds the unit that would bring the telling size into its range;
// when several do, the one that comes closest to the middle, by ratio. It is
// proposed, never applied.
func (r *Report) wouldFit(kind Kind) {
	least, most := plausible(kind)
	size, what := r.Box.longest(), "its longest side"
	if kind == Ring {
		if r.Finger != nil {
			size, what = float64(r.Finger.Diameter), "its finger hole"
		} else {
			least, most = 14, 60 // of a ring whose hole was not found
		}
	}
	if size >= least && size <= most {
		return
	}
	best := math.Inf(1)
	for _, u := range units {
		v := size / r.Unit.MM() * u.MM()
		if off := math.Abs(math.Log(v / math.Sqrt(least*most))); v >= least && v <= most && off < best {
			best, r.UnitWouldFit = off, u
		}
	}
	at := problem.Place{File: r.File}
	piece := "a piece of kind " + string(kind)
	if kind == Other {
		piece = "a piece"
	}
	text := fmt.Sprintf("%s is %.4g mm with the file read in %s; %s has %g to %g mm", what, size, r.Unit, piece, least, most)
	if r.UnitWouldFit != "" {
		r.Problems.Add(at, "pattern-size", fmt.Sprintf("if the mesh is in %s, write unit: %s", r.UnitWouldFit, r.UnitWouldFit), "%s; in %s it would be plausible", text, r.UnitWouldFit)
		return
	}
	r.Problems.Add(at, "pattern-size", "look whether this is the right file and the right kind of piece", "%s, and no unit makes it plausible", text)
}
