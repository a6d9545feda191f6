package pack

// Solve answers a question, or names what is wrong with it; on any fault the
// answer is empty. It does not touch the question, and keeps nothing.
func Solve(q Question) (Answer, []Fault) {
	if q.CanHang != nil && q.Thorough {
		q.CanHang = remembered(q.CanHang)
	}
	a, fs := solveOnce(&q)
	if fs != nil || !q.Thorough {
		return a, fs
	}
	more := q
	if more.Limit <= 0 {
		more.Limit = DefaultLimit
	}
	if more.Asks <= 0 {
		more.Asks = DefaultAsks
	}
	more.Limit *= ThoroughFactor
	more.Asks *= ThoroughFactor
	b, fs := solveOnce(&more)
	if fs != nil {
		return Answer{}, fs
	}
	return keepBetter(a, b), nil
}

func solveOnce(q *Question) (Answer, []Fault) {
	s, fs := newSpace(q)
	if fs != nil {
		return Answer{}, fs
	}
	if q.CanHang != nil {
		s.hang = newHanging(q)
	}
	r := s.run()
	a := s.answer(r)
	asked := *q
	if q.CanHang != nil {
		asked.CanHang = s.hang.ask
	}
	if err := Check(&asked, &a); err != nil {
		// A grouping that fails its check must never reach a crucible.
		fs.add(WrongAnswer, nil, nil, "the grouping found by %q fails its check: %v", r.step, err)
		return Answer{}, fs
	}
	return a, nil
}

// A result is what the search knows at its end.
type result struct {
	f          *filling
	lower      int   // for the free items
	metalLower int64 // for the free items, with as many bins as f has
	step       string
}

// run packs the free items. Where something is learned that changes the units
// themselves (one that never hangs, a pair that never shares a bin) it starts
// again; where the bins run out it leaves the last unit in the caller's order out.
func (s *space) run() result {
	for {
		v := s.look()
		if len(v.pieces) == 0 {
			return result{f: &filling{s: s}, step: "nothing to pack"}
		}
		if s.dropUnhung(v) {
			continue
		}
		if v.lower > v.total {
			s.leaveLast(v)
			continue
		}
		r, again := s.search(v)
		if again {
			continue
		}
		if r.f == nil {
			s.leaveLast(v)
			continue
		}
		return s.backfill(r)
	}
}

// A view is the free items as units, as far as is known by now.
type view struct {
	pieces []unit // by all refusals
	sure   []unit // by proved refusals alone: what bounds may use
	blocks []unit
	prefer []int
	total  int // bins in stock
	lower  int
}

func (s *space) look() *view {
	v := &view{pieces: s.pieces()}
	v.sure = v.pieces
	if s.hang.unsure() {
		s.hang.onlyProved = true
		v.sure = s.pieces()
		s.hang.onlyProved = false
	}
	v.blocks = s.blocks(v.pieces)
	v.prefer = s.preference(v.pieces)
	for _, n := range s.avail {
		v.total = min(unlimited, v.total+n)
	}
	v.lower = max(s.sumBound(v.sure, s.avail), cliqueBound(v.sure))
	return v
}

// dropUnhung leaves out the units that no kind of bin takes any more.
func (s *space) dropUnhung(v *view) (dropped bool) {
	for u := range v.pieces {
		if v.pieces[u].kinds > 0 {
			continue
		}
		why := NotHung
		if v.sure[u].kinds == 0 {
			why = CannotHang
		}
		s.leave(v.pieces[u].items, why)
		dropped = true
	}
	return dropped
}

// search tries one number of bins after the other, from the bound upwards.
// again says that it learned something that changes the units.
func (s *space) search(v *view) (r result, again bool) {
	var h heavy
	var last *filling // the last resort, where mounting makes trouble
	lower := v.lower
	sums := s.refuter(v.sure)
	for n := lower; n <= min(len(v.pieces), v.total) && (last == nil || n < len(last.trays)) && s.work < s.limit; n++ {
		s.hang.allow()
		list, all := s.compositions(n, s.avail, sums)
		t := s.tries(v, list)
		switch {
		case t.again:
			return r, true
		case t.f != nil:
			return s.settled(result{t.f, lower, t.metalLower, t.step}, v, n), false
		}
		if t.refuted && all {
			lower = n + 1
			continue
		}
		if t.unhung {
			// By its sums n is enough: columns have nothing to add. What can be hung at
			// all is worth knowing before more questions are spent.
			if last == nil {
				s.hang.allowAll()
				if last, again = s.hangGreedily(v); again {
					return r, true
				}
			}
			continue
		}
		if s.q.Rough {
			continue
		}
		if n == v.lower {
			lower = max(lower, s.dualBound(v.sure, s.avail))
		}
		if lower <= n {
			lower = max(lower, h.bound(s, v))
		}
		if lower > n {
			continue
		}
		f, step, refuted := h.fill(n)
		if refuted {
			lower = n + 1
			continue
		}
		if f == nil {
			continue
		}
		f, again = s.finish(f, v)
		if again {
			return r, true
		}
		if f != nil {
			r = result{f, lower, t.metalLower, step}
			return s.settled(s.cheaper(r, v, list, n), v, n), false
		}
	}
	if last == nil {
		s.hang.allowAll()
		if last, again = s.hangGreedily(v); again || last == nil {
			return r, again
		}
	}
	return s.settled(result{last, lower, 0, "one by one"}, v, -1), false
}

// settled puts the bound on metal right for a packing that was looked for in n
// bins and needs fewer.
func (s *space) settled(r result, v *view, n int) result {
	used := len(r.f.groups())
	if used == n {
		return r
	}
	r.metalLower = 0
	if list, _ := s.compositions(used, s.avail, s.refuter(v.sure)); len(list) > 0 {
		r.metalLower = list[0].metal
	}
	return r
}

// polishWork is what the later goals may cost, a small part of the rest.
const polishWork = 5_000_000

// roughFactor divides it where a rough answer is asked for.
const roughFactor = 10

// finish lowers the later goals of a packing and asks whether it hangs; nil if
// it does not.
func (s *space) finish(f *filling, v *view) (out *filling, again bool) {
	f = s.piecewise(f, v.pieces)
	if f == nil {
		return nil, false
	}
	if s.hang == nil {
		return s.improve(f, v.pieces, s.polishing()), false
	}
	known := s.hang.unitsKnown()
	even := s.piecewise(f, v.pieces)
	if f, _ = s.hangs(f); f != nil {
		return s.polish(f, v), false
	}
	if s.hang.unitsKnown() > known {
		return nil, true
	}
	// Even bins hang more easily.
	f, _ = s.hangs(s.improve(even, v.pieces, s.polishing()/10))
	return f, f == nil && s.hang.unitsKnown() > known
}

// polish lowers the later goals of a packing that hangs, as far as it goes on
// hanging.
func (s *space) polish(f *filling, v *view) *filling {
	if better, _ := s.hangs(s.improve(s.piecewise(f, v.pieces), v.pieces, s.polishing())); better != nil {
		return better
	}
	return f
}

// polishing is what the later goals of this question may cost.
func (s *space) polishing() int64 {
	switch {
	case s.q.Thorough:
		return polishWork * ThoroughFactor
	case s.q.Rough:
		return polishWork / roughFactor
	}
	return polishWork
}
