package treemap

import (
	"cmp"
	"slices"

	"castweek/metal/measure"
	"castweek/sheets/page"
	"castweek/tree"
)

// list lays every casting by level and hour, in the order that a hand goes
// round the trunk, with boxes to tick when it is mounted and when it is cut.
func (p *printer) list(f *page.Flow, t *tree.Tree) {
	f.Gap(4)
	f.Need(bold.Leading() + 4*plain.Leading() + 2*hand.Pitch)
	f.Rule()
	f.Para(bold, p.say("treemap.list"))
	f.Para(plain, p.say("treemap.how"))
	f.Gap(1)
	var rows [][]page.Cell
	var sum measure.Milligram
	last := -1
	for _, h := range inOrder(t.Castings) {
		if h.Level != last {
			last = h.Level
			rows = append(rows, p.levelRow(t, last))
		}
		rows = append(rows, p.row(h))
		sum += h.Metal
	}
	rows = append(rows, p.sumRow("treemap.all", 0, len(t.Castings), sum))
	f.Lay(page.Table{Style: plain, Heads: bold, Pitch: hand.Pitch, Columns: []page.Column{
		{Head: p.say("treemap.head.mounted"), Width: 12, Align: page.AlignCentre},
		{Head: p.say("treemap.head.casting"), Width: max(idWidth(t)+3, 24)},
		{Head: p.say("treemap.head.hour"), Width: 17, Align: page.AlignPoint},
		{Head: p.say("treemap.head.tilt"), Width: 14, Align: page.AlignPoint},
		{Head: p.say("treemap.head.what")},
		{Head: p.say("treemap.head.metal"), Width: 21, Align: page.AlignPoint},
		{Head: p.say("treemap.head.cut"), Width: 12, Align: page.AlignCentre},
		{Head: p.say("treemap.head.bad"), Width: 28}}}, rows)
}

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

func (p *printer) row(h tree.Hanging) []page.Cell {
	hour, tilt := p.say("none"), p.say("none")
	if h.Level > 0 {
		hour, tilt = p.fig.Set(h.Hour, 2), p.fig.Set(h.Tilt, 1)+"°"
	}
	what := h.Design
	if h.Part != "" && h.Part != h.Design {
		what = p.with("treemap.part", "design", h.Design, "part", h.Part)
	}
	if h.Feeders != "" {
		what += "\n" + p.with("treemap.feeder", "feeders", p.fig.Text(h.Feeders))
	}
	return []page.Cell{page.Tick(hand.Tick), {Text: h.Casting, Style: &code}, {Text: hour, Style: &bold}, page.Text(tilt),
		page.Text(what), page.Text(p.exact(h.Metal)), page.Tick(hand.Tick), page.Box()}
}

// levelRow begins a level with its count.
func (p *printer) levelRow(t *tree.Tree, level int) []page.Cell {
	n := 0
	for i := range t.Castings {
		if t.Castings[i].Level == level {
			n++
		}
	}
	k := "treemap.level"
	if level == 0 {
		k = "treemap.nolevel"
	}
	return []page.Cell{{Draw: p.across(p.with(k, "n", p.fig.Count(level), "count", p.count(n)))}}
}

// across writes over the columns to the right of its own.
func (p *printer) across(text string) func(l *page.Leaf, x, y, w, h float64) {
	return func(l *page.Leaf, x, y, w, h float64) {
		l.Text(x, y+h/2+page.CapMM(bold.Size)/2, bold, text)
	}
}

func (p *printer) sumRow(key string, level, n int, sum measure.Milligram) []page.Cell {
	return []page.Cell{{Draw: p.across(p.with(key, "count", p.count(n)))}, {}, {}, {}, {}, {Text: p.exact(sum), Style: &bold}}
}
