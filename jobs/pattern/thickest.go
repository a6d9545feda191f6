package pattern

import (
	"cmp"
	"math"
	"slices"
)

// ballGrid is how many cells span the longest side in the first, coarse look.
const ballGrid = 64

// mostSkin is how many points of the skin are looked at.
const mostSkin = 60_000

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
		m.value[m.index(p)] = 0
	}
	m.transform()
	type ball struct {
		at     Point
		radius float64
	}
	seen := make([]bool, len(m.value))
	var balls []ball
	for _, c := range u.chords {
		if i := m.index(c.middle); !seen[i] {
			seen[i] = true
			balls = append(balls, ball{c.middle, min(c.length/2, size*math.Sqrt(m.value[i]))})
		}
	}
	slices.SortStableFunc(balls, func(a, b ball) int { return cmp.Compare(b.radius, a.radius) })
	// Every so many-th point will do: d aside of the nearest one errs d²/2r.
	every := len(u.skin)/mostSkin + 1
	few := make([]Point, 0, mostSkin)
	for i := 0; i < len(u.skin); i += every {
		few = append(few, u.skin[i])
	}
	skin := newNear(few, longest/32)
	var out ball
	for _, b := range balls[:min(3, len(balls))] {
		start := b.at
		b.radius = skin.distance(b.at, b.radius+2*size)
		// A step shorter than the radius can not leave the metal, nor a short way.
		for step := min(size, b.radius/2); step > longest/1500; {
			moved := false
			for k := range 6 {
				p := b.at
				p[k/2] += step * float64(1-2*(k%2))
				if r := skin.distance(p, b.radius+2*step); r > b.radius && p.distance(start) < 2*size {
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
		line := newEnvelope(m.n[k])
		for i := range m.value {
			if i/stride%m.n[k] == 0 {
				line.run(m.value[i:], stride)
			}
		}
		stride *= m.n[k]
	}
}

// An envelope is the working space for one line.
type envelope struct {
	f, z []float64
	v    []int
}

func newEnvelope(n int) *envelope {
	return &envelope{make([]float64, n), make([]float64, n+1), make([]int, n)}
}

func (e *envelope) run(line []float64, stride int) {
	n := len(e.f)
	for q := range n {
		e.f[q] = line[q*stride]
	}
	k := 0
	e.v[0], e.z[0], e.z[1] = 0, math.Inf(-1), math.Inf(1)
	for q := 1; q < n; q++ {
		cross := func(p int) float64 {
			return (e.f[q] + float64(q*q) - e.f[p] - float64(p*p)) / float64(2*(q-p))
		}
		s := cross(e.v[k])
		for s <= e.z[k] {
			k--
			s = cross(e.v[k])
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

// near finds the distance to the nearest of many points, by cells.
type near struct {
	size  float64
	low   Point
	n     [3]int
	start []int32
	sort  []Point
}

func newNear(points []Point, size float64) *near {
	raw := make([][3]float64, len(points))
	for i, p := range points {
		raw[i] = p
	}
	b := boxOf(raw)
	g := &near{size: size, low: b.Min}
	for k := range 3 {
		g.n[k] = int((b.Max[k]-b.Min[k])/size) + 1
	}
	g.start = make([]int32, g.n[0]*g.n[1]*g.n[2]+1)
	for _, p := range points {
		g.start[g.index(g.cell(p))+1]++
	}
	for i := range len(g.start) - 1 {
		g.start[i+1] += g.start[i]
	}
	fill := slices.Clone(g.start)
	g.sort = make([]Point, len(points))
	for _, p := range points {
		i := g.index(g.cell(p))
		g.sort[fill[i]] = p
		fill[i]++
	}
	return g
}

func (g *near) cell(p Point) [3]int {
	var c [3]int
	for k := range 3 {
		c[k] = min(max(int((p[k]-g.low[k])/g.size), 0), g.n[k]-1)
	}
	return c
}

func (g *near) index(c [3]int) int { return (c[2]*g.n[1]+c[1])*g.n[0] + c[0] }

// distance looks no farther than most.
func (g *near) distance(p Point, most float64) float64 {
	best := most * most
	home := g.cell(p)
	for ring := 0; ; ring++ {
		// Cells of this ring are at least so far away.
		if away := float64(ring-1) * g.size; ring > 0 && away > 0 && away*away > best {
			return math.Sqrt(best)
		}
		if ring > max(g.n[0], g.n[1], g.n[2]) {
			return math.Sqrt(best)
		}
		for z := max(0, home[2]-ring); z <= min(g.n[2]-1, home[2]+ring); z++ {
			for y := max(0, home[1]-ring); y <= min(g.n[1]-1, home[1]+ring); y++ {
				step := 2 * ring
				if abs(z-home[2]) == ring || abs(y-home[1]) == ring || ring == 0 {
					step = 1
				}
				for x := home[0] - ring; x <= home[0]+ring; x += step {
					if x < 0 || x >= g.n[0] {
						continue
					}
					i := g.index([3]int{x, y, z})
					for _, q := range g.sort[g.start[i]:g.start[i+1]] {
						d := q.sub(p)
						best = min(best, d.dot(d))
					}
				}
			}
		}
	}
}

func abs(v int) int {
	if v < 0 {
		return -v
	}
	return v
}
