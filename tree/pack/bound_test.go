package pack

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// TestBoundsByHand: items over a half, and the published worth of L2 where sums
// say less.
func TestBoundsByHand(t *testing.T) {
	for _, c := range []struct {
		sizes    []int64
		capacity int64
		l2       int
	}{
		{[]int64{51, 51, 51, 51}, 100, 4},
		{[]int64{40, 40, 40, 70, 70}, 100, 4},  // 70s alone, 40s two to a bin
		{[]int64{35, 35, 35, 35, 35}, 100, 2},  // L2 sees sums only here
		{[]int64{0, 0, 0}, 10, 0},              // sizes of nothing need nothing
		{[]int64{30, 30, 30, 30, 71}, 100, 3},  // 71 takes no 30
		{[]int64{10, 60, 60, 90, 100}, 100, 4}, // 10 goes in beside
	} {
		slices.Sort(c.sizes)
		if got := halves(c.sizes, c.capacity); got != c.l2 {
			t.Errorf("halves %v: %d, want %d", c.sizes, got, c.l2)
		}
	}
	if got := roundings([]int64{35, 35, 35, 35, 35}, 100); got != 3 {
		t.Errorf("five items over a third: %d", got)
	}
}

// TestBoundsNeverPass holds every bound against the referee: with random
// prices, with prices shaken, and with pricing cut short.
func TestBoundsNeverPass(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 12))
	reached := map[string]int{}
	for n := range 1500 / slowdown {
		q := randomQuestion(rng)
		q.CanHang, q.Tied = nil, nil
		s, fs := newSpace(&q)
		if fs != nil || len(s.free) == 0 {
			continue
		}
		all := 0
		for _, i := range s.free {
			all |= 1 << i
		}
		best := judge(&q, all, true)
		if best == nil {
			continue // the bins run out
		}
		optimum := int(best[0])
		units := s.pieces()
		below := func(name string, bound int) {
			if bound > optimum {
				t.Fatalf("case %d: %s says %d, but %d do: %+v", n, name, bound, optimum, q)
			}
			if bound == optimum {
				reached[name]++
			}
		}
		below("sums", s.sumBound(units, s.avail))
		below("clique", cliqueBound(units))
		below("dual", s.dualBound(units, s.avail))
		e := s.newEngine(units, s.avail)
		if e == nil {
			continue
		}
		lower, _ := e.generate(e.demand, bound)
		below("columns", lower)
		for range 5 {
			for r := range e.lp.y {
				e.lp.y[r] = max(0, e.lp.y[r]+(rng.Float64()-0.5)*2e-3)
				if n%3 == 0 {
					e.lp.y[r] = rng.Float64()
				}
			}
			below("shaken prices", e.capped(t, 1+rng.IntN(3)*50))
		}
	}
	t.Log(reached)
	for _, name := range []string{"sums", "clique", "dual", "columns", "shaken prices"} {
		if reached[name] == 0 && slowdown == 1 {
			t.Errorf("%s is never the optimum", name)
		}
	}
}

// capped is the bound by the prices at hand, with pricing cut off.
func (e *engine) capped(t *testing.T, nodes int) int {
	prices, fines := e.prices()
	ceiling := int64(1)
	for _, k := range e.kinds {
		p := pricer{s: e.s, classes: e.classes, kind: k, prices: prices, most: e.demand, floor: one + fines[k], gather: 3}
		deep := p.depth(nodes, e.scarce[k])
		if e.s.dims == 1 && !e.conflicts() {
			list := p.list()
			if list.ceiling > deep.ceiling || deep.exact && list.ceiling != deep.ceiling {
				t.Fatalf("the list says %d, the search %d (%v)", list.ceiling, deep.ceiling, deep.exact)
			}
		}
		ceiling = max(ceiling, deep.ceiling-fines[k])
	}
	return farley(prices, fines, e.demand, e.stock, ceiling)
}
