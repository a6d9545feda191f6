package pack

import "slices"

// A unit is what is moved as one: an item, a set to be kept together, or the
// items of one job while jobs are packed whole.
type unit struct {
	items []int     // rising
	size  [][]int64 // by kind of bin; nil where the unit does not fit even alone
	foes  []int     // units it may not meet, rising
	big   float64   // sum over the dimensions of size by limit, least over kinds
	kinds int       // how many kinds it fits
}

// pieces makes the smallest units: items, and sets to be kept together.
func (s *space) pieces() []unit {
	return s.units(func(i int) int { return s.wishes.block[i] })
}

// blocks makes units of whole jobs, as far as a bin takes them and no wish or
// refusal stands against it. Of a job that is too big for a bin as many pieces
// as fit make one unit, and so on.
func (s *space) blocks(pieces []unit) []unit {
	byJob := map[int][]int{}
	var order []int
	for u := range pieces {
		j := s.jobs[pieces[u].items[0]]
		if j < 0 {
			j = -1 - pieces[u].items[0] // a job of its own
		}
		if byJob[j] == nil {
			order = append(order, j)
		}
		byJob[j] = append(byJob[j], u)
	}
	of := make([]int, len(s.q.Items))
	for _, j := range order {
		whole := byJob[j]
		if len(whole) > 1 && !s.one(pieces, whole) {
			slices.SortStableFunc(whole, func(a, b int) int { return bigFirst(&pieces[a], &pieces[b]) })
			for len(whole) > 0 {
				in, rest := s.asOne(pieces, whole)
				mark(of, pieces, in)
				if len(in) == 0 {
					mark(of, pieces, rest[:1])
					rest = rest[1:]
				}
				whole = rest
			}
			continue
		}
		mark(of, pieces, whole)
	}
	return s.units(func(i int) int { return of[i] })
}

func mark(of []int, pieces []unit, set []int) {
	for _, u := range set {
		for _, i := range pieces[u].items {
			of[i] = pieces[set[0]].items[0]
		}
	}
}

// one tells whether a set of pieces may be one unit.
func (s *space) one(pieces []unit, set []int) bool {
	_, rest := s.asOne(pieces, set)
	return len(rest) == 0
}

// asOne takes pieces of a list, in its order, into one unit as long as some kind
// of bin takes it, and gives the rest.
func (s *space) asOne(pieces []unit, list []int) (in, rest []int) {
	loads := make([][]int64, len(s.q.Bins)) // by kind; nil where the unit does not go in
	for k := range s.q.Bins {
		if s.avail[k] > 0 {
			loads[k] = make([]int64, s.dims)
		}
	}
	goes := make([]bool, len(loads))
	var items []int // rising, where mounting may refuse them
	for _, u := range list {
		if len(pieces[u].foes) > 0 && slices.ContainsFunc(in, pieces[u].hates) {
			rest = append(rest, u)
			continue
		}
		with := items
		if s.hang != nil {
			with = slices.Concat(items, pieces[u].items)
			slices.Sort(with)
		}
		some := false
		for k, load := range loads {
			size := pieces[u].size[k] // nil where it does not go in alone
			goes[k] = load != nil && size != nil && fitsWith(load, size, s.q.Bins[k].Capacity) && !s.hang.barred(k, with)
			some = some || goes[k]
		}
		if !some {
			rest = append(rest, u)
			continue
		}
		in, items = append(in, u), with
		for k, load := range loads {
			if !goes[k] {
				loads[k] = nil
				continue
			}
			for d, v := range pieces[u].size[k] {
				load[d] += v
			}
		}
	}
	return in, rest
}

func fitsWith(load, more, capacity []int64) bool {
	for d, v := range more {
		if load[d]+v > capacity[d] {
			return false
		}
	}
	return true
}

// units groups the free items by a name, which is one of the items, and works
// out their sizes.
func (s *space) units(name func(i int) int) []unit {
	at := make([]int, len(s.q.Items)) // by name, which is an item's: the unit, less one
	unitOf := make([]int, len(s.q.Items))
	us := make([]unit, 0, len(s.free))
	for _, i := range s.free {
		u := at[name(i)] - 1
		if u < 0 {
			u = len(us)
			at[name(i)] = u + 1
			us = append(us, unit{})
		}
		us[u].items = append(us[u].items, i)
		unitOf[i] = u
	}
	free := make([]bool, len(s.q.Items))
	for _, i := range s.free {
		free[i] = true
	}
	for u := range us {
		s.measure(&us[u])
		for _, i := range us[u].items {
			if s.wishes.foes != nil {
				for _, j := range s.wishes.foes[i] {
					if free[j] {
						us[u].foes = append(us[u].foes, unitOf[j])
					}
				}
			}
			for _, j := range s.hang.pairs(i) {
				if free[j] && unitOf[j] != u {
					us[u].foes = append(us[u].foes, unitOf[j])
				}
			}
		}
		slices.Sort(us[u].foes)
		us[u].foes = slices.Compact(us[u].foes)
	}
	return us
}

func (s *space) measure(u *unit) {
	u.size = make([][]int64, len(s.q.Bins))
	u.big = 1e18
	for k, b := range s.q.Bins {
		var load []int64
		ok := false
		if len(u.items) == 1 {
			load = s.size(k, u.items[0])
			ok = load != nil
		} else {
			load, ok = s.load(k, u.items)
		}
		if s.avail[k] == 0 || !ok || !fits(load, b.Capacity) || s.hang.barred(k, u.items) {
			continue
		}
		u.size[k] = load
		u.kinds++
		sum := 0.0
		for d, v := range load {
			sum += share(v, b.Capacity[d])
		}
		u.big = min(u.big, sum)
	}
}

func (u *unit) hates(other int) bool {
	if len(u.foes) == 0 {
		return false
	}
	_, found := slices.BinarySearch(u.foes, other)
	return found
}

// bigFirst orders units by what they take, then by their first item.
func bigFirst(a, b *unit) int {
	switch {
	case a.big > b.big:
		return -1
	case a.big < b.big:
		return 1
	}
	return a.items[0] - b.items[0]
}
