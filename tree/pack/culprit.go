package pack

import "slices"

// culprits narrows a set that does not hang down to a part of it that still does not,
// and of which every item is needed for that: a pair that can never share a
// bin says more than the bin they were met in. It gives up, with nothing,
// when the part grows past a few items: then the bin was simply too crowded.
//
// The search halves the set again and again (Junker 2004, from memory).
func (h *hanging) culprits(kind int, items []int, asks int) []int {
	c := &culpritSearch{h: h, kind: kind, until: min(h.most, h.asked+asks)}
	core, ok := c.among(nil, items, false)
	if !ok {
		return nil
	}
	slices.Sort(core)
	h.ask(kind, core) // bars it, with its own verdict
	return core
}

// mostCulprits is the largest part worth knowing.
const mostCulprits = 4

type culpritSearch struct {
	h     *hanging
	kind  int
	until int
}

// among finds a least part of set that does not hang with base; grown says
// that base has gained since it was last asked.
func (c *culpritSearch) among(base, set []int, grown bool) ([]int, bool) {
	if grown {
		if c.h.asked >= c.until {
			return nil, false
		}
		if c.h.ask(c.kind, sorted(base)) != Hangs {
			return nil, true
		}
	}
	if len(set) == 1 {
		return set, true
	}
	half := len(set) / 2
	low, high := set[:half], set[half:]
	second, ok := c.among(append(slices.Clone(base), low...), high, true)
	if !ok || len(second) > mostCulprits {
		return nil, false
	}
	first, ok := c.among(append(slices.Clone(base), second...), low, len(second) > 0)
	if !ok || len(first)+len(second) > mostCulprits {
		return nil, false
	}
	return append(slices.Clone(first), second...), true
}

// hangs asks for every tray of a packing. Where a tray does not hang it moves or
// exchanges single units until all do; nil if that fails, and fresh says
// that some refusal was learned that the packing did not know.
func (s *space) hangs(f *filling) (out *filling, fresh bool) {
	if s.hang == nil {
		return f, false
	}
	before := s.hang.asked
	for t := range f.trays {
		items := f.items(t)
		if len(items) == 0 || s.hang.ask(f.trays[t].kind, items) == Hangs {
			continue
		}
		if core := s.hang.culprits(f.trays[t].kind, items, 40); core != nil && len(core) < len(items) && len(core) <= 2 {
			return nil, true
		}
		if s.hang.spent() || !f.lighten(t) {
			return nil, s.hang.asked > before
		}
	}
	return f, false
}

// lighten moves units out of a tray that does not hang, the first one whose
// leaving helps or that at least finds another place, until the tray hangs.
func (f *filling) lighten(t int) bool {
	h := f.s.hang
	for moves := len(f.trays[t].units); moves > 1; moves-- {
		if !f.moveOut(t) {
			return f.swapOut(t)
		}
		if h.ask(f.trays[t].kind, f.items(t)) == Hangs {
			return true
		}
	}
	return false
}

// moveOut moves the largest unit that can, into the emptiest tray that still
// hangs with it.
func (f *filling) moveOut(t int) bool {
	us := slices.Clone(f.trays[t].units)
	slices.SortFunc(us, func(a, b int) int { return bigFirst(&f.units[a], &f.units[b]) })
	for _, u := range us {
		for _, o := range f.emptiest(t) {
			if f.s.hang.spent() {
				return false
			}
			if !f.admits(o, u) {
				continue
			}
			f.remove(t, u)
			f.add(o, u)
			if f.s.hang.ask(f.trays[o].kind, f.items(o)) == Hangs {
				return true
			}
			f.remove(o, u)
			f.add(t, u)
		}
	}
	return false
}

// swapOut exchanges a unit of a tray that does not hang for a smaller one, if
// then both trays hang.
func (f *filling) swapOut(t int) bool {
	us := slices.Clone(f.trays[t].units)
	slices.SortFunc(us, func(a, b int) int { return bigFirst(&f.units[a], &f.units[b]) })
	for _, u := range us {
		for _, o := range f.emptiest(t) {
			for _, w := range slices.Clone(f.trays[o].units) {
				if f.s.hang.spent() {
					return false
				}
				if f.units[w].big >= f.units[u].big {
					continue
				}
				f.remove(t, u)
				f.remove(o, w)
				if f.admits(o, u) && f.admits(t, w) {
					f.add(o, u)
					f.add(t, w)
					if f.s.hang.ask(f.trays[o].kind, f.items(o)) == Hangs && f.s.hang.ask(f.trays[t].kind, f.items(t)) == Hangs {
						return true
					}
					f.remove(o, u)
					f.remove(t, w)
				}
				f.add(t, u)
				f.add(o, w)
			}
		}
	}
	return false
}

// emptiest is the other trays, the emptiest first.
func (f *filling) emptiest(but int) []int {
	var out []int
	full := make([]float64, len(f.trays))
	for t := range f.trays {
		for d, c := range f.s.q.Bins[f.trays[t].kind].Capacity {
			full[t] = max(full[t], share(f.trays[t].load[d], c))
		}
		if t != but {
			out = append(out, t)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int {
		switch {
		case full[a] < full[b]:
			return -1
		case full[a] > full[b]:
			return 1
		}
		return 0
	})
	return out
}
