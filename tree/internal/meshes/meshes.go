// Package meshes lets tests measure how far meshes are from each other, triangle
// against triangle. It shares nothing with mounting, whose work it judges.
package meshes

import "math"

// A Point in millimetres.
type Point = [3]float64

// A Triangle of a mesh. A line is a triangle with two equal corners, a point
// one with three.
type Triangle [3]Point

// Apart looks for two triangles nearer than gap, and gives their distance. It
// tells true when there are none.
func Apart(a, b []Triangle, gap float64) (float64, bool) {
	a, b = within(a, b, gap), within(b, a, gap)
	near := cells{math.Max(gap, 1), map[[3]int][]int{}, b, make([]int, len(b)), 0}
	for i := range b {
		near.each(b[i], 0, func(k [3]int) bool {
			near.in[k] = append(near.in[k], i)
			return true
		})
	}
	for _, s := range a {
		if d, ok := near.apart(s, gap); !ok {
			return d, false
		}
	}
	return 0, true
}

// within are the triangles that lie no farther than gap from the limits of
// others.
func within(a, of []Triangle, gap float64) []Triangle {
	lo, hi := Limits(of)
	var out []Triangle
next:
	for i := range a {
		for k := range 3 {
			if min(a[i][0][k], a[i][1][k], a[i][2][k]) > hi[k]+gap || max(a[i][0][k], a[i][1][k], a[i][2][k]) < lo[k]-gap {
				continue next
			}
		}
		out = append(out, a[i])
	}
	return out
}

// Limits are the outer limits of triangles.
func Limits(a []Triangle) (lo, hi Point) {
	lo, hi = Point{math.Inf(1), math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1), math.Inf(-1)}
	for _, t := range a {
		for _, c := range t {
			for k := range 3 {
				lo[k], hi[k] = math.Min(lo[k], c[k]), math.Max(hi[k], c[k])
			}
		}
	}
	return lo, hi
}

// cells sort triangles by the cubes that they reach.
type cells struct {
	side float64
	in   map[[3]int][]int
	of   []Triangle
	seen []int // the last triangle that each was compared with
	nth  int
}

// each visits the cubes that a triangle reaches with some room round it.
func (c *cells) each(t Triangle, room float64, do func([3]int) bool) bool {
	var from, to [3]int
	for k := range 3 {
		from[k] = int(math.Floor((min(t[0][k], t[1][k], t[2][k]) - room) / c.side))
		to[k] = int(math.Floor((max(t[0][k], t[1][k], t[2][k]) + room) / c.side))
	}
	for x := from[0]; x <= to[0]; x++ {
		for y := from[1]; y <= to[1]; y++ {
			for z := from[2]; z <= to[2]; z++ {
				if !do([3]int{x, y, z}) {
					return false
				}
			}
		}
	}
	return true
}

// apart compares a triangle with those whose cubes it comes near, each once.
func (c *cells) apart(s Triangle, gap float64) (near float64, ok bool) {
	c.nth++
	ok = c.each(s, gap, func(k [3]int) bool {
		for _, i := range c.in[k] {
			if c.seen[i] == c.nth {
				continue
			}
			c.seen[i] = c.nth
			if off(s, c.of[i], gap) {
				continue
			}
			if near = Distance(s, c.of[i]); near < gap {
				return false
			}
		}
		return true
	})
	return near, ok
}

// off tells whether the boxes round two triangles are farther than gap apart.
func off(a, b Triangle, gap float64) bool {
	sum := 0.0
	for k := range 3 {
		d := max(min(a[0][k], a[1][k], a[2][k])-max(b[0][k], b[1][k], b[2][k]), min(b[0][k], b[1][k], b[2][k])-max(a[0][k], a[1][k], a[2][k]), 0)
		sum += d * d
	}
	return sum > gap*gap
}

// Distance of two triangles: of two edges, or of a corner above the other
// triangle, or none where an edge goes through.
func Distance(a, b Triangle) float64 {
	best := math.Inf(1)
	for i := range 3 {
		for j := range 3 {
			best = math.Min(best, Segments(a[i], a[(i+1)%3], b[j], b[(j+1)%3]))
		}
		best = math.Min(best, math.Min(above(a[i], b), above(b[i], a)))
		if through(a[i], a[(i+1)%3], b) || through(b[i], b[(i+1)%3], a) {
			return 0
		}
	}
	return best
}

// Segments is the distance of the segments pq and rs: of their ends, or of the
// lines where the nearest points of these lie on both.
func Segments(p, q, r, s Point) float64 {
	best := math.Min(math.Min(ToSegment(p, r, s), ToSegment(q, r, s)), math.Min(ToSegment(r, p, q), ToSegment(s, p, q)))
	d1, d2, w := sub(q, p), sub(s, r), sub(p, r)
	a, b, c, d, e := dot(d1, d1), dot(d1, d2), dot(d2, d2), dot(d1, w), dot(d2, w)
	if den := a*c - b*b; den > 1e-12*a*c {
		x, y := (b*e-c*d)/den, (a*e-b*d)/den
		if x >= 0 && x <= 1 && y >= 0 && y <= 1 {
			best = math.Min(best, length(sub(along(p, x, d1), along(r, y, d2))))
		}
	}
	return best
}

// ToSegment is the distance of a point from the segment ab.
func ToSegment(p, a, b Point) float64 {
	d := sub(b, a)
	t := 0.0
	if l := dot(d, d); l > 0 {
		t = math.Max(0, math.Min(1, dot(sub(p, a), d)/l))
	}
	return length(sub(p, along(a, t, d)))
}

// above is the distance of a point from a triangle that its foot lies in, or
// infinite.
func above(p Point, t Triangle) float64 {
	n := cross(sub(t[1], t[0]), sub(t[2], t[0]))
	l := length(n)
	if l < 1e-12 {
		return math.Inf(1)
	}
	for k := range 3 {
		if dot(cross(sub(t[(k+1)%3], t[k]), sub(p, t[k])), n) < 0 {
			return math.Inf(1)
		}
	}
	return math.Abs(dot(sub(p, t[0]), n)) / l
}

// through tells whether a segment goes through a triangle.
func through(p, q Point, t Triangle) bool {
	n := cross(sub(t[1], t[0]), sub(t[2], t[0]))
	a, b := dot(sub(p, t[0]), n), dot(sub(q, t[0]), n)
	if a*b > 0 || a == b {
		return false
	}
	x := along(p, a/(a-b), sub(q, p))
	for k := range 3 {
		if dot(cross(sub(t[(k+1)%3], t[k]), sub(x, t[k])), n) < 0 {
			return false
		}
	}
	return true
}

func sub(a, b Point) Point   { return Point{a[0] - b[0], a[1] - b[1], a[2] - b[2]} }
func dot(a, b Point) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
func length(a Point) float64 { return math.Sqrt(dot(a, a)) }
func along(a Point, k float64, d Point) Point {
	return Point{a[0] + k*d[0], a[1] + k*d[1], a[2] + k*d[2]}
}
func cross(a, b Point) Point {
	return Point{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}
