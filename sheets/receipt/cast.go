package receipt

import (
	"fmt"
	"strings"

	"castweek/metal/measure"
	"castweek/metal/problem"
	"castweek/sheets/page"
	"castweek/sheets/words"
	"castweek/tree"
)

// PrintCast prints the receipts of all customers' own metal of a cast, one
// after the other; a cast without any is an error.
func PrintCast(c *tree.Cast, o Options) ([]byte, problem.List, error) {
	w := o.Words
	if w == nil {
		w = words.English()
	}
	if len(c.OwnMetal) == 0 {
		return nil, nil, fmt.Errorf("no receipts to print")
	}
	doc := page.New(page.Options{Title: w.Say("receipt.title") + " " + c.Name, Subject: c.House.Name, AsOf: c.AsOf})
	var all problem.List
	for i := range c.OwnMetal {
		r := Of(c, &c.OwnMetal[i], w)
		p, leaves, err := r.lay(o, doc)
		all = append(all, p.problems...)
		if err != nil {
			return nil, all, err
		}
		doc.Put(leaves...)
	}
	all = append(all, doc.Problems()...)
	out, err := doc.Bytes()
	if err != nil {
		return nil, all, fmt.Errorf("receipts: %w", err)
	}
	return out, all, nil
}

// Of fills in the receipt for a customer's own metal. What is missing is
// offered as topping up, as the smallest flask, or made by hand. A folder
// without a metal's book gives one open line, to be filled in at the counter.
func Of(c *tree.Cast, o *tree.OwnMetal, w *words.Words) Receipt {
	r := Receipt{House: c.House.Name, Number: o.Number, Customer: o.Customer, Job: strings.Join(o.Jobs, ", "), Design: strings.Join(o.Designs, "; "),
		AsOf: c.AsOf, Proposal: c.Proposal, Paper: half(c.House.Series), Decimal: c.House.Decimal, Step: max(c.House.ScaleStep, 1), Alloy: o.Alloy,
		Need: Need{o.Pieces, o.Feeders, o.Trunk, o.Button, o.Loss, o.Total}, Missing: Short{o.Missing, o.Standard}, Over: o.Over}
	for _, l := range o.In {
		r.In = append(r.In, Lot{What: l.Lot + ", " + l.What, Alloy: l.Alloy, Fineness: l.Fineness, Known: Known(l.From), Counted: l.Counted, Why: l.Why, Told: l.Weight})
	}
	if len(r.In) == 0 {
		r.In = []Lot{{What: w.Say("receipt.toweigh"), Known: Unknown}}
	}
	back := func(key string, weight measure.Milligram) {
		if weight > 0 {
			r.Back = append(r.Back, Back{w.With(key, "alloy", o.Alloy), weight})
		}
	}
	back("receipt.backover", o.Over)
	back("receipt.backbutton", o.Back)
	back("receipt.backfilings", o.Filings)
	if o.Missing > 0 {
		r.Choices = []Choice{{Way: TopUp, Weight: o.Missing, Fineness: o.Standard, Alloy: o.Alloy},
			{Way: SmallestFlask, Flask: o.Smallest.Flask, Weight: o.Smallest.Takes, Missing: o.Smallest.Missing}, {Way: ByHand}}
	}
	return r
}

func half(series string) page.Paper {
	if series == "letter" {
		return page.HalfLetter
	}
	return page.A5
}
