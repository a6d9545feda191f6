package desk

import (
	"slices"
	"strconv"
	"strings"

	"castweek/sheets/page"
	"castweek/sheets/words"
	"castweek/tree/record"
)

// bench is the style of what a changed line was, where a desk has no other.
var bench = page.Style{Face: page.Regular, Size: page.Bench.Words}

// Pages lays pages that are kept and torn together, under the key that their
// prints are counted by. Pages that say the same as their last print keep its
// number and its bars; others are the next print.
func (d *Desk) Pages(key string, lay func() []*page.Leaf) []*page.Leaf {
	d.Print = nil
	if d.options.Prints == nil {
		d.Doc.Trace(page.Marks{})
		return lay()
	}
	last, known := d.options.Prints.Last(key)
	if !known {
		last = record.First(key, d.Cast.AsOf, d.Cast.Proposal)
		last.Paper = d.Paper.Name
	}
	leaves, lines := d.lay(last, lay)
	if !known {
		last.Lines = lines
	} else if last.Proposal != d.Cast.Proposal || d.otherPaper(last) || !slices.Equal(lines, last.Lines) {
		leaves, last = d.replace(last, lines, lay)
	}
	d.options.Prints.Keep(last)
	return leaves
}

// mostTries bounds how often pages are laid again because the bars leave room
// for less than was there without them.
const mostTries = 4

// replace lays the print that replaces another. What fits may depend on the
// bars, so it is compared again with what was really laid; if that never
// settles, everything counts as new and no line is marked.
func (d *Desk) replace(last record.Print, lines []string, lay func() []*page.Leaf) ([]*page.Leaf, record.Print) {
	next := last.Next(lines, d.Cast.AsOf, d.Cast.Proposal, alike)
	if d.otherPaper(last) { // nothing stands where it stood: line by line would tell of breaks, not of the work
		next.AllNew, next.Changes, next.Removed, next.Paper = true, nil, nil, d.Paper.Name
		var leaves []*page.Leaf
		leaves, next.Lines = d.lay(next, lay)
		return leaves, next
	}
	for try := 0; ; try++ {
		leaves, laid := d.lay(next, lay)
		if slices.Equal(laid, next.Lines) {
			return leaves, next
		}
		next = last.Next(laid, d.Cast.AsOf, d.Cast.Proposal, alike)
		if try == mostTries {
			next.AllNew, next.Changes, next.Removed = true, nil, nil
			leaves, next.Lines = d.lay(next, lay)
			return leaves, next
		}
	}
}

// otherPaper tells whether a print was laid for another series of paper.
func (d *Desk) otherPaper(last record.Print) bool {
	return last.Paper != "" && last.Paper != d.Paper.Name
}

// Whole is Pages for what adds up over all jobs of the cast. Printed for some of
// them it is a part of that, counts as no print, and says so.
func (d *Desk) Whole(key string, lay func() []*page.Leaf) []*page.Leaf {
	if len(d.options.Jobs) > 0 {
		prints := d.options.Prints
		d.options.Prints = nil
		defer func() { d.options.Prints = prints }()
	}
	return d.Pages(key, lay)
}

// lay lays pages as one print and gives what they say.
func (d *Desk) lay(p record.Print, lay func() []*page.Leaf) ([]*page.Leaf, []string) {
	d.Print = &p
	d.marks = page.Marks{Style: d.Note, Changed: map[int]string{}, Ignored: []string{d.Words.Say("sheet.proposal")}}
	if d.marks.Style.Size == 0 {
		d.marks.Style = bench
	}
	for _, c := range p.Changes {
		d.marks.Changed[c.Line] = Was(d.Words, p.Lines[c.Line], c.Was)
	}
	d.Doc.Trace(d.marks)
	leaves := lay()
	return leaves, d.Doc.Lines()
}

// Marked tells whether the pages that are laid replace others, or say what has
// changed.
func (d *Desk) Marked() bool { return d.Print != nil && d.Print.Replaces > 0 }

// Unmarked tries something as if nothing had been printed before. What it lays
// is no part of what the pages say.
func (d *Desk) Unmarked(try func()) {
	before, print := d.Doc.Bookmark(), d.Print
	d.Doc.Trace(page.Marks{})
	if print != nil {
		first := record.First(print.Key, print.At, print.Proposal)
		d.Print = &first
	}
	try()
	d.Print = print
	d.Doc.Rewind(before)
}

// labelStamp is the type of the number of a label's print.
var labelStamp = page.Style{Face: page.Regular, Size: page.Bench.Stamp}

// stampFoot is how high above the lower edge of a label its print stands.
const stampFoot = 5.0

// Label is Pages for a label, which is one line: it has room for a bar and the
// number of its print, and for nothing else.
func (d *Desk) Label(key string, lay func() *page.Leaf) *page.Leaf {
	return d.Pages(key, func() []*page.Leaf {
		var l *page.Leaf
		n := d.Doc.Unit(func() { l = lay() })
		if _, changed := d.marks.Changed[n]; d.Print != nil && (changed || d.Print.AllNew) {
			l.ChangeBar(l.Paper.W-page.LineEdge, page.LineEdge, l.Paper.H-page.LineEdge)
		}
		if p := d.Print; p != nil {
			text := d.Number()
			if p.Replaces > 0 {
				text += ", " + d.Words.With("sheet.replaces", "n", strconv.Itoa(p.Replaces))
			}
			d.Doc.Quiet(func() { l.TextRight(l.Paper.W-page.WordEdge, l.Paper.H-stampFoot, labelStamp, text) })
		}
		return []*page.Leaf{l}
	})[0]
}

// alike is the share of words that two lines have in common, at their places.
func alike(a, b string) float64 {
	x, y := page.Words(a), page.Words(b)
	n := 0
	for i := 0; i < min(len(x), len(y)); i++ {
		if x[i] == y[i] {
			n++
		}
	}
	return float64(n) / float64(max(len(x), len(y)))
}

// Was says what a line was before: of a line with as many words those that
// differ at their places, of another those that are gone.
func Was(w *words.Words, now, was string) string {
	if was == "" {
		return "+ " + w.Say("sheet.new")
	}
	x, y := page.Words(now), page.Words(was)
	var differ []string
	for i, old := range y {
		same := len(x) == len(y) && x[i] == old || len(x) != len(y) && slices.Contains(x, old)
		if !page.Drawing(old) && !same {
			differ = append(differ, old)
		}
	}
	switch {
	case len(differ) > 0:
	case len(x) > len(y):
		return "+ " + w.Say("sheet.new")
	default:
		return w.Say("sheet.redrawn")
	}
	return w.With("sheet.was", "was", strings.Join(differ, ", "))
}

// Plain is a line of a print in words.
func Plain(line string) string {
	return strings.Join(slices.DeleteFunc(page.Words(line), page.Drawing), ", ")
}

// Stamp says which print this is, and which it replaces; nothing where prints
// are not counted.
func (d *Desk) Stamp() string {
	p := d.Print
	if p == nil {
		return ""
	}
	text := d.Words.With("sheet.print", "n", strconv.Itoa(p.Number), "at", d.Fig.Moment(p.At))
	if p.Replaces > 0 {
		text += ", " + d.Words.With("sheet.replaces", "n", strconv.Itoa(p.Replaces))
	}
	return text
}

// PageOf counts the pages at the foot of each, with the number of the print.
func (d *Desk) PageOf(n, of int) string {
	text := d.Count(n, of)
	if number := d.Number(); number != "" {
		text += ", " + number
	}
	return text
}

// Count counts the pages.
func (d *Desk) Count(n, of int) string {
	return d.Words.With("sheet.page", "n", strconv.Itoa(n), "of", strconv.Itoa(of))
}

// Number is that of the print, in words; nothing where prints are not counted.
func (d *Desk) Number() string {
	if d.Print == nil {
		return ""
	}
	return d.Words.With("sheet.printno", "n", strconv.Itoa(d.Print.Number))
}

// Opening lays, above what a page says, which jobs it was printed for, which
// print it is if it replaces one, with a box to tick when that one is torn, and
// what that one said and this one does not, since a gap shows nothing.
func (d *Desk) Opening(f *page.Flow, strong, plain page.Style, tick float64) {
	f.Leaf() // its head is a part of what the page says
	d.Doc.Quiet(func() {
		if len(d.options.Jobs) > 0 && d.Print == nil {
			f.Para(strong, d.Words.With("sheet.part", "jobs", strings.Join(d.options.Jobs, ", ")))
		}
		p := d.Print
		if p == nil || p.Replaces == 0 {
			return
		}
		n := strconv.Itoa(p.Replaces)
		if !d.Stamped {
			f.Para(plain, d.Stamp())
		}
		lines := strong.Wrap(d.Words.With("sheet.tear", "n", n), f.Frame.Width()-tick*5/3)
		high := float64(len(lines)) * strong.Leading()
		f.Block(max(tick, high)+2, func(l *page.Leaf, x, y, w float64) {
			at := l.TickBox(x, y+1, tick)
			l.Lines(at, y+1+max(0, tick-high)/2+strong.Base(), strong, lines)
		})
		if p.AllNew {
			f.Para(strong, d.Words.With("sheet.allnew", "n", n))
		}
		for _, line := range p.Removed {
			f.Para(plain, d.Words.With("sheet.removed", "what", Plain(line)))
		}
	})
}
