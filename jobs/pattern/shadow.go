package pattern

import "math"

// shadowGrid is how many cells span the shadow in the coarse search.
const shadowGrid = 64

// A shadow is the working space for the holes of one direction.
type shadow struct {
	away []float64
	line *envelope
}

func newShadow() *shadow {
	return &shadow{make([]float64, shadowGrid*shadowGrid), newEnvelope(shadowGrid)}
}

// hole finds the largest empty circle that the points surround, seen along
// the axis: its centre in space and its radius, 0 when there is none.
func (s *shadow) hole(points []Point, axis Point) (Point, float64) {
	u, v := axis.across()
	lo, hi := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	for _, p := range points {
		for k, x := range [2]float64{p.dot(u), p.dot(v)} {
			lo[k], hi[k] = min(lo[k], x), max(hi[k], x)
		}
	}
	size := max(hi[0]-lo[0], hi[1]-lo[1]) / (shadowGrid - 1)
	if !(size > 0) {
		return Point{}, 0
	}
	for i := range s.away {
		s.away[i] = 1e9
	}
	for _, p := range points {
		x, y := int((p.dot(u)-lo[0])/size), int((p.dot(v)-lo[1])/size)
		s.away[y*shadowGrid+x] = 0
	}
	for i := range shadowGrid {
		s.line.run(s.away[i*shadowGrid:], 1)
	}
	for i := range shadowGrid {
		s.line.run(s.away[i:], shadowGrid)
	}
	best, at := 4.0, -1 // below two cells it is the grain of the points
	for y := 1; y < shadowGrid-1; y++ {
		for x := 1; x < shadowGrid-1; x++ {
			i := y*shadowGrid + x
			if d := s.away[i]; d > best && s.peak(i) && s.closed(x, y) {
				best, at = d, i
			}
		}
	}
	if at < 0 {
		return Point{}, 0
	}
	x, y := (float64(at%shadowGrid)+0.5)*size+lo[0], (float64(at/shadowGrid)+0.5)*size+lo[1]
	depth := axis.dot(points[0])
	return u.scale(x).add(v.scale(y)).add(axis.scale(depth)), math.Sqrt(best) * size
}

func (s *shadow) peak(i int) bool {
	for _, j := range [8]int{-shadowGrid - 1, -shadowGrid, -shadowGrid + 1, -1, 1, shadowGrid - 1, shadowGrid, shadowGrid + 1} {
		if s.away[i+j] > s.away[i] {
			return false
		}
	}
	return true
}

// closed walks from the cell in 24 directions; an open ring may be missed by
// four of them (60 degrees).
func (s *shadow) closed(x, y int) bool {
	missed := 0
	for k := range 24 {
		dy, dx := math.Sincos(2 * math.Pi * float64(k) / 24)
		fx, fy := float64(x)+0.5, float64(y)+0.5
		for {
			if fx < 0 || fy < 0 || fx >= shadowGrid || fy >= shadowGrid {
				missed++
				break
			}
			d := s.away[int(fy)*shadowGrid+int(fx)]
			if d < 2 {
				break
			}
			step := max(0.7, math.Sqrt(d)-1.5)
			fx, fy = fx+dx*step, fy+dy*step
		}
	}
	return missed <= 4
}

// surrounded tells whether the points stand on all sides of the cylinder, but
// for the opening of an open ring.
func surrounded(points []Point, y cylinder) bool {
	u, v := y.axis.across()
	var hit [24]bool
	for _, p := range points {
		d := p.sub(y.centre)
		hit[sectorOf(d.dot(u), d.dot(v))*24/sectors] = true
	}
	n := 0
	for _, h := range hit {
		if h {
			n++
		}
	}
	return n >= 20
}
