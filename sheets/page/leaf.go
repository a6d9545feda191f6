package page

import "fmt"

// A Leaf is one page of paper as a list of strokes and words, not yet on a
// sheet: it can be put alone, or beside another with cut marks.
type Leaf struct {
	Paper Paper
	doc   *Doc
	ops   []op
}

// Weights of line in points: rules, frames of boxes, and the third for caution
// frames and change bars.
const (
	Hair  = 0.5
	Edge  = 1.0
	Heavy = 2.0
)

type kind uint8

const (
	opText kind = iota
	opLine
	opRect
	opCircle
	opPath
)

// An op is one thing drawn. a, b, c, d are coordinates in millimetres; what
// they mean depends on the kind.
type op struct {
	kind       kind
	fill       fill
	face       Face
	size       float64 // points: of type, or of the line
	a, b, c, d float64
	text       string
	path       [][2]float64
	closed     bool
}

type fill uint8

const (
	outline fill = iota
	black
	white // filled white with no outline: clears what lies under a label
)

// Leaf begins an empty leaf.
func (d *Doc) Leaf(p Paper) *Leaf { return &Leaf{Paper: p, doc: d, ops: make([]op, 0, 128)} }

func (l *Leaf) add(o op) {
	if l.doc.finite("a drawing", o.a, o.b, o.c, o.d, o.size) {
		l.ops = append(l.ops, o)
	}
}

// Text writes one line with its base line at y, and gives the x at its end.
// Text below the smallest size of the house is an error of the program.
func (l *Leaf) Text(x, y float64, s Style, text string) float64 {
	if s.Size < Smallest {
		l.doc.fail(fmt.Errorf("text of %.1f pt is under %d pt", s.Size, Smallest))
		return x
	}
	l.doc.trace.say(text)
	for _, p := range l.doc.pieces(s, normal(text)) {
		switch p.sign {
		case 0:
			l.add(op{kind: opText, face: s.Face, size: s.Size, a: x, b: y, c: p.width, text: p.text})
		case ' ':
		default:
			l.doc.Quiet(func() { l.sign(p.sign, x+0.05*p.width, y, 0.85*p.width) })
		}
		x += p.width
	}
	if x > l.Paper.W+0.1 || y > l.Paper.H || y < 0 {
		l.doc.remark("outside-paper", "shorten it, or tell the makers of the program", fmt.Sprintf("%q does not fit the paper", text))
	}
	return x
}

// TextRight writes one line that ends at x.
func (l *Leaf) TextRight(x, y float64, s Style, text string) {
	l.Text(x-s.Width(text), y, s, text)
}

// TextCentre writes one line around x.
func (l *Leaf) TextCentre(x, y float64, s Style, text string) {
	l.Text(x-s.Width(text)/2, y, s, text)
}

// Lines writes lines below each other, the first base line at y; it gives the
// base line after the last.
func (l *Leaf) Lines(x, y float64, s Style, lines []string) float64 {
	for _, t := range lines {
		l.Text(x, y, s, t)
		y += Leading(s.Size)
	}
	return y
}

// Line draws a line of a weight in points.
func (l *Leaf) Line(x1, y1, x2, y2, weight float64) {
	l.add(op{kind: opLine, a: x1, b: y1, c: x2, d: y2, size: weight})
}

// Rect draws the outline of a rectangle.
func (l *Leaf) Rect(x, y, w, h, weight float64) {
	l.add(op{kind: opRect, a: x, b: y, c: w, d: h, size: weight})
}

// Bar draws a rectangle filled with black.
func (l *Leaf) Bar(x, y, w, h float64) {
	l.add(op{kind: opRect, fill: black, a: x, b: y, c: w, d: h})
}

// Clear paints a rectangle white, so that a label can lie on a drawing.
func (l *Leaf) Clear(x, y, w, h float64) {
	l.add(op{kind: opRect, fill: white, a: x, b: y, c: w, d: h})
}

// Circle draws the outline of a circle around x, y.
func (l *Leaf) Circle(x, y, r, weight float64) {
	l.doc.trace.stroke([][2]float64{{x, y}})
	l.add(op{kind: opCircle, a: x, b: y, c: r, size: weight})
}

// Disc draws a circle filled with black.
func (l *Leaf) Disc(x, y, r float64) { l.add(op{kind: opCircle, fill: black, a: x, b: y, c: r}) }

// Path draws a run of points; closed joins the last to the first.
func (l *Leaf) Path(points [][2]float64, closed bool, weight float64) {
	for _, p := range points {
		if !l.doc.finite("a drawing", p[0], p[1]) {
			return
		}
	}
	if len(points) > 1 {
		l.doc.trace.stroke(points)
		l.add(op{kind: opPath, path: points, closed: closed, size: weight})
	}
}
