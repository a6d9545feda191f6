package tree

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"castweek/jobs/workshop"
	"castweek/metal"
	"castweek/metal/book"
	"castweek/metal/measure"
	"castweek/tree/record"

	"pgregory.net/rapid"
)

var lotsNow = time.Date(2026, 11, 30, 8, 0, 0, 0, time.UTC)

func lotsShop(t interface{ Fatal(...any) }) *workshop.Workshop {
	w := &workshop.Workshop{Alloys: metal.StartList(), ScaleStep: 10}
	w.Stock = workshop.Stock{Reuse: workshop.Reuse{Fresh: 50, Melts: 3, Lead: 72 * time.Hour}, Country: workshop.DefaultCountry}
	return w
}

func opening(lot, alloy, owner string, form book.Form, from book.Origin, fine book.Parts, grams measure.Milligram, melts int, note string) book.Movement {
	m := book.Movement{At: lotsNow, Who: "test", Kind: book.Opening, Lot: lot, Alloy: alloy, Owner: owner, Form: form, From: from, Fineness: fine, Grams: grams, Note: note}
	if form != book.Grain {
		m.Melts, m.HasMelts = melts, true
	}
	return m
}

func bookOf(t interface{ Fatal(...any) }, list ...book.Movement) *book.Book {
	var data []byte
	for _, m := range list {
		line, _, problems := book.AppendLine("metal.csv", data, m)
		if len(problems.Errors()) > 0 {
			t.Fatal(problems)
		}
		data = append(data, line...)
	}
	b, problems := book.Read("metal.csv", data)
	if len(problems.Errors()) > 0 {
		t.Fatal(problems)
	}
	return b
}

func lotsTree(name, alloy, owner string, total measure.Milligram) Tree {
	return Tree{Name: name, Alloy: alloy, Owner: owner, Charge: metal.Charge{Total: total}}
}

// Returned metal goes in up to the house share, a customer's to nobody else's
// tree, and what may not be cast is set aside with its reason.
func TestShareLots(t *testing.T) {
	b := bookOf(t,
		opening("B1", "750 yellow", "", book.Button, book.OwnMelt, 750_000, 80_000, 1, ""),
		opening("G1", "750 yellow", "", book.Grain, book.Certificate, 750_000, 30_000, 0, ""),
		opening("S1", "750 yellow", "", book.Scrap, book.StampOnly, 750_000, 50_000, 1, ""),
		opening("U1", "750 yellow", "", book.Button, book.Assay, 749_900, 50_000, 1, ""),
		opening("X1", "750 yellow", "", book.Scrap, book.Assay, 751_000, 50_000, 1, "old solder seams"),
		opening("O1", "750 yellow", "", book.Button, book.OwnMelt, 750_000, 50_000, 4, ""),
		opening("T1", "750 yellow", "M. Thorne", book.Scrap, book.Assay, 750_000, 12_000, 5, ""))
	c := &Cast{AsOf: lotsNow, Pour: lotsNow.Add(48 * time.Hour), Trees: []Tree{
		lotsTree("A", "750 yellow", "house", 60_000), lotsTree("B", "750 yellow", "house", 40_000), lotsTree("C", "750 yellow", "M. Thorne", 20_000)}}
	shareLots(lotsShop(t), Input{Book: b, AsOf: lotsNow}, c)
	var fresh, returned, short measure.Milligram
	for _, x := range c.Trees[:2] {
		if x.Lots.Returned > x.Charge.Total/2 || x.Lots.Fresh+x.Lots.Returned+x.Lots.Short != x.Charge.Total {
			t.Errorf("%s: %+v", x.Name, x.Lots)
		}
		fresh, returned, short = fresh+x.Lots.Fresh, returned+x.Lots.Returned, short+x.Lots.Short
		if len(x.Lots.Aside) != 4 {
			t.Errorf("%s sets aside %v", x.Name, x.Lots.Aside)
		}
	}
	if fresh != 30_000 || returned != 50_000 || short != 20_000 {
		t.Errorf("fresh %v returned %v short %v", fresh, returned, short)
	}
	if own := c.Trees[2].Lots; own.Returned != 12_000 || own.Short != 8_000 || len(own.Takes) != 1 || own.Takes[0].Lot != "T1" {
		t.Errorf("own metal %+v", own)
	}
	if fmt.Sprint(c.Buy) == "" || len(c.Buy) != 2 || c.Buy[0].Weight != 20_000 || !c.Buy[0].OrderBy.Equal(c.Pour.Add(-72*time.Hour)) || len(c.Remarks) != 2 {
		t.Errorf("buy %+v, remarks %+v", c.Buy, c.Remarks)
	}
}

// A note of solder bars a lot, also one that came later; a line that was taken
// back says nothing any more.
func TestSolderedLotsAreBarred(t *testing.T) {
	grain := func(note string) book.Movement {
		return opening("G1", "750 yellow", "", book.Grain, book.Certificate, 750_000, 20_000, 0, note)
	}
	back := grain("")
	back.Kind, back.Reverses = book.Reversal, 2
	for what, x := range map[string]struct {
		moves []book.Movement
		want  bool
	}{
		"plain":      {[]book.Movement{grain("")}, false},
		"soldered":   {[]book.Movement{grain("old Solder seams")}, true},
		"later":      {[]book.Movement{grain(""), grain("with cadmium, it seems")}, true},
		"taken back": {[]book.Movement{grain(""), grain("solder"), back}, false},
	} {
		b := bookOf(t, x.moves...)
		h, _ := b.Lot("G1")
		if got := Barred(lotsShop(t), b, h); (got != "") != x.want {
			t.Errorf("%s: %q", what, got)
		}
	}
}

// A melt of several alloys is tested before it is cast; returns of one alloy
// that were melted together are not mixed.
func TestMeltsAreTestedBeforeTheyAreCast(t *testing.T) {
	moves := func(from book.Origin) []book.Movement {
		take := func(lot, alloy string, fine book.Parts, into string) book.Movement {
			m := opening(lot, alloy, "", book.Button, book.OwnMelt, fine, 20_000, 1, "")
			m.Kind, m.Into, m.Melts, m.HasMelts = book.ToMelt, into, 0, false
			return m
		}
		gives := func(lot string) book.Movement {
			m := opening(lot, "750 yellow", "", book.Bar, from, 751_000, 19_000, 0, "")
			m.Kind, m.Melts, m.HasMelts = book.FromMelt, 0, false
			return m
		}
		return []book.Movement{
			opening("A1", "750 yellow", "", book.Button, book.OwnMelt, 751_000, 80_000, 1, ""),
			opening("A2", "916 yellow", "", book.Button, book.OwnMelt, 917_000, 80_000, 1, ""),
			take("A1", "750 yellow", 751_000, "M1"), gives("M1"),
			take("A1", "750 yellow", 751_000, "M2"), take("A2", "916 yellow", 917_000, "M2"), gives("M2")}
	}
	for from, aside := range map[book.Origin]int{book.OwnMelt: 1, book.Assay: 0} {
		c := &Cast{AsOf: lotsNow, Pour: lotsNow.Add(200 * time.Hour), Trees: []Tree{lotsTree("A", "750 yellow", "house", 60_000)}}
		shareLots(lotsShop(t), Input{Book: bookOf(t, moves(from)...), AsOf: lotsNow}, c)
		got := c.Trees[0].Lots.Aside
		if len(got) != aside || aside == 1 && (got[0].Lot != "M2" || !strings.Contains(got[0].Reason, "test it")) {
			t.Errorf("by %s: %v set aside", from, got)
		}
	}
}

// The metal of an accepted cast is promised, and ordered for its own pour.
func TestAcceptedCastsArePromised(t *testing.T) {
	b := bookOf(t, opening("G1", "750 yellow", "", book.Grain, book.Certificate, 750_000, 30_000, 0, ""))
	r := record.Record[Cast]{Cast: "2026-W49", Pour: lotsNow.Add(100 * time.Hour), Paper: Cast{Trees: []Tree{lotsTree("A", "750 yellow", "house", 60_000)}}}
	c := &Cast{AsOf: lotsNow, Pour: lotsNow.Add(300 * time.Hour)}
	shareLots(lotsShop(t), Input{Book: b, AsOf: lotsNow, Records: []record.Record[Cast]{r}}, c)
	if len(c.Buy) != 1 || c.Buy[0].Weight != 30_000 || !c.Buy[0].OrderBy.Equal(r.Pour.Add(-72*time.Hour)) {
		t.Errorf("buy %+v", c.Buy)
	}
	if l := c.LotsLeft[0]; l.OnHand != 30_000 || l.Promised != 30_000 || l.Taken != 0 || l.Weight != 0 {
		t.Errorf("left %+v", l)
	}
	if len(c.Remarks) != 0 {
		t.Errorf("what the accepted cast is short of is said again: %v", c.Remarks)
	}
	// A tree of this cast is spoken of, with what it is short of itself; the
	// order covers both.
	c = &Cast{AsOf: lotsNow, Pour: lotsNow.Add(60 * time.Hour), Trees: []Tree{lotsTree("B", "750 yellow", "house", 20_000)}}
	shareLots(lotsShop(t), Input{Book: b, AsOf: lotsNow, Records: []record.Record[Cast]{r}}, c)
	if len(c.Buy) != 1 || c.Buy[0].Weight != 50_000 || c.Buy[0].Trees() != "A, B" || !c.Buy[0].OrderBy.Equal(c.Pour.Add(-72*time.Hour)) {
		t.Errorf("buy %+v", c.Buy)
	}
	if len(c.Remarks) != 1 || c.Remarks[0].Code != "metal-order-late" || !strings.HasPrefix(c.Remarks[0].Text, "20.000 g of 750 yellow") {
		t.Errorf("remarks %v", c.Remarks)
	}
}

// A tree needs no more metal when enough was weighed out to it, within what its
// built weight may be off, or when metal has come off it; until then the rest
// is promised.
func TestWhatWasWeighedOutIsNotPromisedAgain(t *testing.T) {
	for what, x := range map[string]struct {
		out, back measure.Milligram
		promised  measure.Milligram
	}{
		"nothing yet":          {0, 0, 60_000},
		"the first lot":        {20_000, 0, 40_000},
		"a little less":        {58_500, 0, 0}, // 2.5 % under the plan
		"more than planned":    {61_000, 0, 0},
		"poured with far less": {20_000, 9_000, 0},
	} {
		grain := opening("G1", "750 yellow", "", book.Grain, book.Certificate, 750_000, 200_000, 0, "")
		moves := []book.Movement{grain}
		if x.out > 0 {
			m := grain
			m.Kind, m.Tree, m.Grams = book.ToTree, "A", x.out
			moves = append(moves, m)
		}
		if x.back > 0 {
			m := grain
			m.Kind, m.Tree, m.Grams, m.Lot, m.Form, m.From = book.ButtonBack, "A", x.back, "B1", book.Button, book.OwnMelt
			moves = append(moves, m)
		}
		r := record.Record[Cast]{Cast: "2026-W49", Pour: lotsNow.Add(100 * time.Hour), Paper: Cast{Trees: []Tree{lotsTree("A", "750 yellow", "house", 60_000)}}}
		c := &Cast{AsOf: lotsNow, Pour: lotsNow.Add(300 * time.Hour)}
		shareLots(lotsShop(t), Input{Book: bookOf(t, moves...), AsOf: lotsNow, Records: []record.Record[Cast]{r}}, c)
		promised := measure.Milligram(0)
		for _, l := range c.LotsLeft {
			promised += l.Promised
		}
		if promised != x.promised || len(c.Buy) != 0 {
			t.Errorf("%s: %v promised, want %v; buy %v", what, promised, x.promised, c.Buy)
		}
	}
}

// A cast that was poured and not booked is reminded of: the book does not know
// what is in the box.
func TestUnbookedCastIsReminded(t *testing.T) {
	grain := opening("G1", "750 yellow", "", book.Grain, book.Certificate, 750_000, 200_000, 0, "")
	out := func(tree string) book.Movement {
		m := grain
		m.Kind, m.Tree, m.Grams = book.ToTree, tree, 60_000
		return m
	}
	off := grain
	off.Kind, off.Tree, off.Grams, off.Lot, off.Form, off.From = book.ButtonBack, "2026-W48-A", 30_000, "B1", book.Button, book.OwnMelt
	poured := func(days int) record.Record[Cast] {
		return record.Record[Cast]{Cast: "2026-W48", Pour: lotsNow.AddDate(0, 0, days), Paper: Cast{Trees: []Tree{lotsTree("2026-W48-A", "750 yellow", "house", 60_000), lotsTree("2026-W48-B", "750 yellow", "house", 60_000)}}}
	}
	for what, x := range map[string]struct {
		days  int
		moves []book.Movement
		want  []string
	}{
		"nothing":          {1, []book.Movement{grain}, []string{"weighed out to A, B is"}},
		"one is out":       {1, []book.Movement{grain, out("2026-W48-A")}, []string{"weighed out to B is", "castings of A is"}},
		"one is back":      {1, []book.Movement{grain, out("2026-W48-A"), off, out("2026-W48-B")}, []string{"castings of B is"}},
		"not poured yet":   {9, []book.Movement{grain}, nil},
		"before the book":  {-9, []book.Movement{grain}, nil},
		"no book to speak": {1, nil, nil},
	} {
		c := &Cast{AsOf: lotsNow.AddDate(0, 0, 5), Pour: lotsNow.AddDate(0, 0, 8)}
		shareLots(lotsShop(t), Input{Book: bookOf(t, x.moves...), AsOf: c.AsOf, Records: []record.Record[Cast]{poured(x.days)}}, c)
		ok := len(c.Remarks) == len(x.want)
		for i := range x.want {
			ok = ok && c.Remarks[i].Code == "metal-not-booked" && strings.Contains(c.Remarks[i].Text, x.want[i])
		}
		if !ok {
			t.Errorf("%s: %v, want %v", what, c.Remarks, x.want)
		}
	}
}

func TestNoBookSaysNothing(t *testing.T) {
	c := &Cast{Trees: []Tree{lotsTree("A", "750 yellow", "house", 60_000)}}
	shareLots(lotsShop(t), Input{}, c)
	if c.Trees[0].Lots.Known || c.Buy != nil || c.Remarks != nil {
		t.Errorf("%+v", c)
	}
}

// What goes into trees and what stays is what was there, and no lot gives more
// than it has.
func TestLotsAreConserved(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		alloys := []string{"750 yellow", "585 yellow", "925 silver"}
		fine := map[string]book.Parts{"750 yellow": 750_000, "585 yellow": 585_000, "925 silver": 925_000}
		owner := rapid.SampledFrom([]string{"", "", "M. Thorne"})
		var list []book.Movement
		in := measure.Milligram(0)
		for i := range rapid.IntRange(1, 8).Draw(t, "lots") {
			a := rapid.SampledFrom(alloys).Draw(t, "alloy")
			g := measure.Milligram(rapid.IntRange(1, 90_000).Draw(t, "grams"))
			form := rapid.SampledFrom([]book.Form{book.Grain, book.Button}).Draw(t, "form")
			list = append(list, opening(fmt.Sprint("L", i), a, owner.Draw(t, "owner"), form, book.Assay, fine[a], g, 1, ""))
			in += g
		}
		c := &Cast{AsOf: lotsNow, Pour: lotsNow.Add(200 * time.Hour)}
		for i := range rapid.IntRange(1, 5).Draw(t, "trees") {
			o := owner.Draw(t, "for")
			if o == "" {
				o = "house"
			}
			c.Trees = append(c.Trees, lotsTree(fmt.Sprint("T", i), rapid.SampledFrom(alloys).Draw(t, "of"), o, 10*measure.Milligram(rapid.IntRange(1, 9_000).Draw(t, "need"))))
		}
		shareLots(lotsShop(t), Input{Book: bookOf(t, list...), AsOf: lotsNow}, c)
		out := measure.Milligram(0)
		for _, x := range c.Trees {
			sum := x.Lots.Short
			for _, k := range x.Lots.Takes {
				sum += k.Weight
				out += k.Weight
			}
			if sum != x.Charge.Total {
				t.Fatalf("%s: %v of %v", x.Name, sum, x.Charge.Total)
			}
		}
		for _, l := range c.LotsLeft {
			out += l.Weight
			taken := measure.Milligram(0)
			for _, x := range c.Trees {
				for _, k := range x.Lots.Takes {
					if k.Lot == l.Lot {
						taken += k.Weight
					}
				}
			}
			if l.Taken != taken || l.OnHand != l.Taken+l.Promised+l.Weight || l.Weight < 0 || l.Promised < 0 {
				t.Fatalf("%+v, of which %v is taken", l, taken)
			}
		}
		if out != in {
			t.Fatalf("%v there, %v accounted for", in, out)
		}
	})
}
