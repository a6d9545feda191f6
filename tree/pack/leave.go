package pack

import "slices"

// mostBackfills is how many units that were left out are tried once more.
const mostBackfills = 30

// backfill tries, in the caller's order, to pack units that were left out
// because the bins ran out together with those that were packed.
func (s *space) backfill(r result) result {
	var firsts []int
	for _, l := range s.left {
		if l.Reason == RanOut && s.wishes.block[l.Item] == l.Item {
			firsts = append(firsts, l.Item)
		}
	}
	slices.Sort(firsts)
	for n, first := range firsts {
		if n == mostBackfills || s.work > s.limit/2 || !slices.ContainsFunc(s.avail, func(n int) bool { return n > 0 }) {
			break
		}
		free, left := slices.Clone(s.free), slices.Clone(s.left)
		s.left = nil
		for _, l := range left {
			if s.wishes.block[l.Item] == first {
				s.free = append(s.free, l.Item)
			} else {
				s.left = append(s.left, l)
			}
		}
		slices.Sort(s.free)
		if v := s.look(); v.lower <= v.total {
			if more, again := s.search(v); !again && more.f != nil {
				r = more
				continue
			}
		}
		s.free, s.left = free, left
	}
	return r
}

// leaveLast leaves out the last unit in the caller's order: the bins ran out.
func (s *space) leaveLast(v *view) {
	last := slices.MaxFunc(v.pieces, func(a, b unit) int { return a.items[0] - b.items[0] })
	s.leave(last.items, RanOut)
}

func (s *space) leave(items []int, why Reason) {
	for _, i := range items {
		s.left = append(s.left, Left{i, why, -1})
		at, _ := slices.BinarySearch(s.free, i)
		s.free = slices.Delete(s.free, at, at+1)
	}
}
