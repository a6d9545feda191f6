package mount

import "math"

// A simplex of one to four points of a difference of convex bodies.
type simplex struct {
	at [4]vec
	n  int
}

// nearest gives the point of the simplex nearest to the origin and drops the
// corners that it does not rest on (C. Ericson, Real-Time Collision Detection,
// chapter 5.1).
func (s *simplex) nearest() vec {
	switch s.n {
	case 1:
		return s.at[0]
	case 2:
		return s.onEdge()
	case 3:
		return s.onTriangle()
	}
	return s.inTetrahedron()
}

func (s *simplex) keep(at ...vec) { s.n = copy(s.at[:], at) }

func (s *simplex) onEdge() vec {
	a, b := s.at[0], s.at[1]
	ab := b.sub(a)
	t := -a.dot(ab)
	switch l := ab.dot(ab); {
	case t <= 0 || l == 0:
		s.keep(a)
		return a
	case t >= l:
		s.keep(b)
		return b
	default:
		return a.along(t/l, ab)
	}
}

func (s *simplex) onTriangle() vec {
	a, b, c := s.at[0], s.at[1], s.at[2]
	ab, ac := b.sub(a), c.sub(a)
	d1, d2 := -ab.dot(a), -ac.dot(a)
	if d1 <= 0 && d2 <= 0 {
		s.keep(a)
		return a
	}
	d3, d4 := -ab.dot(b), -ac.dot(b)
	if d3 >= 0 && d4 <= d3 {
		s.keep(b)
		return b
	}
	d5, d6 := -ab.dot(c), -ac.dot(c)
	if d6 >= 0 && d5 <= d6 {
		s.keep(c)
		return c
	}
	vc, vb, va := d1*d4-d3*d2, d5*d2-d1*d6, d3*d6-d5*d4
	if vc <= 0 && d1 >= 0 && d3 <= 0 {
		s.keep(a, b)
		return s.onEdge()
	}
	if vb <= 0 && d2 >= 0 && d6 <= 0 {
		s.keep(a, c)
		return s.onEdge()
	}
	if va <= 0 && d4-d3 >= 0 && d5-d6 >= 0 {
		s.keep(b, c)
		return s.onEdge()
	}
	if sum := va + vb + vc; sum > 0 {
		return a.along(vb/sum, ab).along(vc/sum, ac)
	}
	return s.shortest([3]int{0, 1, -1}, [3]int{0, 2, -1}, [3]int{1, 2, -1}) // a triangle without area
}

func (s *simplex) inTetrahedron() vec {
	a, b, c, d := s.at[0], s.at[1], s.at[2], s.at[3]
	beyond := func(p, q, r, o vec) bool { // is the origin not on o's side of pqr?
		n := q.sub(p).cross(r.sub(p))
		side, own := -p.dot(n), o.sub(p).dot(n)
		return side*own <= 0
	}
	if !beyond(a, b, c, d) && !beyond(a, c, d, b) && !beyond(a, d, b, c) && !beyond(b, d, c, a) {
		return vec{}
	}
	return s.shortest([3]int{0, 1, 2}, [3]int{0, 2, 3}, [3]int{0, 3, 1}, [3]int{1, 3, 2})
}

// shortest tries parts of the simplex and keeps the one nearest to the origin.
func (s *simplex) shortest(parts ...[3]int) vec {
	var best simplex
	var at vec
	near := math.Inf(1)
	for _, part := range parts {
		t := simplex{}
		for _, i := range part {
			if i >= 0 {
				t.at[t.n] = s.at[i]
				t.n++
			}
		}
		if v := t.nearest(); v.dot(v) < near {
			best, at, near = t, v, v.dot(v)
		}
	}
	*s = best
	return at
}

// turned is a piece turned about the trunk by an angle and shifted along it.
type turned struct {
	*piece
	cos, sin, up float64
}

func (t turned) place(p vec) vec {
	return vec{p[0]*t.cos + p[1]*t.sin, -p[0]*t.sin + p[1]*t.cos, p[2] + t.up}
}

// farthest is the corner farthest in a direction, in the common frame.
func (t turned) farthest(d vec) vec {
	x, y, z := d[0]*t.cos-d[1]*t.sin, d[0]*t.sin+d[1]*t.cos, d[2]
	best, most := 0, math.Inf(-1)
	for i := range t.corners {
		c := &t.corners[i]
		if v := c[0]*x + c[1]*y + c[2]*z; v > most {
			best, most = i, v
		}
	}
	return t.place(t.corners[best])
}

// roundOff is what an accepted distance may fall short by in floating point, mm.
const roundOff = 1e-9

// apart says whether two pieces are certainly need or more from each other. It
// looks for a plane with that much room on it (Gilbert, Johnson and Keerthi, A
// fast procedure for computing the distance between complex objects, IEEE J.
// Robotics 4 (1988)) and says yes only when it has found one, so that an
// iteration that does not settle counts as too near.
func apart(a, b turned, need float64) bool {
	need += a.pad + b.pad - roundOff
	v := a.place(a.middle).sub(b.place(b.middle))
	l := v.length()
	if l >= need+a.radius+b.radius {
		return true
	}
	if l == 0 {
		v = vec{1, 0, 0}
	}
	var s simplex
	for range 48 {
		p := a.farthest(v.times(-1)).sub(b.farthest(v))
		l := v.length()
		low := v.dot(p)
		if low >= need*l {
			return true
		}
		if s.n > 0 && (l < need || l*l-low <= 1e-13*l*l) {
			return false
		}
		s.at[s.n] = p
		s.n++
		v = s.nearest()
		if s.n == 4 || v.dot(v) == 0 {
			return false // the origin is inside: the pieces meet
		}
	}
	return false
}
