package mount

import "math"

// coarse is how much of its corners a measured outline may leave out, in mm; what
// it leaves out is added all round as padding.
const coarse = 0.04

// An outline is the measured shape of a pattern with the ways to attach it.
type outline struct {
	frames []frame
	whole  hull
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
	o := &outline{}
	if len(b.Points) == 0 {
		s := vec{float64(b.Size.Length), float64(b.Size.Width), float64(b.Size.Height)}.times(0.5)
		o.whole = box(s.times(-1), s)
	} else {
		points := make([]vec, len(b.Points))
		for i, p := range b.Points {
			points[i] = p
		}
		o.whole = hullOf(points, coarse)
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
		if r := f.radiusAt(b, tipDepth); r > 0 && r < thin {
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
	best, far := p, math.Inf(1)
	for _, t := range b.Faces {
		s := simplex{n: 3}
		for k := range 3 {
			s.at[k] = vec(b.Points[t[k]]).sub(p)
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
	at := onMesh(b, endOf(o.whole.corners, toward))
	if b.Attach.At != nil {
		at = *b.Attach.At
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

// cut gives the pieces of the pattern between two distances along u: its hull, or
// slabs across u where they leave out a good part of that hull.
func (o *outline) cut(f *frame, b Body, from, to float64) []piece {
	if len(b.Faces) == 0 {
		p := o.whole.piece()
		q := newPiece(f.corners, p.pad)
		q.volume, q.surface = p.volume, p.surface
		return []piece{q}
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, c := range f.corners {
		lo, hi = math.Min(lo, c[0]), math.Max(hi, c[0])
	}
	// The hull leaves out coarse at most; the outermost slabs take in the rest.
	lo, hi = math.Max(lo, from), math.Min(hi, to)
	whole := hullOf(f.slice(b, from, to), coarse)
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
		if points := f.slice(b, a, z); len(points) > 0 {
			h := hullOf(points, coarse)
			sum += h.volume()
			parts = append(parts, h.piece())
		}
	}
	if sum <= (1-worthCutting)*whole.volume() {
		return parts
	}
	return []piece{whole.piece()}
}

// slice gives the corners of the part of the mesh between two distances along u:
// those of each triangle clipped to the slab.
func (f *frame) slice(b Body, from, to float64) []vec {
	local := make([]vec, len(b.Points))
	var out []vec
	for i, p := range b.Points {
		local[i] = f.local(p)
		if local[i][0] >= from && local[i][0] <= to {
			out = append(out, local[i])
		}
	}
	for _, t := range b.Faces {
		for k := range 3 {
			p, q := local[t[k]], local[t[(k+1)%3]]
			for _, x := range [2]float64{from, to} {
				if (p[0]-x)*(q[0]-x) < 0 {
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
func (f *frame) radiusAt(b Body, depth float64) float64 {
	far := 0.0
	for _, t := range b.Faces {
		for k := range 3 {
			p, q := f.local(b.Points[t[k]]), f.local(b.Points[t[(k+1)%3]])
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
	tip := f.radiusAt(b, tipDepth)
	end := float64(b.Feeders.Length)
	if end == 0 && tip > 0 {
		for k := 1; k <= feederSlices; k++ {
			if r := f.radiusAt(b, tipDepth*float64(k)); r == 0 || r > tipFlare*tip {
				break
			}
			end = tipDepth * float64(k)
		}
	}
	rest := f.slice(b, end, math.Inf(1))
	start := f.slice(b, math.Inf(-1), end)
	if end <= tipDepth || len(rest) == 0 || len(start) == 0 {
		return "has no feeder in its mesh that could be found"
	}
	f.feederEnd, f.feederWide, f.feeder = end, 2*tip, 1
	o := outline{whole: hullOf(rest, coarse)}
	f.pieces = append([]piece{hullOf(start, coarse).piece()}, o.cut(f, b, end, math.Inf(1))...)
	return ""
}
