package page

// ControlLength is that of the bar, in millimetres.
const ControlLength = 50.0

// ControlBar draws a bar that is 50 mm long when the page was printed at its
// true size, and betrays "fit to page".
func (l *Leaf) ControlBar(x, y float64, s Style, caption string) {
	const length = ControlLength
	l.Line(x, y, x+length, y, Edge)
	for _, at := range []float64{0, 10, 20, 30, 40, length} {
		h := 1.0
		if at == 0 || at == length {
			h = 2
		}
		l.Line(x+at, y-h, x+at, y, Edge)
	}
	l.Text(x+length+2, y, s, caption)
}

// ChangeBar marks lines from y1 to y2 as changed since the last print, at the
// outer edge of the frame.
func (l *Leaf) ChangeBar(x, y1, y2 float64) { l.Bar(x, y1, 1.5, y2-y1) }

// cutMarks are short lines where a sheet is cut in half.
func (d *Doc) cutMarks(p Paper) *Leaf { return d.gridMarks(p, 2, 1) }

// gridMarks are short lines at the edges where a sheet is cut into columns and
// rows. They begin where printers can print.
func (d *Doc) gridMarks(p Paper, columns, rows int) *Leaf {
	const length = 2.5
	l := d.Leaf(p)
	for i := 1; i < columns; i++ {
		x := p.W * float64(i) / float64(columns)
		l.Line(x, 4.5, x, 4.5+length, Hair)
		l.Line(x, p.H-4.5-length, x, p.H-4.5, Hair)
	}
	for i := 1; i < rows; i++ {
		y := p.H * float64(i) / float64(rows)
		l.Line(4.5, y, 4.5+length, y, Hair)
		l.Line(p.W-4.5-length, y, p.W-4.5, y, Hair)
	}
	return l
}
