package mount

import "math"

// coarse is how far corners that a measured outline leaves out may lie outside it,
// in mm; that much is added all round as padding. A body with more than mostCorners
// left is coarsened further, up to coarsest, because the search looks at them all.
const (
	coarse      = 0.04
	coarsest    = 0.15
	mostCorners = 160
)

func coarseHull(points []vec) hull {
	h := hullOf(points, coarse)
	for c := 2 * coarse; len(h.corners) > mostCorners && h.pad+c <= coarsest+coarse; c *= 1.5 {
		fewer := hullOf(h.corners, c)
		fewer.pad += h.pad
		h = fewer
	}
	return h
}

// An outline is the measured shape of a pattern with the ways to attach it.
type outline struct {
	frames []frame
	whole  hull
	mark   mark
	fault  string // why the mesh cannot be used as it is, or ""
}

// A frame is one way to attach a pattern: at is where the feeder (or the feeder in
// the mesh) begins, u runs from there into the pattern, v is the direction in which
// the pattern is thinnest, w completes them. Pieces are given along u, v, w.
type frame struct {
	at, u, v, w vec
	pieces      []piece
	corners     []vec // of the pattern's whole hull, along u, v, w
	feeder      int   // the first so many pieces are the feeder in the mesh
	feederEnd   float64
	feederWide  float64 // diameter of the feeder in the mesh
}

func (f *frame) local(p vec) vec {
	d := p.sub(f.at)
	return vec{d.dot(f.u), d.dot(f.v), d.dot(f.w)}
}

func trace(b Body) *outline {
	o := &outline{mark: b.mark()}
	if len(b.Points) == 0 {
		s := vec{float64(b.Size.Length), float64(b.Size.Width), float64(b.Size.Height)}.times(0.5)
		o.whole = box(s.times(-1), s)
	} else {
		points := make([]vec, len(b.Points))
		for i, p := range b.Points {
			points[i] = p
		}
		o.whole = coarseHull(points)
	}
	for _, toward := range directions(b, o.whole) {
		f := o.frameFor(b, toward)
		if b.Feeders.InMesh {
			o.fault = f.splitFeeder(b)
		} else {
			f.pieces = o.cut(&f, b, math.Inf(-1), math.Inf(1))
		}
		o.frames = append(o.frames, f)
	}
	return o
}

// directions are those from the pattern to the trunk that are to be tried: the one
// that is known, or both ways of each axis of the pattern (a box needs one way).
// A feeder in the mesh ends where the pattern is slenderest.
func directions(b Body, whole hull) []vec {
	if t := vec(b.Attach.Toward).unit(); t != (vec{}) {
		return []vec{t}
	}
	axes := []vec{{0, 0, -1}, {0, -1, 0}, {-1, 0, 0}}
	if len(b.Points) > 0 {
		axes = append(axes, vec{0, 0, 1}, vec{0, 1, 0}, vec{1, 0, 0})
	}
	if !b.Feeders.InMesh {
		return axes
	}
	best, thin := axes[0], math.Inf(1)
	for _, a := range axes {
		f := newFrame(endOf(whole.corners, a), a)
		if r := f.mesh(b).radiusAt(tipDepth); r > 0 && r < thin {
			best, thin = a, r
		}
	}
	return []vec{best}
}

// endShare is the share of a pattern's length that counts as its end.
const endShare = 0.02

// endOf is the middle of the end of a set of corners in a direction.
func endOf(corners []vec, toward vec) vec {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, c := range corners {
		lo, hi = math.Min(lo, c.dot(toward)), math.Max(hi, c.dot(toward))
	}
	e := toward.square()
	g := toward.cross(e)
	band := hi - endShare*(hi-lo)
	var eLo, eHi, gLo, gHi = math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, c := range corners {
		if c.dot(toward) >= band {
			eLo, eHi = math.Min(eLo, c.dot(e)), math.Max(eHi, c.dot(e))
			gLo, gHi = math.Min(gLo, c.dot(g)), math.Max(gHi, c.dot(g))
		}
	}
	return toward.times(hi).along((eLo+eHi)/2, e).along((gLo+gHi)/2, g)
}

// onMesh is the spot of the mesh nearest to a point: the middle of a ring's side is
// a hole, and a feeder must end on metal. Without faces the point stays as it is.
func onMesh(b Body, p vec) vec {
	if len(b.Faces) == 0 {
		return p
	}
	best, far := p, math.Inf(1)
	for _, q := range b.Points {
		if d := vec(q).sub(p); d.dot(d) < far {
			best, far = q, d.dot(d)
		}
	}
next:
	for _, t := range b.Faces {
		s := simplex{n: 3}
		for k := range 3 {
			s.at[k] = vec(b.Points[t[k]]).sub(p)
		}
		off := 0.0 // of the triangle's bounding box
		for k := range 3 {
			lo := math.Max(0, math.Max(min(s.at[0][k], s.at[1][k], s.at[2][k]), -max(s.at[0][k], s.at[1][k], s.at[2][k])))
			if off += lo * lo; off >= far {
				continue next
			}
		}
		if v := s.nearest(); v.dot(v) < far {
			best, far = p.add(v), v.dot(v)
		}
	}
	return best
}

func newFrame(at, toward vec) frame {
	u := toward.times(-1)
	v := u.square()
	return frame{at: at, u: u, v: v, w: u.cross(v)}
}

func (o *outline) frameFor(b Body, toward vec) frame {
	at := endOf(o.whole.corners, toward)
	switch {
	case b.Attach.At != nil:
		at = *b.Attach.At
	case !b.Feeders.InMesh:
		at = onMesh(b, at)
	}
	f := newFrame(at, toward)
	f.turnThin(o.whole.corners)
	f.corners = make([]vec, len(o.whole.corners))
	for i, c := range o.whole.corners {
		f.corners[i] = f.local(c)
	}
	return f
}

// turnThin turns v and w about u until the pattern is thinnest along v: by steps
// of 5°, then of 0.5°, the first of equals, so that an axis of the pattern wins.
func (f *frame) turnThin(corners []vec) {
	v, w := f.v, f.w
	at := func(deg float64) vec {
		s, c := math.Sincos(deg * math.Pi / 180)
		if deg == 90 {
			s, c = 1, 0
		}
		return v.times(c).along(s, w)
	}
	best, least := 0.0, math.Inf(1)
	try := func(deg float64) {
		d := at(deg)
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, c := range corners {
			x := c.dot(d)
			lo, hi = math.Min(lo, x), math.Max(hi, x)
		}
		if hi-lo < least-1e-9 {
			best, least = deg, hi-lo
		}
	}
	for deg := 0; deg < 180; deg += 5 {
		try(float64(deg))
	}
	for around, k := best, -9; k <= 9; k++ {
		try(around + float64(k)/2)
	}
	f.v = at(best)
	f.w = f.u.cross(f.v)
}

// slabs is the number of convex pieces that a pattern with faces may be cut into,
// and worthCutting the share of its hull that must be saved by it.
const (
	slabs        = 4
	worthCutting = 0.12
)

// cut gives the pieces of the pattern between two distances along u: the whole
// hull, or slabs across u where they leave out a good part of it.
func (o *outline) cut(f *frame, b Body, from, to float64) []piece {
	p := o.whole.piece()
	whole := newPiece(f.corners, p.pad)
	whole.volume, whole.surface, whole.long = p.volume, p.surface, p.long
	if len(b.Faces) == 0 {
		return []piece{whole}
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, c := range f.corners {
		lo, hi = math.Min(lo, c[0]), math.Max(hi, c[0])
	}
	// The hull leaves out coarse at most; the outermost slabs take in the rest.
	lo, hi = math.Max(lo, from), math.Min(hi, to)
	m := f.mesh(b)
	var parts []piece
	sum := 0.0
	for k := range slabs {
		a, z := lo+(hi-lo)*float64(k)/slabs, lo+(hi-lo)*float64(k+1)/slabs
		if k == 0 {
			a = from
		}
		if k == slabs-1 {
			z = to
		}
		if points := m.slice(a, z); len(points) > 0 {
			h := coarseHull(points)
			sum += h.volume()
			parts = append(parts, h.piece())
		}
	}
	if sum <= (1-worthCutting)*whole.volume {
		return parts
	}
	return []piece{whole}
}

// A localMesh is a mesh along u, v, w.
type localMesh struct {
	points []vec
	faces  [][3]int32
}

func (f *frame) mesh(b Body) localMesh {
	m := localMesh{points: make([]vec, len(b.Points)), faces: b.Faces}
	for i, p := range b.Points {
		m.points[i] = f.local(p)
	}
	return m
}

// slice gives the corners of the part of the mesh between two distances along u:
// those of each triangle clipped to the slab.
func (m localMesh) slice(from, to float64) []vec {
	var out []vec
	for _, p := range m.points {
		if p[0] >= from && p[0] <= to {
			out = append(out, p)
		}
	}
	for _, t := range m.faces {
		a, b, c := m.points[t[0]], m.points[t[1]], m.points[t[2]]
		for _, x := range [2]float64{from, to} {
			low, high := min(a[0], b[0], c[0]), max(a[0], b[0], c[0])
			if x <= low || x >= high {
				continue
			}
			for _, e := range [3][2]vec{{a, b}, {b, c}, {c, a}} {
				if p, q := e[0], e[1]; (p[0]-x)*(q[0]-x) < 0 {
					out = append(out, p.along((x-p[0])/(q[0]-p[0]), q.sub(p)))
				}
			}
		}
	}
	return out
}

// volume of a hull by the tetrahedra from its first corner, in mm³.
func (h hull) volume() float64 {
	sum := 0.0
	o := h.corners[0]
	for _, t := range h.faces {
		a, b, c := h.corners[t[0]].sub(o), h.corners[t[1]].sub(o), h.corners[t[2]].sub(o)
		sum += a.dot(b.cross(c)) / 6
	}
	return math.Abs(sum)
}

// surface of a hull in mm².
func (h hull) surface() float64 {
	sum := 0.0
	for _, t := range h.faces {
		a := h.corners[t[0]]
		sum += h.corners[t[1]].sub(a).cross(h.corners[t[2]].sub(a)).length() / 2
	}
	return sum
}

const (
	tipDepth     = 0.5 // mm from the end where a feeder in the mesh is measured
	tipFlare     = 1.5 // wider than this times its tip, it is no longer the feeder
	feederSlices = 400 // slices of tipDepth looked at
)

// radiusAt is the farthest that the mesh lies from the line along u, in the slice
// at a depth; 0 where there is no mesh.
func (m localMesh) radiusAt(depth float64) float64 {
	far := 0.0
	for _, t := range m.faces {
		for k := range 3 {
			p, q := m.points[t[k]], m.points[t[(k+1)%3]]
			if (p[0]-depth)*(q[0]-depth) <= 0 && p[0] != q[0] {
				c := p.along((depth-p[0])/(q[0]-p[0]), q.sub(p))
				far = math.Max(far, math.Hypot(c[1], c[2]))
			}
		}
	}
	return far
}

// splitFeeder finds where the feeder in the mesh ends and cuts there.
func (f *frame) splitFeeder(b Body) string {
	m := f.mesh(b)
	tip := m.radiusAt(tipDepth)
	end := float64(b.Feeders.Length)
	if end == 0 && tip > 0 {
		for k := 1; k <= feederSlices; k++ {
			if r := m.radiusAt(tipDepth * float64(k)); r == 0 || r > tipFlare*tip {
				break
			}
			end = tipDepth * float64(k)
		}
	}
	rest := m.slice(end, math.Inf(1))
	start := m.slice(math.Inf(-1), end)
	if end <= tipDepth || len(rest) == 0 || len(start) == 0 {
		return "has no feeder in its mesh that could be found"
	}
	f.feederEnd, f.feederWide, f.feeder = end, 2*tip, 1
	o := outline{whole: coarseHull(rest)} // already along u, v, w
	g := *f
	g.corners = o.whole.corners
	f.pieces = append([]piece{coarseHull(start).piece()}, o.cut(&g, b, end, math.Inf(1))...)
	return ""
}
