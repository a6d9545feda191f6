// Package treemap prints, for each tree, the map that it is built from with the
// wax pen and later cut by: the tree from the side and each of its levels from
// the top, every casting with its id; the castings by level and hour with
// boxes to tick; and the built tree on the scale. It is read at 500 mm.
//
// Use first: [Print]. Nothing is computed here but where ink goes: places,
// angles and weights are the plan's.
package treemap

import (
	"errors"
	"strings"

	"castweek/metal/measure"
	"castweek/metal/problem"
	"castweek/sheets/desk"
	"castweek/sheets/page"
	"castweek/sheets/treeview"
	"castweek/sheets/words"
	"castweek/tree"
)

// Options are those of every sheet.
type Options = desk.Options

// Print prints the maps of a cast's trees as one PDF, in the order of their
// letters. Problems are remarks about what the paper cannot show. A cast
// without trees is an error.
func Print(c *tree.Cast, o Options) ([]byte, problem.List, error) {
	if len(c.Trees) == 0 {
		return nil, nil, errors.New("no trees to map")
	}
	d := desk.Open(c, o, "treemap.title")
	p := &printer{Desk: d, cast: c, fig: d.Fig, doc: d.Doc, paper: d.Paper}
	for i := range c.Trees {
		if !p.Wants(&c.Trees[i]) {
			continue
		}
		p.doc.About(c.Trees[i].Name, "")
		s := p.sizes(&c.Trees[i])
		p.doc.Put(p.Pages("tree map "+c.Trees[i].Name, func() []*page.Leaf { return p.tree(&c.Trees[i], s) })...)
	}
	return p.Close("tree maps")
}

// A printer holds what the maps of a cast share.
type printer struct {
	desk.Desk
	cast   *tree.Cast
	fig    words.Figures
	doc    *page.Doc
	paper  page.Paper
	trying bool // how large the drawings may be
}

// Type at the bench.
var (
	stamp   = page.Style{Face: page.Regular, Size: page.Bench.Stamp}
	plain   = page.Style{Face: page.Regular, Size: page.Bench.Words}
	bold    = page.Style{Face: page.Bold, Size: page.Bench.Words}
	code    = page.Style{Face: page.MonoBold, Size: page.Bench.Words}
	value   = page.Style{Face: page.Bold, Size: page.Bench.Value}
	nameTag = page.Style{Face: page.MonoBold, Size: page.Bench.Value}
	big     = page.Style{Face: page.Bold, Size: page.Bench.Identity}
)

// hand is a wax worker's or a cutter's: dirty, without gloves.
var hand = page.Dirty

func (p *printer) say(key string) string { return p.Words.Say(key) }

func (p *printer) with(key string, pairs ...string) string { return p.Words.With(key, pairs...) }

// set writes a figure that was set or measured, to a tenth.
func (p *printer) set(v measure.MM) string { return p.fig.Set(float64(v), 1) }

// sizes are, of all sizes of a tree's drawings, those that take the fewest pages,
// and of these the largest. The tries are no part of what the pages say, and
// leave out what only a later print says above it: the same tree is drawn alike
// in each of its prints.
func (p *printer) sizes(t *tree.Tree) (best sizes) {
	p.trying = true
	p.doc.Quiet(func() { best = p.tried(t) })
	p.trying = false
	return best
}

func (p *printer) tried(t *tree.Tree) sizes {
	v := treeview.Of(&p.Desk, t)
	best := sizes{treeview.Small, treeview.Small}
	pages, tried := 0, false
	for _, side := range treeview.Scales {
		for _, levels := range treeview.Scales {
			s := sizes{side, levels}
			if !v.Any() || !s.fits(v, p.frame()) {
				continue
			}
			if n := len(p.tree(t, s)); !tried || s.better(n, best, pages) {
				best, pages, tried = s, n, true
			}
		}
	}
	return best
}

// frame is what of the paper a map may fill.
func (p *printer) frame() page.Frame { return p.paper.Inside(page.WordEdge) }

// tree lays one tree's pages in the order of the work: see, mount, weigh.
func (p *printer) tree(t *tree.Tree, s sizes) []*page.Leaf {
	f := p.doc.Flow(p.paper, p.frame())
	f.Head = func(l *page.Leaf, n int) float64 {
		y := f.Frame.Top + value.Base()
		x := l.Text(f.Frame.Left, y, plain, p.say("treemap.title"))
		if p.cast.Proposal {
			l.Text(x+6, y, bold, p.say("sheet.proposal"))
		}
		l.TextRight(f.Frame.Right, y, nameTag, t.Name)
		return f.Frame.Top + value.Leading() + 1
	}
	f.Foot = func(l *page.Leaf, n, of int) {
		y := l.Paper.H - page.LineEdge
		l.Text(f.Frame.Left, y, stamp, p.PageOf(n, of))
		p.TrueSize(l, l.Paper.W/2-56, y, stamp, f.Frame.Right-code.Width(t.Name)-3)
		l.TextRight(f.Frame.Right, y, code, t.Name)
	}
	if !p.trying {
		p.Opening(f, bold, plain, hand.Tick)
	}
	p.identity(f, t)
	p.drawings(f, t, s)
	p.list(f, t)
	p.built(f, t)
	return f.End()
}

// identity says which tree this is, of which metal, and how much hangs on it.
func (p *printer) identity(f *page.Flow, t *tree.Tree) {
	many := p.fig.Castings(len(t.Castings))
	wide := big.Width(t.Alloy) > f.Frame.Width()-55-value.Width(many)
	f.Block(big.Leading(), func(l *page.Leaf, x, y, w float64) {
		x = l.Text(x, y+big.Base(), big, p.with("treemap.flask", "letter", t.Letter()))
		if !wide {
			l.Text(x+10, y+big.Base(), big, t.Alloy)
		}
		l.TextRight(f.Frame.Right, y+big.Base(), value, many)
	})
	if wide {
		f.Para(big, t.Alloy)
	}
	if desk.Customers(t.Owner) {
		f.Para(value, p.with("treemap.owner", "owner", t.Owner))
	}
	// when it was planned is no part of what it says
	f.Line([]string{p.fig.Moment(p.cast.Pour)}, func() {
		f.Para(plain, p.with("treemap.planned", "at", p.fig.Moment(p.cast.AsOf), "pour", p.fig.Moment(p.cast.Pour)))
	})
	if !t.Pourable() {
		f.Para(bold, p.with("treemap.refused", "why", p.fig.Text(strings.Join(t.Refused, "; "))))
	}
}
