// Package desk is what the printing of every sheet of a cast starts from: the
// words of the house, its forms of figures, its paper and a document.
//
// Use first: [Open]. Nothing here knows one sheet from another.
package desk

import (
	"fmt"

	"castweek/metal/measure"
	"castweek/metal/problem"
	"castweek/sheets/page"
	"castweek/sheets/words"
	"castweek/tree"
)

// Options choose the language. Without Words it is that of the house.
type Options struct {
	Words *words.Words
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
	Cast  *tree.Cast
	Words *words.Words
	Fig   words.Figures
	Doc   *page.Doc
	Paper page.Paper // the house's full sheet
	title string
}

// Open readies a desk for a sheet whose title is a word of the catalogue.
func Open(c *tree.Cast, o Options, title string) Desk {
	w := o.WordsOf(c)
	d := Desk{Cast: c, Words: w, Fig: words.FiguresOf(w, c.House.Decimal), Paper: page.Full(c.House.Series), title: w.Say(title) + " " + c.Name}
	d.Renew()
	return d
}

// Renew begins the document anew, so that a try leaves no remarks behind.
func (d *Desk) Renew() {
	d.Doc = page.New(page.Options{Title: d.title, Subject: d.Cast.House.Name, AsOf: d.Cast.AsOf})
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

// Customers tells whether something is not the house's own.
func Customers(owner string) bool { return owner != "" && owner != "house" }
