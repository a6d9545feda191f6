package tree

import (
	"slices"

	"castweek/metal/measure"
	"castweek/tree/pack"
)

// fills say how full trees are tried to be made, as a share of the length of
// trunk that their castings take by themselves. Below 0.8 nearly every mixed tree
// hangs, above 1.3 none was found to (measured on the invented weeks and on the
// sample's patterns).
var fills = []float64{0.4, 0.5, 0.6, 0.65, 0.7, 0.75, 0.8, 0.85, 0.9, 0.95, 1, 1.05, 1.1, 1.15, 1.2, 1.25, 1.3}

const (
	// mostCounts is how many numbers of trees are tried at which all must hang,
	// before those that hang are kept and the rest is packed again.
	mostCounts, thoroughCounts = 3, 6
	// mostHang is the share of the trees of a fill that have to hang for them to
	// be kept.
	mostHang = 0.75
	// Metal is packed up to heaviest of the limit at first, since feeders and trunk
	// are only guessed. Where a tree that hung came out too heavy the guess is put
	// right by it, by lighter at least, and mostLighter times.
	heaviest, lighter, mostLighter = 1.25, 0.985, 15
	// The last resort asks mounting about every set while packing.
	lastFill = 0.4
	lastAsks = 300
)

// fewest finds the fewest trees that hang. It tells false when that takes more
// than s.most trees, where the caller has no use for more.
func (s *packing) fewest() (groups []pack.Group, left []pack.Left, ok bool) {
	groups = append(groups, s.fixed...)
	rest := s.unfixed()
	for len(rest) > 0 {
		r := s.newHanger(rest, groups)
		more, over, hang := r.balanced()
		if hang {
			return append(groups, more...), over, true
		}
		if s.most > 0 { // trees that hang among others that do not are more
			return nil, nil, false
		}
		more, again := r.keep()
		if len(more) == 0 {
			more, again, over = r.askEach()
			groups = append(groups, more...)
			for _, i := range again { // nothing is lost, even where the last search ends without an answer
				over = append(over, pack.Left{Item: i, Reason: pack.NotHung, Dim: -1})
			}
			return groups, over, true
		}
		groups, rest = append(groups, more...), again
	}
	return groups, left, true
}

// A hanger packs the castings of rest into the flasks that taken does not use.
type hanger struct {
	*packing
	rest    []int
	taken   []pack.Group
	answers map[int]pack.Answer // by fill
}

func (s *packing) newHanger(rest []int, taken []pack.Group) *hanger {
	s.metalFill = heaviest
	return &hanger{packing: s, rest: rest, taken: taken, answers: map[int]pack.Answer{}}
}

// balanced looks for the fewest trees that all hang. For a number of trees the
// roomiest packing is mounted first; when it hangs, tighter ones that tie up less
// metal are.
func (r *hanger) balanced() (groups []pack.Group, left []pack.Left, ok bool) {
	counts := mostCounts
	if r.thorough {
		counts = thoroughCounts
	}
	top, light := len(fills)-1, 0
	for tried := 0; tried < counts && top >= 0; {
		a := r.at(top)
		if ranOut(a) {
			return nil, nil, false
		}
		if r.most > 0 && len(r.taken)+len(a.Groups) > r.most {
			return nil, nil, false
		}
		n := len(a.Groups)
		low := r.loosest(top, n)
		switch hang, heavy := r.hang(r.at(low)); {
		case hang:
			best := r.cheaper(low, top, n)
			return best.Groups, best.Left, true
		case heavy > 0 && light < mostLighter:
			light++
			r.metalFill = min(r.metalFill*lighter, heavy)
			clear(r.answers)
		default:
			tried++
			top = low - 1
		}
	}
	return nil, nil, false
}

// loosest is the least fill, up to top, at which n trees hold everything.
func (r *hanger) loosest(top, n int) int {
	low, high := -1, top
	for high-low > 1 {
		mid := (low + high) / 2
		if a := r.at(mid); len(a.Groups) <= n && !ranOut(a) {
			high = mid
		} else {
			low = mid
		}
	}
	return high
}

// cheaper goes on from n trees that hang to tighter ones that should tie up less
// metal, until some do not hang, and gives those that tie up least.
func (r *hanger) cheaper(low, top, n int) pack.Answer {
	best, last := r.at(low), r.at(low)
	if r.at(top).Metal >= last.Metal {
		return best
	}
	least := r.tiedUp(best)
	defer func(was bool) { r.brief = was }(r.brief)
	r.brief = !r.thorough
	for i := low + 1; i <= top; i++ {
		a := r.at(i)
		if len(a.Groups) != n || len(a.Left) != len(best.Left) || a.Metal >= last.Metal {
			continue
		}
		hang, _ := r.hang(a)
		if !hang {
			if !r.thorough {
				break
			}
			continue
		}
		last = a
		if tied := r.tiedUp(a); tied < least {
			best, least = a, tied
		}
	}
	return best
}

// tiedUp is the metal in buttons, trunks and feeders of trees that hang.
func (r *hanger) tiedUp(a pack.Answer) (mg measure.Milligram) {
	for _, g := range a.Groups {
		mg += r.asked(g.Bin, g.Items).tied
	}
	return mg
}

// hang tells whether all trees of an answer hang. Where one does and only its
// metal is too much, heavy is what was packed by what it really weighs, else 0.
// The fullest is mounted first.
func (r *hanger) hang(a pack.Answer) (hang bool, heavy float64) {
	groups := slices.Clone(a.Groups)
	slices.SortStableFunc(groups, func(a, b pack.Group) int { return int(b.Load[1] - a.Load[1]) })
	for _, g := range groups {
		switch a := r.asked(g.Bin, g.Items); {
		case a.heavy > 0:
			return false, float64(g.Load[0]) / float64(a.heavy)
		case a.verdict != pack.Hangs:
			return false, 0
		}
	}
	return true, 0
}

// keep keeps those trees of a fill that hang, at the first fill at which most
// do, and gives the castings of the others.
func (r *hanger) keep() (hung []pack.Group, again []int) {
	for i := len(fills) - 1; i >= 0; i-- {
		a := r.at(i)
		hung, again = nil, nil
		for _, l := range a.Left {
			again = append(again, l.Item)
		}
		for _, g := range a.Groups {
			if r.canHang(g.Bin, g.Items) == pack.Hangs {
				hung = append(hung, g)
			} else {
				again = append(again, g.Items...)
			}
		}
		if len(hung) > 0 && float64(len(hung)) >= mostHang*float64(len(a.Groups)) {
			slices.Sort(again)
			return hung, again
		}
	}
	return nil, r.rest
}

// askEach packs and mounts as one search.
func (r *hanger) askEach() (hung []pack.Group, again []int, left []pack.Left) {
	q := r.ask(lastFill)
	q.Rough = false
	q.CanHang, q.Asks = func(bin int, items []int) pack.Verdict { return r.canHang(bin, r.names(items)) }, lastAsks
	a, ok := solveFewest(q)
	if !ok {
		return nil, r.rest, nil
	}
	a = r.named(a)
	return a.Groups, nil, a.Left
}

// at is the packing at a fill.
func (r *hanger) at(fill int) pack.Answer {
	a, known := r.answers[fill]
	if !known {
		var ok bool
		if a, ok = solveFewest(r.ask(fills[fill])); ok {
			a = r.named(a)
		} else {
			a = pack.Answer{}
			for _, i := range r.rest {
				a.Left = append(a.Left, pack.Left{Item: i, Reason: pack.RanOut, Dim: -1})
			}
		}
		r.answers[fill] = a
	}
	return a
}

func (r *hanger) ask(fill float64) groupQuestion {
	q := r.question(fill).among(r.rest)
	for _, g := range r.taken {
		if b := &q.Bins[g.Bin]; b.Available > 0 {
			if b.Available--; b.Available == 0 {
				b.Available = -1
			}
		}
	}
	return q
}

// named gives the items of an answer their places in the group.
func (r *hanger) named(a pack.Answer) pack.Answer {
	for k, g := range a.Groups {
		a.Groups[k].Items = r.names(g.Items)
	}
	for k, l := range a.Left {
		a.Left[k].Item = r.rest[l.Item]
	}
	return a
}

func (r *hanger) names(items []int) []int {
	out := make([]int, len(items))
	for k, i := range items {
		out[k] = r.rest[i]
	}
	return out
}

func ranOut(a pack.Answer) bool {
	return slices.ContainsFunc(a.Left, func(l pack.Left) bool { return l.Reason == pack.RanOut })
}

// solveFewest solves a question with all kinds of flask, and with each kind alone:
// where a search over mixed kinds ends early, one kind alone often needs fewer.
func solveFewest(q groupQuestion) (best pack.Answer, ok bool) {
	try := func(q groupQuestion) {
		a, faults := pack.Solve(pack.Question(q))
		if len(faults) > 0 {
			return
		}
		if !ok || len(a.Left) < len(best.Left) ||
			len(a.Left) == len(best.Left) && (len(a.Groups) < len(best.Groups) || len(a.Groups) == len(best.Groups) && a.Metal < best.Metal) {
			best, ok = a, true
		}
	}
	try(q)
	if ok && best.Proved || len(q.Bins) < 2 {
		return best, ok
	}
	for only := range q.Bins {
		one := q
		one.Bins = slices.Clone(q.Bins)
		for b := range one.Bins {
			if b != only {
				one.Bins[b].Available = -1
			}
		}
		try(one)
	}
	return best, ok
}
