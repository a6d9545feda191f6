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
		lower := s.sumBound(pieces, stock)
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
					return result{f, lower, metal, step}
				}
			}
			if metal < 0 && lower == n {
				lower = n + 1
			}
		}
		if f := s.greedy(pieces, stock, true); f != nil {
			return result{f, lower, 0, "best fit"}
		}
		s.leaveOne(pieces)
	}
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
	kinds := c.kinds(s.preference(pieces))
	if f := s.level(s.blocks(), kinds); f != nil {
		return f, "whole jobs, least loaded"
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
	return nil, ""
}
