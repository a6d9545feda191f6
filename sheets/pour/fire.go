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

// flask is powder and liquid, the kiln's programme and the wait before the
// quench.
func (p *printer) flask(f *page.Flow, t *tree.Tree) {
	if t.Invest.Powder == 0 {
		return
	}
	p.section(f, "pour.invest", 2*benchWords.Leading())
	g := func(m measure.Milligram) string { return p.fig.Set(float64(m)/1000, 0) }
	if t.Bond == "phosphate" {
		f.Para(benchWords, p.say("pour.burn.ammonia"))
	}
	f.Para(benchHead, p.with("pour.invest.mix", "powder", t.Powder, "p", g(t.Invest.Powder), "w", g(t.Invest.Liquid), "ratio", p.fig.Set(float64(t.Invest.Ratio), 1)))
	for _, k := range t.Invest.Clock {
		f.Para(benchWords, p.with("pour.invest.clock", "from", p.fig.Set(k.From, 1), "till", p.fig.Set(k.Till, 1), "step", p.fig.Text(k.Step)))
	}
	f.Para(benchStamp, p.with("pour.sheet", "source", p.fig.Text(t.Invest.Sheet)))
	if t.Kiln > 0 && t.Kiln <= len(p.cast.Loads) {
		l := p.cast.Loads[t.Kiln-1]
		p.section(f, "pour.burn", 2*benchWords.Leading())
		f.Para(benchHead, p.with("pour.burn.on", "n", p.fig.Count(l.Number), "name", p.fig.Text(l.Programme), "on", p.fig.Moment(l.On)))
		f.Para(benchWords, p.say("pour.burn.alone"))
		if l.Bond == "phosphate" {
			f.Para(benchWords, p.say("pour.burn.ammonia"))
		} else {
			f.Para(benchWords, p.say("pour.burn.sulphur"))
		}
		for _, h := range l.Holds {
			f.Para(benchWords, p.with("pour.burn.hold", "h", p.fig.Set(h.Hours, 2), "at", p.degrees(h.At)))
		}
		f.Para(benchWords, p.with("pour.burn.soak", "h", p.fig.Set(l.Soak, 2), "at", p.degrees(l.SoakAt), "fall", p.fig.Set(l.Change, 2)))
		f.Para(benchStamp, p.with("pour.sheet", "source", p.fig.Text(l.Sheet)))
	}
	p.section(f, "pour.ready", 2*benchWords.Leading())
	f.Para(benchWords, p.say("pour.ready.two"))
	f.Para(benchWords, p.say("pour.ready.mould"))
	if p.cast.OutOfKiln > 0 {
		f.Para(benchHead, p.with("pour.ready.out", "n", p.fig.Set(p.cast.OutOfKiln, 1)))
	}
	p.section(f, "pour.quench", benchWords.Leading())
	switch q := t.Quench; {
	case q.Never:
		f.Para(benchHead, p.say("pour.quench.never"))
	case q.Most > 0:
		f.Para(benchHead, p.with("pour.quench.wait", "low", p.fig.Set(q.Least, 0), "high", p.fig.Set(q.Most, 0)))
	default:
		f.Para(benchHead, p.say("pour.unknown"))
	}
	if t.Quench.Words != "" && !t.Quench.Never {
		f.Para(benchWords, p.fig.Text(t.Quench.Words))
	}
	if t.HeatSheet != "" {
		f.Para(benchStamp, p.with("pour.sheet", "source", p.fig.Text(t.HeatSheet)))
	}
}
