package page

import "math"

// sign draws what the fonts lack, standing on the base line at x with width w.
func (l *Leaf) sign(r rune, x, base, w float64) {
	switch r {
	case '✓':
		l.Tick(x, base-w*0.9, w*0.9)
	case '☐':
		l.Rect(x, base-w, w, w, Edge)
	case '☑':
		l.Rect(x, base-w, w, w, Edge)
		l.Tick(x+w*0.15, base-w*0.85, w*0.7)
	case '△', '⚠':
		l.Triangle(x, base-w*0.87, w, Edge)
	default:
		l.Rect(x, base-w, w, w, Hair)
		l.Line(x, base-w, x+w, base, Hair)
		l.Line(x, base, x+w, base-w, Hair)
	}
}

// Tick draws a tick in a square.
func (l *Leaf) Tick(x, y, side float64) {
	l.Path([][2]float64{{x, y + side*0.55}, {x + side*0.38, y + side*0.95}, {x + side, y + side*0.05}}, false, Edge)
}

// A Shape says what kind of a warning stands beside it, without colour: the
// shapes of ISO 3864 for hazard, what must be done, what must not, and
// information.
type Shape int

const (
	NoShape     Shape = iota
	Hazard            // triangle
	Must              // disc
	MustNot           // barred circle
	Information       // square
)

// Shape draws a shape in a square of the given side.
func (l *Leaf) Shape(s Shape, x, y, side float64) {
	r := side / 2
	switch s {
	case Hazard:
		l.Triangle(x, y+side*0.06, side, Heavy)
		l.Bar(x+r-side*0.04, y+side*0.35, side*0.08, side*0.30)
		l.Bar(x+r-side*0.04, y+side*0.71, side*0.08, side*0.08)
	case Must:
		l.Disc(x+r, y+r, r)
	case MustNot:
		l.Circle(x+r, y+r, r*0.94, Heavy)
		d := r * 0.94 * math.Sqrt2 / 2
		l.Line(x+r-d, y+r-d, x+r+d, y+r+d, Heavy)
	case Information:
		l.Rect(x+side*0.06, y+side*0.06, side*0.88, side*0.88, Heavy)
		l.Bar(x+r-side*0.04, y+side*0.22, side*0.08, side*0.08)
		l.Bar(x+r-side*0.04, y+side*0.38, side*0.08, side*0.40)
	}
}

// Triangle draws an equilateral triangle of a side, its top at y.
func (l *Leaf) Triangle(x, y, side, weight float64) {
	h := side * math.Sqrt(3) / 2
	l.Path([][2]float64{{x, y + h}, {x + side/2, y}, {x + side, y + h}}, true, weight)
}

// Arrow draws an arrow from one point to another, with its head at the second.
func (l *Leaf) Arrow(x1, y1, x2, y2, weight float64) {
	l.Line(x1, y1, x2, y2, weight)
	a := math.Atan2(y2-y1, x2-x1)
	const head, spread = 2.0, 0.45
	l.Path([][2]float64{
		{x2 - head*math.Cos(a-spread), y2 - head*math.Sin(a-spread)}, {x2, y2},
		{x2 - head*math.Cos(a+spread), y2 - head*math.Sin(a+spread)}}, false, weight)
}
