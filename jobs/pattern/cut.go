package pattern

import (
	"math"
	"slices"
)

// A cut is the metal that can be seen from a point in a plane through it.
type cut struct {
	normal Point
	area   float64
	middle Point
	seen   bool // the middle can be seen from the point
}

// A cutter is the working space for the cuts through one mesh.
type cutter struct {
	*chain
	height []float64 // of the points over the plane
	rays   [cutRays][]rayEnd
	ways   [cutRays][2]float64 // sine and cosine
}

type rayEnd struct {
	at   float64
	sign int // +1 where the ray leaves a solid
}

const rayStep = 2 * math.Pi / cutRays

func newCutter(c *chain) *cutter {
	k := &cutter{chain: c, height: make([]float64, len(c.points))}
	for i := range k.ways {
		sin, cos := math.Sincos(float64(i) * rayStep)
		k.ways[i] = [2]float64{sin, cos}
	}
	return k
}

// through looks along rays in the plane, each up to where it has left every
// solid.
func (c *cutter) through(from, normal Point) cut {
	u, v := normal.across()
	height, rays := c.height, &c.rays
	for k := range rays {
		rays[k] = rays[k][:0]
	}
	for i, p := range c.points {
		height[i] = Point(p).sub(from).dot(normal)
	}
	for _, f := range c.faces {
		h := [3]float64{height[f[0]], height[f[1]], height[f[2]]}
		if (h[0] >= 0) == (h[1] >= 0) && (h[1] >= 0) == (h[2] >= 0) {
			continue
		}
		// The cut of the face: where it goes down through the plane, and up.
		var down, up [2]float64
		for k := range 3 {
			i, j := k, (k+1)%3
			if (h[i] >= 0) == (h[j] >= 0) {
				continue
			}
			p, q := Point(c.points[f[i]]).sub(from), Point(c.points[f[j]]).sub(from)
			at := p.add(q.sub(p).scale(h[i] / (h[i] - h[j])))
			if flat := [2]float64{at.dot(u), at.dot(v)}; h[i] >= 0 {
				down = flat
			} else {
				up = flat
			}
		}
		// The faces are turned outwards, so that the solid lies on one side of
		// the line from up to down: a ray leaves it where the line runs with the
		// clock about the point.
		a, b, sign := up, down, -1
		if up[0]*down[1] < up[1]*down[0] {
			a, b, sign = down, up, 1
		}
		begin, end := math.Atan2(a[1], a[0]), math.Atan2(b[1], b[0])
		if end < begin {
			end += 2 * math.Pi
		}
		for k := int(math.Ceil(begin / rayStep)); float64(k)*rayStep < end; k++ {
			n := (k%cutRays + cutRays) % cutRays
			sin, cos := c.ways[n][0], c.ways[n][1]
			den := (b[0]-a[0])*sin - (b[1]-a[1])*cos
			if den == 0 {
				continue
			}
			// a + s(b-a) on the ray: its distance from the point.
			s := (a[1]*cos - a[0]*sin) / den
			x, y := a[0]+s*(b[0]-a[0]), a[1]+s*(b[1]-a[1])
			rays[n] = append(rays[n], rayEnd{x*cos + y*sin, sign})
		}
	}
	out := cut{normal: normal}
	var exit [cutRays]float64
	var x, y float64
	for k, r := range rays {
		slices.SortFunc(r, func(a, b rayEnd) int {
			if a.at < b.at {
				return -1
			} else if a.at > b.at {
				return 1
			}
			return a.sign - b.sign // into the next solid before out of the last
		})
		inside := 0
		for _, x := range r {
			inside += x.sign
		}
		for _, x := range r {
			if inside -= x.sign; inside <= 0 {
				exit[k] = x.at
				break
			}
		}
		// Sectors: their areas, and the middles of those at two thirds out.
		sin, cos := c.ways[k][0], c.ways[k][1]
		a := exit[k] * exit[k] * rayStep / 2
		out.area += a
		x, y = x+a*exit[k]*cos*2/3, y+a*exit[k]*sin*2/3
	}
	if out.area > 0 {
		x, y = x/out.area, y/out.area
		k := int(math.Round(math.Atan2(y, x)/rayStep)) + cutRays
		out.middle, out.seen = from.add(u.scale(x)).add(v.scale(y)), math.Hypot(x, y) < exit[k%cutRays]
	}
	return out
}
