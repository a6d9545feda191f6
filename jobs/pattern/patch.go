package pattern

import (
	"cmp"
	"math"
	"slices"
)

// runBreak is how many pitches without a column end a run; the columns of a row
// that runs askew to the lattice are never that far apart.
const runBreak = 2.5

// A patch is a connected piece of a sheet, seen by the columns of one
// direction.
type patch struct {
	list    []sample
	step    int // every so many-th row and column is looked at
	lattice float64
	beside  []beside
	u, v, d Point // across the columns, and along them
	facing  Point // mean direction across the wall
}

func newPatch(way int, list []sample, near []beside, lattice float64) patch {
	frame := genericFrame()
	p := patch{lattice: lattice, beside: near, u: frame[(way+1)%3], v: frame[(way+2)%3], d: frame[way]}
	stride := 1
	for i := range list {
		stride = max(stride, int(list[i].stride))
	}
	p.step = stride * int(math.Ceil(math.Sqrt(float64(len(list))/mostCells)/float64(stride)))
	var sum Point
	for i := range list {
		m := list[i].across.point()
		sum = sum.add(m.scale(math.Copysign(1, m.dot(p.d))))
		if c := list[i].column; c.row()%p.step == 0 && c.col()%p.step == 0 {
			p.list = append(p.list, list[i])
		}
	}
	p.facing = sum.unit()
	return p
}

func (p *patch) pitch() float64 { return p.lattice * float64(p.step) }

// How a run ends: at a rim or bottom, where the wall goes on but is too wide or
// turns away, or where it goes on as thin, nobody knows how far.
const (
	rimEnd = iota
	wideEnd
	thinEnd
)

// A run is a row of columns without a break.
type run struct {
	first, last int // sample numbers
	members     []int
	length      float64 // across the columns
	narrowest   float64
	to          [2]float64
}

// runs sorts the columns of a patch into rows along a direction across the
// columns, and cuts them where there is none.
func (p *patch) runs(along [2]float64) []run {
	n := math.Hypot(along[0], along[1])
	if n == 0 {
		return nil
	}
	x, y, pitch := along[0]/n, along[1]/n, p.pitch()
	type place struct {
		row   int
		along float64
		i     int
	}
	spots := make([]place, len(p.list))
	for i := range p.list {
		cu, cv := float64(p.list[i].column.col())*p.lattice, float64(p.list[i].column.row())*p.lattice
		spots[i] = place{int(math.Floor((cv*x - cu*y) / pitch)), cu*x + cv*y, i}
	}
	slices.SortFunc(spots, func(a, b place) int {
		return cmp.Or(cmp.Compare(a.row, b.row), cmp.Compare(a.along, b.along), cmp.Compare(a.i, b.i))
	})
	var out []run
	for from := 0; from < len(spots); {
		to := from + 1
		for to < len(spots) && spots[to].row == spots[from].row && spots[to].along-spots[to-1].along < runBreak*pitch {
			to++
		}
		r := run{first: spots[from].i, last: spots[to-1].i, length: spots[to-1].along - spots[from].along + pitch, narrowest: math.Inf(1), to: [2]float64{x, y}}
		for _, s := range spots[from:to] {
			r.members = append(r.members, s.i)
			r.narrowest = min(r.narrowest, p.list[s.i].width)
		}
		out = append(out, r)
		from = to
	}
	return out
}

// ending looks what is beyond the first or the last column of a run.
func (p *patch) ending(r *run, end int) int {
	n, x, y := r.at(end)
	found := rimEnd
	for t := 1.0; t <= float64(p.step)+1; t += 0.5 {
		for _, b := range p.besides(p.list[n].column, t*x, t*y) {
			if b.why == besideSlant || b.why == besideBlunt && float64(b.width) < widened*r.narrowest {
				return thinEnd
			}
			found = wideEnd
		}
	}
	return found
}

// beyond walks on from the first or the last column of a run, through columns
// that are thin but met too slantingly to count, and says how far that is, how wide it is there and how it ends.
func (p *patch) beyond(r *run, end int) (far, width float64, kind int) {
	n, x, y := r.at(end)
	width = p.list[n].width
	square := 1.0
	for t := 1.0; t-far/p.lattice <= max(runBreak, float64(p.step)+1); t += 0.5 {
		for _, b := range p.besides(p.list[n].column, t*x, t*y) {
			switch {
			case b.why == besideSlant:
				far, width, square = t*p.lattice, float64(b.width), float64(b.square)
			case b.why == besideBlunt && float64(b.width) < widened*r.narrowest:
				return far, width, thinEnd
			default:
				return far, width, wideEnd
			}
		}
	}
	if square < besideSquare+0.1 {
		return far, width, thinEnd // too slanted to see what comes
	}
	return far, width, rimEnd
}

func (r *run) at(end int) (n int, x, y float64) {
	if end == 0 {
		return r.first, -r.to[0], -r.to[1]
	}
	return r.last, r.to[0], r.to[1]
}

// besides are the columns beside the thin ones at a place so many rows and
// columns off.
func (p *patch) besides(c columnID, x, y float64) []beside {
	col, row := int(math.Round(float64(c.col())+x)), int(math.Round(float64(c.row())+y))
	if col < 0 || row < 0 {
		return nil
	}
	id := newColumnID(c.way(), row, col)
	i, found := slices.BinarySearchFunc(p.beside, id, func(b beside, id columnID) int { return cmp.Compare(b.column, id) })
	if !found {
		return nil
	}
	k := i + 1
	for k < len(p.beside) && p.beside[k].column == id {
		k++
	}
	return p.beside[i:k]
}
