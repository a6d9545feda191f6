package pattern

import "math"

// pairSet is a list of sides of faces, by their end points.
type pairSet [][2]Point

func (s pairSet) around(axis, centre Point, out *[sectors]segment) {
	u, v := axis.across()
	for _, p := range s {
		a, b := p[0].sub(centre), p[1].sub(centre)
		keepNearest(out, segment{a.dot(u), a.dot(v), b.dot(u), b.dot(v), 0})
	}
}

// exactCylinder fits the cylinder to the sides of the faces. Only the sides
// that can be touched matter: the fit runs on a small set, the sides of the
// whole mesh that then come too near are added, and so on until none does.
func (c *chain) exactCylinder(y cylinder) cylinder {
	var set pairSet
	for range 8 {
		nearest := c.nearestSides(y)
		full := math.Inf(1)
		for _, s := range nearest {
			if s.away > 0 {
				full = min(full, s.away)
				set = append(set, s.ends)
			}
		}
		if len(set) == 0 {
			return y
		}
		if full = math.Sqrt(full); full >= y.radius*(1-1e-5) {
			y.radius = min(y.radius, full)
			return y
		}
		y.radius = full
		y.refine(set, 0.004, 0.0002)
	}
	// What the whole mesh leaves free is the answer, whether or not it is the
	// very best.
	full := math.Inf(1)
	for _, s := range c.nearestSides(y) {
		if s.away > 0 {
			full = min(full, s.away)
		}
	}
	y.radius = math.Sqrt(full)
	return y
}

type nearSide struct {
	away float64
	ends [2]Point
}

// nearestSides finds, for each sector around the axis, the nearest side of any
// face.
func (c *chain) nearestSides(y cylinder) [sectors]nearSide {
	u, v := y.axis.across()
	w := workers()
	parts := make([][sectors]nearSide, w)
	inParallelAlways(w, func(from, to int) {
		for k := from; k < to; k++ {
			out := &parts[k]
			for _, f := range c.faces[len(c.faces)*k/w : len(c.faces)*(k+1)/w] {
				var x, z [3]float64
				for i, p := range f {
					d := Point(c.points[p]).sub(y.centre)
					x[i], z[i] = d.dot(u), d.dot(v)
				}
				for i := range 3 {
					j := (i + 1) % 3
					if f[i] > f[j] {
						continue // the neighbour looks at this side
					}
					s := segment{x[i], z[i], x[j], z[j], 0}
					d := s.distance2(0, 0)
					n := sectorOf(s.u1+s.u2, s.v1+s.v2)
					if d > 0 && (out[n].away == 0 || d < out[n].away) {
						out[n] = nearSide{d, [2]Point{c.points[f[i]], c.points[f[j]]}}
					}
				}
			}
		}
	})
	best := parts[0]
	for _, p := range parts[1:] {
		for n := range best {
			if p[n].away > 0 && (best[n].away == 0 || p[n].away < best[n].away) {
				best[n] = p[n]
			}
		}
	}
	return best
}
