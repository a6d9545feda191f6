package pack

import (
	"slices"
)

// sumBound is the least number of bins whose limits, the largest first as far
// as there are any, add up to what the units take in each dimension. Where a
// unit's size depends on the kind of bin, the least of its sizes counts.
func (s *space) sumBound(units []unit, stock []int) int {
	if len(units) == 0 {
		return 0
	}
	bound := 1
	for d := range s.dims {
		var sum int64
		for u := range units {
			sum += units[u].least(d)
		}
		bound = max(bound, s.cover(d, sum, stock))
	}
	return bound
}

// least is the smallest size of a unit in dimension d over the kinds it fits.
func (u *unit) least(d int) int64 {
	least := int64(-1)
	for _, size := range u.size {
		if size != nil && (least < 0 || size[d] < least) {
			least = size[d]
		}
	}
	return max(least, 0)
}

// cover is how many bins in stock reach sum in dimension d; one more than
// there are if none do.
func (s *space) cover(d int, sum int64, stock []int) int {
	kinds := make([]int, 0, len(s.q.Bins))
	for k := range s.q.Bins {
		if stock[k] > 0 {
			kinds = append(kinds, k)
		}
	}
	slices.SortStableFunc(kinds, func(a, b int) int {
		switch ca, cb := s.q.Bins[a].Capacity[d], s.q.Bins[b].Capacity[d]; {
		case ca > cb:
			return -1
		case ca < cb:
			return 1
		}
		return 0
	})
	n := 0
	for _, k := range kinds {
		c := s.q.Bins[k].Capacity[d]
		if sum <= 0 {
			return n
		}
		if c == 0 {
			break
		}
		want := (sum + c - 1) / c
		if want <= int64(stock[k]) {
			return n + int(want)
		}
		n += stock[k]
		sum -= int64(stock[k]) * c
	}
	if sum <= 0 {
		return n
	}
	return n + 1
}

// cliqueBound counts units that may none of them meet: each wants a bin of its
// own. The clique grows greedily, from the unit with most foes.
func cliqueBound(units []unit) int {
	var by []int
	for u := range units {
		if len(units[u].foes) > 0 {
			by = append(by, u)
		}
	}
	slices.SortStableFunc(by, func(a, b int) int { return len(units[b].foes) - len(units[a].foes) })
	var clique []int
	for _, u := range by {
		if !slices.ContainsFunc(clique, func(w int) bool { return !units[u].hates(w) }) {
			clique = append(clique, u)
		}
	}
	return len(clique)
}
