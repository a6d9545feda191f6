package pattern

import (
	"math"
	"slices"
)

// Cuts through the thickest place: directions looked at first, rays in the
// plane of each, and how far the best one is turned to make it better, in
// radians, halved down to the last.
const (
	cutDirections = 48
	cutRays       = 720
	firstTurn     = 0.2
	lastTurn      = 0.01
)

// sectionWidth is the width of the section that lies round the largest ball:
// the area of the smallest plane cut through its middle over its diameter. A
// rectangle of thickness t and width w gives w, a round bar its diameter. What
// a cut shows is what can be seen in its plane from the middle of the ball, so
// that it ends where a shank bends away. At least the diameter is returned: no
// cut through the ball is smaller than its disc.
func (c *chain) sectionWidth(skin []Point, middle Point, diameter float64) float64 {
	if diameter <= 0 {
		return 0
	}
	if len(c.faces) > fineFaces {
		c = c.clustered(diameter / cellsAcross)
	}
	var best Point
	var least float64
	for range mostMoves {
		largest := cut{}
		least = math.Inf(1)
		try := func(n Point) {
			a := c.cutThrough(middle, n)
			if a.area < least {
				best, least = n, a.area
			}
			if a.area > largest.area {
				largest = a
			}
		}
		// A half sphere of directions, spread by the golden angle.
		golden := math.Pi * (3 - math.Sqrt(5))
		for k := range cutDirections {
			z := (float64(k) + 0.5) / cutDirections
			sin, cos := math.Sincos(golden * float64(k))
			r := math.Sqrt(1 - z*z)
			try(Point{r * cos, r * sin, z})
		}
		for turn := firstTurn; turn > lastTurn; turn /= 2 {
			for _, n := range [2]Point{best, largest.normal} {
				u, v := n.across()
				for _, d := range [4]Point{u, v, u.scale(-1), v.scale(-1)} {
					try(n.add(d.scale(turn)).unit())
				}
			}
		}
		// The ball may lie near the rim of a plate or the end of a bar, where
		// cuts are small: where one as large fits at the middle, that counts.
		at, r := settled(skin, largest.middle, diameter/4)
		if !largest.seen || r < sameBall*diameter/2 || at.distance(middle) < diameter/4 {
			break
		}
		middle = at
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return math.Max(diameter, least/diameter)
}

// settled moves a ball by steps until it is as large as it gets near a place,
// and gives its middle and radius.
func settled(skin []Point, at Point, step float64) (Point, float64) {
	r := nearestOf(skin, at)
	for least := step / 32; step > least; step /= 2 {
		for k := range 6 {
			p := at
			p[k/2] += step * float64(1-2*(k%2))
			if wider := nearestOf(skin, p); wider > r {
				at, r = p, wider
			}
		}
	}
	return at, r
}

// How often the ball is moved to the middle of its section, and what share of
// its radius must fit there.
const (
	mostMoves = 3
	sameBall  = 0.97
)

// A mesh of more than fineFaces is cut after its points were drawn together in
// cells, so many to the diameter of the ball.
const (
	fineFaces   = 20_000
	cellsAcross = 12
)

// clustered draws all points of a cell together to the first of them. A closed
// surface stays one that closes, so that what is inside can still be counted.
func (c *chain) clustered(cell float64) *chain {
	out := &chain{}
	first := map[[3]int32]int32{}
	to := make([]int32, len(c.points))
	for i, p := range c.points {
		k := [3]int32{int32(math.Floor(p[0] / cell)), int32(math.Floor(p[1] / cell)), int32(math.Floor(p[2] / cell))}
		n, ok := first[k]
		if !ok {
			n = int32(len(out.points))
			first[k] = n
			out.points = append(out.points, p)
		}
		to[i] = n
	}
	for _, f := range c.faces {
		if a, b, d := to[f[0]], to[f[1]], to[f[2]]; a != b && b != d && d != a {
			out.faces = append(out.faces, [3]int32{a, b, d})
		}
	}
	return out
}

// A cut is the metal that can be seen from a point in a plane through it.
type cut struct {
	normal Point
	area   float64
	middle Point
	seen   bool // the middle can be seen from the point
}

// cutThrough looks along rays in the plane, each up to where it has left every
// solid.
func (c *chain) cutThrough(from, normal Point) cut {
	type crossing struct {
		at   float64
		sign int // +1 where the ray leaves a solid
	}
	const step = 2 * math.Pi / cutRays
	u, v := normal.across()
	var rays [cutRays][]crossing
	height := make([]float64, len(c.points))
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
		for k := int(math.Ceil(begin / step)); float64(k)*step < end; k++ {
			sin, cos := math.Sincos(float64(k) * step)
			den := (b[0]-a[0])*sin - (b[1]-a[1])*cos
			if den == 0 {
				continue
			}
			// a + s(b-a) on the ray: its distance from the point.
			s := (a[1]*cos - a[0]*sin) / den
			x, y := a[0]+s*(b[0]-a[0]), a[1]+s*(b[1]-a[1])
			r := &rays[(k%cutRays+cutRays)%cutRays]
			*r = append(*r, crossing{x*cos + y*sin, sign})
		}
	}
	out := cut{normal: normal}
	var exit [cutRays]float64
	var x, y float64
	for k, r := range rays {
		slices.SortFunc(r, func(a, b crossing) int {
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
		sin, cos := math.Sincos(float64(k) * step)
		a := exit[k] * exit[k] * step / 2
		out.area += a
		x, y = x+a*exit[k]*cos*2/3, y+a*exit[k]*sin*2/3
	}
	if out.area > 0 {
		x, y = x/out.area, y/out.area
		k := int(math.Round(math.Atan2(y, x)/step)) + cutRays
		out.middle, out.seen = from.add(u.scale(x)).add(v.scale(y)), math.Hypot(x, y) < exit[k%cutRays]
	}
	return out
}
