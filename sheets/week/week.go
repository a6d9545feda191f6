// Package week prints the week on one page for the wall: what is late, what
// needs a decision, who was promised what by when, what is poured, what waits
// and for whom.
//
// Use first: [Print]. The page is read at 700 mm, so it takes the larger paper
// of its series (A3, or Tabloid beside Letter) when a full sheet is too small;
// type is never made smaller. Nothing is computed here.
package week

import (
	"sort"
	"strings"
	"time"

	"castweek/metal/problem"
	"castweek/sheets/desk"
	"castweek/sheets/page"
	"castweek/sheets/words"
	"castweek/tree"
)

// Options are those of every sheet.
type Options = desk.Options

// Type on the wall, 700 mm away.
var (
	stamp  = page.Style{Face: page.Regular, Size: page.Wall.Stamp}
	plain  = page.Style{Face: page.Regular, Size: page.Wall.Words}
	strong = page.Style{Face: page.Bold, Size: page.Wall.Words}
	code   = page.Style{Face: page.MonoBold, Size: page.Wall.Words}
	value  = page.Style{Face: page.Bold, Size: page.Wall.Value}
	name   = page.Style{Face: page.Bold, Size: page.Wall.Identity}
)

// The papers twice as large as a full sheet.
var (
	a3      = page.Paper{Name: "A3", W: 297, H: 420}
	tabloid = page.Paper{Name: "Tabloid", W: 279.4, H: 431.8}
)

// free is the share of the page that stays open for what is written by hand,
// given up only in a full week.
const free = 0.2

type printer struct {
	desk.Desk
	cast     *tree.Cast
	fig      words.Figures
	f        *page.Flow
	barsOnly bool // no room for what a changed line was
	short    bool // leave all but the first clause of a remark to the workbook
	tight    bool // one line for each job
	low      bool // headings no larger than words
	twin     bool // two jobs a line, without their designs, and only so many remarks:
	most     int
}

// Print prints the week: one page on a full sheet, else one on the larger
// paper, if need be without what to do about each remark, with one line for
// each job, or with two jobs a line and without what each is, else as many of
// those as it takes. What is left out is named with the sheet of the workbook
// that has it; no job ever is.
func Print(c *tree.Cast, o Options) ([]byte, problem.List, error) {
	d := desk.Open(c, o, "week.heading")
	p := &printer{Desk: d, cast: c, fig: d.Fig}
	small, large := d.Paper, a3
	if c.House.Series == "letter" {
		large = tabloid
	}
	p.Note = stamp
	p.Doc.Put(p.Pages("week", func() []*page.Leaf { return p.fit(small, large) })...)
	return p.Close("week page")
}

// fit lays the week on one page if any of the ways gives one.
func (p *printer) fit(small, large page.Paper) (leaves []*page.Leaf) {
	for _, try := range []struct {
		paper page.Paper
		free  float64
		short bool
		tight bool
		low   bool
		twin  bool
		most  int
	}{{paper: small, free: free}, {paper: large, free: free}, {paper: large}, {paper: large, short: true}, {paper: large, short: true, tight: true},
		{paper: large, short: true, tight: true, low: true}, {paper: large, short: true, tight: true, low: true, twin: true, most: 8},
		{paper: large, short: true, tight: true, low: true, twin: true, most: 3}, {paper: large, short: true, tight: true, low: true, twin: true}} {
		p.short, p.tight, p.low, p.twin, p.most = try.short, try.tight, try.low, try.twin, try.most
		for _, p.barsOnly = range []bool{false, true} {
			if leaves = p.lay(try.paper, try.free); len(leaves) == 1 {
				return leaves
			}
		}
	}
	return leaves
}

// lay lays the week on a paper with a share of it left free, in a document of its own so that a try leaves
// no remarks behind.
func (p *printer) lay(paper page.Paper, free float64) []*page.Leaf {
	p.Renew()
	f := p.Doc.Flow(paper, paper.Inside(14))
	p.f = f
	f.BarsOnly = p.barsOnly
	f.Head = func(l *page.Leaf, n int) float64 {
		y := f.Frame.Top + name.Base()
		x := l.Text(f.Frame.Left, y, name, p.cast.Name)
		if p.cast.Proposal {
			l.Text(x+8, y, value, p.say("sheet.proposal"))
		}
		y = f.Frame.Top + name.Leading()
		l.Text(f.Frame.Left, y+plain.Base(), plain, p.pours())
		return y + plain.Leading() + 1
	}
	f.Foot = func(l *page.Leaf, n, of int) {
		y := l.Paper.H - page.LineEdge
		l.Text(f.Frame.Left, y, stamp, p.PageOf(n, of)+", "+p.with("week.asof", "at", p.fig.Moment(p.cast.AsOf)))
		who := p.cast.House.Name + "  " + p.cast.Name
		p.TrueSize(l, l.Paper.W/2-45, y, stamp, f.Frame.Right-stamp.Width(who)-3)
		l.TextRight(f.Frame.Right, y, stamp, who)
	}
	p.Opening(f, strong, stamp, page.Desk.Tick)
	f.Frame.Bottom -= free * f.Frame.Height()
	p.gone()
	p.late()
	p.decide()
	p.promised()
	p.poured()
	p.metal()
	p.waits()
	f.Frame.Bottom = paper.Inside(14).Bottom
	p.open()
	return f.End()
}

func (p *printer) say(key string) string { return p.Words.Say(key) }

func (p *printer) with(key string, pairs ...string) string { return p.Words.With(key, pairs...) }

// section begins a part of the page.
func (p *printer) section(title string) {
	gap, st := 3.0, value
	if p.low {
		gap, st = 2, strong
	}
	p.f.Gap(gap)
	p.f.Need(st.Leading() + 2*plain.Leading())
	p.f.Para(st, title)
}

// item lays a job number and what there is to say about it, hanging in.
func (p *printer) item(job, text string) {
	const column, widest = 32.0, 60.0
	f := p.f
	text = p.fig.Text(text)
	if code.Width(job) > widest { // of many jobs
		job, text = "", job+": "+text
	}
	left := f.Frame.Left + column
	if w := code.Width(job); w > column-3 {
		left = f.Frame.Left + w + 3
	}
	f.Line([]string{job, text}, func() {
		f.Need(float64(min(2, len(plain.Wrap(text, f.Frame.Right-left)))) * plain.Leading()) // job and text are not parted
		if job != "" {
			f.Leaf().Text(f.Frame.Left, f.Y+code.Base(), code, job)
		}
		f.ParaAt(plain, left, f.Frame.Right-left, text)
	})
}

// open is the free part at the end, for new dates and reasons.
func (p *printer) open() {
	f := p.f
	if f.Left() < 3*plain.Leading() {
		return
	}
	f.Gap(3)
	f.Rule()
	p.Doc.Quiet(func() { f.Para(stamp, p.say("week.free")) }) // where there is room
}

// by day: without a due day last.
func byDue(a, b time.Time) bool {
	if a.IsZero() != b.IsZero() {
		return b.IsZero()
	}
	return a.Before(b)
}

// jobsByDue are the jobs that hang on trees, one each, by due day and number.
func jobsByDue(c *tree.Cast) []*tree.Bag {
	seen := map[string]bool{}
	var out []*tree.Bag
	for i := range c.Bags {
		if b := &c.Bags[i]; !seen[b.Job] && len(b.Castings) > 0 {
			seen[b.Job] = true
			out = append(out, b)
		}
	}
	sort.SliceStable(out, func(a, b int) bool {
		if !out[a].Due.Equal(out[b].Due) {
			return byDue(out[a].Due, out[b].Due)
		}
		return out[a].Job < out[b].Job
	})
	return out
}

// flasks are the letters of the trees that the castings of a job hang on.
func flasks(c *tree.Cast, job string) string {
	var letters []string
	for i := range c.Trees {
		for k := range c.Trees[i].Castings {
			if c.Trees[i].Castings[k].Job == job {
				letters = append(letters, c.Trees[i].Letter())
				break
			}
		}
	}
	return strings.Join(letters, " ")
}
