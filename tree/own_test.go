package tree_test

import (
	"os"
	"slices"
	"strings"
	"testing"

	"castweek/jobs"
	"castweek/metal/book"
	"castweek/metal/measure"
	"castweek/tree"
)

// sampleBook is the sample's metal's book with more lines.
func sampleBook(t *testing.T, more ...book.Movement) *book.Book {
	t.Helper()
	data, err := os.ReadFile("../samples/saltmarsh/metal.csv")
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range more {
		m.At, m.Who = monday, "AB"
		line, _, problems := book.AppendLine("metal.csv", data, m)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		data = append(data, line...)
	}
	b, problems := book.Read("metal.csv", data)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return b
}

// The sample's customer brought 22.40 g of gold for a band, which is the
// ordinary case: too little for piece, trunk and button.
func TestOwnMetal(t *testing.T) {
	whole, err := sample()
	if err != nil {
		t.Fatal(err)
	}
	f := *whole // the customer's job alone is planned in no time
	f.Jobs = slices.DeleteFunc(slices.Clone(whole.Jobs), func(j *jobs.Job) bool { return j.Owner != "M. Thorne" })
	in := func(g measure.Milligram, alloy string, fine book.Parts, from book.Origin) book.Movement {
		return book.Movement{Kind: book.CustomerIn, Lot: "T-2", Alloy: alloy, Fineness: fine, From: from, Grams: g, Owner: "M. Thorne", Form: book.Scrap, HasMelts: true, Melts: 1, Note: "a chain"}
	}
	for name, x := range map[string]struct {
		book  *book.Book
		known bool
		lots  int
		given measure.Milligram // of the lots that are counted
	}{
		"as the sample has it":     {sampleBook(t), true, 1, 22_400},
		"no book":                  {nil, false, 0, 0},
		"a chain more":             {sampleBook(t, in(30_000, "585 yellow", 585_000, book.Assay)), true, 2, 52_400},
		"a stamped chain":          {sampleBook(t, in(30_000, "585 yellow", 585_000, book.StampOnly)), true, 2, 22_400},
		"a chain of another alloy": {sampleBook(t, in(30_000, "750 yellow", 750_000, book.Assay)), true, 2, 22_400},
		"too poor":                 {sampleBook(t, in(30_000, "585 yellow", 584_000, book.Assay)), true, 2, 22_400},
	} {
		p, err := tree.Make(tree.Input{Folder: &f, AsOf: monday, Book: x.book})
		if err != nil {
			t.Fatal(err)
		}
		if len(p.Cast.OwnMetal) != 1 {
			t.Fatalf("%s: %+v", name, p.Cast.OwnMetal)
		}
		o := p.Cast.OwnMetal[0]
		at := slices.IndexFunc(p.Cast.Trees, func(x tree.Tree) bool { return x.Owner == "M. Thorne" })
		own := p.Cast.Trees[at]
		if o.Customer != "M. Thorne" || o.Number != own.Name || !slices.Equal(o.Jobs, []string{"K-211"}) || o.Known != x.known || len(o.In) != x.lots || o.Standard != 585 {
			t.Errorf("%s: %+v", name, o)
		}
		if o.Total != own.Charge.Total || o.Pieces+o.Feeders+o.Trunk+o.Button+o.Loss != o.Total || o.Back != o.Feeders+o.Trunk+o.Button || o.Filings <= 0 || o.Filings >= o.Pieces {
			t.Errorf("%s: %+v does not add up to %v", name, o, own.Charge)
		}
		counted := measure.Milligram(0)
		for _, l := range o.In {
			if (l.Counted > 0) == (l.Why != "") {
				t.Errorf("%s: %+v", name, l)
			}
			if l.Counted > 0 {
				counted += l.Weight
			}
		}
		wantMissing, wantOver := max(0, o.Total-x.given), max(0, x.given-o.Total)
		if !x.known {
			wantMissing, wantOver = 0, 0
		}
		if counted != x.given || o.Missing != wantMissing || o.Over != wantOver {
			t.Errorf("%s: counted %v, missing %v, over %v; want %v, %v, %v", name, counted, o.Missing, o.Over, x.given, wantMissing, wantOver)
		}
		if s := o.Smallest; s.Flask == "" || s.Takes > o.Total || x.known && s.Missing != max(0, s.Takes-x.given) {
			t.Errorf("%s: smallest %+v of %v", name, s, o.Total)
		}
		if x.lots == 2 && o.In[1].What != "a chain" {
			t.Errorf("%s: %+v", name, o.In)
		}
		said := slices.ContainsFunc(p.Cast.Remarks, func(r tree.Remark) bool {
			return r.Code == "metal-customer-short" && strings.Contains(r.Text, o.Missing.String())
		})
		if said != (wantMissing > 0) {
			t.Errorf("%s: missing %v, remarks %v", name, o.Missing, p.Cast.Remarks)
		}
	}
}
