package treemap

import (
	"castweek/sheets/page"
	"castweek/tree"
)

// built is the tree on the scale, before it is invested: after that a casting
// too many or too few is lost.
func (p *printer) built(f *page.Flow, t *tree.Tree) {
	const boxes = 3
	lines := len(t.Before) + 2
	height := max(boxes*(hand.CellH+2), float64(lines)*(plain.Leading()+1.5))
	f.Gap(4)
	f.Need(2 + bold.Leading() + 1 + height + 1.5 + bold.Leading())
	f.Rule()
	f.Para(bold, p.say("treemap.built"))
	f.Gap(1)
	top, frame := f.Y, f.Frame
	middle := frame.Left + frame.Width()/2
	form := p.Cells(t.Built())
	f.Aside(height, func(l *page.Leaf, y float64) { p.scaleBoxes(l, middle, y, form) })
	var rows [][]page.Cell
	for _, m := range t.Before {
		rows = append(rows, []page.Cell{page.Text(m.Material), page.Text(p.Exact(m.Weight))})
	}
	rows = append(rows, []page.Cell{{Text: p.say("treemap.together"), Style: &bold}, {Text: p.Exact(t.Built()), Style: &bold}})
	f.Frame.Right = middle - 5
	f.Lay(page.Table{Style: plain, Columns: []page.Column{{Head: p.say("treemap.material")}, {Head: p.say("treemap.planned.g"), Width: 32, Align: page.AlignPoint}}}, rows)
	f.Frame = frame
	f.Y = max(f.Y, top+height)
	f.Gap(1.5)
	if t.Built() == 0 {
		f.Para(bold, p.say("treemap.norecount"))
	} else {
		least, greatest := t.BuiltWithin(p.cast.House)
		f.Para(bold, p.with("treemap.recount", "low", p.Scale(least), "high", p.Scale(greatest)))
	}
	for _, n := range t.Build {
		f.Para(plain, p.fig.Text(n.Text+"; "+n.Remedy))
	}
	for _, n := range t.Notes {
		f.Para(plain, p.fig.Text(n))
	}
}

// scaleBoxes are for the three weights that give the tree's own.
func (p *printer) scaleBoxes(l *page.Leaf, x, y float64, form string) {
	for i, key := range []string{"treemap.withbase", "treemap.base", "treemap.tree"} {
		at := y + hand.CellH - 2
		l.Text(x+5, at, plain, []string{"", "−", "="}[i])
		l.Text(x+11, at, plain, p.say(key))
		l.Digits(x+45, y, hand, form, plain, p.say("unit.g"))
		y += hand.CellH + 2
	}
}
