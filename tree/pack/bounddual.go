package pack

import "slices"

// dualBound is the best of the bounds that look at how sizes share a bin, by
// dimension, with the largest limit of any kind in stock. It is asked
// only where the sums did not settle the matter.
func (s *space) dualBound(units []unit, stock []int) int {
	bound := 0
	for d := range s.dims {
		var capacity int64
		for k, b := range s.q.Bins {
			if stock[k] > 0 {
				capacity = max(capacity, b.Capacity[d])
			}
		}
		if capacity == 0 || capacity > 1<<33 {
			continue // products below stay in 64 bits
		}
		sizes := make([]int64, 0, len(units))
		for u := range units {
			sizes = append(sizes, units[u].least(d))
		}
		slices.Sort(sizes)
		s.spend(int64(mostCuts * mostParts * len(sizes)))
		bound = max(bound, halves(sizes, capacity), roundings(sizes, capacity))
	}
	return bound
}

// halves is the bound L2 of Martello and Toth (Discrete Applied Mathematics 28,
// 1990): items over a half need a bin each, and those of at least a fit only
// beside the ones of at most capacity - a. sizes rise.
func halves(sizes []int64, capacity int64) int {
	sums := make([]int64, len(sizes)+1)
	for i, v := range sizes {
		sums[i+1] = sums[i] + v
	}
	over := func(limit int64) int { // first place with a size over the limit
		at, _ := slices.BinarySearch(sizes, limit+1)
		return at
	}
	half := over(capacity / 2)
	best := 0
	for i := 0; i <= half; i++ {
		a := int64(0)
		if i > 0 {
			a = sizes[i-1]
		}
		from, _ := slices.BinarySearch(sizes, a)
		top := over(capacity - a)
		n2 := int64(top - half)
		rest := sums[half] - sums[from] - (n2*capacity - (sums[top] - sums[half]))
		n := int64(len(sizes) - half)
		if rest > 0 {
			n += (rest + capacity - 1) / capacity
		}
		best = max(best, int(n))
	}
	return best
}

// How many cuts and parts roundings tries.
const (
	mostCuts  = 40
	mostParts = 20
)

// roundings is the best bound by dual feasible functions of Fekete and Schepers
// (Mathematical Programming 91, 2001; formulas from memory): sizes under a cut
// count nothing and those that leave less than the cut a whole bin; then, for
// k parts, x counts floor((k+1)x)/k unless (k+1)x is whole, when it counts x.
func roundings(sizes []int64, capacity int64) int {
	cuts := []int64{0}
	for _, v := range sizes {
		if v > 0 && v <= capacity/2 && v != cuts[len(cuts)-1] {
			cuts = append(cuts, v)
		}
	}
	step := (len(cuts) + mostCuts - 1) / mostCuts
	best := 0
	for c := 0; c < len(cuts); c += step {
		for k := int64(1); k <= mostParts; k++ {
			var sum int64 // in parts of capacity * k
			for _, v := range sizes {
				switch {
				case v < cuts[c]:
					v = 0
				case v > capacity-cuts[c]:
					v = capacity
				}
				if (k+1)*v%capacity == 0 {
					sum += v * k
				} else {
					sum += (k + 1) * v / capacity * capacity
				}
			}
			best = max(best, int((sum+capacity*k-1)/(capacity*k)))
		}
	}
	return best
}
