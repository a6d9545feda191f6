package receipt

import (
	"fmt"
	"strconv"
	"strings"

	"castweek/metal/measure"
	"castweek/metal/problem"
	"castweek/sheets/desk"
	"castweek/sheets/page"
	"castweek/sheets/words"
)

// Options are those of every sheet.
type Options = desk.Options

// hold is read in the hand at 420 mm, where a receipt is signed: 0.024 pt for
// each millimetre, values 1.5 times as large, as [page.Reading] has it.
var hold = page.Reading{Stamp: page.Smallest, Words: 10, Value: 15, Identity: 22}

// hand writes at a counter.
var hand = page.Desk

const (
	leftEdge   = 13.0
	footHeight = 6.0
	signHeight = 10.0 // of a line to sign on
)

// Print prints the receipt on one page: in the bench's type where that fits,
// else in type for the hand, else on the full sheet instead of the half, which
// is a remark. A receipt too long for that goes on over further pages, each
// with number and customer. Errors among the problems come with an error and no
// paper.
func Print(r Receipt, o Options) ([]byte, problem.List, error) {
	p, leaves, err := r.lay(o, nil)
	if err != nil {
		return nil, p.problems, err
	}
	p.doc.Put(leaves...)
	out, err := p.doc.Bytes()
	if err != nil {
		return nil, p.doc.Problems(), fmt.Errorf("receipt %s: %w", r.Number, err)
	}
	return out, append(p.doc.Problems(), p.problems...), nil
}

// lay finds the way in which the receipt fits and lays it, with others where a
// desk is given. Problems that have nothing to do with signs are the printer's.
func (r *Receipt) lay(o Options, into *desk.Desk) (*printer, []*page.Leaf, error) {
	w := o.Words
	if w == nil {
		w = words.English()
	}
	p := &printer{r: r, words: w, fig: words.FiguresOf(w, r.Decimal), step: r.Step}
	if p.problems = r.check(); len(p.problems) > 0 {
		return p, nil, fmt.Errorf("receipt %s: %w", r.Number, p.problems[0])
	}
	for _, w := range r.weights() {
		if w.w%p.step != 0 {
			p.step = 1 // a weight is never rounded on paper
		}
	}
	paper, reading := p.fit()
	p.into = into
	leaves := p.laid(paper, reading)
	if paper != r.Paper {
		p.problems.Remark(problem.Place{File: r.Number}, "receipt-paper", "print it on "+paper.Name, "the receipt does not fit on one page of %s", r.Paper.Name)
	}
	return p, leaves, nil
}

// fit lays the receipt on one page if any of the ways gives one: the bench's
// type, type for the hand, and the paper twice as large as a half sheet.
func (p *printer) fit() (paper page.Paper, t page.Reading) {
	papers := []page.Paper{p.r.Paper}
	switch p.r.Paper {
	case page.A5:
		papers = append(papers, page.A4)
	case page.HalfLetter:
		papers = append(papers, page.Letter)
	}
	for _, paper = range papers {
		for _, t = range []page.Reading{page.Bench, hold} {
			if leaves := p.laid(paper, t); len(leaves) == 1 {
				return paper, t
			}
		}
	}
	return paper, t
}

// A printer lays one receipt.
type printer struct {
	r     *Receipt
	words *words.Words
	fig   words.Figures
	step  measure.Milligram
	doc   *page.Doc
	into  *desk.Desk // where it is laid with others; nil: in a document of its own
	f     *page.Flow

	problems problem.List

	plain, strong, value, code, stamp page.Style
}

func (p *printer) say(key string) string { return p.words.Say(key) }

func (p *printer) with(key string, pairs ...string) string { return p.words.With(key, pairs...) }

// laid lays the receipt, a try in a document of its own, so that it leaves no
// remarks behind.
func (p *printer) laid(paper page.Paper, t page.Reading) []*page.Leaf {
	r := p.r
	if p.into != nil {
		p.doc = p.into.Doc
	} else {
		p.doc = page.New(page.Options{Title: p.say("receipt.title") + " " + r.Number, Subject: r.House, AsOf: r.AsOf})
	}
	p.doc.About(r.Number, "")
	p.plain, p.strong = page.Style{Face: page.Regular, Size: t.Words}, page.Style{Face: page.Bold, Size: t.Words}
	p.value, p.code = page.Style{Face: page.Bold, Size: t.Value}, page.Style{Face: page.MonoBold, Size: t.Words}
	p.stamp = page.Style{Face: page.Regular, Size: t.Stamp}
	frame := paper.Inside(leftEdge)
	frame.Bottom = paper.H - page.WordEdge - footHeight
	p.f = p.doc.Flow(paper, frame)
	p.f.Head, p.f.Foot = p.head, p.foot
	p.who()
	p.broughtIn()
	p.needs()
	p.balance()
	p.choices()
	p.sign()
	return p.f.End()
}

// head draws the title with the number; a following page names the customer
// too.
func (p *printer) head(l *page.Leaf, number int) float64 {
	fr, y := p.f.Frame, p.f.Frame.Top
	p.doc.Field("number")
	if number > 1 {
		l.Text(fr.Left, y+p.strong.Base(), p.strong, p.first(p.strong, p.r.Customer, fr.Width()-p.code.Width(p.r.Number)-4))
		l.TextRight(fr.Right, y+p.strong.Base(), p.code, p.r.Number)
		y += p.strong.Leading()
		l.Line(fr.Left, y, fr.Right, y, page.Edge)
		return y + 1.5
	}
	id := page.Style{Face: page.MonoBold, Size: p.value.Size}
	if id.Width(p.r.Number) > fr.Width()/2 {
		id = p.code
	}
	lines := p.value.Wrap(p.say("receipt.title"), fr.Width()-id.Width(p.r.Number)-5)
	l.TextRight(fr.Right, y+p.value.Base(), id, p.r.Number)
	y = l.Lines(fr.Left, y+p.value.Base(), p.value, lines) - p.value.Base()
	l.Line(fr.Left, y+0.5, fr.Right, y+0.5, page.Edge)
	return y + 2
}

// first is the first line of a text, with a sign that more follows.
func (p *printer) first(st page.Style, text string, width float64) string {
	lines := st.Wrap(text, width)
	if len(lines) == 1 {
		return lines[0]
	}
	return st.Wrap(text, width-st.Width(" …"))[0] + " …"
}

func (p *printer) foot(l *page.Leaf, number, of int) {
	fr, y := p.f.Frame, l.Paper.H-page.WordEdge
	count := p.with("sheet.page", "n", strconv.Itoa(number), "of", strconv.Itoa(of))
	l.Line(fr.Left, y-4.5, fr.Right, y-4.5, page.Hair)
	made := p.with("receipt.made", "day", p.fig.Day(p.r.AsOf)) + ", " + count
	if p.into != nil && p.into.Number() != "" {
		made += ", " + p.into.Number()
	}
	if p.r.Proposal {
		made = p.say("sheet.proposal") + ", " + made
	}
	l.Text(fr.Left, y, p.stamp, p.first(p.stamp, p.r.House, fr.Width()-p.stamp.Width(made)-4))
	l.TextRight(fr.Right, y, p.stamp, made)
}

// who lays whose metal it is and for what, beside the box for the day on which
// it is brought in.
func (p *printer) who() {
	const box, high = 36.0, 8.0
	width := p.f.Frame.Width() - box - 4
	l := p.f.Leaf()
	top := p.f.Y
	l.Text(p.f.Frame.Right-box, top+p.plain.Base(), p.plain, p.say("receipt.when"))
	l.Rect(p.f.Frame.Right-box, top+p.plain.Leading(), box, high, page.Edge)
	for _, line := range []struct {
		key, text string
		st        page.Style
	}{{"receipt.customer", p.r.Customer, p.strong}, {"receipt.house", p.r.House, p.plain}, {"receipt.job", strings.Trim(p.r.Job+", "+p.r.Design, ", "), p.plain}} {
		if line.text == "" {
			continue
		}
		p.doc.Field(line.key)
		const column = 24.0
		for i, t := range line.st.Wrap(line.text, width-column) {
			p.f.Need(line.st.Leading())
			if i == 0 {
				p.f.Leaf().Text(p.f.Frame.Left, p.f.Y+line.st.Base(), p.plain, p.say(line.key))
			}
			p.f.Leaf().Text(p.f.Frame.Left+column, p.f.Y+line.st.Base(), line.st, t)
			p.f.Y += line.st.Leading()
		}
	}
	if p.f.Leaf() == l {
		p.f.Y = max(p.f.Y, top+p.plain.Leading()+high+1)
	}
}

// title lays the heading of a section and keeps it with what follows.
func (p *printer) title(text string, follows float64) {
	p.f.Gap(2)
	p.f.Need(p.strong.Leading() + follows)
	p.f.Para(p.strong, text)
}

// grams writes a weight with its unit.
func (p *printer) grams(m measure.Milligram) string {
	return p.fig.Grams(m, p.step) + words.NoBreak + p.say("unit.g")
}

// fine writes a fineness.
func (p *printer) fine(v measure.PerMille) string {
	return p.fig.Set(float64(v), 3) + words.NoBreak + "‰"
}
