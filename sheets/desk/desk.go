// Package desk is what the printing of every sheet of a cast starts from: the
// words of the house, its forms of figures, its paper and a document.
//
// Use first: [Open]. Nothing here knows one sheet from another.
package desk

import (
	"fmt"
	"slices"

	"castweek/metal/measure"
	"castweek/metal/problem"
	"castweek/sheets/page"
	"castweek/sheets/words"
	"castweek/tree"
	"castweek/tree/record"
)

// Options choose the language, and say what was printed before. Without Words
// the language is that of the house; without Prints nothing is numbered.
type Options struct {
	Words  *words.Words
	Prints *record.Prints // those of the cast; what is printed is put there
	Jobs   []string       // the only ones of the cast that are printed; empty: all
}

// WordsOf are the words that a cast is printed in: those that are chosen, else
// those of its house, else the English ones.
func (o Options) WordsOf(c *tree.Cast) *words.Words {
	if o.Words != nil {
		return o.Words
	}
	return words.Of(c.House.Lang, c.House.Words)
}

// A Desk holds what all pages of one sheet share.
type Desk struct {
	Cast    *tree.Cast
	Words   *words.Words
	Fig     words.Figures
	Doc     *page.Doc
	Paper   page.Paper    // the house's full sheet
	Note    page.Style    // of what a changed line was
	Stamped bool          // the head says which print it is
	Print   *record.Print // which print is being laid; nil: prints are not counted

	title   string
	options Options
	marks   page.Marks
}

// Open readies a desk for a sheet whose title is a word of the catalogue.
func Open(c *tree.Cast, o Options, title string) Desk {
	w := o.WordsOf(c)
	d := Desk{Cast: c, Words: w, Fig: words.FiguresOf(w, c.House.Decimal), Paper: page.Full(c.House.Series), title: w.Say(title) + " " + c.Name, options: o}
	d.Renew()
	return d
}

// Bags are the bags that are printed.
func (d *Desk) Bags() []*tree.Bag {
	var out []*tree.Bag
	for i := range d.Cast.Bags {
		if b := &d.Cast.Bags[i]; d.wanted(b.Job) {
			out = append(out, b)
		}
	}
	return out
}

// Wants tells whether the pages of a tree are printed: those of a tree that
// holds a casting of a wanted job.
func (d *Desk) Wants(t *tree.Tree) bool {
	return len(d.options.Jobs) == 0 || slices.ContainsFunc(t.Castings, func(h tree.Hanging) bool { return d.wanted(h.Job) })
}

// WantsAny tells whether any of some jobs is printed.
func (d *Desk) WantsAny(jobs []string) bool {
	return len(d.options.Jobs) == 0 || slices.ContainsFunc(jobs, d.wanted)
}

func (d *Desk) wanted(job string) bool {
	return len(d.options.Jobs) == 0 || slices.Contains(d.options.Jobs, job)
}

// Renew begins the document anew, so that a try leaves no remarks behind.
func (d *Desk) Renew() {
	d.Doc = page.New(page.Options{Title: d.title, Subject: d.Cast.House.Name, AsOf: d.Cast.AsOf})
	d.Doc.Trace(d.marks)
}

// Close ends the document. An error names the sheet.
func (d *Desk) Close(sheet string) ([]byte, problem.List, error) {
	out, err := d.Doc.Bytes()
	if err != nil {
		return nil, d.Doc.Problems(), fmt.Errorf("%s: %w", sheet, err)
	}
	return out, d.Doc.Problems(), nil
}

// Exact writes a planned weight to the milligram, so that what stands in a
// column adds up to its foot.
func (d *Desk) Exact(m measure.Milligram) string { return d.Fig.Fixed(float64(m)/1000, 3) }

// Scale writes a weight as the house's scale shows it.
func (d *Desk) Scale(m measure.Milligram) string { return d.Fig.Grams(m, d.Cast.House.ScaleStep) }

// Cells is the form of boxes for a weight near m on the house's scale:
// "000.00".
func (d *Desk) Cells(m measure.Milligram) string {
	form := "000"
	if m >= 1000_000 {
		form = "0000"
	}
	const decimals = "000"
	if n := words.Decimals(d.Cast.House.ScaleStep); n > 0 {
		form += d.Fig.Mark() + decimals[:n]
	}
	return form
}

// TrueSize draws the bar that proves the true size of a page, with what it is
// in as many words as fit before the end.
func (d *Desk) TrueSize(l *page.Leaf, x, y float64, s page.Style, end float64) {
	caption := d.Words.Say("sheet.bar")
	if x+page.ControlLength+2+s.Width(caption) > end {
		caption = d.Words.Say("sheet.barshort")
	}
	l.ControlBar(x, y, s, caption)
}

// Customers tells whether something is not the house's own.
func Customers(owner string) bool { return owner != "" && owner != "house" }
