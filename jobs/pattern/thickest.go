package pattern

import (
	"cmp"
	"math"
	"slices"
)

// ballGrid is how many cells span the longest side in the first, coarse look.
const ballGrid = 64

// mostAsked is about how many cells are asked where the coarse look sees no
// difference.
const mostAsked = 60

// mostSkin is how many points of the skin are looked at.
const mostSkin = 12_000

// thickest is the diameter of the largest ball that fits into the metal, the
// circle of Heuvers' method brought into space: where it lies, the casting
// freezes last. A coarse distance map finds the best cells, which are then
// moved to where the ball is largest.
func thickest(u *united, box Box) (float64, Point) {
	if len(u.chords) == 0 || len(u.skin) == 0 {
		return 0, Point{}
	}
	longest := box.longest()
	size := longest / ballGrid
	m := newDistanceMap(box, size)
	for _, p := range u.skin {
		m.value[m.index(p.point())] = 0
	}
	m.transform()
	type ball struct {
		at     Point
		radius float64
	}
	seen := make([]bool, len(m.value))
	var balls []ball
	for _, c := range u.chords {
		at := c.middle.point()
		if i := m.index(at); !seen[i] {
			seen[i] = true
			balls = append(balls, ball{at, min(float64(c.length)/2, size*math.Sqrt(m.value[i]))})
		}
	}
	slices.SortStableFunc(balls, func(a, b ball) int { return cmp.Compare(b.radius, a.radius) })
	// In a sheet thinner than two cells the map says nothing: of all cells that
	// may be the best some, from everywhere, are asked for their ball.
	alike := 0
	for alike < len(balls) && balls[alike].radius > balls[0].radius-size {
		alike++
	}
	some := slices.Clone(balls[:min(3, len(balls))])
	for i := 3; i < alike; i += max(1, alike/mostAsked) {
		some = append(some, balls[i])
	}
	skin := thinned(u.skin, mostSkin)
	for i := range some {
		some[i].radius = nearestOf(skin, some[i].at)
	}
	slices.SortStableFunc(some, func(a, b ball) int { return cmp.Compare(b.radius, a.radius) })
	var out ball
	for _, b := range some[:min(3, len(some))] {
		start := b.at
		// Only the skin that the ball can come to counts. Of that every so many-th
		// point will do: d aside of the nearest one errs d²/2r.
		var near []spot
		for _, p := range u.skin {
			if p.point().distance(start) < b.radius+4*size {
				near = append(near, p)
			}
		}
		few := thinned(near, mostSkin)
		b.radius = nearestOf(few, b.at)
		// A step shorter than the radius can not leave the metal, nor a short way.
		for step := min(size, b.radius/2); step > longest/1500; {
			moved := false
			for k := range 6 {
				p := b.at
				p[k/2] += step * float64(1-2*(k%2))
				if r := nearestOf(few, p); r > b.radius && p.distance(start) < 2*size {
					b, moved = ball{p, r}, true
				}
			}
			if !moved {
				step /= 2
			}
			step = min(step, b.radius/2)
		}
		if b.radius > out.radius {
			out = b
		}
	}
	// The few points may have let the ball grow through the skin.
	for _, p := range u.skin {
		out.radius = min(out.radius, p.point().distance(out.at))
	}
	return 2 * out.radius, out.at
}

// A distanceMap holds the squared distance, in cells, to the nearest marked
// cell.
type distanceMap struct {
	low   Point
	size  float64
	n     [3]int
	value []float64
}

func newDistanceMap(b Box, size float64) *distanceMap {
	m := &distanceMap{low: b.Min, size: size}
	for k := range 3 {
		m.n[k] = int((b.Max[k]-b.Min[k])/size) + 1
	}
	m.value = make([]float64, m.n[0]*m.n[1]*m.n[2])
	for i := range m.value {
		m.value[i] = 1e12
	}
	return m
}

func (m *distanceMap) index(p Point) int {
	var c [3]int
	for k := range 3 {
		c[k] = min(max(int((p[k]-m.low[k])/m.size), 0), m.n[k]-1)
	}
	return (c[2]*m.n[1]+c[1])*m.n[0] + c[0]
}

// transform takes the lower envelope of parabolas along each axis in turn
// (P. Felzenszwalb, D. Huttenlocher, Distance Transforms of Sampled Functions,
// 2012).
func (m *distanceMap) transform() {
	stride := 1
	for k := range 3 {
		n, at := m.n[k], stride
		inParallel(len(m.value)/n, func(from, to int) {
			line := newEnvelope(n)
			for i := from; i < to; i++ {
				line.run(m.value[i/at*at*n+i%at:], at)
			}
		})
		stride *= n
	}
}

// An envelope is the working space for one line.
type envelope struct {
	f, g, z []float64 // values, those of the parabolas at 0, where one takes over
	half    []float64 // 1/2n
	v       []int
}

func newEnvelope(n int) *envelope {
	e := &envelope{make([]float64, n), make([]float64, n), make([]float64, n+1), make([]float64, n), make([]int, n)}
	for i := range e.half {
		e.half[i] = 1 / float64(2*i)
	}
	return e
}

func (e *envelope) run(line []float64, stride int) {
	n := len(e.f)
	least, most := math.Inf(1), math.Inf(-1)
	for q := range n {
		v := line[q*stride]
		e.f[q], e.g[q] = v, v+float64(q*q)
		least, most = min(least, v), max(most, v)
	}
	if least == most {
		return // nothing marked, or all alike
	}
	k := 0
	e.v[0], e.z[0], e.z[1] = 0, math.Inf(-1), math.Inf(1)
	for q := 1; q < n; q++ {
		s := (e.g[q] - e.g[e.v[k]]) * e.half[q-e.v[k]]
		for s <= e.z[k] {
			k--
			s = (e.g[q] - e.g[e.v[k]]) * e.half[q-e.v[k]]
		}
		k++
		e.v[k], e.z[k], e.z[k+1] = q, s, math.Inf(1)
	}
	k = 0
	for q := range n {
		for e.z[k+1] < float64(q) {
			k++
		}
		d := float64(q - e.v[k])
		line[q*stride] = d*d + e.f[e.v[k]]
	}
}

// nearestOf is the distance to the nearest of the points.
func nearestOf(points []Point, p Point) float64 {
	best := math.Inf(1)
	for i := range points {
		x, y, z := points[i][0]-p[0], points[i][1]-p[1], points[i][2]-p[2]
		best = min(best, x*x+y*y+z*z)
	}
	return math.Sqrt(best)
}
