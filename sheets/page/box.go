package page

import "strings"

// A Hand is who writes on the sheet. Sizes in millimetres (own choice between
// those of form guides for desks and for workers; no source for gloves).
type Hand struct {
	Tick         float64 // side of a tick box
	Pitch        float64 // from row to row
	CellW, CellH float64 // of a box for one digit
}

var (
	Desk   = Hand{6, 9, 5, 8}
	Dirty  = Hand{8, 11, 6, 9}
	Gloved = Hand{10, 14, 8, 12}
)

// pointGap is the printed decimal point between digit boxes.
const pointGap = 1.2

// TickBox draws an empty box to tick and gives the x where its words begin: a
// gap of two thirds of the side.
func (l *Leaf) TickBox(x, y, side float64) float64 {
	l.Rect(x, y, side, side, Edge)
	return x + side*5/3
}

// Digits draws boxes for a number written by hand, by a form such as "00.00":
// one box a digit, the point printed, and the unit outside on the right. It
// gives the x after the unit.
func (l *Leaf) Digits(x, y float64, h Hand, form string, s Style, unit string) float64 {
	for _, r := range form {
		switch r {
		case '.', ',':
			if r == ',' {
				l.Path([][2]float64{{x + pointGap + 0.4, y + h.CellH - 1.4}, {x + pointGap - 0.2, y + h.CellH + 0.6}}, false, Heavy)
			} else {
				l.Disc(x+pointGap, y+h.CellH-pointGap, pointGap/2)
			}
			x += 2 * pointGap
		default:
			l.Rect(x, y, h.CellW, h.CellH, Edge)
			x += h.CellW
		}
	}
	if unit == "" {
		return x
	}
	return l.Text(x+1.5, y+h.CellH-2, s, unit)
}

// DigitsWidth is the width that Digits takes.
func (h Hand) DigitsWidth(form string, s Style, unit string) float64 {
	points := strings.Count(form, ".") + strings.Count(form, ",")
	w := float64(len(form)-points)*h.CellW + float64(points)*2*pointGap
	if unit != "" {
		w += 1.5 + s.Width(unit)
	}
	return w
}

// WriteBox draws an open box for words, its caption above the upper left.
func (l *Leaf) WriteBox(x, y, w, h float64, s Style, caption string) {
	if caption != "" {
		l.Text(x, y-1.2, s, caption)
	}
	l.Rect(x, y, w, h, Edge)
}

// WriteLine draws a line to write on, from x to x+w at y.
func (l *Leaf) WriteLine(x, y, w float64) { l.Line(x, y, x+w, y, Hair) }
