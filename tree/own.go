package tree

import (
	"slices"
	"strings"

	"castweek/jobs"
	"castweek/jobs/workshop"
	"castweek/metal/book"
	"castweek/metal/measure"
	"castweek/tree/mount"
)

// OwnMetal is what a receipt for a customer's own metal says: what was brought
// in, what the trees that are cast from it take, what is missing or comes back,
// and what a smaller flask would change.
type OwnMetal struct {
	Number   string // of the receipt: that of the first tree
	Customer string
	Alloy    string
	Standard measure.PerMille // that metal to be added has to reach
	Trees    []string
	Jobs     []string
	Designs  []string
	Known    bool // the folder has a metal's book: what is missing is known
	In       []OwnLot

	// Pieces, Feeders, Trunk, Button and Loss add up to Total; Button holds what
	// rounding to the scale adds, and Feeders, Trunk and Button come back.
	Pieces, Feeders, Trunk, Button, Loss, Total measure.Milligram

	Missing  measure.Milligram // nothing when there is enough
	Over     measure.Milligram // brought in and not needed
	Back     measure.Milligram // button, trunk and feeders
	Filings  measure.Milligram // expected from cleaning up; 0 when it is not known
	Smallest SmallestFlask
}

// OwnLot is one lot of the customer's.
type OwnLot struct {
	Lot, What, Alloy string
	Fineness         measure.PerMille
	From             string           // where the fineness is from
	Counted          measure.PerMille // what it is counted as; 0: not counted
	Why              string           // it is not counted
	Weight           measure.Milligram
}

// SmallestFlask is the least metal that the same castings take in any flask of
// the house.
type SmallestFlask struct {
	Flask   string // of each tree, parted by commas
	Takes   measure.Milligram
	Missing measure.Milligram
}

// ownMetal writes down each customer's own metal of the cast, alloy by alloy in
// the order of the trees. hung are the cast's trees as they were hung.
func ownMetal(w *workshop.Workshop, in Input, c *Cast, hung []hungTree) (out []OwnMetal) {
	for i := range c.Trees {
		t := &c.Trees[i]
		if t.Owner == jobs.House {
			continue
		}
		k := slices.IndexFunc(out, func(o OwnMetal) bool { return o.Customer == t.Owner && o.Alloy == t.Alloy })
		if k < 0 {
			k = len(out)
			out = append(out, OwnMetal{Number: t.Name, Customer: t.Owner, Alloy: t.Alloy, Standard: t.Lots.Standard, Known: t.Lots.Known})
		}
		out[k].take(w, in, t, hung[i])
	}
	for k := range out {
		o := &out[k]
		for _, p := range c.Buy {
			if p.Owner == o.Customer && p.Alloy == o.Alloy {
				o.Missing = p.here()
			}
		}
		o.broughtIn(w, in.Book, c, out[:k])
		o.Filings = filings(c, o.Trees)
		if o.Missing > 0 {
			o.Over = 0 // less than the scale shows
		}
		if o.Known {
			o.Smallest.Missing = max(0, o.Missing-(o.Total-o.Smallest.Takes))
		}
	}
	return out
}

// take adds a tree's charge.
func (o *OwnMetal) take(w *workshop.Workshop, in Input, t *Tree, h hungTree) {
	o.Trees = append(o.Trees, t.Name)
	for _, k := range t.Castings {
		if !slices.Contains(o.Jobs, k.Job) {
			o.Jobs, o.Designs = append(o.Jobs, k.Job), append(o.Designs, k.Design)
		}
	}
	ch := t.Charge
	o.Pieces += ch.Patterns
	o.Feeders += ch.Feeders
	o.Trunk += ch.Trunk
	o.Button += ch.Button + ch.Rounding
	o.Loss += ch.MeltLoss
	o.Total += ch.Total
	o.Back += ch.TiedUp() + ch.Rounding
	flask, takes := smallest(w, in, h)
	if o.Smallest.Flask != "" {
		flask = o.Smallest.Flask + ", " + flask
	}
	o.Smallest = SmallestFlask{Flask: flask, Takes: o.Smallest.Takes + takes}
}

// smallest hangs a tree's castings in every flask of the house that is in use
// and takes the one with the least charge; at worst that is its own.
func smallest(w *workshop.Workshop, in Input, h hungTree) (flask string, takes measure.Milligram) {
	flask, takes = h.flask.Name, chargeOf(w, h).Total
	var bodies []mount.Body
	for _, it := range h.items {
		bodies = append(bodies, in.traced.of(it))
	}
	for _, f := range w.Flasks {
		if f.Name == h.flask.Name || f.Count < 1 {
			continue
		}
		m, verdict := hang(f, mountGaps(w, h.group.resin), bodies, in.traced.options(w, false))
		if verdict.Outcome != mount.Hangs {
			continue
		}
		ch := chargeOf(w, hungTree{h.group, f, h.items, m})
		if ch.Total < takes && ch.ButtonVolume() <= f.ButtonCavity+cavityDust {
			flask, takes = f.Name, ch.Total
		}
	}
	return flask, takes
}

// broughtIn lists the customer's lots of the alloy, and on the first of the
// customer's receipts those of alloys that nothing is cast in. What stays of
// the counted ones is over.
func (o *OwnMetal) broughtIn(w *workshop.Workshop, b *book.Book, c *Cast, before []OwnMetal) {
	first := !slices.ContainsFunc(before, func(x OwnMetal) bool { return x.Customer == o.Customer })
	for _, l := range c.LotsLeft {
		if l.Owner != o.Customer || l.Alloy != o.Alloy && (!first || castIn(c, l)) {
			continue
		}
		x := OwnLot{Lot: l.Lot, What: told(b, l), Alloy: l.Alloy, Fineness: l.Fineness, From: l.From, Weight: l.OnHand, Why: l.Barred}
		switch {
		case l.Barred != "":
		case l.Alloy != o.Alloy:
			x.Why = "it is another alloy: never two in a pour"
		default:
			x.Counted = l.Fineness
			if l.From == string(book.StampOnly) {
				x.Counted -= w.Stock.StampDiscount
			}
			o.Over += l.Weight
		}
		o.In = append(o.In, x)
	}
}

// castIn tells whether the owner of a lot has a tree of its alloy.
func castIn(c *Cast, l LotLeft) bool {
	return slices.ContainsFunc(c.Trees, func(t Tree) bool { return t.Owner == l.Owner && t.Alloy == l.Alloy })
}

// told is what a lot is in the words noted when it came in, else its form.
func told(b *book.Book, l LotLeft) string {
	for _, m := range b.Movements {
		if m.Lot == l.Lot && b.Stands(m) && (m.Kind == book.CustomerIn || m.Kind == book.Opening) && m.Note != "" {
			return strings.TrimSpace(m.Note)
		}
	}
	return l.Form
}

// filings is what cleaning up is expected to take off the castings of trees;
// 0 where that of one of them is not known.
func filings(c *Cast, trees []string) (mg measure.Milligram) {
	for i := range c.Bags {
		for _, k := range c.Bags[i].Castings {
			switch {
			case k.Rod || !slices.Contains(trees, k.Tree):
			case k.Finished == 0:
				return 0
			default:
				mg += max(0, k.Cast-k.Finished)
			}
		}
	}
	return mg
}
