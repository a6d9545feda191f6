package pack

import "slices"

// A way is a cheap attempt at a packing.
type way struct {
	name string
	fill func() *filling
}

// mostBroken is how many jobs are taken apart one after the other before all are.
const mostBroken = 4

// fewUnits is how many units a bin should hold for swaps to be of use.
const fewUnits = 5

// ways lists the attempts, whole jobs first, so that jobs are split only where
// whole ones were not packed.
func (s *space) ways(v *view, c composition, kinds []int) []way {
	ways := []way{{"whole jobs, least loaded", func() *filling { return s.level(v.blocks, kinds) }}}
	if len(v.blocks) < len(v.pieces) {
		if len(v.blocks) >= fewUnits*len(kinds) && !s.q.Rough {
			ways = append(ways, way{"whole jobs, swapped", func() *filling { return s.repair(v.blocks, kinds, mostSwaps) }})
		}
		for n := 1; n <= mostBroken; n++ {
			ways = append(ways, way{"most jobs whole", func() *filling {
				units := s.broken(v, n)
				if f := s.level(units, kinds); f != nil {
					return f
				}
				if len(units) >= fewUnits*len(kinds) && !s.q.Rough {
					return s.repair(units, kinds, mostSwaps)
				}
				return nil
			}})
		}
	}
	ways = append(ways,
		way{"pieces, least loaded", func() *filling { return s.level(v.pieces, kinds) }},
		way{"best fit", func() *filling { return s.greedy(v.pieces, c.count, true) }},
		way{"first fit", func() *filling { return s.greedy(v.pieces, c.count, false) }})
	if s.q.Rough {
		return ways
	}
	if len(v.pieces) >= fewUnits*len(kinds) {
		ways = append(ways, way{"pieces, swapped", func() *filling { return s.repair(v.pieces, kinds, mostSwaps) }})
	}
	ways = append(ways, way{"least slack", func() *filling {
		cs := classes(v.pieces)
		left := make([]int, len(cs))
		for c := range cs {
			left[c] = len(cs[c].units)
		}
		bins, order := s.minSlack(cs, left, c.count, v.prefer, len(kinds), 2000)
		if bins == nil {
			return nil
		}
		return s.unpack(v.pieces, cs, bins, order)
	}})
	if s.hang != nil {
		ways = append(ways,
			way{"whole jobs, hung one by one", func() *filling { return s.hangLevel(v.blocks, kinds) }},
			way{"pieces, hung one by one", func() *filling { return s.hangLevel(v.pieces, kinds) }})
	}
	return ways
}

// mostSwaps bounds the moves of a repair.
const mostSwaps = 200

// broken is the units with the n jobs of most pieces taken apart.
func (s *space) broken(v *view, n int) []unit {
	count := map[int]int{}
	for u := range v.pieces {
		if j := s.jobs[v.pieces[u].items[0]]; j >= 0 {
			count[j]++
		}
	}
	var jobs []int
	for j := range count {
		jobs = append(jobs, j)
	}
	slices.SortFunc(jobs, func(a, b int) int {
		if count[a] != count[b] {
			return count[b] - count[a]
		}
		return a - b
	})
	apart := jobs[:min(n, len(jobs))]
	of := make([]int, len(s.q.Items))
	for u := range v.blocks {
		for _, i := range v.blocks[u].items {
			of[i] = v.blocks[u].items[0]
		}
	}
	for u := range v.pieces {
		if slices.Contains(apart, s.jobs[v.pieces[u].items[0]]) {
			for _, i := range v.pieces[u].items {
				of[i] = v.pieces[u].items[0]
			}
		}
	}
	return s.units(func(i int) int { return of[i] })
}

// hangLevel is level with a question to CanHang before every unit is placed.
func (s *space) hangLevel(units []unit, kinds []int) *filling {
	f := &filling{s: s, units: units}
	for _, k := range kinds {
		f.open(k)
	}
	for _, u := range order(units) {
		if !f.hangOn(u) {
			return nil
		}
	}
	return f
}

// hangOn puts unit u into the emptiest tray that hangs with it.
func (f *filling) hangOn(u int) bool {
	for _, t := range f.emptiest(-1) {
		if !f.admits(t, u) {
			continue
		}
		f.add(t, u)
		if f.s.hang.ask(f.trays[t].kind, f.items(t)) == Hangs {
			return true
		}
		f.remove(t, u)
	}
	return false
}

// hangGreedily opens a bin wherever nothing else helps: the last resort, which
// leaves out what hangs nowhere.
func (s *space) hangGreedily(v *view) (f *filling, again bool) {
	f = &filling{s: s, units: v.pieces}
	stock := slices.Clone(s.avail)
	for _, u := range order(v.pieces) {
		if f.hangOn(u) {
			continue
		}
		placed := false
		for _, k := range v.prefer {
			if stock[k] == 0 || v.pieces[u].size[k] == nil || s.hang.ask(k, v.pieces[u].items) != Hangs {
				continue
			}
			stock[k]--
			f.add(f.open(k), u)
			placed = true
			break
		}
		if placed {
			continue
		}
		if s.hang == nil || slices.ContainsFunc(v.prefer, func(k int) bool { return stock[k] == 0 }) {
			return nil, false
		}
		why := CannotHang
		for _, k := range v.prefer {
			if v.pieces[u].size[k] != nil && s.hang.ask(k, v.pieces[u].items) != Cannot {
				why = NotHung
			}
		}
		s.leave(v.pieces[u].items, why)
		return nil, true
	}
	f = s.polish(f, v)
	s.downsize(f)
	return f, false
}

// downsize hangs each tray in the kind of bin that ties up least metal and
// takes it as it is.
func (s *space) downsize(f *filling) {
	used := make([]int, len(s.q.Bins))
	for t := range f.trays {
		used[f.trays[t].kind]++
	}
	for t := range f.trays {
		tr := &f.trays[t]
		items := f.items(t)
		for k := range s.q.Bins {
			load, ok := s.load(k, items)
			if used[k] >= s.avail[k] || !ok || !fits(load, s.q.Bins[k].Capacity) ||
				s.q.metal(k, load) >= s.q.metal(tr.kind, tr.load) || s.hang.ask(k, items) != Hangs {
				continue
			}
			used[tr.kind]--
			used[k]++
			tr.kind, tr.load = k, load
		}
	}
}
