// Package pour prints what the caster works from: the order of pouring, and
// for each tree a page at the bench, where tree and metal are weighed, and a
// page at the kiln, read at a metre in gloves; and labels for the flasks.
//
// Use first: [Print] and [Labels]. Nothing is computed here: every figure is
// one of the tree's. A tree that is refused gets no pages, only its line under
// "Do not pour".
package pour

import (
	"fmt"
	"sort"

	"castweek/metal/measure"
	"castweek/metal/problem"
	"castweek/sheets/page"
	"castweek/sheets/words"
	"castweek/tree"
)

// Options choose the language. Without Words it is English.
type Options struct {
	Words *words.Words
}

// Print prints the pour sheets of a cast as one PDF: the order of pouring,
// then two pages a tree in that order. Problems are remarks about what the
// paper cannot show.
func Print(c *tree.Cast, o Options) ([]byte, problem.List, error) {
	p := newPrinter(c, o, "pour.title")
	p.orderPage()
	for i, t := range p.trees {
		p.doc.About(t.Name, "")
		p.kilnPage(t, i+1, p.weighPage(t))
	}
	out, err := p.doc.Bytes()
	if err != nil {
		return nil, p.doc.Problems(), fmt.Errorf("pour sheets: %w", err)
	}
	return out, p.doc.Problems(), nil
}

// A printer holds what all pages of a cast share.
type printer struct {
	cast  *tree.Cast
	words *words.Words
	fig   words.Figures
	doc   *page.Doc
	paper page.Paper
	trees []*tree.Tree // those that are poured, in the order of pouring
}

func newPrinter(c *tree.Cast, o Options, title string) *printer {
	w := o.Words
	if w == nil {
		w = words.English()
	}
	p := &printer{cast: c, words: w, fig: words.FiguresOf(w, c.House.Decimal), paper: page.Full(c.House.Series)}
	p.doc = page.New(page.Options{Title: w.Say(title) + " " + c.Name, Subject: c.House.Name, AsOf: c.AsOf})
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

func (p *printer) say(key string) string { return p.words.Say(key) }

func (p *printer) with(key string, pairs ...string) string { return p.words.With(key, pairs...) }

// exact writes a planned weight to the milligram, so that what stands in a
// column adds up to its foot.
func (p *printer) exact(m measure.Milligram) string { return p.fig.Fixed(float64(m)/1000, 3) }

// scale writes a weight as the house's scale shows it.
func (p *printer) scale(m measure.Milligram) string { return p.fig.Grams(m, p.cast.House.ScaleStep) }

// cells is the form of boxes for a weight near m on the house's scale: "000.00".
func (p *printer) cells(m measure.Milligram) string {
	form := "000"
	if m >= 1000_000 {
		form = "0000"
	}
	if n := words.Decimals(p.cast.House.ScaleStep); n > 0 {
		form += p.fig.Mark() + "000"[:n]
	}
	return form
}

// whose tells whether the metal is a customer's.
func whose(t *tree.Tree) (owner string, customers bool) {
	return t.Owner, t.Owner != "" && t.Owner != "house"
}

// foot repeats at the bottom what the page is about, with its number.
func (p *printer) foot(l *page.Leaf, code, plain page.Style, name string, n, of int) {
	y := l.Paper.H - page.LineEdge
	x := l.Text(page.WordEdge+4, y, plain, p.with("sheet.page", "n", p.fig.Count(n), "of", p.fig.Count(of)))
	if p.cast.Proposal {
		l.Text(x+8, y, page.Style{Face: page.Bold, Size: plain.Size}, p.say("sheet.proposal"))
	}
	l.TextRight(l.Paper.W-page.WordEdge, y, code, name)
}
