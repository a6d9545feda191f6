package pack

import "slices"

// A pattern is what one bin of a kind holds: how many of each class.
type pattern struct {
	kind  int
	picks []pick // rising class
	value int64
}

type pick struct{ class, count int }

// one is the value a pattern has to beat to be worth a column, in the whole
// numbers that the prices of classes are scaled to.
const one = 1 << 24

// A pricer looks for the patterns of one kind of bin that are worth most.
type pricer struct {
	s       *space
	classes []class
	kind    int
	prices  []int64 // by class, 0 or more
	most    []int   // by class: how many a pattern may hold
	floor   int64   // only patterns worth more are looked for
	gather  int     // how many patterns to hand back
}

// A priced is what a pricer found: patterns worth more than the floor, the best first,
// and a whole number that no pattern at all is worth more than.
type priced struct {
	patterns []pattern
	ceiling  int64
	exact    bool // ceiling is the worth of the best, or the floor
}

// candidates are the classes with a price that fit the kind.
func (p *pricer) candidates() []int {
	var out []int
	capacity := p.s.q.Bins[p.kind].Capacity
	for c := range p.classes {
		if size := p.classes[c].size[p.kind]; p.prices[c] > 0 && p.most[c] > 0 && size != nil && fits(size, capacity) {
			out = append(out, c)
		}
	}
	return out
}

// copies is how many of class c fit a bin alone, no more than may be held.
func (p *pricer) copies(c int) int {
	n := p.most[c]
	for d, v := range p.classes[c].size[p.kind] {
		if v > 0 {
			n = int(min(int64(n), p.s.q.Bins[p.kind].Capacity[d]/v))
		}
	}
	return n
}

// choose keeps the best patterns, no class in more than a few of them, so that
// one round of columns says something about every class.
func choose(all []pattern, gather int) []pattern {
	slices.SortStableFunc(all, func(a, b pattern) int {
		switch {
		case a.value > b.value:
			return -1
		case a.value < b.value:
			return 1
		}
		return 0
	})
	used := map[int]int{}
	var out []pattern
	for _, p := range all {
		if len(out) >= gather {
			break
		}
		worn := 0
		for _, k := range p.picks {
			worn = max(worn, used[k.class])
		}
		if worn >= 2 && len(out) > 0 {
			continue
		}
		for _, k := range p.picks {
			used[k.class]++
		}
		out = append(out, p)
	}
	return out
}
