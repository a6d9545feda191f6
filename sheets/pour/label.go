package pour

import (
	"errors"

	"castweek/metal/problem"
	"castweek/sheets/page"
	"castweek/tree"
)

// Labels are cut from a full sheet, eight to one.
const (
	labelColumns = 2
	labelRows    = 4
)

// Labels prints one label for each flask, for its place on the rack: the
// letter, the alloy, whose metal it is, the place in the order, the kiln load,
// and that it is not quenched. A refused tree gets one too, with the sign that
// it is not poured, for its flask may stand there already.
func Labels(c *tree.Cast, o Options) ([]byte, problem.List, error) {
	if len(c.Trees) == 0 {
		return nil, nil, errors.New("no flasks to label")
	}
	p := newPrinter(c, o, "label.title")
	var leaves []*page.Leaf
	for i, t := range p.trees {
		if !p.Wants(t) {
			continue
		}
		leaves = append(leaves, p.Label("flask label "+t.Name, func() *page.Leaf { return p.label(t, i+1) }))
	}
	for i := range c.Trees {
		if t := &c.Trees[i]; !t.Pourable() && p.Wants(t) {
			leaves = append(leaves, p.Label("flask label "+t.Name, func() *page.Leaf { return p.label(t, 0) }))
		}
	}
	p.doc.PutGrid(p.paper, labelColumns, labelRows, leaves...)
	return p.Close("flask labels")
}

// label is one label; nth is 0 for a tree that is not poured.
func (p *printer) label(t *tree.Tree, nth int) *page.Leaf {
	const left = page.WordEdge
	p.doc.About(t.Name, "")
	size := page.Paper{Name: "label", W: p.paper.W / labelColumns, H: p.paper.H / labelRows}
	l := p.doc.Leaf(size)
	y := 6 + kilnName.Base()
	x := l.Text(left, y, kilnName, t.Letter())
	l.Text(x+6, y, kilnHead, t.Flask)
	y += kilnHead.Leading() + 1
	style := kilnHead
	if style.Width(t.Alloy) > size.W-2*left {
		style.Size = page.Kiln.Stamp
	}
	for _, line := range style.Wrap(t.Alloy, size.W-2*left) {
		l.Text(left, y, style, line)
		y += style.Leading()
	}
	switch {
	case nth == 0:
		l.Shape(page.MustNot, left, y-6, 9)
		l.Text(left+12, y, kilnStamp, p.say("pour.refused.title"))
	case t.Order == 0:
		l.Text(left, y, kilnStamp, p.say("pour.unordered"))
	default:
		l.Text(left, y, kilnStamp, p.with("pour.nth", "n", p.fig.Count(nth), "of", p.fig.Count(len(p.trees))))
	}
	strong := page.Style{Face: page.Bold, Size: page.Kiln.Stamp}
	const beside = left + 44 // right of the place in the order
	owner, customers := whose(t)
	foot := ""
	switch {
	case nth > 0 && t.InWax:
		l.Shape(page.MustNot, beside, y-7, 9)
		l.Text(beside+11, y, strong, p.say("label.noquench"))
	case customers:
		l.Text(beside, y, strong, firstLine(strong, owner, size.W-left-beside))
	}
	switch {
	case nth > 0 && t.InWax && customers:
		foot = firstLine(strong, owner, size.W-2*left-strong.Width(t.Name)-5)
	case nth > 0 && t.Kiln > 0:
		foot = p.with("label.load", "n", p.fig.Count(t.Kiln))
	}
	l.Text(left, size.H-9.5, kilnCode, t.Name)
	l.TextRight(size.W-left, size.H-9.5, strong, foot)
	if p.cast.Proposal {
		l.TextRight(size.W-left, 14, page.Style{Face: page.Bold, Size: page.Bench.Words}, p.say("sheet.proposal"))
	}
	return l
}

// firstLine is as much of a text as stands in one line.
func firstLine(s page.Style, text string, width float64) string {
	if s.Width(text) <= width {
		return text
	}
	return s.Wrap(text, width-s.Width("..."))[0] + "..."
}
