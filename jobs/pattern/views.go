package pattern

import (
	"math"

	"castweek/metal/measure"
)

const (
	// viewStep is the pitch of a view in mm: about 600 dots an inch at true
	// size. A large pattern is seen on at most mostDots across.
	viewStep = 0.04
	mostDots = 1400
)

// A Line is a polyline in mm, x to the right and y up, from the lower left
// corner of its view.
type Line [][2]float64

// A View is the pattern seen from one side, at true size.
type View struct {
	Name          string // "front", "side", "top"
	Width, Height measure.MM
	Outline       []Line // closed: the first point is the last
	Edges         []Line // visible edges inside the outline
	dots          *dots
}

// Views shows the pattern from three sides: front looks through the finger
// hole, side across it, top down on the head.
func (m *Mesh) Views(f Frame) [3]View {
	c := &chain{m.Points, m.Faces, m.body}
	step := max(viewStep, m.Box().longest()/mostDots)
	return [3]View{
		c.view("front", [3]Point{f.Right, f.Up, f.Front}, step),
		c.view("side", [3]Point{f.Front.scale(-1), f.Up, f.Right}, step),
		c.view("top", [3]Point{f.Right, f.Front.scale(-1), f.Up}, step),
	}
}

// dots is what is seen at each dot of a view.
type dots struct {
	cols, rows int
	step       float64
	frame      [3]Point
	face       []int32 // nearest face, -1 for none
	depth      []float64
	normal     []Point // in the frame; the third towards the eye
}

// view finds the nearest face at each dot. The third axis of the frame points
// to the eye, so it is the last crossing of the column.
func (c *chain) view(name string, frame [3]Point, step float64) View {
	lo, hi := turnedBox(c.points, frame)
	longest := max(hi[0]-lo[0], hi[1]-lo[1], hi[2]-lo[2])
	g := newGrid(c.points, frame, longest, max(8, int(longest/step)), make([]flatPoint, len(c.points)))
	d := &dots{cols: g.cols, rows: (g.rows + bandRows - 1) / bandRows * bandRows, step: float64(g.pitch) / g.scale, frame: frame}
	n := d.cols * d.rows
	d.face, d.depth, d.normal = make([]int32, n), make([]float64, n), make([]Point, n)
	for i := range d.face {
		d.face[i] = -1
	}
	g.sweep(c.faces, 0, func(_, band int, list []crossing) {
		for len(list) > 0 {
			var column []crossing
			column, list = columnOf(list)
			x := column[len(column)-1]
			i := band*bandRows*g.cols + int(x.col>>1)
			n := areaVector(c.points, c.faces[x.face]).unit()
			d.face[i], d.depth[i] = x.face, x.depth
			d.normal[i] = Point{n.dot(frame[0]), n.dot(frame[1]), n.dot(frame[2])}
			if d.normal[i][2] < 0 { // the inside, seen through a hole
				d.normal[i] = d.normal[i].scale(-1)
			}
		}
	})
	v := View{Name: name, Width: measure.MM(hi[0] - lo[0]), Height: measure.MM(hi[1] - lo[1]), dots: d}
	v.Outline = d.trace(d.rim, 0)
	v.Edges = d.trace(d.crease, int(0.5/d.step))
	return v
}

// rim tells whether the outline runs between two dots.
func (d *dots) rim(a, b, _ int) bool { return (a < 0 || d.face[a] < 0) != (b < 0 || d.face[b] < 0) }

// sharpTurn is the cosine of the angle above which two neighbouring faces make
// a visible edge, about 37 degrees: more than the facets of a coarse round.
const sharpTurn = 0.8

// crease tells whether an edge is seen between two neighbouring dots: a sharp
// turn of the skin, or a jump in depth that its slope does not explain. axis
// is 0 for neighbours in a row, 1 for neighbours in a column.
func (d *dots) crease(a, b, axis int) bool {
	if a < 0 || b < 0 || d.face[a] < 0 || d.face[b] < 0 || d.face[a] == d.face[b] {
		return false
	}
	na, nb := d.normal[a], d.normal[b]
	if na.dot(nb) < sharpTurn {
		return true
	}
	slope := func(n Point) float64 { return max(-8, min(8, -n[axis]/max(n[2], 1e-3))) }
	sa, sb := slope(na), slope(nb)
	off := math.Abs(d.depth[b] - d.depth[a] - d.step*(sa+sb)/2)
	return off > d.step*(3+math.Abs(sa)+math.Abs(sb))
}
