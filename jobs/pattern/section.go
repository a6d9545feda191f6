package pattern

import "math"

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
	k := newCutter(c)
	var best Point
	var least float64
	for range mostMoves {
		largest := cut{}
		least = math.Inf(1)
		try := func(n Point) {
			a := k.through(middle, n)
			if a.area < least {
				best, least = n, a.area
			}
			if a.area > largest.area {
				largest = a
			}
		}
		// A half sphere of directions, spread by the golden angle.
		golden := math.Pi * (3 - math.Sqrt(5))
		for i := range cutDirections {
			z := (float64(i) + 0.5) / cutDirections
			sin, cos := math.Sincos(golden * float64(i))
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
