package pack

import (
	"fmt"
	"slices"
)

// Solve answers a question, or names what is wrong with it; on any fault the
// answer is empty. It does not touch the question, and keeps nothing.
func Solve(q Question) (Answer, []Fault) {
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
	b, _ := solveOnce(&more)
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
		panic(fmt.Sprintf("pack: the answer of step %q is wrong: %v", r.step, err))
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

// run searches for the fewest bins, from the bound upwards.
func (s *space) run() result {
	for {
		pieces := s.pieces()
		if len(pieces) == 0 {
			return result{f: &filling{s: s}, step: "nothing to pack"}
		}
		stock, total := s.avail, 0
		for _, n := range stock {
			total = min(unlimited, total+n)
		}
		if r, ok := s.search(pieces, stock, total); ok {
			return r
		}
		s.leaveOne(pieces)
	}
}

// search tries one number of bins after the other, from the bound upwards.
func (s *space) search(pieces []unit, stock []int, total int) (result, bool) {
	lower := s.sumBound(pieces, stock)
	var h heavy
	hint := s.greedy(pieces, stock, true)
	for n := lower; n <= min(len(pieces), total); n++ {
		list, _ := s.compositions(pieces, n, stock)
		metal := int64(-1)
		for _, c := range list {
			if s.refuted(pieces, c) {
				continue
			}
			if metal < 0 {
				metal = c.metal
			}
			if f, step := s.quick(pieces, c); f != nil {
				return result{f, lower, metal, step}, true
			}
		}
		if metal < 0 {
			lower = max(lower, n+1)
			continue
		}
		lower = max(lower, h.bound(s, pieces, stock, hint))
		if lower > n {
			continue
		}
		f, step, refuted := h.fill(n)
		if f != nil {
			return result{f, lower, metal, step}, true
		}
		if refuted && lower == n {
			lower = n + 1
		}
	}
	if hint != nil {
		return result{hint, lower, 0, "best fit"}, true
	}
	return result{}, false
}

// leaveOne gives up the last unit in the caller's order: the bins ran out.
func (s *space) leaveOne(pieces []unit) {
	last := slices.MaxFunc(pieces, func(a, b unit) int { return a.items[0] - b.items[0] })
	s.leave(last.items, RanOut)
}

func (s *space) leave(items []int, why Reason) {
	for _, i := range items {
		s.left = append(s.left, Left{i, why, -1})
		at, _ := slices.BinarySearch(s.free, i)
		s.free = slices.Delete(s.free, at, at+1)
	}
}

// quick tries the cheap ways to fill the bins of a composition.
func (s *space) quick(pieces []unit, c composition) (*filling, string) {
	prefer := s.preference(pieces)
	kinds := c.kinds(prefer)
	blocks := s.blocks()
	if f := s.level(blocks, kinds); f != nil {
		return f, "whole jobs, least loaded"
	}
	many := 5 // units a bin, below which swaps are of no use
	if len(blocks) < len(pieces) && len(blocks) >= many*len(kinds) {
		if f := s.repair(blocks, kinds, 200); f != nil {
			return f, "whole jobs, swapped"
		}
	}
	if f := s.level(pieces, kinds); f != nil {
		return f, "pieces, least loaded"
	}
	if f := s.greedy(pieces, c.count, true); f != nil {
		return f, "best fit"
	}
	if f := s.greedy(pieces, c.count, false); f != nil {
		return f, "first fit"
	}
	if len(pieces) >= many*len(kinds) {
		if f := s.repair(pieces, kinds, 200); f != nil {
			return f, "pieces, swapped"
		}
	}
	cs := classes(pieces)
	left := make([]int, len(cs))
	for c := range cs {
		left[c] = len(cs[c].units)
	}
	if bins, order := s.minSlack(cs, left, c.count, prefer, len(kinds), 2000); bins != nil {
		return s.unpack(pieces, cs, bins, order), "least slack"
	}
	return nil, ""
}
