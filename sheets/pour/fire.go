package pour

import (
	"castweek/metal/measure"
	"castweek/sheets/page"
	"castweek/tree"
)

// lots is the charge lot by lot, with boxes for what is really weighed out, and
// the lots that stay where they are.
func (p *printer) lots(f *page.Flow, t *tree.Tree) {
	if !t.Lots.Known {
		return
	}
	p.section(f, "pour.lots", 2*hand.CellH)
	var rows [][]page.Cell
	row := func(name, from string, weight measure.Milligram) {
		form := p.Cells(weight)
		rows = append(rows, []page.Cell{page.Text(name), page.Text(from), page.Text(p.Scale(weight)),
			{Draw: func(l *page.Leaf, x, y, w, h float64) {
				l.Digits(x, y+(h-hand.CellH)/2, hand, form, benchWords, p.say("unit.g"))
			}}})
	}
	for _, k := range t.Lots.Takes {
		row(p.fig.Text(k.Lot), p.with("pour.lots.from", "form", k.Form, "n", p.fig.Count(k.Melts)), k.Weight)
	}
	if t.Lots.Short > 0 {
		row(p.say("pour.lots.short"), "", t.Lots.Short)
	}
	if len(rows) > 0 {
		f.Lay(page.Table{Style: benchWords, Pitch: hand.CellH + 2, Columns: []page.Column{{Head: p.say("pour.lot")}, {Head: p.say("pour.lots.what")},
			{Head: p.say("pour.planned"), Width: 28, Align: page.AlignPoint}, {Head: p.say("pour.lots.real"), Width: 52}}}, rows)
	}
	for _, a := range t.Lots.Aside {
		f.Para(benchWords, p.with("pour.lots.aside", "lot", p.fig.Text(a.Lot), "why", p.fig.Text(a.Reason)))
	}
}

// burns says which kiln load a flask goes into and when it comes out.
func (p *printer) burns(f *page.Flow, t *tree.Tree) {
	load := p.cast.LoadOf(t)
	if load == nil {
		return
	}
	p.section(f, "pour.burn", 2*benchWords.Leading())
	f.Para(benchHead, p.with("pour.burn.on", "n", p.fig.Count(load.Number), "name", p.fig.Text(load.Programme), "on", p.fig.Moment(load.On)))
	f.Para(benchWords, p.with("pour.burn.out", "at", p.fig.Moment(t.PourAt), "deg", p.degrees(t.FlaskAt)))
}

// unknownHeat asks for what no sheet on file gives, before the metal is melted.
func (p *printer) unknownHeat(f *page.Flow, t *tree.Tree) {
	for _, u := range []struct {
		known       bool
		label, todo string
	}{{t.MetalAt > 0, p.say("pour.metalat"), p.with("pour.unknown.metal", "alloy", t.Alloy)}, {t.FlaskAt > 0, p.say("pour.flaskat"), p.with("pour.unknown.flask", "alloy", t.Alloy)}} {
		if u.known {
			continue
		}
		f.Gap(2)
		f.Para(benchHead, u.todo)
		f.Gap(1)
		f.Block(hand.CellH+2, func(l *page.Leaf, x, y, w float64) {
			l.Text(x, y+hand.CellH-2, benchWords, u.label)
			end := l.Digits(x+writeAt, y, hand, "0000", benchWords, "°C")
			end = l.Text(end+8, y+hand.CellH-2, benchWords, p.say("pour.unknown.from"))
			l.WriteLine(end+2, y+hand.CellH-1, x+w-end-2)
		})
	}
}

// beforePour is what stands ready before the flask leaves the kiln.
func (p *printer) beforePour(f *page.Flow, t *tree.Tree) {
	p.section(f, "pour.ready", 2*(benchShape+3)+benchWords.Leading())
	p.unknownHeat(f, t)
	p.warn(f, p.say("pour.warn.two"))
	p.warn(f, p.say("pour.warn.mould"))
	if m := p.cast.Out(t); m > 0 {
		f.Para(benchHead, p.with("pour.ready.out", "n", p.fig.Set(m, 1)))
	}
	for _, n := range t.Notes {
		f.Para(benchWords, p.fig.Text(n))
	}
	if t.HeatSheet != "" {
		f.Para(benchStamp, p.with("pour.sheet", "source", p.fig.Text(t.HeatSheet)))
	}
}

// quench is how long the flask stands before it goes into water. Where sheets
// disagree, the page says so and leaves the decision and its box to a person.
func (p *printer) quench(f *page.Flow, t *tree.Tree) {
	p.section(f, "pour.quench", 2*benchWords.Leading()+hand.CellH+1)
	q := t.Quench
	if q.Never {
		f.Para(benchValue, p.say("pour.quench.never"))
		return
	}
	wait := p.say("pour.quench.unknown")
	if q.Most > 0 {
		wait = p.with("pour.quench.wait", "low", p.fig.Set(q.Least, 0), "high", p.fig.Set(q.Most, 0))
		if q.Least == q.Most {
			wait = p.with("pour.quench.one", "n", p.fig.Set(q.Most, 0))
		}
	}
	f.Block(hand.CellH+1, func(l *page.Leaf, x, y, w float64) {
		base := y + hand.CellH - 2
		l.Text(x, base, benchHead, wait)
		label := p.say("pour.quench.real")
		x += w - hand.DigitsWidth("00", benchWords, "min")
		l.TextRight(x-3, base, benchWords, label)
		l.Digits(x, y, hand, "00", benchWords, "min")
	})
	switch {
	case q.Disputed:
		f.Para(benchHead, p.with("pour.quench.disputed", "words", p.fig.Text(q.Words)))
	case q.Words != "":
		f.Para(benchWords, p.fig.Text(q.Words))
	}
}
