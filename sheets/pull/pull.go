// Package pull prints what the stone keeper takes from the drawers for a cast:
// a list in the order of the drawers, not of the jobs, and a label for each
// small parcel that goes into a bag.
//
// Use first: [Print] and [Labels]. A count on the list is the sum of the counts
// in the bags, and nothing else is computed.
package pull

import (
	"strings"

	"castweek/metal/problem"
	"castweek/sheets/desk"
	"castweek/sheets/page"
	"castweek/sheets/words"
	"castweek/tree"
)

// Options are those of every sheet.
type Options = desk.Options

// Type at the drawers, 500 mm away.
var (
	stamp  = page.Style{Face: page.Regular, Size: page.Bench.Stamp}
	plain  = page.Style{Face: page.Regular, Size: page.Bench.Words}
	strong = page.Style{Face: page.Bold, Size: page.Bench.Words}
	code   = page.Style{Face: page.MonoBold, Size: page.Bench.Words}
	value  = page.Style{Face: page.Bold, Size: page.Bench.Value}
	big    = page.Style{Face: page.MonoBold, Size: page.Bench.Value}
	name   = page.Style{Face: page.Bold, Size: page.Bench.Identity}
)

// hand is that of a desk: clean and dry.
var hand = page.Desk

type printer struct {
	desk.Desk
	cast  *tree.Cast
	fig   words.Figures
	doc   *page.Doc
	sheet page.Paper
}

func newPrinter(c *tree.Cast, o Options, title string) *printer {
	d := desk.Open(c, o, title)
	return &printer{Desk: d, cast: c, fig: d.Fig, doc: d.Doc, sheet: d.Paper}
}

func (p *printer) say(key string) string { return p.Words.Say(key) }

func (p *printer) with(key string, pairs ...string) string { return p.Words.With(key, pairs...) }

// Print prints the list. Stones that are not here come last, by themselves,
// with what is known of them.
func Print(c *tree.Cast, o Options) ([]byte, problem.List, error) {
	p := newPrinter(c, o, "pull.title")
	p.doc.Put(p.Whole("stone list", p.list)...)
	return p.Close("stone pull list")
}

// list lays the list.
func (p *printer) list() []*page.Leaf {
	f := p.flow()
	p.Opening(f, strong, plain, hand.Tick)
	all := lines(p.Bags())
	var here, missing []*line
	for _, l := range all {
		if l.stone.Here {
			here = append(here, l)
		} else {
			missing = append(missing, l)
		}
	}
	if len(all) == 0 {
		f.Para(plain, p.say("pull.none"))
	}
	if len(here) > 0 {
		p.rows(f, here, true)
		p.total(f, here)
	}
	if len(missing) > 0 {
		f.Gap(5)
		f.Need(value.Leading() + 40)
		f.Para(value, p.say("pull.nothere"))
		p.rows(f, missing, false)
	}
	return f.End()
}

func (p *printer) flow() *page.Flow {
	paper := p.sheet.Landscape()
	f := p.doc.Flow(paper, paper.Inside(14))
	f.Head = func(l *page.Leaf, n int) float64 {
		y := f.Frame.Top + name.Base()
		x := l.Text(f.Frame.Left, y, name, p.say("pull.title"))
		x = l.Text(x+8, y, plain, p.fig.Day(p.cast.Pour))
		if p.cast.Proposal {
			l.Text(x+8, y, strong, p.say("sheet.proposal"))
		}
		l.TextRight(f.Frame.Right, y, big, p.cast.Name)
		return f.Frame.Top + name.Leading() + 1
	}
	f.Foot = func(l *page.Leaf, n, of int) {
		y := l.Paper.H - page.LineEdge
		l.Text(f.Frame.Left, y, stamp, p.PageOf(n, of))
		p.TrueSize(l, l.Paper.W/2-40, y, stamp, f.Frame.Right-code.Width(p.cast.Name)-3)
		l.TextRight(f.Frame.Right, y, code, p.cast.Name)
	}
	return f
}

// size writes a stone's size: a set value, so without zeros at its end.
func (p *printer) size(s *tree.BagStone) string {
	l := p.fig.Set(float64(s.Length), 2)
	if s.Width == 0 || s.Width == s.Length {
		return l
	}
	return l + " x " + p.fig.Set(float64(s.Width), 2)
}

// sortOf is the stone in words, the name first.
func sortOf(s *tree.BagStone) string {
	parts := []string{s.Kind}
	for _, more := range []string{s.Cut, s.Origin, s.Treatment} {
		if more != "" {
			parts = append(parts, more)
		}
	}
	return strings.Join(parts, ", ")
}
