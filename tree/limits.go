package tree

import (
	"math"
	"sort"

	"castweek/jobs/workshop"
	"castweek/metal"
	"castweek/metal/measure"
	"castweek/tree/mount"
)

// largestCrucible is the roomiest crucible that may hold an alloy.
func largestCrucible(w *workshop.Workshop, a metal.Alloy) (workshop.Crucible, bool) {
	var best workshop.Crucible
	found := false
	for _, c := range w.Crucibles {
		if metal.Covers(c.Alloys, a) && (!found || c.Limit > best.Limit) {
			best, found = c, true
		}
	}
	return best, found
}

// smallestCrucible is the tightest crucible that holds a charge.
func smallestCrucible(w *workshop.Workshop, a metal.Alloy, charge measure.Milligram) string {
	fitting := append([]workshop.Crucible(nil), w.Crucibles...)
	sort.SliceStable(fitting, func(i, j int) bool { return fitting[i].Limit < fitting[j].Limit })
	for _, c := range fitting {
		if metal.Covers(c.Alloys, a) && c.Limit.RoundDown(1) >= charge {
			return c.Name
		}
	}
	return ""
}

// powderFor is the investment powder that the house uses for an alloy.
func powderFor(w *workshop.Workshop, a metal.Alloy) (workshop.Powder, bool) {
	for _, p := range w.Powders {
		if metal.Covers(p.Alloys, a) {
			return p, true
		}
	}
	return workshop.Powder{}, false
}

// chargeInput is the part of a charge that does not depend on what hangs.
func chargeInput(w *workshop.Workshop, a metal.Alloy, f workshop.Flask) metal.ChargeInput {
	return metal.ChargeInput{Density: a.Density(), Button: w.Button, Cavity: f.ButtonCavity, Loss: w.MeltLoss.Of(a), Step: w.ScaleStep}
}

// holds tells whether a charge keeps to the crucible and its button to the
// base of the flask.
func holds(in metal.ChargeInput, limit measure.Milligram, tree measure.Milligram) bool {
	total, button := in.TotalFor(tree)
	return total <= limit && button.Gram().At(in.Density) <= in.Cavity+cavityDust
}

// cavityDust lets the rule "by flask", which fills the cavity and is rounded up
// to a whole milligram, pass for filling it: less than a tenth of a mm³.
const cavityDust measure.CubicMM = 0.1

// metalCapacity is the most metal that castings, feeders and trunk of one tree
// may have together, so that the charge still keeps all limits: found by
// halving, since a heavier tree never needs a lighter charge. Negative when
// not even an empty tree keeps them.
func metalCapacity(w *workshop.Workshop, a metal.Alloy, f workshop.Flask) measure.Milligram {
	c, ok := largestCrucible(w, a)
	if !ok {
		return -1
	}
	in, limit := chargeInput(w, a, f), c.Limit.RoundDown(1)
	if !holds(in, limit, 0) {
		return -1
	}
	low, high := measure.Milligram(0), limit
	for low < high {
		mid := low + (high-low+1)/2
		if holds(in, limit, mid) {
			low = mid
		} else {
			high = mid - 1
		}
	}
	return low
}

// buttonHeight is how far the base reaches into the flask: its button cavity
// taken as half a ball, r = (3V/2π)^(1/3).
func buttonHeight(cavity measure.CubicMM) measure.MM {
	return measure.MM(math.Cbrt(3 * float64(cavity) / (2 * math.Pi)))
}

// ButtonHeight is how far the base of the tree reaches into its flask; 0 for a
// base that nobody measured.
func (t *Tree) ButtonHeight() measure.MM { return buttonHeight(t.Cavity) }

func mountFlask(f workshop.Flask) mount.Flask {
	return mount.Flask{InnerDiameter: f.InnerDiameter, Height: f.Height, TrunkDiameter: f.TrunkDiameter, ButtonHeight: buttonHeight(f.ButtonCavity)}
}

// hang mounts bodies in a flask. The trunk is cut to what the castings need;
// where they would need more than the house's longest trunk, they have to do
// with that.
func hang(f workshop.Flask, g mount.Gaps, bodies []mount.Body, o mount.Options) (mount.Tree, mount.Verdict) {
	flask := mountFlask(f)
	tree, verdict := mount.Place(flask, g, bodies, o)
	if verdict.Outcome == mount.Hangs && tree.TrunkLength > f.TrunkLength {
		flask.TrunkLength = f.TrunkLength
		tree, verdict = mount.Place(flask, g, bodies, o)
		if verdict.Outcome == mount.CannotProved {
			verdict.Outcome = mount.GaveUp // a proof for this trunk only
		}
	}
	return tree, verdict
}

// trunkVolume is that of a trunk of a flask.
func trunkVolume(f workshop.Flask, length measure.MM) measure.CubicMM {
	return measure.CubicMM(math.Pi / 4 * float64(f.TrunkDiameter*f.TrunkDiameter*length))
}

func mountGaps(w *workshop.Workshop, resin bool) mount.Gaps {
	return mount.Gaps{Between: w.Gaps.Neighbour, Wall: w.Gaps.Wall, WallResin: w.Gaps.WallResin, Top: w.Gaps.Top, Resin: resin}
}
