package pack

import (
	"math/bits"
	"slices"
)

// answer writes down what a search found, the fixed bins included.
func (s *space) answer(r result) Answer {
	a := Answer{Step: r.step, Work: s.work, Bound: r.lower + len(s.q.Fixed), MetalBound: r.metalLower}
	a.Groups = r.f.groups()
	for _, g := range s.q.Fixed {
		load, _ := s.load(g.Bin, g.Items)
		a.Groups = append(a.Groups, Group{Bin: g.Bin, Items: sorted(g.Items), Load: load, Fixed: true})
		a.MetalBound += s.q.metal(g.Bin, load)
	}
	slices.SortStableFunc(a.Groups, byFirst)
	a.Left = slices.Clone(s.left)
	slices.SortFunc(a.Left, func(x, y Left) int { return x.Item - y.Item })
	a.Proved = a.Bound == len(a.Groups)
	a.score(s.q, s.jobs)
	if a.Splits > 0 {
		a.SplitsBound = min(s.splitsBound(), a.Splits)
	}
	if s.hang != nil {
		a.Asked, a.GaveUp = s.hang.asked, s.hang.gaveUp
	}
	return a
}

// byFirst orders groups by least item; an empty fixed bin comes first.
func byFirst(a, b Group) int { return first(a) - first(b) }

func first(g Group) int {
	if len(g.Items) == 0 {
		return -1
	}
	return g.Items[0]
}

// metal is what a bin with that load ties up.
func (q *Question) metal(kind int, load []int64) int64 {
	if q.Tied == nil {
		return q.Bins[kind].Metal
	}
	return max(q.Bins[kind].Metal, q.Tied(kind, slices.Clone(load)))
}

// score works out the goals that come after the number of bins.
func (a *Answer) score(q *Question, jobs []int) {
	touched := map[[2]int]bool{}
	for g, group := range a.Groups {
		a.Metal += q.metal(group.Bin, group.Load)
		for d, c := range q.Bins[group.Bin].Capacity {
			a.Fullest = max(a.Fullest, millionths(group.Load[d], c))
		}
		for _, i := range group.Items {
			if jobs[i] >= 0 {
				touched[[2]int{jobs[i], g}] = true
			}
		}
	}
	met := map[int]bool{}
	for t := range touched {
		met[t[0]] = true
	}
	a.Splits = len(touched) - len(met)
}

// millionths of a limit, rounded up.
func millionths(load, limit int64) int64 {
	if load == 0 {
		return 0
	}
	hi, lo := bits.Mul64(uint64(load), 1_000_000)
	whole, rest := bits.Div64(hi, lo, uint64(limit))
	if rest > 0 {
		whole++
	}
	return int64(whole)
}

// splitsBound adds up, over the jobs, the bins their items need on their own,
// less one. What is in fixed bins stays there.
func (s *space) splitsBound() int {
	pieces := s.pieces()
	byJob := map[int][]unit{}
	for _, u := range pieces {
		// A set kept together may hold several jobs: each counts with its own items.
		for _, i := range u.items {
			if s.jobs[i] >= 0 {
				alone := unit{items: []int{i}}
				s.measure(&alone)
				byJob[s.jobs[i]] = append(byJob[s.jobs[i]], alone)
			}
		}
	}
	touched := map[int]int{}
	for _, g := range s.q.Fixed {
		here := map[int]bool{}
		for _, i := range g.Items {
			if j := s.jobs[i]; j >= 0 && !here[j] {
				here[j] = true
				touched[j]++
			}
		}
	}
	sum := 0
	for j, units := range byJob {
		sum += touched[j] + s.sumBound(units, s.avail) - 1
		delete(touched, j)
	}
	for _, n := range touched {
		sum += n - 1
	}
	return sum
}

// keepBetter holds two answers to one question against each other in the
// order of the goals; the bounds of both hold for it.
func keepBetter(a, b Answer) Answer {
	better := a
	if compare(&b, &a) < 0 {
		better = b
	}
	if slices.Equal(a.Left, b.Left) {
		better.Bound = max(a.Bound, b.Bound)
		better.Proved = better.Bound == len(better.Groups)
		if len(a.Groups) == len(b.Groups) {
			better.MetalBound = max(a.MetalBound, b.MetalBound)
		}
	}
	better.Work = a.Work + b.Work
	better.Asked, better.GaveUp = a.Asked+b.Asked, a.GaveUp+b.GaveUp
	return better
}

// compare is less than 0 if a is the better answer.
func compare(a, b *Answer) int {
	for _, pair := range [][2]int64{
		{int64(len(a.Left)), int64(len(b.Left))},
		{int64(len(a.Groups)), int64(len(b.Groups))},
		{a.Metal, b.Metal},
		{int64(a.Splits), int64(b.Splits)},
		{a.Fullest, b.Fullest},
	} {
		if pair[0] != pair[1] {
			if pair[0] < pair[1] {
				return -1
			}
			return 1
		}
	}
	return slices.CompareFunc(a.Groups, b.Groups, func(x, y Group) int {
		if c := slices.Compare(x.Items, y.Items); c != 0 {
			return c
		}
		return x.Bin - y.Bin
	})
}
