package tree

import (
	"math/big"
	"strings"
	"time"

	"castweek/jobs"
	"castweek/jobs/workshop"
	"castweek/metal/book"
	"castweek/metal/measure"
	"castweek/metal/mix"
	"castweek/tree/record"
)

// Lots is the metal of one tree's charge, lot by lot. Takes, Short and Weighed
// add up to the charge, but for what the scale could not show.
type Lots struct {
	Known    bool              // the folder has a metal's book
	Standard measure.PerMille  // that the metal must reach to be marked as its alloy
	Weighed  measure.Milligram // weighed out already, by the book
	Takes    []LotTake
	Fresh    measure.Milligram
	Returned measure.Milligram
	Short    measure.Milligram // on no lot: to be bought, or brought by the customer
	Aside    []LotAside        // lots of its alloy and owner that do not go in
}

// LotTake is what is weighed out of a lot.
type LotTake struct {
	Lot    string
	Form   string
	Melts  int
	Weight measure.Milligram
}

// LotAside is a lot that is left alone, and why.
type LotAside struct{ Lot, Reason string }

// LotLeft is a lot on hand and what stays of it after the cast.
type LotLeft struct {
	Lot, Alloy, Owner string
	Weight            measure.Milligram // what stays
	Form, From        string
	Fineness          measure.PerMille
	Melts             int
	OnHand            measure.Milligram // now, by the book
	Taken             measure.Milligram // by the trees of this cast
	Promised          measure.Milligram // to accepted casts that nothing was weighed out to yet
	Barred            string            // why it does not go into a crucible; empty when it may
}

// shareLots shares the metal on hand over the trees that are poured, as one
// problem together with the accepted trees that nothing was weighed out to yet:
// their metal is promised. Without a book nothing is known and nothing is said.
func shareLots(w *workshop.Workshop, in Input, c *Cast) {
	if in.Book == nil {
		return
	}
	var pours []mix.Pour
	var when []time.Time // of each pour
	at := map[string]*Tree{}
	add := func(t *Tree, pour time.Time) {
		need := stillNeeded(w, in.Book, t)
		if !t.Pourable() || need <= 0 {
			return
		}
		pours = append(pours, pourOf(w, t, need.RoundUp(w.ScaleStep)))
		when = append(when, pour)
	}
	for i := range in.Records {
		if r := &in.Records[i]; r.Pour.After(in.AsOf) {
			for k := range r.Paper.Trees {
				add(&r.Paper.Trees[k], r.Pour)
			}
		}
	}
	for i := range c.Trees {
		t := &c.Trees[i]
		t.Lots.Known = true
		t.Lots.Weighed = weighedOut(in.Book, t.Name).Charged
		at[t.Name] = t
		add(t, c.Pour)
	}
	holdings, lots := metalOf(w, in.Book)
	shared := mix.ShareFrom(pours, lots, w.ScaleStep, w.Stock.LeastTake.RoundUp(1))
	for _, p := range shared.Problems.Errors() {
		c.Remarks = append(c.Remarks, Remark{"", p.Code, p.Message, p.Remedy})
	}
	taken := make([]measure.Milligram, len(lots))
	buy := purchases{shop: w}
	for i, p := range shared.Pours {
		t := at[p.Tree]
		buy.add(pours[i], p.Short, when[i], t != nil)
		if t == nil {
			continue
		}
		t.Lots.Fresh, t.Lots.Returned, t.Lots.Short = p.Fresh, p.Returned, p.Short
		for _, k := range p.Takes {
			h := holdings[k.Lot]
			taken[k.Lot] += k.Grams
			t.Lots.Takes = append(t.Lots.Takes, LotTake{h.Lot, string(h.Form), h.Melts, k.Grams})
		}
	}
	for i := range c.Trees {
		c.Trees[i].setAside(w, holdings, lots)
	}
	buy.put(c)
	tellUnbooked(in, c)
	for i, l := range shared.Left {
		h := holdings[l.Lot]
		c.LotsLeft = append(c.LotsLeft, LotLeft{Lot: h.Lot, Alloy: h.Alloy, Owner: h.Owner, Weight: l.Grams, Form: string(h.Form), From: string(h.From),
			Fineness: measure.PerMille(float64(h.Fineness) / 1000), Melts: h.Melts, OnHand: h.Grams, Taken: taken[i], Promised: h.Grams - l.Grams - taken[i], Barred: lots[i].Barred})
	}
}

// tellUnbooked reminds of the last cast that was poured since the book began, if
// metal that went to it or came off it is not booked: what is on hand by the
// book is then not what is in the box.
func tellUnbooked(in Input, c *Cast) {
	var last *record.Record[Cast]
	for i := range in.Records {
		if r := &in.Records[i]; !r.Pour.After(in.AsOf) && (last == nil || r.Pour.After(last.Pour)) {
			last = r
		}
	}
	if last == nil || len(in.Book.Movements) == 0 || last.Pour.Before(in.Book.Movements[0].At) {
		return
	}
	var out, back []string
	for i := range last.Paper.Trees {
		t := &last.Paper.Trees[i]
		switch a := weighedOut(in.Book, t.Name); {
		case !t.Pourable():
		case a.Charged == 0:
			out = append(out, t.Letter())
		case a.Button+a.Castings == 0:
			back = append(back, t.Letter())
		}
	}
	say := func(what string, letters []string) {
		if len(letters) > 0 {
			c.Remarks = append(c.Remarks, Remark{"", "metal-not-booked", last.Cast + " was poured, and " + what + " " + strings.Join(letters, ", ") + " is booked: the lots are planned as if it were all here",
				"book it (castweek weigh), then plan again"})
		}
	}
	say("nothing that was weighed out to", out)
	say("neither button nor castings of", back)
}

// ownerOf is the owner as the metal's book writes it.
func ownerOf(owner string) string {
	if owner == jobs.House {
		return ""
	}
	return owner
}

// weighedOut is what the book says of a tree; nothing for one that nothing was
// weighed out to.
func weighedOut(b *book.Book, tree string) book.TreeAccount {
	for _, a := range b.Trees() {
		if a.Tree == tree {
			return a
		}
	}
	return book.TreeAccount{}
}

// stillNeeded is what is still to be weighed out to a tree. Once metal has come
// off it, or as much was weighed out as the built tree may differ from its plan
// without a recount, nothing is.
func stillNeeded(w *workshop.Workshop, b *book.Book, t *Tree) measure.Milligram {
	a := weighedOut(b, t.Name)
	need := t.Charge.Total - a.Charged
	within := (t.Charge.Total.Gram() * measure.Gram(houseOf(w).RecountBeyond()) / 100).RoundDown(1)
	if a.Button+a.Castings > 0 || a.Charged > 0 && need <= within {
		return 0
	}
	return need
}

// pourOf states a tree's need. The house's share of fresh metal is not asked of
// a customer's own metal, which is all there is of it.
func pourOf(w *workshop.Workshop, t *Tree, need measure.Milligram) mix.Pour {
	a, _ := w.Alloys.Find(t.Alloy)
	rule := w.Stock.ReuseOf(a)
	p := mix.Pour{Tree: t.Name, Alloy: t.Alloy, Grams: need, Owner: ownerOf(t.Owner), MostMelts: rule.Melts,
		MostReturned: big.NewRat(int64(1000-10*float64(rule.Fresh)), 1)}
	if p.Owner != "" {
		p.MostReturned, p.MostMelts = big.NewRat(1000, 1), 1<<20
	}
	return p
}

func metalOf(w *workshop.Workshop, b *book.Book) ([]book.Holding, []mix.Metal) {
	var holdings []book.Holding
	var lots []mix.Metal
	for _, h := range b.OnHand() {
		if h.Grams > 0 {
			holdings = append(holdings, h)
			lots = append(lots, mix.Metal{Name: h.Lot, Alloy: h.Alloy, Owner: h.Owner, Grams: h.Grams, Melts: h.Melts, Barred: Barred(w, b, h)})
		}
	}
	return holdings, lots
}
