package pattern

import (
	"math"
	"sync"
	"sync/atomic"
)

const (
	// gridBits is how fine the in-plane coordinates are: 2^26 steps along the
	// longest side. Products of two differences then stay below 2^53.
	gridBits = 26
	// bandRows is how many rows of columns are worked on at once.
	bandRows = 16
	// contact is the share of the longest side within which a skin that leaves
	// and one that enters are taken to touch: 0.1 µm on a ring of 25 mm.
	contact = 4e-6
)

// A grid is one direction of columns through the mesh. Each column is a ray
// along dir; its crossings with the faces are found with exact integer edge
// functions, as if the sample lay an infinitesimal step up and to the right,
// so that every ray crosses a closed surface inward as often as outward.
type grid struct {
	frame  [3]Point // u, v and the direction of the rays
	low    Point    // of the turned box
	scale  float64  // steps a mm
	pitch  int64    // odd number of steps between columns
	cols   int
	rows   int
	points []flatPoint
}

type flatPoint struct {
	u, v int32
	d    float64
}

// A crossing is where a column meets a face. The depth is moved by half the
// contact width, inward faces up and outward faces down the ray, so that
// touching skins overlap when sorted.
type crossing struct {
	depth float64
	face  int32
	col   int32 // within the band, times 2, plus 1 when the ray enters
}

// newGrid lays n columns along the longest side, in mm, of the turned boxes.
func newGrid(points [][3]float64, frame [3]Point, longest float64, n int, buffer []flatPoint) *grid {
	g := &grid{frame: frame, points: buffer}
	g.low = Point{math.Inf(1), math.Inf(1), math.Inf(1)}
	high := Point{math.Inf(-1), math.Inf(-1), math.Inf(-1)}
	var lock sync.Mutex
	inParallel(len(points), func(from, to int) {
		lo, hi := turnedBox(points[from:to], frame)
		lock.Lock()
		defer lock.Unlock()
		for k := range 3 {
			g.low[k], high[k] = min(g.low[k], lo[k]), max(high[k], hi[k])
		}
	})
	g.scale = (1 << gridBits) / longest
	g.pitch = int64(1<<gridBits)/int64(n) | 1
	g.cols = int(int64((high[0]-g.low[0])*g.scale)/g.pitch) + 2
	g.rows = int(int64((high[1]-g.low[1])*g.scale)/g.pitch) + 2
	inParallel(len(points), func(from, to int) {
		u, v, d := frame[0], frame[1], frame[2]
		for i := from; i < to; i++ {
			p := &points[i]
			g.points[i] = flatPoint{
				int32((u[0]*p[0]+u[1]*p[1]+u[2]*p[2]-g.low[0])*g.scale + 0.5),
				int32((v[0]*p[0]+v[1]*p[1]+v[2]*p[2]-g.low[1])*g.scale + 0.5),
				d[0]*p[0] + d[1]*p[1] + d[2]*p[2],
			}
		}
	})
	return g
}

func turnedBox(points [][3]float64, frame [3]Point) (lo, hi Point) {
	lo = Point{math.Inf(1), math.Inf(1), math.Inf(1)}
	hi = Point{math.Inf(-1), math.Inf(-1), math.Inf(-1)}
	for _, p := range points {
		for k := range 3 {
			x := frame[k].dot(p)
			lo[k], hi[k] = min(lo[k], x), max(hi[k], x)
		}
	}
	return lo, hi
}

// first is the first column or row at or beyond the coordinate; samples lie in
// the middle of their cells.
func (g *grid) first(x int32) int { return int((int64(x) + g.pitch/2) / g.pitch) }

// cell is the real area of one column in mm².
func (g *grid) cell() float64 {
	h := float64(g.pitch) / g.scale
	return h * h
}

// at is the place of depth d in a column.
func (g *grid) at(row, col int, d float64) Point {
	u := g.low[0] + (float64(int64(col)*g.pitch+g.pitch/2)+0.5)/g.scale
	v := g.low[1] + (float64(int64(row)*g.pitch+g.pitch/2)+0.5)/g.scale
	return g.frame[0].scale(u).add(g.frame[1].scale(v)).add(g.frame[2].scale(d))
}

// columnAt is the row and column that a place made by at lies in.
func (g *grid) columnAt(p Point) (row, col int) {
	of := func(k int) int { return int(int64((p.dot(g.frame[k])-g.low[k])*g.scale) / g.pitch) }
	return of(1), of(0)
}

// sweep finds all crossings, band by band, and hands each band to do, with
// the crossings sorted by column and depth. Bands are worked on at once; do
// must keep what it finds by band or as whole numbers by worker.
func (g *grid) sweep(faces [][3]int32, touch float64, do func(worker, band int, list []crossing)) {
	bands := (g.rows + bandRows - 1) / bandRows
	w := workers()
	lists := make([][][]int32, w)
	var wait sync.WaitGroup
	for i := range w {
		wait.Go(func() { lists[i] = g.sortIntoBands(faces, len(faces)*i/w, len(faces)*(i+1)/w, bands) })
	}
	wait.Wait()
	var next atomic.Int64
	for i := range w {
		wait.Go(func() {
			b := bandSweep{grid: g, faces: faces, touch: touch / 2}
			for {
				band := int(next.Add(1)) - 1
				if band >= bands {
					return
				}
				b.list = b.list[:0]
				for _, l := range lists {
					for _, f := range l[band] {
						b.face(f, band)
					}
				}
				do(i, band, b.sorted())
			}
		})
	}
	wait.Wait()
}

// sortIntoBands lists, for each band, the faces that cover a sample of it.
// Most faces of a fine mesh cover none and drop out here.
func (g *grid) sortIntoBands(faces [][3]int32, from, to, bands int) [][]int32 {
	out := make([][]int32, bands)
	for i := from; i < to; i++ {
		f := &faces[i]
		a, b, c := &g.points[f[0]], &g.points[f[1]], &g.points[f[2]]
		r0, r1 := g.first(min(a.v, b.v, c.v)), g.first(max(a.v, b.v, c.v))
		if r0 == r1 || g.first(min(a.u, b.u, c.u)) == g.first(max(a.u, b.u, c.u)) {
			continue
		}
		for band := r0 / bandRows; band <= (r1-1)/bandRows && band < bands; band++ {
			out[band] = append(out[band], int32(i))
		}
	}
	return out
}

// bandSweep is the working space of one worker.
type bandSweep struct {
	grid  *grid
	faces [][3]int32
	touch float64
	list  []crossing
	out   []crossing
	start []int32
}

// edge is an exact edge function e = x*dx + y*dy + at of a triangle side.
type edge struct{ dx, dy, at int64 }

// side builds the edge function from a to b, positive on the left. A sample
// on the line itself counts for exactly one of the two faces that share it.
func side(a, b *flatPoint, u, v int64) edge {
	dx, dy := int64(b.u)-int64(a.u), int64(b.v)-int64(a.v)
	e := edge{-dy, dx, dx*(v-int64(a.v)) - dy*(u-int64(a.u))}
	if !(dy < 0 || dy == 0 && dx > 0) {
		e.at--
	}
	return e
}

// face adds the crossings of one face with the columns of the band.
func (s *bandSweep) face(face int32, band int) {
	g := s.grid
	f := &s.faces[face]
	a, b, c := &g.points[f[0]], &g.points[f[1]], &g.points[f[2]]
	r0, r1 := g.first(min(a.v, b.v, c.v)), g.first(max(a.v, b.v, c.v))
	c0, c1 := g.first(min(a.u, b.u, c.u)), g.first(max(a.u, b.u, c.u))
	r0, r1 = max(r0, band*bandRows), min(r1, (band+1)*bandRows)
	abU, abV := int64(b.u)-int64(a.u), int64(b.v)-int64(a.v)
	acU, acV := int64(c.u)-int64(a.u), int64(c.v)-int64(a.v)
	area := abU*acV - abV*acU
	if area == 0 {
		return
	}
	shift, enters := s.touch, int32(0)
	if area < 0 {
		b, c, abU, abV, acU, acV, area = c, b, acU, acV, abU, abV, -area
		shift, enters = -s.touch, 1
	}
	u0, v0 := int64(c0)*g.pitch+g.pitch/2, int64(r0)*g.pitch+g.pitch/2
	e1, e2, e3 := side(a, b, u0, v0), side(b, c, u0, v0), side(c, a, u0, v0)
	inv := 1 / float64(area)
	gu := ((b.d-a.d)*float64(acV) - (c.d-a.d)*float64(abV)) * inv
	gv := ((c.d-a.d)*float64(abU) - (b.d-a.d)*float64(acU)) * inv
	lo, hi := min(a.d, b.d, c.d), max(a.d, b.d, c.d)
	for r := r0; r < r1; r++ {
		dr := int64(r-r0) * g.pitch
		x1, x2, x3 := e1.at+e1.dy*dr, e2.at+e2.dy*dr, e3.at+e3.dy*dr
		row := a.d + gv*float64(v0+dr-int64(a.v)) + gu*float64(u0-int64(a.u))
		for col := c0; col < c1; col++ {
			if x1|x2|x3 >= 0 {
				// A steep face can throw the plane far off by rounding.
				d := min(max(row+gu*float64(int64(col-c0)*g.pitch), lo), hi)
				s.list = append(s.list, crossing{d + shift, face, int32((r-band*bandRows)*g.cols+col)<<1 | enters})
			}
			x1 += e1.dx * g.pitch
			x2 += e2.dx * g.pitch
			x3 += e3.dx * g.pitch
		}
	}
}

// sorted orders the crossings by column (counting sort), then by depth.
func (s *bandSweep) sorted() []crossing {
	n := bandRows*s.grid.cols + 1
	if len(s.start) < n {
		s.start = make([]int32, n)
	}
	start := s.start[:n]
	clear(start)
	for i := range s.list {
		start[s.list[i].col>>1]++
	}
	sum := int32(0)
	for i, k := range start {
		start[i] = sum
		sum += k
	}
	if cap(s.out) < len(s.list) {
		s.out = make([]crossing, len(s.list)+len(s.list)/4)
	}
	out := s.out[:len(s.list)]
	for _, x := range s.list {
		out[start[x.col>>1]] = x
		start[x.col>>1]++
	}
	for i := 1; i < len(out); i++ {
		x := out[i]
		k := i
		for k > 0 && out[k-1].col>>1 == x.col>>1 && before(&x, &out[k-1]) {
			out[k] = out[k-1]
			k--
		}
		out[k] = x
	}
	return out
}

// before orders crossings of a column. Equal depths are ordered by face, so
// that the result is the same on every machine.
func before(a, b *crossing) bool {
	return a.depth < b.depth || a.depth == b.depth && a.face < b.face
}

// columnOf splits off the crossings of the first column.
func columnOf(list []crossing) (column, rest []crossing) {
	n := 1
	for n < len(list) && list[n].col>>1 == list[0].col>>1 {
		n++
	}
	return list[:n], list[n:]
}
