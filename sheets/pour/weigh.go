package pour

import (
	"strings"

	"castweek/metal/measure"
	"castweek/sheets/page"
	"castweek/tree"
)

// Type at the bench, where tree and metal are weighed.
var (
	benchStamp = page.Style{Face: page.Regular, Size: page.Bench.Stamp}
	benchWords = page.Style{Face: page.Regular, Size: page.Bench.Words}
	benchHead  = page.Style{Face: page.Bold, Size: page.Bench.Words}
	benchCode  = page.Style{Face: page.MonoBold, Size: page.Bench.Words}
	benchValue = page.Style{Face: page.Bold, Size: page.Bench.Value}
	benchName  = page.Style{Face: page.Bold, Size: page.Bench.Identity}
)

// hand at the bench is dirty but without gloves.
var hand = page.Dirty

// weighPage is the tree at the bench, in the order of the work: count what
// hangs on it, weigh it before it is invested, weigh the metal. It gives the number of its pages,
// after which the page at the kiln counts.
func (p *printer) weighPage(t *tree.Tree) (pages int) {
	f := p.doc.Flow(p.paper, p.paper.Inside(14))
	f.Head = func(l *page.Leaf, n int) float64 {
		y := f.Frame.Top + benchValue.Base()
		x := l.Text(f.Frame.Left, y, benchWords, p.say("pour.weigh"))
		if p.cast.Proposal {
			l.Text(x+6, y, benchHead, p.say("sheet.proposal"))
		}
		l.TextRight(f.Frame.Right, y, page.Style{Face: page.MonoBold, Size: page.Bench.Value}, t.Name)
		return f.Frame.Top + benchValue.Leading() + 1
	}
	f.Foot = func(l *page.Leaf, n, of int) {
		p.foot(l, benchCode, benchStamp, t.Name, n, of+1)
		l.ControlBar(l.Paper.W/2-40, l.Paper.H-page.LineEdge, benchStamp, p.say("sheet.bar"))
	}
	wide := benchName.Width(t.Alloy) > f.Frame.Width()-50
	f.Block(benchName.Leading(), func(l *page.Leaf, x, y, w float64) {
		x = l.Text(x, y+benchName.Base(), benchName, p.with("pour.flask", "letter", t.Letter()))
		if !wide {
			l.Text(x+10, y+benchName.Base(), benchName, t.Alloy)
		}
	})
	if wide {
		f.Para(benchName, t.Alloy)
	}
	f.Para(benchWords, p.particulars(t))
	if owner, yes := whose(t); yes {
		f.Para(benchValue, p.with("pour.owner", "owner", owner))
	}
	p.hangs(f, t)
	p.built(f, t)
	f.Gap(2)
	p.caution(f, "pour.warn.dust", benchHead, benchWords, benchShape)
	p.charge(f, t)
	p.lots(f, t)
	p.flask(f, t)
	if len(t.Notes) > 0 {
		p.section(f, "pour.notes", benchWords.Leading())
		for _, n := range t.Notes {
			f.Para(benchWords, p.fig.Text(n))
		}
	}
	leaves := f.End()
	p.doc.Put(leaves...)
	return len(leaves)
}

// particulars are the flask and what belongs to it, in one line.
func (p *printer) particulars(t *tree.Tree) string {
	size := p.with("pour.size", "diameter", p.fig.Set(float64(t.FlaskMM.Diameter), 1), "height", p.fig.Set(float64(t.FlaskMM.Height), 1))
	parts := []string{size}
	if t.Flask != "" && !strings.HasPrefix(size, t.Flask) {
		parts = []string{t.Flask, size}
	}
	if t.Crucible != "" {
		parts = append(parts, p.with("pour.crucible", "crucible", t.Crucible))
	}
	if t.Powder != "" {
		parts = append(parts, p.with("pour.powder", "powder", t.Powder))
	}
	if t.Section != "" {
		parts = append(parts, p.with("pour.section", "section", t.Section))
	}
	return strings.Join(parts, ", ")
}

// section begins a part of the page and keeps its heading with what follows.
func (p *printer) section(f *page.Flow, key string, follows float64) {
	f.Gap(3)
	f.Need(benchHead.Leading() + 2 + follows)
	f.Rule()
	f.Para(benchHead, p.say(key))
}

// hangs lists the castings, like ones together, each by its id.
func (p *printer) hangs(f *page.Flow, t *tree.Tree) {
	p.section(f, "pour.hangs", 3*hand.Pitch)
	var rows [][]page.Cell
	for _, g := range groups(t) {
		rows = append(rows, []page.Cell{page.Tick(hand.Tick), page.Text(p.fig.Count(len(g.ids))), page.Text(g.what), {Text: strings.Join(g.ids, "  "), Style: &benchCode}})
	}
	rows = append(rows, []page.Cell{page.Tick(hand.Tick), {Text: p.fig.Count(len(t.Castings)), Style: &benchHead}, {Text: p.say("pour.together"), Style: &benchHead}})
	f.Lay(page.Table{Style: benchWords, Pitch: hand.Pitch, Columns: []page.Column{{Width: 13}, {Head: p.say("pour.castings"), Width: 23, Align: page.AlignPoint},
		{Head: p.say("pour.what")}, {Head: p.say("pour.ids"), Width: idsWidth(groups(t))}}}, rows)
}

// idsWidth is the width of the column of ids: room for up to three of the
// longest beside each other, so that words get what ids do not need.
func idsWidth(list []group) float64 {
	const beside = 3
	widest := benchHead.Width("which")
	for _, g := range list {
		for i := 0; i < len(g.ids); i++ {
			widest = max(widest, benchCode.Width(strings.Join(g.ids[i:min(i+beside, len(g.ids))], "  ")))
		}
	}
	return min(widest+4, 90)
}

// a group is the castings of one part of one job.
type group struct {
	job, part string
	what      string
	ids       []string
}

func groups(t *tree.Tree) []group {
	var out []group
	for i := range t.Castings {
		h := &t.Castings[i]
		at := -1
		for k := range out {
			if out[k].job == h.Job && out[k].part == h.Part {
				at = k
			}
		}
		if at < 0 {
			what := h.Design
			if h.Part != "" && h.Part != h.Design {
				what += ": " + h.Part
			}
			out = append(out, group{job: h.Job, part: h.Part, what: what})
			at = len(out) - 1
		}
		out[at].ids = append(out[at].ids, h.Casting)
	}
	return out
}

// built is the tree on the scale, before it is invested: by then a casting too
// many or too few is lost.
func (p *printer) built(f *page.Flow, t *tree.Tree) {
	p.section(f, "pour.built", 3*(hand.CellH+2))
	var rows [][]page.Cell
	for _, m := range t.Before {
		rows = append(rows, []page.Cell{page.Text(m.Material), page.Text(p.Exact(m.Weight))})
	}
	rows = append(rows, []page.Cell{{Text: p.say("pour.together"), Style: &benchHead}, {Text: p.Exact(t.Built()), Style: &benchHead}})
	form := p.Cells(t.Built())
	p.beside(f, 3*(hand.CellH+2), func() {
		f.Lay(page.Table{Style: benchWords, Columns: []page.Column{{}, {Head: p.say("pour.planned"), Width: 32, Align: page.AlignPoint}}}, rows)
	}, func(l *page.Leaf, x, y, w float64) {
		for i, key := range []string{"pour.withbase", "pour.base", "pour.tree"} {
			base := y + hand.CellH - 2
			l.Text(x, base, benchWords, []string{"", "−", "="}[i])
			l.Text(x+6, base, benchWords, p.say(key))
			l.Digits(x+writeAt, y, hand, form, benchWords, p.say("unit.g"))
			y += hand.CellH + 2
		}
	})
	f.Gap(1.5)
	if d := t.Drawing; d.TrunkLength > 0 {
		f.Para(benchHead, p.with("pour.trunk", "diameter", p.fig.Set(float64(d.TrunkDiameter), 1), "length", p.fig.Set(float64(d.TrunkLength), 1)))
	}
	if t.Built() == 0 {
		f.Para(benchHead, p.say("pour.norecount"))
		return
	}
	least, greatest := t.BuiltWithin(p.cast.House)
	f.Para(benchHead, p.with("pour.recount", "low", p.Scale(least), "high", p.Scale(greatest)))
	f.Para(benchWords, p.say("pour.retype"))
}

// charge is the metal line by line, to the milligram so that it adds up, and
// the boxes for what is really weighed.
func (p *printer) charge(f *page.Flow, t *tree.Tree) {
	c := t.Charge
	p.section(f, "pour.charge", boxesHeight+2)
	button := p.with("pour.line.button", "rule", p.fig.Text(t.Button))
	if t.Rule.Minimum > 0 {
		button += p.with("pour.line.least", "g", p.fig.Set(float64(t.Rule.Minimum), 3))
	}
	var rows [][]page.Cell
	for _, line := range []struct {
		label string
		mg    measure.Milligram
	}{{p.with("pour.line.castings", "n", p.fig.Count(len(t.Castings))), c.Patterns}, {p.say("pour.line.feeders"), c.Feeders}, {p.say("pour.line.trunk"), c.Trunk},
		{button, c.Button}, {p.with("pour.line.loss", "percent", p.fig.Set(float64(t.Loss), 3)), c.MeltLoss}, {p.say("pour.line.rounding"), c.Rounding}} {
		rows = append(rows, []page.Cell{page.Text(line.label), page.Text(p.Exact(line.mg))})
	}
	rows = append(rows, []page.Cell{{Text: p.say("pour.together"), Style: &benchHead}, {Text: p.Exact(c.Total), Style: &benchHead}})
	p.beside(f, boxesHeight, func() {
		f.Lay(page.Table{Style: benchWords, Every: 3, Columns: []page.Column{{}, {Head: p.say("pour.planned"), Width: 32, Align: page.AlignPoint}}}, rows)
	}, func(l *page.Leaf, x, y, w float64) { p.metalBoxes(l, x, y, w, t) })
}

// Heights of what is written beside the charge: a line for a lot, and all of it.
const (
	lotLine     = 9.0
	boxesHeight = 62.0
)

// writeAt is where the boxes begin, right of their words.
const writeAt = 42.0

// metalBoxes are for what is really put into the crucible: fresh and returned
// metal by themselves, each with the lot that it is from.
func (p *printer) metalBoxes(l *page.Leaf, x, y, w float64, t *tree.Tree) {
	form := p.Cells(t.Charge.Total)
	l.Text(x, y+benchValue.Base(), benchWords, p.say("pour.grams"))
	l.Text(x+writeAt, y+benchValue.Base(), benchValue, p.Scale(t.Charge.Total)+"\u00a0"+p.say("unit.g"))
	y += benchValue.Leading() + 1
	for _, key := range []string{"pour.fresh", "pour.returned", "pour.allmetal"} {
		l.Text(x, y+hand.CellH-2, benchWords, p.say(key))
		l.Digits(x+writeAt, y, hand, form, benchWords, p.say("unit.g"))
		y += hand.CellH
		if key == "pour.allmetal" {
			return
		}
		end := l.Text(x+6, y+lotLine-2, benchWords, p.say("pour.lot"))
		l.WriteLine(end+2, y+lotLine-1, x+w-end-2)
		y += lotLine + 1.5
	}
}

// beside lays a table in the left half and what is written by hand in the
// right one, of the height given, on the same leaf.
func (p *printer) beside(f *page.Flow, height float64, left func(), right func(l *page.Leaf, x, y, w float64)) {
	const gap = 10.0
	f.Need(height)
	frame, l, y := f.Frame, f.Leaf(), f.Y
	middle := frame.Left + frame.Width()/2
	right(l, middle+gap/2, y+1, frame.Right-middle-gap/2)
	f.Frame.Right = middle - gap/2
	left()
	f.Frame = frame
	if f.Leaf() == l {
		f.Y = max(f.Y, y+1+height)
	}
}
