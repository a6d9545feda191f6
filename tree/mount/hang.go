package mount

import (
	"math"

	"castweek/metal/measure"
)

// A hung casting is a pattern in one pose: its pieces with feeder, given along
// (outward from the trunk, round the trunk, up the trunk), the feeder's root at
// the trunk's surface at height 0.
type hung struct {
	body       *Body
	frame      *frame
	tilt, roll float64 // degrees
	length     float64 // of an added feeder, mm
	diameter   float64
	count      int
	spread     float64 // of several feeders' roots up and down the trunk from the middle, mm

	pieces []piece // of the casting itself
	feeder *piece  // added, or cut from the mesh

	low, high, reach float64 // of pieces and feeder; reach is from the axis
	middle           vec
	radius           float64
	chosen           bool // attach was chosen here
	thin             bool // the feeder is thinner than Chvorinov asks

	number int     // in the memory
	beside []*pair // by the other's number

	girth int     // hour marks from one such casting to the next on a level
	pitch float64 // from one such casting to the next above it, mm
}

// feederStep is the step of a feeder's length, feederSpread the distance of
// neighbouring feeders of one casting in diameters, widestRoots the share of the
// trunk's radius that their roots may lie aside, longestFeeder the longest that is
// tried.
const (
	widestRoots   = 0.7
	feederStep    = 0.5
	feederSpread  = 1.5
	longestFeeder = 40.0
)

// axes of a pose: u from the trunk into the pattern, then the two others.
func axes(tilt float64) (u, t, n vec) {
	s, c := math.Sincos(tilt * math.Pi / 180)
	if tilt == 90 {
		s, c = 1, 0
	}
	return vec{s, 0, c}, vec{0, 1, 0}, vec{-c, 0, s}
}

// A pose is how a pattern is held: tilt to the trunk, turn about the feeder
// (degrees), by how much the feeder is longer than it need be, and the longest that
// it may be.
type pose struct{ tilt, roll, extra, longest float64 }

// hang puts a body in a pose, its feeder as short as the trunk allows, plus the
// extra. It gives nil when the body fits the room in this pose at no height.
func hang(b *Body, f *frame, at pose, r room) *hung {
	tilt, roll := at.tilt, at.roll
	h := &hung{body: b, frame: f, tilt: tilt, roll: roll, count: max(1, b.Feeders.Count), chosen: b.Attach.Toward == [3]float64{}}
	u, t, n := axes(tilt)
	rs, rc := math.Sincos(roll * math.Pi / 180)
	if roll == 90 {
		rs, rc = 1, 0
	}
	turn := func(p vec) vec {
		return u.times(p[0]).along(p[1]*rc-p[2]*rs, t).along(p[1]*rs+p[2]*rc, n).add(vec{r.trunk, 0, 0})
	}
	var rest []piece
	for k, p := range f.pieces {
		q := p
		q.corners = make([]vec, len(p.corners))
		for i, c := range p.corners {
			q.corners[i] = turn(c)
		}
		q.middle = turn(p.middle)
		h.pieces = append(h.pieces, q)
		if k >= f.feeder {
			rest = append(rest, q)
		}
	}
	if b.Feeders.InMesh {
		h.diameter = f.feederWide
		h.feeder, h.pieces = &h.pieces[0], rest
		h.thin = h.diameter < float64(FeederDiameter(b.Thickest, b.SectionWidth))-roundOff
		if !clearOfTrunk(rest, u, 0, r.inner) {
			return nil
		}
	} else {
		h.thickness(r)
		if !h.lengthen(rest, u, at, r) {
			return nil
		}
		h.shift(u.times(h.length))
		h.addFeeder(u, t, n, r)
	}
	if !h.measure(r) || h.rootLow(r) > h.rootHigh(r) {
		return nil
	}
	h.nest(r)
	return h
}

// thickness finds the feeder's diameter. More than the trunk's is of no use: the
// trunk would freeze first.
func (h *hung) thickness(r room) {
	need := float64(FeederDiameter(h.body.Thickest, h.body.SectionWidth))
	h.diameter = float64(h.body.Feeders.Diameter)
	if h.diameter == 0 {
		h.diameter = math.Ceil(need*10-roundOff) / 10
	}
	h.diameter = math.Min(h.diameter, 2*r.trunk)
	h.thin = h.diameter < need-roundOff
}

// lengthen finds the shortest feeder, in steps, that keeps the body off the trunk.
func (h *hung) lengthen(rest []piece, u vec, at pose, r room) bool {
	start := math.Ceil(float64(h.body.Feeders.Length)/feederStep-roundOff) * feederStep
	if start == 0 {
		start = feederStep
	}
	steps := int((at.longest - at.extra - start) / feederStep)
	if at.longest < at.extra+start || !clearOfTrunk(rest, u, start+float64(steps)*feederStep, r.inner) {
		return false
	}
	lo, hi := -1, steps
	for hi-lo > 1 {
		mid := (lo + hi) / 2
		if clearOfTrunk(rest, u, start+float64(mid)*feederStep, r.inner) {
			hi = mid
		} else {
			lo = mid
		}
	}
	h.length = start + float64(hi)*feederStep + at.extra
	return true
}

// clearOfTrunk says whether pieces shifted by length along u keep outside the
// radius inner. The trunk counts as endless, so the height does not matter.
func clearOfTrunk(pieces []piece, u vec, length, inner float64) bool {
	axis := turned{piece: &piece{corners: []vec{{}}}, cos: 1}
	for _, p := range pieces {
		flat := p
		flat.corners = make([]vec, len(p.corners))
		for i, c := range p.corners {
			flat.corners[i] = vec{c[0] + length*u[0], c[1], 0}
		}
		flat.middle = vec{p.middle[0] + length*u[0], p.middle[1], 0}
		if flat.middle[0] <= 0 || !apart(turned{piece: &flat, cos: 1}, axis, inner) {
			return false
		}
	}
	return true
}

func (h *hung) shift(d vec) {
	for k := range h.pieces {
		p := &h.pieces[k]
		for i := range p.corners {
			p.corners[i] = p.corners[i].add(d)
		}
		p.middle = p.middle.add(d)
	}
}

// addFeeder adds the feeders as one piece: side by side, along the pattern's wider
// side.
func (h *hung) addFeeder(u, t, n vec, r room) {
	half := float64(h.count-1) / 2 * feederSpread * h.diameter
	from := vec{r.trunk, 0, 0}
	to := from.along(h.length, u)
	corners := []vec{from, to}
	switch {
	case h.count == 1:
	case h.roll == 0: // one above the other
		h.spread = half / math.Max(u[0], 0.3)
		up := vec{0, 0, h.spread}
		corners = []vec{from.sub(up), from.add(up), to.along(-half, n), to.along(half, n)}
	default: // side by side round the trunk, which leaves less room for the roots
		aside := math.Min(half, widestRoots*r.trunk)
		out := math.Sqrt(r.trunk*r.trunk - aside*aside)
		corners = []vec{from, {out, -aside, 0}, {out, aside, 0}, to.along(-half, t), to.along(half, t)}
	}
	p := newPiece(corners, h.diameter/2)
	h.feeder = &p
}

// measure takes the outer limits and says whether the pose fits the room.
func (h *hung) measure(r room) bool {
	h.low, h.high = math.Inf(1), math.Inf(-1)
	var all []vec
	pad := 0.0
	limits := func(p *piece) {
		pad = math.Max(pad, p.pad)
		for _, c := range p.corners {
			h.low, h.high = math.Min(h.low, c[2]-p.pad), math.Max(h.high, c[2]+p.pad)
			h.reach = math.Max(h.reach, math.Hypot(c[0], c[1])+p.pad)
			all = append(all, c)
		}
	}
	for k := range h.pieces {
		limits(&h.pieces[k])
	}
	limits(h.feeder)
	whole := newPiece(all, pad)
	h.middle, h.radius = whole.middle, whole.radius+pad
	return h.reach <= r.outer+roundOff && h.high-h.low <= r.top-r.bottom+roundOff
}

// rootLow and rootHigh are the heights of the root between which the casting
// keeps its distance from button and fill level.
func (h *hung) rootLow(r room) float64 {
	return math.Max(r.bottom-h.low, h.rootHalf())
}

func (h *hung) rootHigh(r room) float64 {
	return math.Min(r.top-h.high, r.roots-h.rootHalf())
}

// rootHalf is how far the roots reach up and down the trunk from the middle.
func (h *hung) rootHalf() float64 { return h.spread + h.diameter/2 }

// transform maps the pattern's frame to the frame of the tree.
func (h *hung) transform(hour, height float64, r room) [3][4]float64 {
	u, t, n := axes(h.tilt)
	s, c := math.Sincos(hour * math.Pi / 6)
	rs, rc := math.Sincos(h.roll * math.Pi / 180)
	if h.roll == 90 {
		rs, rc = 1, 0
	}
	world := func(p vec) vec { // outward, round, up → x, y, z
		return vec{p[0]*s - p[1]*c, p[0]*c + p[1]*s, p[2]}
	}
	at := func(p vec) vec { // pattern → tree, without the shift
		a := vec{p.dot(h.frame.u), p.dot(h.frame.v), p.dot(h.frame.w)}
		return world(u.times(a[0]).along(a[1]*rc-a[2]*rs, t).along(a[1]*rs+a[2]*rc, n))
	}
	root := world(vec{r.trunk, 0, 0}.along(h.length, u)).add(vec{0, 0, height})
	shift := root.sub(at(h.frame.at))
	x, y, z := at(vec{1, 0, 0}), at(vec{0, 1, 0}), at(vec{0, 0, 1})
	var m [3][4]float64
	for k := range 3 {
		m[k] = [4]float64{x[k], y[k], z[k], shift[k]}
	}
	return m
}

// feederVolume is that of all feeders added to the casting, as cylinders from the
// trunk's surface to the pattern.
func (h *hung) feederVolume() measure.CubicMM {
	return measure.CubicMM(float64(h.count) * math.Pi / 4 * h.diameter * h.diameter * h.length)
}
