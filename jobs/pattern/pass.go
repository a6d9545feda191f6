package pattern

import "math"

// A pass walks all columns of one direction. What is added up as a fraction is
// kept by band and added in the order of the bands; what is counted is kept by
// worker. The result is then the same however the bands were shared out.
type pass struct {
	c         *chain
	s         *soundness
	grid      *grid
	way       int // number of the direction
	opt       Options
	touch     float64
	frame     [3]Point // the three directions of all passes
	deadWall  float64
	deadGap   float64
	bands     []bandResult
	workers   []passWorker
	most      int // samples that a band keeps of walls, and of gaps
	mostSpots int // and points of the skin
}

type bandResult struct {
	over, hidden float64
	leaks        int
	walls, gaps  thinColumns
	skin         []spot
	lattice      skinLattice
	chords       []chord
}

type passWorker struct {
	winding []int32 // by body
	own     []int32 // by shell
	seen    []int64
	inside  []int64
}

func newPass(c *chain, s *soundness, g *grid, way int, opt Options, bodies int, touch float64, frame [3]Point) *pass {
	p := &pass{c: c, s: s, grid: g, way: way, opt: opt, touch: touch, frame: frame, deadWall: float64(opt.Wall) - DeadBand, deadGap: float64(opt.Gap) - DeadBand,
		bands: make([]bandResult, (g.rows+bandRows-1)/bandRows), workers: make([]passWorker, workers())}
	p.most, p.mostSpots = mostSamples/len(p.bands), mostSpotsKept/len(p.bands)
	for i := range p.bands {
		p.bands[i].lattice = skinLattice{2, 2}
	}
	for i := range p.workers {
		p.workers[i] = passWorker{make([]int32, bodies), make([]int32, len(s.shells)), make([]int64, len(s.shells)), make([]int64, len(s.shells))}
	}
	return p
}

// band walks the columns of one band.
func (p *pass) band(worker, band int, list []crossing) {
	w, r := &p.workers[worker], &p.bands[band]
	for len(list) > 0 {
		var column []crossing
		column, list = columnOf(list)
		cell := int(column[0].col >> 1)
		p.column(w, r, band*bandRows+cell/p.grid.cols, cell%p.grid.cols, column)
	}
}

// column follows the winding numbers along one ray.
func (p *pass) column(w *passWorker, r *bandResult, row, col int, column []crossing) {
	total, active := int32(0), 0 // sum of windings; bodies whose winding is positive
	enter, leave := -1, -1       // crossings that began and ended the last metal
	for i := range column {
		x := &column[i]
		if i > 0 {
			if more := float64(total) - float64(min(active, 1)); more != 0 {
				r.over += more * (p.depth(x) - p.depth(&column[i-1]))
			}
		}
		shell := p.s.shellOf[x.face]
		body := p.c.bodyOf(int(x.face))
		step := int32(-1)
		if x.col&1 == 1 {
			step = 1
		}
		w.seen[shell]++
		if total-w.own[shell] > 0 {
			w.inside[shell]++
		}
		was := active
		if w.winding[body] > 0 {
			active--
		}
		total += step
		w.own[shell] += step
		w.winding[body] += step
		if w.winding[body] > 0 {
			active++
		}
		switch {
		case was == 0 && active > 0:
			if leave >= 0 {
				p.outside(r, row, col, &column[leave], x)
			}
			enter = i
			p.touchSkin(r, row, col, x)
		case was > 0 && active == 0:
			p.metal(r, row, col, &column[enter], x)
			leave = i
			p.touchSkin(r, row, col, x)
		default:
			r.hidden += p.slant(x.face)
		}
	}
	if total != 0 {
		r.leaks++
	}
	for i := range column {
		w.own[p.s.shellOf[column[i].face]] = 0
		w.winding[p.c.bodyOf(int(column[i].face))] = 0
	}
}

// mostSpotsKept bounds the points of the skin that one direction keeps.
const mostSpotsKept = 800_000

// touchSkin keeps every fourth point of the skin, and fewer of stacks of plates:
// enough for all that looks at its shape as a whole.
func (p *pass) touchSkin(r *bandResult, row, col int, x *crossing) {
	if !r.lattice.holds(row, col) {
		return
	}
	if r.skin = append(r.skin, spotAt(p.grid.at(row, col, p.depth(x)))); len(r.skin) > p.mostSpots {
		p.thinSkin(r)
	}
}

// depth is the true depth of a crossing.
func (p *pass) depth(x *crossing) float64 {
	if x.col&1 == 1 {
		return x.depth + p.touch/2
	}
	return x.depth - p.touch/2
}

// slant is |n.d| of a face. A face of area A shows A|n.d| to the columns, so
// one column stands for cell/|n.d| of it; weighted with (n.d)², which adds up
// to one over the three directions, that is cell·|n.d|.
func (p *pass) slant(face int32) float64 {
	return math.Abs(areaVector(p.c.points, p.c.faces[face]).unit().dot(p.grid.frame[2]))
}

func (p *pass) over() float64 {
	sum := 0.0
	for i := range p.bands {
		sum += p.bands[i].over
	}
	return sum
}

func (p *pass) hidden() float64 {
	sum := 0.0
	for i := range p.bands {
		sum += p.bands[i].hidden
	}
	return sum
}

// collect hands over what was found, in the order of the bands.
func (p *pass) collect(u *united, seen, inside []int64) {
	for i := range p.bands {
		u.leaks += p.bands[i].leaks
	}
	u.walls.samples = gathered(u.walls.samples, p.bands, func(b *bandResult) *[]sample { return &b.walls.samples })
	u.walls.beside = gathered(u.walls.beside, p.bands, func(b *bandResult) *[]beside { return &b.walls.beside })
	u.gaps.samples = gathered(u.gaps.samples, p.bands, func(b *bandResult) *[]sample { return &b.gaps.samples })
	u.gaps.beside = gathered(u.gaps.beside, p.bands, func(b *bandResult) *[]beside { return &b.gaps.beside })
	u.skin = gathered(u.skin, p.bands, func(b *bandResult) *[]spot { return &b.skin })
	u.chords = gathered(u.chords, p.bands, func(b *bandResult) *[]chord { return &b.chords })
	for i := range p.workers {
		for k := range seen {
			seen[k] += p.workers[i].seen[k]
			inside[k] += p.workers[i].inside[k]
		}
	}
}

// gathered adds one list of each band, and lets go of it.
func gathered[T any](all []T, bands []bandResult, of func(*bandResult) *[]T) []T {
	n := 0
	for i := range bands {
		n += len(*of(&bands[i]))
	}
	out := append(make([]T, 0, len(all)+n), all...)
	for i := range bands {
		list := of(&bands[i])
		out = append(out, *list...)
		*list = nil
	}
	return out
}
