// Package pour prints what the caster works from: the order of pouring, the
// powder of all flasks, the burnout of each kiln load, and for each tree two
// pages at the bench, where it is built and invested and where its metal is
// weighed, and a page at the kiln, read at a metre in gloves; and labels for
// the flasks.
//
// Use first: [Print] and [Labels]. Nothing is computed here: every figure is
// one of the tree's. A tree that is refused gets no pages, only its line under
// "Do not pour".
package pour

import (
	"sort"
	"strconv"

	"castweek/metal/problem"
	"castweek/sheets/desk"
	"castweek/sheets/page"
	"castweek/sheets/words"
	"castweek/tree"
)

// Options are those of every sheet.
type Options = desk.Options

// Print prints the pour sheets of a cast as one PDF: the order of pouring, the
// powder and the metal of all flasks, each kiln load with its curve, then the
// pages of each tree in that order. All but the last are of the whole cast, for
// whatever jobs the rest is printed. Problems are remarks about what the paper
// cannot show.
func Print(c *tree.Cast, o Options) ([]byte, problem.List, error) {
	p := newPrinter(c, o, "pour.title")
	p.doc.Put(p.Pages("order of pouring", p.orderPage)...)
	if len(p.trees) > 0 && c.Yield.Total > 0 {
		p.doc.Put(p.Pages("powder and metal", p.stockPage)...)
	}
	for i := range c.Loads {
		if load := &c.Loads[i]; len(p.inLoad(load)) > 0 {
			p.doc.Put(p.Pages("kiln load "+strconv.Itoa(load.Number), func() []*page.Leaf { return p.loadPage(load) })...)
		}
	}
	for i, t := range p.trees {
		if !p.Wants(t) {
			continue
		}
		p.doc.About(t.Name, "")
		p.doc.Put(p.Pages(desk.PourKey+t.Name, func() []*page.Leaf {
			leaves := p.benchPages(t)
			return append(leaves, p.kilnPage(t, i+1, len(leaves))...)
		})...)
	}
	return p.Close("pour sheets")
}

// A printer holds what all pages of a cast share.
type printer struct {
	desk.Desk
	cast  *tree.Cast
	fig   words.Figures
	doc   *page.Doc
	paper page.Paper
	trees []*tree.Tree // those that are poured, in the order of pouring
}

func newPrinter(c *tree.Cast, o Options, title string) *printer {
	d := desk.Open(c, o, title)
	p := &printer{Desk: d, cast: c, fig: d.Fig, doc: d.Doc, paper: d.Paper}
	for i := range c.Trees {
		if c.Trees[i].Pourable() {
			p.trees = append(p.trees, &c.Trees[i])
		}
	}
	sort.SliceStable(p.trees, func(a, b int) bool { return rank(p.trees[a]) < rank(p.trees[b]) })
	return p
}

// rank puts trees without a settled place behind the others.
func rank(t *tree.Tree) int {
	if t.Order == 0 {
		return 1 << 30
	}
	return t.Order
}

func (p *printer) say(key string) string { return p.Words.Say(key) }

func (p *printer) with(key string, pairs ...string) string { return p.Words.With(key, pairs...) }

// whose tells whether the metal is a customer's.
func whose(t *tree.Tree) (owner string, customers bool) {
	return t.Owner, desk.Customers(t.Owner)
}

// foot repeats at the bottom what the page is about, with its number; end is
// where the words on the left end.
func (p *printer) foot(l *page.Leaf, code, plain page.Style, name string, n, of int) (end float64) {
	y := l.Paper.H - page.LineEdge
	x := l.Text(page.WordEdge+4, y, plain, p.PageOf(n, of))
	if p.cast.Proposal {
		x = l.Text(x+5, y, page.Style{Face: page.Bold, Size: plain.Size}, p.say("sheet.proposal"))
	}
	l.TextRight(l.Paper.W-page.WordEdge, y, code, name)
	return x
}
