package tree

import (
	"cmp"
	"maps"
	"slices"
	"sort"
	"strconv"

	"castweek/jobs"
	"castweek/jobs/workshop"
	"castweek/tree/mount"
)

// A hungTree is a set of castings with the flask it hangs in and how.
type hungTree struct {
	group *group
	flask workshop.Flask
	items []*item
	mount mount.Tree
}

// A leftItem is a casting that no tree holds, with the reason.
type leftItem struct {
	item   *item
	reason string
}

// solve hangs all groups in the flasks that the house has. Flasks are shared:
// the groups take them in the order of their earliest due days, then of what a
// flask is worth to them. A group that finds none left is moved to the front and
// all is tried again, and the attempt is kept that leaves the fewest castings
// over, first of all of those that the next cast would finish too late.
func solve(w *workshop.Workshop, groups []*group, in Input) ([]hungTree, []leftItem) {
	thorough := in.Thorough
	in.Thorough = false
	best := search(w, groups, in)
	if thorough {
		in.Thorough = true
		if slow := search(w, groups, in); slow.better(w, best) {
			best = slow
		}
	}
	for g, r := range best.results {
		g.trees, g.bound = r.trees, r.bound
	}
	sortHung(best.hung, groups, firstJobs(in.Folder.Wishes))
	sort.SliceStable(best.left, func(i, j int) bool { return best.left[i].item.casting.ID < best.left[j].item.casting.ID })
	return best.hung, best.left
}

// better tells whether a has fewer castings too late than b, else leaves fewer
// over, else needs fewer pours, else ties up less metal.
func (a attempt) better(w *workshop.Workshop, b attempt) bool {
	switch {
	case a.late != b.late:
		return a.late < b.late
	case len(a.left) != len(b.left):
		return len(a.left) < len(b.left)
	case len(a.hung) != len(b.hung):
		return len(a.hung) < len(b.hung)
	}
	return tiedUp(w, a.hung) < tiedUp(w, b.hung)
}

func search(w *workshop.Workshop, groups []*group, in Input) attempt {
	known := solveAlone(w, groups, in)
	due := slices.Clone(groups)
	sort.SliceStable(due, func(i, j int) bool { return earliest(due[i]).Before(earliest(due[j])) })
	best := attemptAll(w, due, known, in)
	for _, order := range [][]*group{due, byWorth(w, due, best, in)} {
		for range groups {
			a := attemptAll(w, order, known, in)
			if a.late < best.late || a.late == best.late && len(a.left) < len(best.left) {
				best = a
			}
			if a.short < 0 {
				break
			}
			front := order[a.short]
			copy(order[1:], order[:a.short])
			order[0] = front
		}
		if best.short < 0 {
			break
		}
	}
	return best
}

// byWorth orders groups by what a flask is worth to them: castings that would be
// too late without, else castings. How many trees a group takes is known from an
// attempt; one that got none counts as taking one.
func byWorth(w *workshop.Workshop, groups []*group, was attempt, in Input) []*group {
	out := slices.Clone(groups)
	late := map[*group]int{}
	for _, g := range groups {
		for _, it := range g.items {
			if in.tooLate(w, it) {
				late[g]++
			}
		}
	}
	slices.SortStableFunc(out, func(a, b *group) int {
		m, n := max(1, was.results[a].trees), max(1, was.results[b].trees)
		if c := cmp.Compare(late[b]*m, late[a]*n); c != 0 {
			return c
		}
		return cmp.Compare(len(b.items)*m, len(a.items)*n)
	})
	return out
}

// tooLate tells whether the next cast would finish a casting after its due day.
func (in Input) tooLate(w *workshop.Workshop, it *item) bool {
	return !in.next.IsZero() && in.next.Add(w.BenchTime).After(it.casting.Job.Due)
}

// result is what packing says of one group.
type result struct{ trees, bound int }

type attempt struct {
	hung    []hungTree
	left    []leftItem
	late    int // castings left over that the next cast would finish too late
	results map[*group]result
	short   int // index of the first group that found too few flasks, or -1
}

// stockOf is how many flasks of each name are in use.
func stockOf(w *workshop.Workshop, wishes jobs.Wishes) map[string]int {
	stock := map[string]int{}
	for _, f := range w.Flasks {
		stock[f.Name] = f.Count
	}
	for _, b := range wishes.Broken {
		stock[b.Flask] = max(0, stock[b.Flask]-b.Count)
	}
	return stock
}

// A state is a group with as many of each flask as could matter to it. What is
// solved in one is solved, whatever other groups took.
type state struct {
	group *group
	free  string
}

// state is that of the packing.
func (s *packing) state() state {
	var b []byte
	for _, f := range s.shop.Flasks {
		b = append(strconv.AppendInt(b, int64(min(s.free[f.Name], len(s.group.items))), 10), ' ')
	}
	return state{s.group, string(b)}
}

// solveAlone hangs each group as if it had all flasks to itself, several at once.
// Most groups never need more than others leave.
func solveAlone(w *workshop.Workshop, groups []*group, in Input) map[state]solved {
	stock := stockOf(w, in.Folder.Wishes)
	order := slices.Clone(groups) // those of most work first
	slices.SortStableFunc(order, func(a, b *group) int { return len(b.items) - len(a.items) })
	states, answers := make([]state, len(order)), make([]solved, len(order))
	in.traced.each(len(order), func(t *traced, k int) {
		own := in
		own.traced = t
		s := newPacking(w, order[k], stock, stock, own)
		states[k], answers[k] = s.state(), s.solveSound()
	})
	known := map[state]solved{}
	for k, s := range states {
		known[s] = answers[k]
	}
	return known
}

// attemptAll hangs the groups in their order, each in the flasks that those before
// it leave. known is what was solved before.
func attemptAll(w *workshop.Workshop, order []*group, known map[state]solved, in Input) attempt {
	a := attempt{results: map[*group]result{}, short: -1}
	stock := stockOf(w, in.Folder.Wishes)
	free := maps.Clone(stock)
	for i, g := range order {
		s := newPacking(w, g, stock, free, in)
		at := s.state()
		got, solved := known[at]
		if !solved {
			got = s.solveSound()
			known[at] = got
		}
		a.hung, a.left, a.results[g] = append(a.hung, got.hung...), append(a.left, got.left...), got.result
		if got.ranOut && a.short < 0 && i > 0 {
			a.short = i
		}
		for _, h := range got.hung {
			free[h.flask.Name]--
		}
	}
	for _, l := range a.left {
		if in.tooLate(w, l.item) {
			a.late++
		}
	}
	return a
}
