package mix

import (
	"math/big"
	"testing"

	"castweek/metal/measure"

	"pgregory.net/rapid"
)

// Tree C may only take what was melted once; A could take either button. A
// taker in order of the week would leave C short.
func TestNoPourIsShortBecauseAnotherTookTheButton(t *testing.T) {
	all := r("1000")
	pours := []Pour{
		{Tree: "A", Alloy: "750 yellow", Grams: 40_000, MostReturned: all, MostMelts: 3},
		{Tree: "C", Alloy: "750 yellow", Grams: 40_000, MostReturned: all, MostMelts: 1},
	}
	lots := []Metal{
		{Name: "button 1", Alloy: "750 yellow", Grams: 40_000, Melts: 1},
		{Name: "button 2", Alloy: "750 yellow", Grams: 40_000, Melts: 2},
	}
	s := Share(pours, lots, 10)
	if len(s.Problems) > 0 || len(s.Buy) > 0 || s.Pours[1].Short != 0 || s.Pours[0].Takes[0].Name != "button 2" {
		t.Errorf("%+v", s)
	}
}

func TestShareRules(t *testing.T) {
	pours := []Pour{
		{Tree: "A", Alloy: "750 yellow", Grams: 60_000, MostReturned: r("500"), MostMelts: 3},
		{Tree: "B", Alloy: "585 yellow", Grams: 30_000, MostReturned: r("500"), MostMelts: 3},
		{Tree: "D", Alloy: "750 yellow", Grams: 20_000, Owner: "K-300", MostReturned: r("1000"), MostMelts: 9},
	}
	lots := []Metal{
		{Name: "button", Alloy: "750 yellow", Grams: 50_000, Melts: 1},
		{Name: "old", Alloy: "750 yellow", Grams: 50_000, Melts: 4},
		{Name: "soldered", Alloy: "585 yellow", Grams: 50_000, Melts: 1, Barred: "soldered"},
		{Name: "grain", Alloy: "750 yellow", Grams: 10_000},
		{Name: "customer's", Alloy: "750 yellow", Owner: "K-300", Grams: 15_000, Melts: 1},
	}
	s := Share(pours, lots, 10)
	a, d := s.Pours[0], s.Pours[2]
	if a.Returned != 30_000 || a.Fresh != 10_000 || a.Short != 20_000 {
		t.Errorf("A: %+v", a)
	}
	if d.Returned != 15_000 || d.Short != 5_000 || d.Takes[0].Name != "customer's" {
		t.Errorf("D: %+v", d)
	}
	want := []Buy{{"585 yellow", "", 30_000}, {"750 yellow", "", 20_000}, {"750 yellow", "K-300", 5_000}}
	if len(s.Buy) != 3 || s.Buy[0] != want[0] || s.Buy[1] != want[1] || s.Buy[2] != want[2] {
		t.Errorf("buy %v", s.Buy)
	}
	if s.Left[0].Grams != 20_000 || s.Left[1].Grams != 50_000 || s.Left[2].Grams != 50_000 {
		t.Errorf("left %v", s.Left)
	}
	for _, bad := range []Shared{
		Share([]Pour{{Tree: "A", Grams: 5, MostReturned: r("500")}}, nil, 10),
		Share([]Pour{{Tree: "A", Grams: 10, MostReturned: r("1001")}}, nil, 10),
		Share([]Pour{{Tree: "A", Grams: 10}}, nil, 10),
		Share(nil, []Metal{{Grams: -10}}, 10), Share(nil, nil, 0),
	} {
		if len(bad.Problems) != 1 {
			t.Errorf("%+v", bad)
		}
	}
}

// The same sharing written as a linear programme gives the same least purchase
// and the same most of returned metal.
func TestShareAgainstLinearProgramme(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pick := func(n int) int { return rapid.IntRange(0, n-1).Draw(t, "pick") }
		var pours []Pour
		for range 1 + pick(5) {
			pours = append(pours, Pour{
				Alloy: []string{"a", "b"}[pick(2)], Owner: []string{"", "", "K"}[pick(3)], Grams: measure.Milligram(1 + pick(100)),
				MostReturned: big.NewRat(int64(pick(5)*250), 1), MostMelts: pick(4),
			})
		}
		var lots []Metal
		for range 1 + pick(5) {
			lots = append(lots, Metal{Alloy: []string{"a", "b"}[pick(2)], Owner: []string{"", "", "K"}[pick(3)], Grams: measure.Milligram(pick(100)), Melts: pick(4)})
		}
		s := Share(pours, lots, 1)
		var bought, used, returned, left measure.Milligram
		for i, p := range s.Pours {
			sum := p.Short
			for _, k := range p.Takes {
				if l := lots[k.Lot]; l.Alloy != pours[i].Alloy || l.Owner != pours[i].Owner || l.Melts > pours[i].MostMelts || k.Grams < 0 {
					t.Fatalf("%+v got %+v", pours[i], l)
				}
				sum += k.Grams
				used += k.Grams
			}
			if sum != pours[i].Grams || p.Short < 0 || big.NewRat(1000*int64(p.Returned), int64(p.Short+p.Fresh+p.Returned)).Cmp(pours[i].MostReturned) > 0 {
				t.Fatalf("%+v got %+v", pours[i], p)
			}
			bought, returned = bought+p.Short, returned+p.Returned
		}
		for i, l := range s.Left {
			if l.Grams < 0 {
				t.Fatalf("overdrawn by %v", l)
			}
			left += l.Grams
			used -= lots[i].Grams
		}
		if used+left != 0 {
			t.Fatalf("metal is lost: %v", used+left)
		}
		short, back := shareLP(pours, lots)
		// The most returned is rounded down to whole steps in each pour, so
		// that the programme's rational optimum may lie a step higher.
		if d := big.NewRat(int64(bought), 1); sub(d, short).Sign() < 0 || sub(d, short).Cmp(big.NewRat(int64(len(pours)), 1)) >= 0 {
			t.Fatalf("bought %v, programme %v", bought, short)
		}
		if d := sub(back, big.NewRat(int64(returned), 1)); d.Cmp(big.NewRat(int64(len(pours)), 1)) >= 0 {
			t.Fatalf("returned %v, programme %v", returned, back)
		}
	})
}

// shareLP states the sharing by x[lot][pour] and minimises first what is short,
// then the negative of what is returned.
func shareLP(pours []Pour, lots []Metal) (short, returned *big.Rat) {
	n := len(lots) * len(pours)
	p := program{n: n, objectives: [][]*big.Rat{zeros(n), zeros(n)}}
	total := new(big.Rat)
	for k, w := range pours {
		whole, back := zeros(n), zeros(n)
		for i, l := range lots {
			x := i*len(pours) + k
			if l.Alloy != w.Alloy || l.Owner != w.Owner || l.Melts > w.MostMelts {
				never := zeros(n)
				never[x].SetInt64(1)
				p.rows = append(p.rows, row{never, atMost, new(big.Rat)})
			}
			whole[x].SetInt64(1)
			p.objectives[0][x].SetInt64(-1)
			if l.Melts > 0 {
				back[x].SetInt64(1)
				p.objectives[1][x].SetInt64(-1)
			}
		}
		g := big.NewRat(int64(w.Grams), 1)
		total.Add(total, g)
		p.rows = append(p.rows, row{whole, atMost, g}, row{back, atMost, mul(g, new(big.Rat).Quo(w.MostReturned, thousand))})
	}
	for i, l := range lots {
		all := zeros(n)
		for k := range pours {
			all[i*len(pours)+k].SetInt64(1)
		}
		p.rows = append(p.rows, row{all, atMost, big.NewRat(int64(l.Grams), 1)})
	}
	_, v, err := p.solve()
	if err != nil {
		panic(err)
	}
	return total.Add(total, v[0]), v[1].Neg(v[1])
}
