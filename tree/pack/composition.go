package pack

import (
	"cmp"
	"slices"
)

// A composition is how many bins of each kind are used together.
type composition struct {
	count []int // by kind
	metal int64
}

// mostCompositions bounds the list for one number of bins: four kinds and up to
// sixty bins stay below it.
const mostCompositions = 40_000

// compositions lists the ways to take n bins from stock that sums and sizes do
// not refute, by rising metal; all is false if there are too many to look at.
func (s *space) compositions(n int, stock []int, sums *refuter) (list []composition, all bool) {
	count := make([]int, len(stock))
	all = true
	looked := 0
	var walk func(kind, rest int)
	walk = func(kind, rest int) {
		if looked >= mostCompositions {
			all = false
			return
		}
		if kind == len(stock)-1 {
			if rest > stock[kind] {
				return
			}
			count[kind] = rest
			looked++
			s.spend(int64(10 * len(stock)))
			c := composition{count: count}
			if sums.refuted(c) {
				return
			}
			c.count = slices.Clone(count)
			for k, m := range count {
				c.metal += int64(m) * s.q.Bins[k].Metal
			}
			list = append(list, c)
			return
		}
		for m := min(rest, stock[kind]); m >= 0; m-- {
			count[kind] = m
			walk(kind+1, rest-m)
		}
		count[kind] = 0
	}
	walk(0, n)
	slices.SortFunc(list, func(a, b composition) int {
		if a.metal != b.metal {
			return cmp.Compare(a.metal, b.metal)
		}
		return slices.Compare(b.count, a.count) // as they were listed
	})
	return list, all
}

// A refuter tells which compositions cannot hold some units. What the units take
// at least depends on which kinds are there, not on how many of each, and is
// added up once for each set of kinds.
type refuter struct {
	s     *space
	units []unit
	sums  map[uint64][]int64 // by set of kinds; nil where a unit goes into none
}

func (s *space) refuter(units []unit) *refuter {
	return &refuter{s, units, map[uint64][]int64{}}
}

// refuted tells whether a composition cannot hold the units by their sums
// alone, or has no bin for one of them.
func (r *refuter) refuted(c composition) bool {
	if len(c.count) == 1 {
		return r.s.sumBound(r.units, c.count) > c.count[0]
	}
	var set uint64
	for k, m := range c.count {
		if m > 0 {
			set |= 1 << (k % 64)
		}
	}
	sums, known := r.sums[set]
	if !known || len(c.count) > 64 {
		sums = r.s.leastIn(r.units, c)
		r.sums[set] = sums
	}
	if sums == nil {
		return true
	}
	for d, sum := range sums {
		var room int64
		for k, m := range c.count {
			room += int64(m) * r.s.q.Bins[k].Capacity[d]
		}
		if sum > room {
			return true
		}
	}
	return false
}

// leastIn adds up, by dimension, what the units take at least in the kinds of a
// composition; nil if one goes into none of them.
func (s *space) leastIn(units []unit, c composition) []int64 {
	s.spend(int64(len(units) * len(c.count)))
	sums := make([]int64, s.dims)
	for u := range units {
		for d := range s.dims {
			least := int64(-1)
			for k, size := range units[u].size {
				if c.count[k] > 0 && size != nil && (least < 0 || size[d] < least) {
					least = size[d]
				}
			}
			if least < 0 {
				return nil
			}
			sums[d] += least
		}
	}
	return sums
}

// kinds writes a composition out, the preferred kinds first.
func (c *composition) kinds(prefer []int) []int {
	var out []int
	for _, k := range prefer {
		for range c.count[k] {
			out = append(out, k)
		}
	}
	return out
}
