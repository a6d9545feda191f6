package pour

import (
	"strings"

	"castweek/sheets/page"
)

// Type at the kiln, a metre away.
var (
	kilnStamp = page.Style{Face: page.Regular, Size: page.Kiln.Stamp}
	kilnCode  = page.Style{Face: page.MonoBold, Size: page.Kiln.Stamp}
	kilnWords = page.Style{Face: page.Regular, Size: page.Kiln.Words}
	kilnHead  = page.Style{Face: page.Bold, Size: page.Kiln.Words}
	kilnValue = page.Style{Face: page.Bold, Size: page.Kiln.Value}
	kilnName  = page.Style{Face: page.Bold, Size: page.Kiln.Identity}
)

// kilnFlow begins pages at the kiln, each with the name it goes by above and
// below.
func (p *printer) kilnFlow(name string) *page.Flow {
	f := p.doc.Flow(p.paper, p.paper.Inside(14))
	f.Note = kilnStamp
	f.Head = func(l *page.Leaf, n int) float64 {
		y := f.Frame.Top + kilnStamp.Base()
		l.Text(f.Frame.Left, y, kilnStamp, p.fig.Moment(p.cast.Pour))
		l.TextRight(f.Frame.Right, y, kilnCode, name)
		y = f.Frame.Top + kilnStamp.Leading()
		if p.cast.Proposal {
			p.doc.Quiet(func() {
				y = l.Lines(f.Frame.Left, y+kilnHead.Base(), kilnHead, kilnHead.Wrap(p.say("pour.noproposal"), f.Frame.Width())) - kilnHead.Base()
			})
		}
		return y + 1
	}
	f.Foot = func(l *page.Leaf, n, of int) { p.foot(l, kilnCode, kilnStamp, name, n, of) }
	return f
}

// orderPage is the cast at one glance: which flask is next, of what metal, how
// much; and what is not poured, and why.
func (p *printer) orderPage() []*page.Leaf {
	f := p.kilnFlow(p.cast.Name)
	p.Opening(f, kilnHead, kilnStamp, glove.Tick)
	f.Para(kilnHead, p.say("pour.order.title"))
	if len(p.trees) == 0 {
		f.Para(kilnWords, p.say("pour.order.none"))
	} else {
		f.Para(kilnStamp, p.orderHint())
		f.Gap(2)
		var rows [][]page.Cell
		for i, t := range p.trees {
			grams := p.Scale(t.Charge.Total)
			nth := page.Cell{Text: p.fig.Count(i + 1), Style: &kilnWords}
			if t.Order == 0 { // a number here would look like the order
				nth = page.Cell{Draw: func(l *page.Leaf, x, y, w, h float64) { l.Digits(x, y+(h-glove.CellH)/2, glove, "0", kilnWords, "") }}
			}
			at := p.say("none")
			if !t.PourAt.IsZero() {
				at = p.pourTime(t)
			}
			rows = append(rows, []page.Cell{nth, {Text: t.Letter(), Style: &kilnValue}, page.Text(at),
				{Text: t.Alloy, Style: &kilnHead}, {Text: grams, Style: &kilnValue}, page.Tick(page.Gloved.Tick)})
		}
		f.Lay(page.Table{Style: kilnWords, Heads: kilnStamp, Pitch: kilnValue.Leading() + 1, Columns: []page.Column{
			{Head: p.say("pour.head.nth"), Width: 15, Align: page.AlignPoint}, {Head: p.say("pour.head.flask"), Width: 20, Align: page.AlignCentre},
			{Head: p.say("pour.head.at"), Width: 25}, {Head: p.say("pour.head.alloy")}, {Head: p.say("pour.head.grams"), Width: 43, Align: page.AlignPoint},
			{Head: p.say("pour.order.done"), Width: 24, Align: page.AlignCentre}}}, rows)
	}
	p.refused(f)
	return f.End()
}

func (p *printer) orderHint() string {
	for _, t := range p.trees {
		if t.Order == 0 {
			return p.say("pour.order.open")
		}
	}
	return p.say("pour.order.hint")
}

// refused lists the trees that there is no pour sheet for.
func (p *printer) refused(f *page.Flow) {
	const side = 20.0
	first := true
	for i := range p.cast.Trees {
		t := &p.cast.Trees[i]
		if t.Pourable() {
			continue
		}
		p.doc.About(t.Name, "")
		if first {
			f.Gap(5)
			f.Need(side + 2*kilnHead.Leading())
			f.Block(side+2, func(l *page.Leaf, x, y, w float64) {
				l.Shape(page.MustNot, x, y, side)
				l.Text(x+side+5, y+side/2+3, kilnHead, p.say("pour.refused.title"))
			})
			first = false
		}
		f.Need(3 * kilnHead.Leading())
		f.Para(kilnHead, p.with("pour.refused.line", "flask", t.Letter(), "alloy", t.Alloy))
		for _, why := range t.Refused {
			f.Para(kilnWords, p.fig.Text(why))
		}
		var ids []string
		for k := range t.Castings {
			ids = append(ids, t.Castings[k].Casting)
		}
		f.Para(kilnStamp, p.with("pour.refused.hang", "n", p.fig.Count(len(ids)), "ids", strings.Join(ids, ", ")))
		f.Gap(2)
	}
}
