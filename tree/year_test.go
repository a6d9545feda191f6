package tree

import (
	"fmt"
	"math/big"
	"math/rand"
	"testing"
	"time"

	"castweek/jobs"
	"castweek/jobs/workshop"
	"castweek/metal/book"
	"castweek/metal/measure"
)

// A ledger of its own, in exact fractions: what each tree was melted from, and
// what of it is where.
type yearLedger struct {
	in, out, lost measure.Milligram
	fineIn        *big.Rat // mg of pure metal that came in
	fineOut       *big.Rat // that went out in castings, to the customer, or was lost
	rounding      *big.Rat // by which finenesses of buttons were booked too low
	buttons       int
}

func fineOf(g measure.Milligram, fineness *big.Rat) *big.Rat {
	return new(big.Rat).Mul(big.NewRat(int64(g), 1), fineness)
}

// A year of casts: each week the metal on hand is shared out, what is short is
// bought or brought, and weighed out as planned, and buttons come back. No
// metal appears or is lost in the books, weight and fine metal, to the
// milligram; every charge keeps the house's share and count of melts, and no
// customer's metal meets another's.
func TestYearOfCasts(t *testing.T) {
	random := rand.New(rand.NewSource(52))
	shop := lotsShop(t)
	alloys := []string{"750 yellow", "585 yellow", "925 silver"}
	standard := map[string]int64{"750 yellow": 750_000, "585 yellow": 585_000, "925 silver": 925_000}
	owners := []string{jobs.House, jobs.House, "M. Thorne", "R. Ellery"}
	ledgers := map[string]*yearLedger{}
	for _, a := range alloys {
		ledgers[a] = &yearLedger{fineIn: new(big.Rat), fineOut: new(big.Rat), rounding: new(big.Rat)}
	}
	var data []byte
	last := 0
	lot := func() string { last++; return fmt.Sprint("L", last) }
	write := func(m book.Movement) book.Movement {
		m.Who = "test"
		line, m, problems := book.AppendLine("metal.csv", data, m)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		data = append(data, line...)
		return m
	}
	read := func() *book.Book {
		b, problems := book.Read("metal.csv", data)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		return b
	}
	now := lotsNow
	for week := 1; week <= 52; week++ {
		now = now.Add(7 * 24 * time.Hour)
		c := &Cast{AsOf: now, Pour: now.Add(72 * time.Hour)}
		for i := range 1 + random.Intn(3) {
			need := measure.Milligram(10 * (1500 + random.Intn(6000)))
			c.Trees = append(c.Trees, lotsTree(fmt.Sprintf("W%02d-%c", week, 'A'+i), alloys[random.Intn(3)], owners[random.Intn(4)], need))
		}
		shareLots(shop, Input{Book: read(), AsOf: now}, c)
		for i := range c.Trees {
			x := &c.Trees[i]
			l, owner := ledgers[x.Alloy], ownerOf(x.Owner)
			keepsRules(t, shop, x)
			takes := append([]LotTake(nil), x.Lots.Takes...)
			if x.Lots.Short > 0 {
				m := book.Movement{At: now, Kind: book.Bought, Lot: lot(), Alloy: x.Alloy, Form: book.Grain, From: book.Certificate,
					Fineness: book.Parts(standard[x.Alloy] + random.Int63n(3000)), Grams: x.Lots.Short + measure.Milligram(random.Intn(40_000))}
				if owner != "" {
					m.Kind, m.Owner, m.From, m.Form, m.Melts, m.HasMelts = book.CustomerIn, owner, book.Assay, book.Scrap, 1, true
				}
				write(m)
				takes = append(takes, LotTake{Lot: m.Lot, Weight: x.Lots.Short})
				l.in += m.Grams
				l.fineIn.Add(l.fineIn, fineOf(m.Grams, big.NewRat(int64(m.Fineness), 1_000_000)))
			}
			melted, fine := measure.Milligram(0), new(big.Rat)
			for _, k := range takes {
				h, _ := read().Lot(k.Lot)
				write(book.Movement{At: now, Kind: book.ToTree, Lot: h.Lot, Alloy: h.Alloy, Owner: h.Owner, Form: h.Form, From: h.From, Fineness: h.Fineness, Grams: k.Weight, Tree: x.Name})
				melted += k.Weight
				fine.Add(fine, fineOf(k.Weight, big.NewRat(int64(h.Fineness), 1_000_000)))
			}
			if melted != x.Charge.Total {
				t.Fatalf("%s: %v weighed out of %v", x.Name, melted, x.Charge.Total)
			}
			exact := new(big.Rat).Quo(fine, big.NewRat(int64(melted), 1))
			castings := melted * measure.Milligram(30+random.Intn(30)) / 100
			button := melted*measure.Milligram(30+random.Intn(9))/100 + 1
			write(book.Movement{At: now, Kind: book.CastingsOut, Alloy: x.Alloy, Owner: owner, Grams: castings, Tree: x.Name})
			b := write(book.Movement{At: now, Kind: book.ButtonBack, Lot: lot(), Alloy: x.Alloy, Owner: owner, Form: book.Button, From: book.OwnMelt,
				Fineness: weighedOut(read(), x.Name).Fineness(), Grams: button, Tree: x.Name})
			l.out += castings
			l.lost += melted - castings - button
			l.fineOut.Add(l.fineOut, fineOf(melted-button, exact))
			short := fineOf(button, new(big.Rat).Sub(exact, big.NewRat(int64(b.Fineness), 1_000_000)))
			if short.Sign() < 0 || short.Cmp(big.NewRat(1, 1)) >= 0 {
				t.Fatalf("%s: a button of %v is booked with %s mg of fine metal too little", x.Name, button, short.FloatString(3))
			}
			l.rounding.Add(l.rounding, short)
			l.buttons++
			if owner != "" && random.Intn(2) == 0 { // what is left goes back to its owner
				write(book.Movement{At: now, Kind: book.GivenBack, Lot: b.Lot, Alloy: b.Alloy, Owner: owner, Form: b.Form, From: b.From, Fineness: b.Fineness, Grams: button})
				l.out += button
				l.fineOut.Add(l.fineOut, fineOf(button, big.NewRat(int64(b.Fineness), 1_000_000)))
			}
		}
	}
	onHand, fine := map[string]measure.Milligram{}, map[string]*big.Rat{}
	for _, s := range read().Sums() {
		onHand[s.Alloy] += s.Grams
		if fine[s.Alloy] == nil {
			fine[s.Alloy] = new(big.Rat)
		}
		fine[s.Alloy].Add(fine[s.Alloy], big.NewRat(int64(s.Fine), 1_000_000))
	}
	for _, a := range alloys {
		l := ledgers[a]
		if l.in != onHand[a]+l.out+l.lost {
			t.Errorf("%s: %v came in; %v on hand, %v out, %v lost", a, l.in, onHand[a], l.out, l.lost)
		}
		kept := new(big.Rat).Add(fine[a], l.fineOut)
		kept.Add(kept, l.rounding)
		if kept.Cmp(l.fineIn) != 0 {
			t.Errorf("%s: %s mg of fine metal came in, %s mg is accounted for", a, l.fineIn.FloatString(3), kept.FloatString(3))
		}
		if l.rounding.Cmp(big.NewRat(1, 1)) >= 0 {
			t.Errorf("%s: a year's rounding hides %s mg of fine metal", a, l.rounding.FloatString(3))
		}
		t.Logf("%s: %v in, %d buttons, which rounding down their fineness books %s mg of fine metal too low in all", a, l.in, l.buttons, l.rounding.FloatString(3))
	}
}

// keepsRules holds a tree's lots against the house's rules, by plain counting.
func keepsRules(t *testing.T, w *workshop.Workshop, x *Tree) {
	t.Helper()
	a, _ := w.Alloys.Find(x.Alloy)
	sum, returned := x.Lots.Short, measure.Milligram(0)
	for _, k := range x.Lots.Takes {
		sum += k.Weight
		if k.Melts > 0 {
			returned += k.Weight
			if x.Owner == jobs.House && k.Melts > w.Stock.ReuseOf(a).Melts {
				t.Errorf("%s takes lot %s, melted %d times", x.Name, k.Lot, k.Melts)
			}
		}
	}
	if sum != x.Charge.Total {
		t.Errorf("%s: lots and what is short make %v of %v", x.Name, sum, x.Charge.Total)
	}
	if x.Owner == jobs.House && returned*100 > x.Charge.Total*measure.Milligram(100-w.Stock.ReuseOf(a).Fresh) {
		t.Errorf("%s: %v of %v is returned metal", x.Name, returned, x.Charge.Total)
	}
}
