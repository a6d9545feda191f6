package page

// Align says where the entries of a column stand.
type Align int

const (
	AlignLeft  Align = iota
	AlignPoint       // numbers below each other by their decimal mark
	AlignCentre
)

// A Column of a table. Width is in millimetres; a width of 0 shares what is
// left with the other columns of width 0.
type Column struct {
	Head  string
	Width float64
	Align Align
}

// A Cell is one entry. Instead of text it may be drawn: Draw gets the cell's
// upper left corner and its size.
type Cell struct {
	Text  string
	Style *Style // nil: the table's
	Draw  func(l *Leaf, x, y, w, h float64)
	Keep  float64 // height that has to be free below the row on the same leaf
}

// Text is a cell of words or a number.
func Text(s string) Cell { return Cell{Text: s} }

// Box is a cell with an open box to write in.
func Box() Cell {
	return Cell{Draw: func(l *Leaf, x, y, w, h float64) { l.Rect(x+0.5, y+1, w-1, h-2, Edge) }}
}

// Tick is a cell with a box to tick.
func Tick(side float64) Cell {
	return Cell{Draw: func(l *Leaf, x, y, w, h float64) { l.Rect(x+(w-side)/2, y+(h-side)/2, side, side, Edge) }}
}

// A Table lays rows in a flow and repeats its head on each leaf. A row stays
// whole unless it is higher than a leaf.
type Table struct {
	Columns []Column
	Style   Style
	Heads   Style   // 0: Style in bold
	Pitch   float64 // least height of a row
	Every   int     // a light rule below every so many rows; 0: every row
	Bare    bool    // no rules at all

	flow   *Flow
	widths []float64
	points []float64 // largest width before the decimal mark
	after  []float64
	rows   int
}

const cellGap = 2.0 // between neighbouring columns

// Lay lays the whole table.
func (f *Flow) Lay(t Table, rows [][]Cell) {
	t.begin(f, rows)
	if len(rows) > 0 {
		first, _ := t.height(rows[0])
		f.Need(t.headHeight() + first)
	}
	f.unit(nil, t.head)
	for _, row := range rows {
		f.unit(nil, func() { t.row(row) })
	}
}

func (t *Table) begin(f *Flow, rows [][]Cell) {
	t.flow = f
	if t.Heads.Size == 0 {
		t.Heads = Style{Bold, t.Style.Size}
	}
	free, shared := f.Frame.Width(), 0
	for _, c := range t.Columns {
		free -= c.Width
		if c.Width == 0 {
			shared++
		}
	}
	t.widths, t.points, t.after = make([]float64, len(t.Columns)), make([]float64, len(t.Columns)), make([]float64, len(t.Columns))
	for i, c := range t.Columns {
		t.widths[i] = c.Width
		if c.Width == 0 {
			t.widths[i] = free / float64(shared)
		}
		for _, row := range rows {
			if c.Align == AlignPoint && i < len(row) {
				s := t.style(row[i])
				w := s.before(row[i].Text)
				t.points[i] = max(t.points[i], w)
				t.after[i] = max(t.after[i], s.Width(row[i].Text)-w)
			}
		}
	}
}

func (t *Table) style(c Cell) Style {
	if c.Style != nil {
		return *c.Style
	}
	return t.Style
}

func (t *Table) headLines(i int) []string {
	return t.Heads.Wrap(t.Columns[i].Head, t.widths[i]-cellGap)
}

func (t *Table) headHeight() float64 {
	n := 0
	for i := range t.Columns {
		n = max(n, len(t.headLines(i)))
	}
	return float64(n)*t.Heads.Leading() + 1.5
}

// head writes the heads with their last lines level, above a rule.
func (t *Table) head() {
	f, h := t.flow, t.headHeight()
	f.Need(h)
	x := f.Frame.Left
	for i := range t.Columns {
		lines := t.headLines(i)
		y := f.Y + h - 1.5 - float64(len(lines))*t.Heads.Leading()
		f.Leaf().Lines(x, y+t.Heads.Base(), t.Heads, lines)
		x += t.widths[i]
	}
	f.Y += h
	if t.Bare {
		f.Y -= 1.5
	} else {
		f.Leaf().Line(f.Frame.Left, f.Y, f.Frame.Right, f.Y, Edge)
		f.Y += 0.5
	}
	t.rows = 0
}

// height is the height of a row with the lines of its cells.
func (t *Table) height(row []Cell) (float64, [][]string) {
	h, lines := t.Pitch, make([][]string, len(row))
	for i, c := range row {
		if c.Text == "" || i >= len(t.widths) {
			continue
		}
		s := t.style(c)
		if t.Columns[i].Align == AlignPoint {
			lines[i] = []string{c.Text}
		} else {
			lines[i] = s.Wrap(c.Text, t.widths[i]-cellGap)
		}
		h = max(h, float64(len(lines[i]))*s.Leading()+1)
	}
	return h, lines
}

// row lays one row; one that is higher than a leaf goes on over the next.
func (t *Table) row(row []Cell) {
	f := t.flow
	h, lines := t.height(row)
	keep := 0.0
	for _, c := range row {
		keep = max(keep, c.Keep)
	}
	if f.Left() < h+keep && !f.Fresh() && t.rows > 0 {
		f.Break()
		f.Doc.Quiet(t.head)
	}
	for i, c := range row {
		if i < len(t.widths) && c.Draw == nil {
			f.Doc.trace.say(c.Text)
		}
	}
	for f.Left() < h {
		n := max(1, int((f.Left()-1)/t.Style.Leading()))
		part := make([][]string, len(lines))
		longest := 0
		for i := range lines {
			k := min(n, len(lines[i]))
			part[i], lines[i] = lines[i][:k], lines[i][k:]
			longest = max(longest, len(lines[i]))
		}
		t.draw(row, part, f.Left())
		f.Break()
		f.Doc.Quiet(t.head)
		row = wordsOnly(row)
		h = float64(longest)*t.Style.Leading() + 1
		if longest == 0 {
			return
		}
	}
	t.draw(row, lines, h)
}

// wordsOnly drops what is drawn from the rest of a parted row, so that a box
// is not offered twice.
func wordsOnly(row []Cell) []Cell {
	out := make([]Cell, len(row))
	for i, c := range row {
		out[i] = Cell{Text: c.Text, Style: c.Style}
	}
	return out
}

func (t *Table) draw(row []Cell, lines [][]string, h float64) {
	f, l := t.flow, t.flow.Leaf()
	x := f.Frame.Left
	for i, c := range row {
		if i >= len(t.widths) {
			break
		}
		s, w := t.style(c), t.widths[i]
		y := f.Y + 0.5
		if n := float64(len(lines[i])); n*s.Leading() < h-1 && n == 1 {
			y = f.Y + (h-s.Leading())/2
		}
		switch {
		case c.Draw != nil:
			c.Draw(l, x, f.Y, w-cellGap, h)
		case len(lines[i]) == 0:
		case t.Columns[i].Align == AlignPoint:
			f.Doc.Quiet(func() { l.NumberAt(x+t.points[i], y+s.Base(), s, lines[i][0]) })
		case t.Columns[i].Align == AlignCentre && len(lines[i]) == 1:
			f.Doc.Quiet(func() { l.TextCentre(x+(w-cellGap)/2, y+s.Base(), s, lines[i][0]) })
		default:
			f.Doc.Quiet(func() { l.Lines(x, y+s.Base(), s, lines[i]) })
		}
		x += w
	}
	f.Y += h
	t.rows++
	if !t.Bare && (t.Every == 0 || t.rows%t.Every == 0) {
		l.Line(f.Frame.Left, f.Y, f.Frame.Right, f.Y, Hair)
	}
}
