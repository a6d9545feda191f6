package mount

import (
	"fmt"
	"math"

	"castweek/metal/measure"
)

// The proofs rest on four facts of every tree that this package could build. A
// casting is a convex body, or convex slabs, without its padding; it lies beside
// the trunk, which counts as endless; two castings keep the gap; all keep to the
// room. Position, tilt, turn, feeder and weight order do not enter.

// proofSlack is the share by which a limit must be passed for a proof, so that
// round-off cannot make one.
const proofSlack = 1e-6

// refute looks for a reason why the bodies cannot hang together.
func refute(r room, bodies []Body) (Verdict, bool) {
	for i := range bodies {
		if v, ok := refuteOne(r, &bodies[i]); ok {
			return v, true
		}
	}
	need := 0.0
	for i := range bodies {
		need += leastShare(r, &bodies[i])
	}
	if have := r.top - r.bottom + r.between; need > have*(1+proofSlack) {
		return Verdict{Outcome: CannotProved, Code: "mount-volume",
			Message: fmt.Sprintf("the castings with half the gap round each take %.0f %% of the room in the flask", 100*need/have),
			Remedy:  "take castings off this tree, or use a larger flask"}, true
	}
	return Verdict{}, false
}

// refuteOne compares one casting with the room. Beside the trunk lies a segment of
// a circle: outer - inner deep, as wide as its chord, and top - bottom high. What
// is convex and lies in there is, in its narrowest direction, no wider than the
// least of the three, and from end to end no longer than chord and height allow.
//
// The reason must hold for every way to attach the casting, because each cuts it
// into pieces of its own.
func refuteOne(r room, b *Body) (Verdict, bool) {
	deep, chord, high := r.outer-r.inner, 2*math.Sqrt(math.Max(0, r.outer*r.outer-r.inner*r.inner)), r.top-r.bottom
	long, narrow := math.Hypot(chord, high), math.Min(deep, math.Min(chord, high))
	why := ""
	for i := range b.traced.frames {
		f := &b.traced.frames[i]
		why = ""
		for _, p := range f.pieces[f.feeder:] {
			if d := p.long; d > long*(1+proofSlack) {
				why = fmt.Sprintf("it is %.1f mm from end to end, the room beside the trunk %.1f mm", d, long)
				break
			}
			if p.narrowest() <= narrow*(1+proofSlack) {
				continue
			}
			if wide := leastWidth(p.corners); wide > narrow*(1+proofSlack) {
				why = fmt.Sprintf("it is nowhere narrower than %.1f mm, the room beside the trunk %.1f mm", wide, narrow)
				break
			}
		}
		if why == "" {
			return Verdict{}, false
		}
	}
	return tooLarge(b, why), true
}

func tooLarge(b *Body, why string) Verdict {
	return Verdict{Outcome: CannotProved, Code: "mount-too-large", Culprit: b.ID,
		Message: "casting " + b.ID + " cannot hang in this flask however it is turned: " + why,
		Remedy:  "use a larger flask"}
}

// narrowest is a quick upper bound of the least width: the narrowest of the three
// coordinate directions.
func (p *piece) narrowest() float64 {
	lo, hi := p.corners[0], p.corners[0]
	for _, c := range p.corners {
		for k := range c {
			lo[k], hi[k] = math.Min(lo[k], c[k]), math.Max(hi[k], c[k])
		}
	}
	d := hi.sub(lo)
	return math.Min(d[0], math.Min(d[1], d[2]))
}

func diameterOf(corners []vec) float64 {
	far := 0.0
	for i, a := range corners {
		for _, b := range corners[:i] {
			d := a.sub(b)
			far = math.Max(far, d.dot(d))
		}
	}
	return math.Sqrt(far)
}

// leastWidth is the narrowest width of the hull of the corners over all
// directions. It is found across a facet or across a pair of edges (M. E. Houle
// and G. T. Toussaint, Computing the width of a set, IEEE PAMI 10 (1988)).
func leastWidth(corners []vec) float64 {
	h := hullOf(corners, 0)
	least := math.Inf(1)
	try := func(n vec) {
		if n.dot(n) < 1e-12 {
			return
		}
		n = n.unit()
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, c := range h.corners {
			x := c.dot(n)
			lo, hi = math.Min(lo, x), math.Max(hi, x)
		}
		least = math.Min(least, hi-lo)
	}
	var edges []vec
	for _, f := range h.faces {
		a, b, c := h.corners[f[0]], h.corners[f[1]], h.corners[f[2]]
		try(b.sub(a).cross(c.sub(a)))
		for k := range 3 {
			if f[k] < f[(k+1)%3] {
				edges = append(edges, h.corners[f[(k+1)%3]].sub(h.corners[f[k]]))
			}
		}
	}
	for i, e := range edges {
		for _, g := range edges[:i] {
			try(e.cross(g))
		}
	}
	return least
}

// leastShare is the height of the room that a casting fills by volume alone, in
// mm: its volume with half the gap all round, over the plan area of the room with
// half the gap added. The shares of castings that hang together sum to no more
// than top - bottom + between.
func leastShare(r room, b *Body) float64 {
	half := r.between / 2
	ball := math.Cbrt(4 * math.Pi / 3)
	least := math.Inf(1) // over the ways to attach the casting, each with pieces of its own
	for i := range b.traced.frames {
		f := &b.traced.frames[i]
		sum, one := 0.0, 0.0
		for _, p := range f.pieces[f.feeder:] {
			sum += p.volume
			// Steiner's formula, with the mean width replaced by that of the diameter alone.
			one = math.Max(one, p.volume+p.surface*half+math.Pi*half*half*p.long+4*math.Pi/3*half*half*half)
		}
		// The Brunn-Minkowski inequality holds for any union of pieces.
		least = math.Min(least, math.Max(one, math.Pow(math.Cbrt(sum)+ball*half, 3)))
	}
	hole := math.Max(0, r.inner-half)
	return least / (math.Pi * ((r.outer+half)*(r.outer+half) - hole*hole))
}

// leastFeeder is the least feeder that any mounting adds to a casting, and the
// least trunk that it hangs from. The casting keeps its gap to the trunk and the
// feeder bridges it, so it is as long as the gap, and as long as was asked; its
// root lies wholly on the trunk, at least the gap above the button.
func leastFeeder(r room, b *Body) (measure.CubicMM, measure.MM) {
	if b.Feeders.InMesh {
		return 0, 0
	}
	h := hung{body: b, count: max(1, b.Feeders.Count)}
	h.thickness(r)
	h.length = math.Max(r.inner-r.trunk, float64(b.Feeders.Length)) * (1 - proofSlack)
	return h.feederVolume(), measure.MM((r.bottom + h.diameter) * (1 - proofSlack))
}

// A Need tells how much of a flask a casting takes, for grouping before mounting.
type Need struct {
	Hangs bool // alone, in some pose that was tried

	// LeastShare is a proven relaxation: castings whose LeastShare sums to more than
	// Room cannot hang together, whatever their places. It is far below what trees
	// reach in practice.
	LeastShare, Room measure.MM

	// LeastFeeder is proven too: no mounting adds less feeder to the casting; and
	// LeastTrunk, the shortest trunk that it hangs from.
	LeastFeeder measure.CubicMM
	LeastTrunk  measure.MM

	// The rest is measured, not proven: of the pose that takes the least trunk with
	// the shortest feeder, Share is the distance of two levels by the number of its
	// like on a level, and Roots the length of trunk that roots of such castings
	// have, with one more such distance for the first level. Where Share/Roots sums to
	// no more than 1 a tree of the invented weeks hangs; above 1.2 to 1.3, by flask,
	// few or none were found to.
	Share, Roots measure.MM
	Feeder       measure.CubicMM // added in that pose
}

// Estimate measures one casting against a flask. Unusable input gives the zero Need.
func Estimate(f Flask, g Gaps, b Body, o Options) Need {
	if len(faults(f, g, o, []Body{b})) > 0 {
		return Need{}
	}
	b = b.Traced()
	if b.traced.fault != "" {
		return Need{}
	}
	r := roomOf(f, g)
	n := Need{LeastShare: measure.MM(leastShare(r, &b)), Room: measure.MM(r.top - r.bottom + r.between)}
	n.LeastFeeder, n.LeastTrunk = leastFeeder(r, &b)
	p := o.memory().of(&b, r, o)
	var best *hung
	for k := range shortStyles {
		if h := p.in(k); h != nil && (best == nil || h.share() < best.share()) {
			best = h
		}
	}
	if best == nil {
		return n
	}
	n.Hangs = true
	n.Share, n.Roots = measure.MM(best.share()), measure.MM(best.roots(r))
	if !b.Feeders.InMesh {
		n.Feeder = best.feederVolume()
	}
	return n
}
