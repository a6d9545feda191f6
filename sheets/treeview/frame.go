package treeview

import (
	"slices"

	"castweek/sheets/page"
	"castweek/tree"
)

// A frame turns a drawing's millimetres, y upwards, into those of a leaf.
type frame struct {
	l      *page.Leaf
	x, y   float64 // of the drawing's origin on the leaf
	scale  float64
	mirror bool // seen from the other side: right and left exchanged
}

func (v frame) at(x, y float64) [2]float64 {
	if v.mirror {
		x = -x
	}
	return [2]float64{v.x + x*v.scale, v.y - y*v.scale}
}

func (v frame) path(line [][2]float64) [][2]float64 {
	out := make([][2]float64, len(line))
	for i, p := range line {
		out[i] = v.at(p[0], p[1])
	}
	return out
}

// solid draws a casting, its feeder under it, and hides what is behind.
func (v frame) solid(s tree.Shape) {
	for i := len(s.Lines) - 1; i >= 0; i-- {
		v.l.Patch(v.path(s.Lines[i]), page.Edge)
	}
}

// hidden draws a casting that the trunk stands before.
func (v frame) hidden(s tree.Shape) {
	for _, line := range s.Lines {
		v.l.Dashed(v.path(line), false, page.Hair)
	}
}

// covers tells whether any of some points on paper lies on a casting.
func (v frame) covers(s tree.Shape, points [][2]float64) bool {
	return len(s.Lines) > 0 && slices.ContainsFunc(points, func(p [2]float64) bool { return inside(v.path(s.Lines[0]), p) })
}

// inside counts the sides of an outline that a ray to the right crosses.
func inside(outline [][2]float64, p [2]float64) bool {
	in := false
	for i := range outline {
		a, b := outline[i], outline[(i+1)%len(outline)]
		if (a[1] > p[1]) != (b[1] > p[1]) && p[0] < a[0]+(b[0]-a[0])*(p[1]-a[1])/(b[1]-a[1]) {
			in = !in
		}
	}
	return in
}

func (v frame) pin(s tree.Shape) pin {
	at := v.at(float64(s.X), float64(s.Y))
	return pin{id: s.Casting, x: at[0], y: at[1]}
}

// Widths beside a drawing, in millimetres.
const (
	leader = 3.0 // at least, between a drawing and the ids beside it
	ring   = 5.5 // round a plan, for the numbers of the hours
	key    = 7.0 // below a side view, for the mark and the hours
)
