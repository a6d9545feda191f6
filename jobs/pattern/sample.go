package pattern

import (
	"math"
)

const (
	// DeadBand is how far, in mm, a wall must lie below the limit to be
	// reported, so that a wall drawn at the limit is not.
	DeadBand = 0.01
	// facing is how nearly opposite two skins must face to be the two sides of
	// a wall: edges blunter than about 37 degrees are edges, not walls.
	facing = -0.8
	// leastSquare is how squarely the best of three perpendicular directions
	// meets any wall at least: 1/√3.
	leastSquare = 0.577
	// leastWidth is the width in mm below which a gap or wall is a seam of the
	// drawing and no feature.
	leastWidth = 0.005
)

// A sample is one column through a thin wall or a narrow gap.
type sample struct {
	width  float64 // diameter of the ball that touches both skins
	middle Point
	across Point   // unit vector from one skin to the other
	area   float64 // of the wall that this column stands for, mm²
	even   float64 // how nearly parallel the skins are: 1 is parallel
}

// between measures the ball that touches the two faces where the column meets
// them. With outward normals n1, n2, direction d and length L,
//
//	m = (n1-n2)/|n1-n2|,  t = L |d·m| / cos φ,  2 cos² φ = 1 - n1·n2,
//
// which is exact for parallel walls at any slant and for round wires at any
// chord.
func (p *pass) between(row, col int, from, to *crossing, limit float64) (sample, bool) {
	a, b := p.depth(from), p.depth(to)
	length := b - a
	if !(length*leastSquare < limit) {
		return sample{}, false
	}
	n1 := areaVector(p.c.points, p.c.faces[from.face]).unit()
	n2 := areaVector(p.c.points, p.c.faces[to.face]).unit()
	dot := n1.dot(n2)
	if dot > facing {
		return sample{}, false
	}
	m := n1.sub(n2).unit()
	square := math.Abs(m.dot(p.grid.frame[2]))
	if square < leastSquare {
		return sample{}, false
	}
	t := length * square / math.Sqrt((1-dot)/2)
	if t >= limit || t < leastWidth {
		return sample{}, false
	}
	// The three directions see the same wall; the one that meets it most
	// squarely counts, since it loses least at the rim.
	for _, d := range p.frame {
		if math.Abs(m.dot(d)) > square+1e-12 {
			return sample{}, false
		}
	}
	return sample{t, p.grid.at(row, col, (a+b)/2), m, p.grid.cell() / square, -dot}, true
}

// metal takes note of one stretch of metal.
func (p *pass) metal(r *bandResult, row, col int, enter, leave *crossing) {
	a, b := p.depth(enter), p.depth(leave)
	if b > a && (row|col)&3 == 0 {
		r.chords = append(r.chords, chord{p.grid.at(row, col, (a+b)/2), b - a})
	}
	if w, ok := p.between(row, col, enter, leave, p.deadWall); ok {
		r.walls = append(r.walls, w)
	}
}

// outside takes note of one stretch between metal and metal.
func (p *pass) outside(r *bandResult, row, col int, leave, enter *crossing) {
	if w, ok := p.between(row, col, leave, enter, p.deadGap); ok {
		r.gaps = append(r.gaps, w)
	}
}
