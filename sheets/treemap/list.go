package treemap

import (
	"cmp"
	"slices"

	"castweek/metal/measure"
	"castweek/sheets/page"
	"castweek/tree"
)

// few is up to how many castings stand one below the other, each with its words
// and its feeder; more take two columns.
const few = 8

// list lays every casting by level and hour, in the order that a hand goes
// round the trunk, with boxes to tick when it is mounted and when it is cut.
func (p *printer) list(f *page.Flow, t *tree.Tree) {
	f.Gap(4)
	f.Need(listStart)
	f.Rule()
	f.Para(bold, p.say("treemap.list"))
	f.Para(plain, p.say("treemap.how"))
	f.Gap(1)
	if len(t.Castings) > few {
		p.columns(f, t)
		return
	}
	id := max(idWidth(t)+5, 24)
	what := f.Frame.Width() - 2*tickWidth - id - hourWidth - tiltWidth - metalWidth - badWidth
	var rows [][]page.Cell
	var sum measure.Milligram
	last := -1
	for _, h := range inOrder(t.Castings) {
		if h.Level != last {
			last = h.Level
			rows = append(rows, p.levelRow(t, last))
		}
		rows = append(rows, p.row(h, what-columnGap))
		sum += h.Metal
	}
	rows = append(rows, p.sumRow(len(t.Castings), sum))
	f.Lay(page.Table{Style: plain, Heads: bold, Pitch: bold.Leading() + 3, Columns: []page.Column{
		{Head: p.say("treemap.head.mounted"), Width: tickWidth, Align: page.AlignCentre},
		{Head: p.say("treemap.head.casting"), Width: id},
		{Head: p.say("treemap.head.hour"), Width: hourWidth},
		{Head: p.say("treemap.head.tilt"), Width: tiltWidth},
		{Head: p.say("treemap.head.what"), Width: what},
		{Head: p.say("treemap.head.metal"), Width: metalWidth},
		{Head: p.say("treemap.head.cut"), Width: tickWidth, Align: page.AlignCentre},
		{Head: p.say("treemap.head.bad"), Width: badWidth}}}, rows)
}

// Heights that stay together: of a row with three lines of words, and of the
// list's heading, its explanation, the heads, a level and its first casting.
var (
	oneRow    = 3*plain.Leading() + 1.5
	listStart = 2 + 4*bold.Leading() + 3*plain.Leading() + 1.5 + oneRow
)

// Widths of the columns; hours and weights are placed by their points, so far
// from the left of their columns.
const (
	tickWidth  = 12.0
	hourWidth  = 17.0
	tiltWidth  = 16.0
	metalWidth = 21.0
	badWidth   = 26.0
	columnGap  = 2.0 // that a table leaves free of a column
	hourPoint  = 5.5
	metalAt    = 9.0
)

// inOrder sorts castings by level, hour and id; those without a place come
// first.
func inOrder(castings []tree.Hanging) []tree.Hanging {
	out := slices.Clone(castings)
	slices.SortStableFunc(out, func(a, b tree.Hanging) int {
		return cmp.Or(cmp.Compare(a.Level, b.Level), cmp.Compare(turn(a.Hour), turn(b.Hour)), cmp.Compare(a.Casting, b.Casting))
	})
	return out
}

// turn puts 12 o'clock before 1, where a hand that goes round begins.
func turn(hour float64) float64 {
	if hour >= 12 {
		return hour - 12
	}
	return hour
}

func (p *printer) row(h tree.Hanging, width float64) []page.Cell {
	hour, tilt := p.place(h)
	what := p.what(h)
	if len(plain.Wrap(what, width)) == 1 {
		what += "\n" // two lines as the id and the feeder, the words on the first
	}
	return []page.Cell{page.Tick(hand.Tick), {Draw: p.idAndFeeder(h)},
		{Draw: func(l *page.Leaf, x, y, w, _ float64) { l.NumberAt(x+hourPoint, y+0.5+bold.Base(), bold, hour) }},
		{Draw: func(l *page.Leaf, x, y, w, _ float64) { l.Text(x, y+0.5+plain.Base(), plain, tilt) }},
		page.Text(what), p.metal(plain, h.Metal), page.Tick(hand.Tick), page.Box()}
}

// idAndFeeder writes the id, and the feeder below it as far as the end of the
// tilts: words of the design get the width.
func (p *printer) idAndFeeder(h tree.Hanging) func(l *page.Leaf, x, y, w, _ float64) {
	return func(l *page.Leaf, x, y, w, _ float64) {
		y += 0.5
		l.Text(x, y+code.Base(), code, h.Casting)
		for _, line := range plain.Wrap(p.fig.Text(h.Feeders), w+hourWidth+tiltWidth) {
			y += plain.Leading()
			l.Text(x, y+plain.Base(), plain, line)
		}
	}
}

// levelRow begins a level with its count.
func (p *printer) levelRow(t *tree.Tree, level int) []page.Cell {
	return []page.Cell{{Draw: p.across(p.levelWords(t, level)), Keep: oneRow}}
}

func (p *printer) levelWords(t *tree.Tree, level int) string {
	n := 0
	for i := range t.Castings {
		if t.Castings[i].Level == level {
			n++
		}
	}
	k := "treeview.level"
	if level == 0 {
		k = "treemap.nolevel"
	}
	return p.with(k, "n", p.fig.Count(level), "count", p.fig.Castings(n))
}

// metal is a weight beside the id, on the first line of its row.
func (p *printer) metal(s page.Style, m measure.Milligram) page.Cell {
	return page.Cell{Draw: func(l *page.Leaf, x, y, w, _ float64) { l.NumberAt(x+metalAt, y+0.5+s.Base(), s, p.Exact(m)) }}
}

// across writes over the columns to the right of its own.
func (p *printer) across(text string) func(l *page.Leaf, x, y, w, h float64) {
	return func(l *page.Leaf, x, y, w, h float64) {
		l.Text(x, y+h-bold.Leading()-0.5+bold.Base(), bold, text)
	}
}

func (p *printer) sumRow(n int, sum measure.Milligram) []page.Cell {
	all := p.with("treemap.all", "count", p.fig.Castings(n))
	return []page.Cell{{Draw: func(l *page.Leaf, x, y, w, _ float64) { l.Text(x, y+0.5+bold.Base(), bold, all) }}, {}, {}, {}, {}, p.metal(bold, sum)}
}
