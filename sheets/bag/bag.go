// Package bag prints the paper that goes with a piece from the pour to the
// counter: the job bag, on A5 or half Letter, two up on a full sheet, or on A6
// in a short form; and the same bag as a page in HTML for phones and screen
// readers.
//
// The order is that of the setter's hands: which piece is this, is all of it
// in the bag, what did the customer say, how is it joined (heat comes before
// stones), which stone goes where, what must not be done; then the steps, the
// weights and the hand-over. Nothing is computed here and nothing decided:
// every figure comes from [tree.Bag].
package bag

import (
	"errors"
	"runtime"
	"runtime/debug"
	"strings"
	"sync"

	"castweek/metal/problem"
	"castweek/sheets/desk"
	"castweek/sheets/page"
	"castweek/sheets/words"
	"castweek/tree"
)

// A Form is how bags are laid on paper.
type Form string

const (
	ByHouse Form = ""       // as the house's settings say
	Single  Form = "single" // A5 or half Letter, one leaf a sheet
	TwoUp   Form = "two up" // two leaves on A4 or Letter, with cut marks
	Short   Form = "short"  // A6 or quarter Letter, identity and stones only, four on a sheet
)

// Options choose the form and the language. Without Words it is the house's.
type Options struct {
	Form Form
	desk.Options
}

// Print prints the bags of a cast as one PDF. Problems are remarks about what
// the paper cannot show, each with its job. A cast without bags is an error.
func Print(c *tree.Cast, o Options) ([]byte, problem.List, error) {
	p := newPrinter(c, o)
	if len(p.Bags()) == 0 {
		return nil, nil, errors.New("no bags to print")
	}
	defer tight(len(c.Bags))()
	if p.form == ByHouse {
		p.form = Single
		if c.House.TwoUp {
			p.form = TwoUp
		}
	}
	for _, b := range p.Bags() {
		p.put(p.Pages(p.key(b), func() []*page.Leaf {
			if p.form == Short {
				return p.short(b)
			}
			return p.bag(b)
		}))
	}
	p.put(nil)
	return p.Close("job bags")
}

// key is what the prints of a bag are counted by; the short form goes by
// itself.
func (p *printer) key(b *tree.Bag) string {
	if p.form == Short {
		return "short bag " + b.Key()
	}
	return PrintKey(b)
}

// PrintKey is what the prints of a whole bag are counted by.
func PrintKey(b *tree.Bag) string { return desk.BagKey + b.Key() }

// tight lets garbage be collected more often while a large print is made, and
// gives what ends that. The library makes a fresh compressor of over 1 MB for
// every page, which would double the memory of a print of 1,000 bags. Measured:
// the pages of the longest bag take 0.12 MB until they are written out. The
// limit is the whole program's, so that prints wait for each other.
func tight(bags int) (end func()) {
	const large, base, each = 50, 50 << 20, 115 << 10
	if bags < large {
		return func() {}
	}
	limited.Lock()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	before := debug.SetMemoryLimit(int64(m.Sys-m.HeapIdle) + base + int64(bags)*each)
	return func() {
		debug.SetMemoryLimit(before)
		limited.Unlock()
	}
}

var limited sync.Mutex

// A printer holds what all bags of a cast share.
type printer struct {
	desk.Desk
	cast    *tree.Cast
	words   *words.Words
	fig     words.Figures
	form    Form
	doc     *page.Doc
	pending []*page.Leaf // not yet on a sheet

	arranged    *tree.Bag // the bag whose arrangement is known
	arrangement arrangement
}

func newPrinter(c *tree.Cast, o Options) *printer {
	d := desk.Open(c, o.Options, "bag.title")
	d.Stamped = true
	return &printer{Desk: d, cast: c, words: d.Words, fig: d.Fig, doc: d.Doc, form: o.Form}
}

// put lays leaves on sheets as soon as a sheet is full; nil lays the rest.
func (p *printer) put(leaves []*page.Leaf) {
	p.pending = append(p.pending, leaves...)
	sheet := page.Full(p.cast.House.Series)
	each := map[Form]int{Single: 1, TwoUp: 2, Short: 4}[p.form]
	n := len(p.pending) / each * each
	if leaves == nil {
		n = len(p.pending)
	}
	if n == 0 {
		return
	}
	switch p.form {
	case TwoUp:
		p.doc.PutSideBySide(sheet, p.pending[:n]...)
	case Short:
		p.doc.PutGrid(sheet, 2, 2, p.pending[:n]...)
	default:
		p.doc.Put(p.pending[:n]...)
	}
	p.pending = append([]*page.Leaf(nil), p.pending[n:]...)
}

// A sheet is one bag being laid.
type sheet struct {
	*printer
	arrangement
	b    *tree.Bag
	f    *page.Flow
	rest string // of a name that is too long for the head
}

// Type of the bag: the bench's sizes.
var (
	plain    = page.Style{Face: page.Regular, Size: page.Bench.Words}
	strong   = page.Style{Face: page.Bold, Size: page.Bench.Words}
	value    = page.Style{Face: page.Bold, Size: page.Bench.Value}
	code     = page.Style{Face: page.MonoBold, Size: page.Bench.Words}
	bigCode  = page.Style{Face: page.MonoBold, Size: page.Bench.Value}
	identity = page.Style{Face: page.MonoBold, Size: page.Bench.Identity}
	stamp    = page.Style{Face: page.Regular, Size: page.Bench.Stamp}
)

// hand is the setter's: dirty, but without gloves.
var hand = page.Dirty

// say and with are the words of the catalogue.
func (s *sheet) say(key string) string { return s.words.Say(key) }

func (s *sheet) with(key string, pairs ...string) string { return s.words.With(key, pairs...) }

// title lays the heading of a section, and keeps it with what follows it.
func (s *sheet) title(key string, follows float64) { s.heading(s.say(key), follows) }

func (s *sheet) heading(text string, follows float64) {
	s.begins(strong.Leading() + follows)
	s.f.Para(strong, text)
}

// begins parts a section from the one before and keeps its beginning whole; a
// table has its title in its own head.
func (s *sheet) begins(height float64) {
	s.f.Gap(1.5)
	s.f.Need(height + 2)
	s.f.Rule()
}

// fact lays a label and its value; nothing for an empty one. Label and value
// stand on one base line whatever their sizes.
func (s *sheet) fact(label string, st page.Style, text string) {
	if strings.TrimSpace(text) == "" {
		return
	}
	column := 24.0
	if s.form == Short {
		column = 18
		if st == value {
			st = strong
		}
	}
	lines := st.Wrap(text, s.f.Frame.Width()-column)
	head := plain.Wrap(label, column-1)
	s.f.Line([]string{label, text}, func() {
		for i := 0; i < max(len(lines), len(head)); i++ {
			step := plain.Leading()
			if i < len(lines) {
				step = st.Leading()
			}
			s.f.Need(step)
			base := s.f.Y + st.Base()
			if i < len(head) {
				s.f.Leaf().Text(s.f.Frame.Left, base, plain, head[i])
			}
			if i < len(lines) {
				s.f.Leaf().Text(s.f.Frame.Left+column, base, st, lines[i])
			}
			s.f.Y += step
		}
	})
}
