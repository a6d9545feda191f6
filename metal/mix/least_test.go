package mix

import (
	"math/big"
	"slices"
	"testing"

	"castweek/metal/measure"

	"pgregory.net/rapid"
)

// Two buttons of which the second would give a hundredth of a gram: fresh grain
// gives it instead, else the second button gives all. Where neither can and
// nothing is ordered, it stays.
func TestNoLineThatIsNotWorthWeighing(t *testing.T) {
	pours := []Pour{{Tree: "A", Alloy: "750 yellow", Grams: 40_000, MostReturned: r("500"), MostMelts: 3}}
	lots := []Metal{
		{Name: "button 1", Alloy: "750 yellow", Grams: 19_990, Melts: 1},
		{Name: "button 2", Alloy: "750 yellow", Grams: 30_000, Melts: 2},
		{Name: "grain", Alloy: "750 yellow", Grams: 50_000},
	}
	if s := Share(pours, lots, 10); s.Pours[0].Takes[1].Grams != 10 {
		t.Fatalf("%+v", s)
	}
	s := ShareFrom(pours, lots, 10, 1000)
	if k := s.Pours[0].Takes; len(k) != 2 || k[0].Grams != 19_990 || k[1] != (Take{2, "grain", 20_010}) || s.Left[1].Grams != 30_000 {
		t.Errorf("%+v", s)
	}
	lots[2].Grams = 20_000
	if s := ShareFrom(pours, lots, 10, 1000); len(s.Buy) != 0 || len(s.Pours[0].Takes) != 2 || s.Pours[0].Takes[0] != (Take{1, "button 2", 20_000}) {
		t.Errorf("the other button does not give it all: %+v", s)
	}
	lots[1].Grams = 19_000 // neither button is enough by itself
	if s := ShareFrom(pours, lots, 10, 1000); len(s.Buy) != 0 || s.Pours[0].Takes[1].Grams != 10 {
		t.Errorf("bought for a crumb: %+v", s)
	}
	lots[2].Grams = 5_000 // is bought anyway
	if s := ShareFrom(pours, lots, 10, 1000); s.Pours[0].Short != 15_010 {
		t.Errorf("%+v", s)
	}
	lots[1].Grams = 10 // all there is of it
	if s := ShareFrom(pours, lots, 10, 1000); len(s.Pours[0].Takes) != 3 {
		t.Errorf("%+v", s)
	}
}

// Whatever the lots: no rule of [Share] is broken and nothing new is bought.
// With fresh metal enough for all and pours that take their share of it, no
// small line is left but those that empty their lot, or that bring up what a fresh
// lot gave that is empty now.
func TestShareFromProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pick := func(n int) int { return rapid.IntRange(0, n-1).Draw(t, "pick") }
		const least = 20
		var pours []Pour
		for range 1 + pick(5) {
			pours = append(pours, Pour{Alloy: []string{"a", "b"}[pick(2)], Owner: []string{"", "", "K"}[pick(3)], Grams: measure.Milligram(1 + pick(100)),
				MostReturned: big.NewRat(int64(pick(5)*250), 1), MostMelts: pick(4)})
		}
		var lots []Metal
		for range 1 + pick(6) {
			lots = append(lots, Metal{Alloy: []string{"a", "b"}[pick(2)], Owner: []string{"", "", "K"}[pick(3)], Grams: measure.Milligram(pick(100)), Melts: pick(4)})
		}
		plenty := pick(2) == 1
		if plenty {
			lots = append(lots, Metal{Alloy: "a", Grams: 1000}, Metal{Alloy: "b", Grams: 1000})
			for i := range pours {
				pours[i].Grams += 4 * least // of which a quarter at least is fresh
				pours[i].MostReturned = big.NewRat(int64(pick(4)*250), 1)
			}
		}
		free, s := Share(pours, lots, 1), ShareFrom(pours, lots, 1, least)
		if !s.buysNothingNew(free) {
			t.Fatalf("%+v buys more than %+v", s, free)
		}
		for _, l := range s.crumbs(lots, least) {
			if plenty && (lots[l.lot].Melts > 0 || !slices.ContainsFunc(s.Pours[l.pour].Takes, func(k Take) bool { return lots[k.Lot].Melts == 0 && s.Left[k.Lot].Grams == 0 })) {
				t.Fatalf("line %+v is left of %+v", l, s)
			}
		}
		used := make([]measure.Milligram, len(lots))
		for i, p := range s.Pours {
			sum, w := p.Short, pours[i]
			for _, k := range p.Takes {
				l := lots[k.Lot]
				if l.Alloy != w.Alloy || l.Owner != w.Owner || l.Melts > w.MostMelts || k.Grams <= 0 {
					t.Fatalf("%+v got %+v", w, l)
				}
				sum += k.Grams
				used[k.Lot] += k.Grams
			}
			if sum != w.Grams || p.Short < 0 || big.NewRat(1000*int64(p.Returned), int64(w.Grams)).Cmp(w.MostReturned) > 0 {
				t.Fatalf("%+v got %+v", w, p)
			}
		}
		for i, l := range s.Left {
			if l.Grams < 0 || l.Grams+used[i] != lots[i].Grams {
				t.Fatalf("lot %d: %v left, %v used", i, l.Grams, used[i])
			}
		}
	})
}
