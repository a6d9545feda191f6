package tree

import (
	"math/big"
	"strings"
	"time"

	"castweek/jobs"
	"castweek/jobs/workshop"
	"castweek/metal"
	"castweek/metal/book"
	"castweek/metal/mark"
	"castweek/metal/measure"
	"castweek/metal/mix"
)

// Lots is the metal of one tree's charge, lot by lot.
type Lots struct {
	Known    bool // the folder has a metal's book
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

// Purchase is metal to order for the cast.
type Purchase struct {
	Alloy, Owner string
	Weight       measure.Milligram
	OrderBy      time.Time // so that it is here at the pour
}

// LotLeft is what stays of a lot after the cast.
type LotLeft struct {
	Lot, Alloy, Owner string
	Weight            measure.Milligram
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
		need := t.Charge.Total - charged(in.Book, t.Name)
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
		c.Trees[i].Lots.Known = true
		at[c.Trees[i].Name] = &c.Trees[i]
		add(&c.Trees[i], c.Pour)
	}
	holdings, lots := metalOf(w, in.Book)
	shared := mix.Share(pours, lots, w.ScaleStep)
	for _, p := range shared.Problems.Errors() {
		c.Remarks = append(c.Remarks, Remark{"", p.Code, p.Message, p.Remedy})
	}
	first := map[[2]string]time.Time{} // pour that is short, by alloy and owner
	for i, p := range shared.Pours {
		k := [2]string{pours[i].Alloy, pours[i].Owner}
		if old, ok := first[k]; p.Short > 0 && (!ok || when[i].Before(old)) {
			first[k] = when[i]
		}
		if t := at[p.Tree]; t != nil {
			t.Lots.Fresh, t.Lots.Returned, t.Lots.Short = p.Fresh, p.Returned, p.Short
			for _, k := range p.Takes {
				h := holdings[k.Lot]
				t.Lots.Takes = append(t.Lots.Takes, LotTake{h.Lot, string(h.Form), h.Melts, k.Grams})
			}
		}
	}
	for i := range c.Trees {
		c.Trees[i].setAside(w, holdings, lots)
	}
	c.order(w, shared.Buy, first)
	for _, l := range shared.Left {
		if h := holdings[l.Lot]; l.Grams > 0 {
			c.LotsLeft = append(c.LotsLeft, LotLeft{h.Lot, h.Alloy, h.Owner, l.Grams})
		}
	}
}

// ownerOf is the owner as the metal's book writes it.
func ownerOf(owner string) string {
	if owner == jobs.House {
		return ""
	}
	return owner
}

func charged(b *book.Book, tree string) measure.Milligram {
	for _, a := range b.Trees() {
		if a.Tree == tree {
			return a.Charged
		}
	}
	return 0
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
			lots = append(lots, mix.Metal{Name: h.Lot, Alloy: h.Alloy, Owner: h.Owner, Grams: h.Grams, Melts: h.Melts, Barred: barred(w, b, h)})
		}
	}
	return holdings, lots
}

// barred says why a lot does not go into a crucible as it is; "" when it may.
func barred(w *workshop.Workshop, b *book.Book, h book.Holding) string {
	a, ok := w.Alloys.Find(h.Alloy)
	counted := h.Fineness
	if h.From == book.StampOnly {
		counted -= book.Parts(w.Stock.StampDiscount * 1000)
	}
	switch {
	case !ok:
		return "its alloy is not known here"
	case a.Composition.Of("Cd") > 0:
		return "it holds cadmium: send it to the refiner"
	case soldered(b, h.Lot):
		return "its note speaks of solder or cadmium: assay it or send it to the refiner"
	case h.From == book.StampOnly && !w.Stock.TakesStamps:
		return "its fineness is known by a stamp only: assay it"
	case h.Form == book.Powder:
		return "filings are melted and assayed before they are cast"
	case counted < standardOf(w, a):
		return "its fineness is under the standard: bring it up in a melt of its own"
	}
	return ""
}

// soldered looks for a word of solder or cadmium in what was noted of the lot.
// A note that denies it counts too: a person reads it and notes it otherwise.
func soldered(b *book.Book, lot string) bool {
	for _, m := range b.Movements {
		note := strings.ToLower(m.Note)
		if m.Lot == lot && (strings.Contains(note, "solder") || strings.Contains(note, "cadmium")) {
			return true
		}
	}
	return false
}

// standardOf is the fineness that an alloy must reach to be marked as it is.
func standardOf(w *workshop.Workshop, a metal.Alloy) book.Parts {
	m, err := mark.MarkFor(w.Stock.Country, mark.Element(a.Noble()), mark.Parts(a.Fineness()))
	if err == nil && m.State == mark.Legally {
		return book.Parts(m.Fineness)
	}
	return book.Parts(a.Fineness())
}

func (t *Tree) setAside(w *workshop.Workshop, holdings []book.Holding, lots []mix.Metal) {
	a, _ := w.Alloys.Find(t.Alloy)
	for i, h := range holdings {
		if h.Alloy != t.Alloy || h.Owner != ownerOf(t.Owner) {
			continue
		}
		switch most := w.Stock.ReuseOf(a).Melts; {
		case lots[i].Barred != "":
			t.Lots.Aside = append(t.Lots.Aside, LotAside{h.Lot, lots[i].Barred})
		case h.Owner == "" && h.Melts > 0 && h.Melts > most:
			t.Lots.Aside = append(t.Lots.Aside, LotAside{h.Lot, "it was melted more often than the house casts again"})
		}
	}
}

// order lists what to buy, and says when it is too late for the delivery or
// when it is a customer who has to bring it.
func (c *Cast) order(w *workshop.Workshop, buy []mix.Buy, first map[[2]string]time.Time) {
	for _, b := range buy {
		a, _ := w.Alloys.Find(b.Alloy)
		p := Purchase{b.Alloy, b.Owner, b.Grams, first[[2]string{b.Alloy, b.Owner}].Add(-w.Stock.ReuseOf(a).Lead)}
		if b.Owner != "" {
			c.Remarks = append(c.Remarks, Remark{"", "metal-customer-short", b.Owner + "'s own " + b.Alloy + ": " + b.Grams.String() + " are missing",
				"agree it with the customer: more metal, topping up, the smallest flask, or made by hand"})
		} else if p.OrderBy.Before(c.AsOf) {
			c.Remarks = append(c.Remarks, Remark{"", "metal-order-late", b.Grams.String() + " of " + b.Alloy + " are missing, and the delivery takes longer than until the pour",
				"ask the supplier for a quicker delivery, or cast it next time"})
		}
		c.Buy = append(c.Buy, p)
	}
}
