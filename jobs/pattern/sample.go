package pattern

import (
	"math"
	"slices"
)

const (
	// DeadBand is how far, in mm, a wall must lie below the limit to be
	// reported, so that a wall drawn at the limit is not.
	DeadBand = 0.01
	// facing is how nearly opposite two skins must face to be the two sides of
	// a wall: edges blunter than about 37 degrees are edges, not walls.
	facing = -0.8
	// leastSquare is how squarely a column must meet a wall to count. The best of
	// three perpendicular directions meets any wall with 1/√3 or more; between
	// strands that bend away from each other it is a little less.
	leastSquare = 0.5
	// leastWidth is the width in mm below which a gap or wall is a seam of the
	// drawing and no feature.
	leastWidth = 0.005
)

// A sample is one column through a thin wall or a narrow gap.
type sample struct {
	width  float64 // diameter of the ball that touches both skins
	area   float64 // of the wall that this column stands for, mm²
	middle spot
	across spot    // unit vector from one skin to the other
	share  float32 // of this direction in it
	even   float32 // how nearly parallel the skins are: 1 is parallel
	column columnID
	stride int32 // every so many-th row and column is kept
}

// A beside is a column next to thin ones that still runs between two skins that
// face each other: there the thin place goes on, and has no rim.
type beside struct {
	column columnID
	why    whyBeside
	width  float32
	square float32
}

// whyBeside tells why it is not one of the thin ones.
type whyBeside uint8

const (
	besideWide  whyBeside = iota // it is wider than the limit
	besideBlunt                  // the skins do not face each other squarely enough
	besideSlant                  // it is thin, and met too slantingly to count
)

const (
	// besideWidth is up to how many times the limit, and besideFacing how far
	// from opposite, such a column is kept: it lies next to a thin one.
	besideWidth  = 1.15
	besideFacing = -0.5
	// besideSquare is how far from square a column through a gap is kept, so that
	// its depth can be followed.
	besideSquare = 0.3
)

// A columnID is direction, row and column in one number, rising in the order in
// which columns are walked. A side of the finest grid has some 4000 columns.
type columnID uint32

func newColumnID(way, row, col int) columnID {
	return columnID(way)<<30 | columnID(row)<<15 | columnID(col)
}

func (c columnID) way() int { return int(c >> 30) }
func (c columnID) row() int { return int(c >> 15 & (1<<15 - 1)) }
func (c columnID) col() int { return int(c & (1<<15 - 1)) }

// between measures the ball that touches the two faces where the column meets
// them. With outward normals n1, n2, direction d and length L,
//
//	m = (n1-n2)/|n1-n2|,  t = L |d·m| / cos φ,  2 cos² φ = 1 - n1·n2,
//
// which is exact for parallel walls at any slant and for round wires at any
// chord. Columns that meet the wall less squarely than least are not looked at.
func (p *pass) between(row, col int, from, to *crossing, limit, least float64, out *thinColumns) {
	if out.stride == 0 {
		out.stride = 1
	}
	if s := int(out.stride) - 1; (row|col)&s != 0 {
		return
	}
	a, b := p.depth(from), p.depth(to)
	length := b - a
	if !(length*least < besideWidth*limit) {
		return
	}
	n1 := areaVector(p.c.points, p.c.faces[from.face]).unit()
	n2 := areaVector(p.c.points, p.c.faces[to.face]).unit()
	dot := n1.dot(n2)
	if dot > besideFacing {
		return
	}
	m := n1.sub(n2).unit()
	square := math.Abs(m.dot(p.grid.frame[2]))
	t := length * square / math.Sqrt((1-dot)/2)
	if square < least || t >= besideWidth*limit || t < leastWidth {
		return
	}
	id := newColumnID(p.way, row, col)
	aside := beside{id, besideWide, float32(t), float32(square)}
	switch {
	case t >= limit:
	case dot > facing:
		aside.why = besideBlunt
	case square < leastSquare:
		aside.why = besideSlant
	default:
		// Two or three directions may see the same wall: each counts for its part,
		// by the squares, which add up to one.
		sum := 0.0
		for _, d := range p.frame {
			if v := m.dot(d); math.Abs(v) >= leastSquare {
				sum += v * v
			}
		}
		share := square * square / sum
		out.samples = append(out.samples, sample{t, p.grid.cell() / square * share * float64(out.stride*out.stride), spotAt(p.grid.at(row, col, (a+b)/2)), spotAt(m), float32(share), float32(-dot), id, out.stride})
		if len(out.samples) > p.most {
			out.thinOut()
		}
		return
	}
	if out.beside = append(out.beside, aside); len(out.beside) > 2*p.most {
		out.thinOut()
	}
}

// thinColumns are the columns through thin walls, or through narrow gaps, and
// those beside them, both in the order of their columns.
type thinColumns struct {
	samples []sample
	beside  []beside
	stride  int32 // a power of two
}

// mostSamples bounds what the columns of one direction keep of thin walls, and
// of narrow gaps; each band may keep its share. A plate across all columns fits
// in. Of stacks of plates, every second or fourth row and column does, each
// standing for more area.
const mostSamples = 300_000

func (t *thinColumns) thinOut() {
	t.stride *= 2
	s := int(t.stride) - 1
	t.samples = slices.DeleteFunc(t.samples, func(x sample) bool { return (x.column.row()|x.column.col())&s != 0 })
	for i := range t.samples {
		t.samples[i].area *= 4
		t.samples[i].stride = t.stride
	}
	t.beside = slices.DeleteFunc(t.beside, func(b beside) bool { return (b.column.row()|b.column.col())&s != 0 })
}

// skinLattice is which rows and columns keep their points of the skin: all whose
// number divides by a power of two.
type skinLattice struct{ row, col int }

func (s skinLattice) holds(row, col int) bool { return row&(s.row-1)|col&(s.col-1) == 0 }

// thinSkin drops every second row or column of the skin of a band.
func (p *pass) thinSkin(r *bandResult) {
	if r.lattice.row > r.lattice.col {
		r.lattice.col *= 2
	} else {
		r.lattice.row *= 2
	}
	r.skin = slices.DeleteFunc(r.skin, func(x spot) bool { return !r.lattice.holds(p.grid.columnAt(x.point())) })
}

// metal takes note of one stretch of metal.
func (p *pass) metal(r *bandResult, row, col int, enter, leave *crossing) {
	a, b := p.depth(enter), p.depth(leave)
	if b > a && (row|col)&3 == 0 && r.lattice.holds(row/2, col/2) {
		r.chords = append(r.chords, chord{spotAt(p.grid.at(row, col, (a+b)/2)), float32(b - a)})
	}
	p.between(row, col, enter, leave, p.deadWall, leastSquare, &r.walls)
}

// outside takes note of one stretch between metal and metal.
func (p *pass) outside(r *bandResult, row, col int, leave, enter *crossing) {
	p.between(row, col, leave, enter, p.deadGap, besideSquare, &r.gaps)
}
