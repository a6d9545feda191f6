package pack

// heavy is what is tried when the cheap ways fail at the bound: columns, dives
// and the closed search.
type heavy struct {
	e     *engine
	tried bool
	lower int
}

// bound works out the bound by columns, once.
func (h *heavy) bound(s *space, v *view) int {
	if h.tried {
		return h.lower
	}
	h.tried = true
	if h.e = s.newEngine(v.sure, s.avail); h.e == nil {
		return 0
	}
	if f := s.greedy(v.sure, s.avail, true); f != nil {
		h.e.learnFilling(f)
	}
	h.lower, _ = h.e.generate(h.e.demand, bound)
	return h.lower
}

// fill looks for a packing of n bins by dives; refuted says that there is none.
func (h *heavy) fill(n int) (f *filling, step string, refuted bool) {
	if h.e == nil {
		return nil, "", false
	}
	s := h.e.s
	share := (s.limit - s.work) / 8
	roots := len(h.e.patterns)
	if f := h.e.dive(n, 0, true, s.work+share); f != nil {
		return f, "dive", false
	}
	h.e.forget(roots)
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

// mostCheaper is how many compositions cheaper than a packing in hand are
// looked into with columns.
const mostCheaper = 20

// cheaper looks for a packing of the same number of bins that ties up less
// metal, composition by composition.
func (s *space) cheaper(r result, v *view, list []composition, n int) result {
	var have int64
	for t := range r.f.trays {
		have += s.q.Bins[r.f.trays[t].kind].Metal
	}
	if len(s.q.Bins) == 1 {
		return r
	}
	sure := true // every composition before this one is refuted
	tried := 0
	for _, c := range list {
		if c.metal >= have {
			break
		}
		if tried++; tried > mostCheaper || s.work >= s.limit {
			return r
		}
		e := s.newEngine(v.sure, c.count)
		if e == nil {
			return r
		}
		if lower, _ := e.generate(e.demand, bound); lower > n {
			continue
		}
		if sure {
			r.metalLower = c.metal
			sure = false
		}
		if f := e.dive(n, 0, true, s.work+(s.limit-s.work)/8); f != nil {
			if f, _ = s.finish(f, v); f != nil {
				r.f, r.step = f, "dive for metal"
				return r
			}
		}
	}
	if sure {
		r.metalLower = have
	}
	return r
}
