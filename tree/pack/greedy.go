package pack

import "slices"

// preference is the kinds of bin in stock, the roomiest first: room is the
// total of all units by limit, so that the dimension that binds counts most.
func (s *space) preference(units []unit) []int {
	total := make([]float64, s.dims)
	for u := range units {
		for k := range s.q.Bins {
			if size := units[u].size[k]; size != nil {
				for d, v := range size {
					total[d] += float64(v)
				}
				break
			}
		}
	}
	need := make([]float64, len(s.q.Bins))
	var out []int
	for k, b := range s.q.Bins {
		for d, c := range b.Capacity {
			if total[d] > 0 {
				need[k] = max(need[k], total[d]/max(float64(c), 0.5))
			}
		}
		if s.avail[k] > 0 {
			out = append(out, k)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int {
		switch {
		case need[a] < need[b]:
			return -1
		case need[a] > need[b]:
			return 1
		}
		return 0
	})
	return out
}

// greedy packs the units in order, each into the first tray with room or, if
// best is set, into the tray it leaves fullest; a new tray is of the first kind
// that takes the unit and of which there are some left. nil if they run out.
func (s *space) greedy(units []unit, stock []int, best bool) *filling {
	f := &filling{s: s, units: units}
	stock = slices.Clone(stock)
	prefer := s.preference(units)
	for _, u := range order(units) {
		s.spend(int64(len(f.trays)*s.dims + 20))
		to, most := -1, 0.0
		for t := range f.trays {
			if !f.admits(t, u) {
				continue
			}
			sum := 0.0
			for d, v := range units[u].size[f.trays[t].kind] {
				sum += share(f.trays[t].load[d]+v, s.q.Bins[f.trays[t].kind].Capacity[d])
			}
			if to < 0 || sum > most {
				to, most = t, sum
			}
			if !best {
				break
			}
		}
		if to < 0 {
			for _, k := range prefer {
				if stock[k] > 0 && units[u].size[k] != nil {
					stock[k]--
					to = f.open(k)
					break
				}
			}
		}
		if to < 0 {
			return nil
		}
		f.add(to, u)
	}
	return f
}
