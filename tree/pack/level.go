package pack

import "slices"

// order is the units by falling size.
func order(units []unit) []int {
	out := make([]int, len(units))
	for u := range out {
		out[u] = u
	}
	slices.SortFunc(out, func(a, b int) int { return bigFirst(&units[a], &units[b]) })
	return out
}

// level puts each unit, the biggest first, into the tray that stays emptiest,
// among trays of the given kinds. The trays come out even; nil if some unit
// finds no room.
func (s *space) level(units []unit, kinds []int) *filling {
	f := &filling{s: s, units: units}
	for _, k := range kinds {
		f.open(k)
	}
	for _, u := range order(units) {
		s.spend(int64(len(kinds)*s.dims + 20))
		best, least := -1, 0.0
		for t := range f.trays {
			if full, ok := f.fullAfter(t, u); (best < 0 || full < least) && ok && f.admits(t, u) {
				best, least = t, full
			}
		}
		if best < 0 {
			return nil
		}
		f.add(best, u)
	}
	return f
}

// fullAfter is the largest share of a limit that tray t would be at with unit u.
func (f *filling) fullAfter(t, u int) (full float64, ok bool) {
	tr := &f.trays[t]
	size := f.units[u].size[tr.kind]
	if size == nil {
		return 0, false
	}
	capacity := f.s.q.Bins[tr.kind].Capacity
	for d, v := range size {
		full = max(full, share(tr.load[d]+v, capacity[d]))
	}
	return full, true
}
