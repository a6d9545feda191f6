package pour

import (
	"strings"
	"unicode"
	"unicode/utf8"

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

// benchFlow begins pages at the bench: what they are for above, the name they
// go by above and below. Those of a tree all say which it is, for they get parted. more is how many pages follow that count with them.
func (p *printer) benchFlow(title, name string, t *tree.Tree, more int) *page.Flow {
	f := p.doc.Flow(p.paper, p.paper.Inside(14))
	f.Head = func(l *page.Leaf, n int) float64 {
		y := f.Frame.Top + benchValue.Base()
		x := l.Text(f.Frame.Left, y, benchWords, p.say(title))
		if p.cast.Proposal {
			l.Text(x+6, y, benchHead, p.say("sheet.proposal"))
		}
		l.TextRight(f.Frame.Right, y, page.Style{Face: page.MonoBold, Size: page.Bench.Value}, name)
		y = f.Frame.Top + benchValue.Leading() + 1
		if t == nil {
			return y
		}
		return p.identity(l, f.Frame, y, t)
	}
	f.Foot = func(l *page.Leaf, n, of int) {
		end := p.foot(l, benchCode, benchStamp, name, n, of+more)
		p.TrueSize(l, max(l.Paper.W/2-40, end+3), l.Paper.H-page.LineEdge, benchStamp, f.Frame.Right-benchCode.Width(name)-3)
	}
	return f
}

// benchPages are the tree at the bench, in the order of the work: count what
// hangs on it, see to what the builder has to, weigh it, invest it; then, on a
// page of its own for another day and another place, the metal and what comes
// before and after the pour.
func (p *printer) benchPages(t *tree.Tree) []*page.Leaf {
	f := p.benchFlow("pour.bench", t.Name, t, 1)
	p.Opening(f, benchHead, benchWords, hand.Tick)
	p.names(f, t)
	f.Para(benchWords, p.particulars(t))
	p.hangs(f, t)
	p.buildNotes(f, t)
	p.built(f, t)
	p.invest(f, t)
	drawn := p.drawing(f, t, false)
	f.Break()
	p.charge(f, t)
	p.lots(f, t)
	p.burns(f, t)
	p.beforePour(f, t)
	p.quench(f, t)
	if !drawn {
		p.drawing(f, t, true)
	}
	return f.End()
}

// identity is what must not be taken for another, at the head of every page:
// flask, alloy, and whose metal. A name that would fill the page is cut short
// there; the first page has it whole.
func (p *printer) identity(l *page.Leaf, frame page.Frame, y float64, t *tree.Tree) float64 {
	x := l.Text(frame.Left, y+benchName.Base(), benchName, p.with("pour.flask", "letter", t.Letter()))
	if rest := benchName.Wrap(t.Alloy, frame.Right-x-10); len(rest) == 1 {
		l.Text(x+10, y+benchName.Base(), benchName, t.Alloy)
		y += benchName.Leading()
	} else {
		y = l.Lines(frame.Left, y+benchName.Leading()+benchName.Base(), benchName, headLines(benchName, t.Alloy, frame.Width())) - benchName.Base()
	}
	if owner, yes := whose(t); yes {
		y = l.Lines(frame.Left, y+benchValue.Base(), benchValue, headLines(benchValue, p.with("pour.owner", "owner", owner), frame.Width())) - benchValue.Base()
	}
	return y
}

// headMost is how many lines of one name stand in the head of a page.
const headMost = 2

func headLines(s page.Style, text string, width float64) []string {
	lines := s.Wrap(text, width)
	if len(lines) > headMost {
		lines = append(lines[:headMost-1:headMost-1], s.Wrap(lines[headMost-1], width-s.Width(" ..."))[0]+" ...")
	}
	return lines
}

// names are those that the head has to cut short.
func (p *printer) names(f *page.Flow, t *tree.Tree) {
	if len(benchName.Wrap(t.Alloy, f.Frame.Width())) > headMost {
		f.Para(benchValue, t.Alloy)
	}
	if owner, yes := whose(t); yes && len(benchValue.Wrap(p.with("pour.owner", "owner", owner), f.Frame.Width())) > headMost {
		f.Para(benchValue, p.with("pour.owner", "owner", owner))
	}
}

// particulars are the flask and what belongs to it, in one line.
func (p *printer) particulars(t *tree.Tree) string {
	size := p.with("pour.size", "diameter", p.fig.Set(float64(t.FlaskMM.Diameter), 1), "height", p.fig.Set(float64(t.FlaskMM.Height), 1))
	parts := []string{size}
	if t.Flask != "" && !strings.HasPrefix(size, t.Flask) {
		parts = []string{t.Flask, size}
	}
	for _, x := range []struct{ what, name string }{{p.say("pour.crucible"), t.Crucible}, {p.say("pour.powder"), t.Powder}, {p.say("pour.section"), t.Section}} {
		if x.name != "" {
			parts = append(parts, named(x.what, x.name))
		}
	}
	return strings.Join(parts, ", ")
}

// named puts what a thing is before its name, unless the name says it itself:
// "gold crucible", but "crucible 2".
func named(what, name string) string {
	if strings.Contains(strings.ToLower(name), strings.ToLower(what)) {
		return name
	}
	return what + " " + name
}

// buildNotes is what the builder has to see to, with what to do about it,
// before the tree is built.
func (p *printer) buildNotes(f *page.Flow, t *tree.Tree) {
	if len(t.Build) == 0 {
		return
	}
	p.section(f, "pour.notes", hand.Pitch)
	for _, n := range t.Build {
		p.ticked(f, upper(p.fig.Text(n.Text))+".", upper(p.fig.Text(n.Remedy))+".")
	}
}

// ticked is what is to be seen to with a box to tick before it, and below it
// what to do.
func (p *printer) ticked(f *page.Flow, text, remedy string) {
	const side = 6.0
	left := f.Frame.Left + side*5/3
	f.Gap(1)
	f.Need(max(3*benchWords.Leading(), side+1))
	top, l := f.Y, f.Leaf()
	l.TickBox(f.Frame.Left, top+0.5, side)
	f.ParaAt(benchWords, left, f.Frame.Right-left, text)
	if remedy != "." {
		f.ParaAt(benchHead, left, f.Frame.Right-left, remedy)
	}
	if f.Leaf() == l {
		f.Y = max(f.Y, top+side+1)
	}
}

func upper(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if r == utf8.RuneError {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
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
	high := boxesHeight
	if t.Lots.Known { // each lot has boxes of its own below
		high = lotsHeight
	}
	p.section(f, "pour.charge", boxesHeight+2)
	button := p.with("pour.line.button", "rule", p.fig.Text(t.Button))
	if t.Rule.Minimum > 0 {
		button += p.with("pour.line.least", "g", p.fig.Set(float64(t.Rule.Minimum), 3))
	}
	var rows [][]page.Cell
	for _, line := range []struct {
		label string
		mg    measure.Milligram
	}{{p.fig.Castings(len(t.Castings)), c.Patterns}, {p.say("pour.line.feeders"), c.Feeders}, {p.say("pour.line.trunk"), c.Trunk},
		{button, c.Button}, {p.with("pour.line.loss", "percent", p.fig.Set(float64(t.Loss), 3)), c.MeltLoss}, {p.say("pour.line.rounding"), c.Rounding}} {
		rows = append(rows, []page.Cell{page.Text(line.label), page.Text(p.Exact(line.mg))})
	}
	rows = append(rows, []page.Cell{{Text: p.say("pour.together"), Style: &benchHead}, {Text: p.Exact(c.Total), Style: &benchHead}})
	p.beside(f, high, func() {
		f.Lay(page.Table{Style: benchWords, Every: 3, Columns: []page.Column{{}, {Head: p.say("pour.planned"), Width: 32, Align: page.AlignPoint}}}, rows)
	}, func(l *page.Leaf, x, y, w float64) { p.metalBoxes(l, x, y, w, t) })
}

// Heights of what is written beside the charge: a line for a lot, and all of it.
const (
	lotLine     = 9.0
	boxesHeight = 62.0
	lotsHeight  = 26.0 // without the lots
)

// writeAt is where the boxes begin, right of their words.
const writeAt = 42.0

// metalBoxes are for what is really put into the crucible: fresh and returned
// metal by themselves, each with the lot that it is from.
func (p *printer) metalBoxes(l *page.Leaf, x, y, w float64, t *tree.Tree) {
	form := p.Cells(t.Charge.Total)
	end := l.Text(x, y+benchValue.Base(), benchWords, p.say("pour.grams"))
	l.Text(max(x+writeAt, end+2), y+benchValue.Base(), benchValue, p.Scale(t.Charge.Total)+"\u00a0"+p.say("unit.g"))
	y += benchValue.Leading() + 1
	keys := []string{"pour.fresh", "pour.returned", "pour.allmetal"}
	if t.Lots.Known {
		keys = keys[2:]
	}
	for _, key := range keys {
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
	f.Aside(height, func(l *page.Leaf, y float64) { right(l, middle+gap/2, y+1, frame.Right-middle-gap/2) })
	f.Frame.Right = middle - gap/2
	left()
	f.Frame = frame
	if f.Leaf() == l {
		f.Y = max(f.Y, y+1+height)
	}
}
