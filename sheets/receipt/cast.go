package receipt

import (
	"errors"
	"strings"

	"castweek/metal/measure"
	"castweek/metal/problem"
	"castweek/sheets/desk"
	"castweek/sheets/page"
	"castweek/sheets/words"
	"castweek/tree"
)

// PrintCast prints the receipts of all customers' own metal of a cast, one
// after the other; a cast without any is an error.
func PrintCast(c *tree.Cast, o Options) ([]byte, problem.List, error) {
	d := desk.Open(c, o, "receipt.title")
	var all problem.List
	var broken error
	n := 0
	for i := range c.OwnMetal {
		own := &c.OwnMetal[i]
		if !d.WantsAny(own.Jobs) {
			continue
		}
		n++
		r := Of(c, own, d.Words)
		leaves := d.Pages("receipt "+own.Number, func() []*page.Leaf {
			p, leaves, err := r.lay(Options{Words: d.Words}, &d)
			all = append(all, p.problems...)
			if err != nil {
				broken = err
			}
			return leaves
		})
		if broken != nil {
			return nil, all, broken
		}
		d.Doc.Put(leaves...)
	}
	if n == 0 {
		return nil, nil, errors.New("no receipts to print")
	}
	out, problems, err := d.Close("receipts")
	return out, append(all, problems...), err
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
