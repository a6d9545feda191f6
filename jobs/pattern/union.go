package pattern

import "math"

const (
	// spreadFactor and leastBound make the stated bound: three times the spread
	// of the three directions, and never below 0.005 % of the volume. Measured
	// over 432 runs (6 shapes, 24 frames, 3 grids) the error was below twice
	// the spread or below the floor in 431.
	spreadFactor = 3
	leastBound   = 5e-5
	// wideBound is the relative bound above which the grid is made finer.
	wideBound = 1e-3
	finest    = 2048
)

// united is what the columns tell of the union.
type united struct {
	volume, bound float64
	area          float64
	leaks         int // columns that do not close; must be none
	buried        int // shells that lie wholly inside others
	walls, gaps   thinColumns
	skin          []spot // points of the united skin, thinned out
	chords        []chord
	pitch         float64
}

// A chord is a stretch of a column inside the metal.
type chord struct {
	middle spot
	length float32
}

// A spot is a place as exactly as a picture of the whole needs it: 2 nm on a
// ring of 25 mm. There are millions.
type spot [3]float32

func spotAt(p Point) spot   { return spot{float32(p[0]), float32(p[1]), float32(p[2])} }
func (s spot) point() Point { return Point{float64(s[0]), float64(s[1]), float64(s[2])} }

// unite measures the union of the solids: all points whose winding number in
// at least one body is one or more. The columns only correct the exact sum of
// tetrahedra,
//
//	V = V_signed - mean over directions of (Q_signed - Q_union),
//
// so that nothing is lost where nothing overlaps.
func (c *chain) unite(s *soundness, opt Options, bodies int) united {
	box := boxOf(c.points)
	plain := signedVolume(c.points, c.faces, box.centre())
	// A sheet without volume would never be narrow enough.
	least := 1e-4 * boxVolume(box)
	for n := opt.Grid; ; n *= 2 {
		u := c.uniteOn(s, opt, bodies, n, plain)
		if u.bound <= wideBound*max(math.Abs(u.volume), least) || n*2 > finest {
			return u
		}
	}
}

func (c *chain) uniteOn(s *soundness, opt Options, bodies, n int, plain float64) united {
	frame := genericFrame()
	lo, hi := turnedBox(c.points, frame)
	longest := max(hi[0]-lo[0], hi[1]-lo[1], hi[2]-lo[2])
	var u united
	var over [3]float64
	buffer := make([]flatPoint, len(c.points))
	seen, inside := make([]int64, len(s.shells)), make([]int64, len(s.shells))
	hidden := 0.0
	for k := range 3 {
		turned := [3]Point{frame[(k+1)%3], frame[(k+2)%3], frame[k]}
		g := newGrid(c.points, turned, longest, n, buffer)
		p := newPass(c, s, g, k, opt, bodies, contact*longest, frame)
		g.sweep(c.faces, contact*longest, p.band)
		p.collect(&u, seen, inside)
		over[k] = p.over() * g.cell()
		hidden += p.hidden() * g.cell()
		u.pitch = float64(g.pitch) / g.scale
	}
	total := 0.0
	for _, f := range c.faces {
		total += areaVector(c.points, f).length()
	}
	u.area = max(0, total-hidden)
	u.volume = plain - (over[0]+over[1]+over[2])/3
	spread := max(over[0], over[1], over[2]) - min(over[0], over[1], over[2])
	u.bound = max(spreadFactor*spread, leastBound*math.Abs(u.volume))
	for k := range seen {
		if seen[k] > 0 && seen[k] == inside[k] && s.shells[k].volume > 0 {
			u.buried++
		}
	}
	return u
}
