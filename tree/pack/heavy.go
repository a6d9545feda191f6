package pack

// heavy is what is tried when the cheap ways fail at the bound: columns, dives
// and the closed search.
type heavy struct {
	e     *engine
	lower int
}

// bound works out the bound by columns, once.
func (h *heavy) bound(s *space, pieces []unit, stock []int, hint *filling) int {
	if h.e == nil {
		h.e = s.newEngine(pieces, stock)
		if h.e == nil {
			return 0
		}
		if hint != nil {
			h.e.learnFilling(hint)
		}
		h.lower, _ = h.e.generate(h.e.demand, bound)
	}
	return h.lower
}

// fill looks for a packing of n bins by dives; refuted says that there is none.
func (h *heavy) fill(n int) (f *filling, step string, refuted bool) {
	if h.e == nil {
		return nil, "", false
	}
	s := h.e.s
	share := (s.limit - s.work) / 8
	if f := h.e.dive(n, 0, true, s.work+share); f != nil {
		return f, "dive", false
	}
	if _, ok := h.e.generate(h.e.demand, settle); ok {
		if list, ok := h.e.enumerate(n); ok {
			if list.refuted {
				return nil, "", true
			}
			if f, refuted := h.e.close(list, n, s.work+4*share); f != nil || refuted {
				return f, "closed list", refuted
			}
		}
	}
	if f := h.e.dive(n, 1, false, s.work+share); f != nil {
		return f, "dive with discrepancies", false
	}
	return nil, "", false
}
