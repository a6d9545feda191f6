package tree

import (
	"maps"
	"slices"
	"sort"

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
// a group that finds none left is moved to the front and all is tried again,
// and the attempt is kept that leaves the fewest castings over, first of all of
// those that the next cast would finish too late.
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
	alone := solveAlone(w, groups, in)
	order := append([]*group(nil), groups...)
	sort.SliceStable(order, func(i, j int) bool { return earliest(order[i]).Before(earliest(order[j])) })
	var best attempt
	for try := 0; ; try++ {
		a := attemptAll(w, order, alone, in)
		if try == 0 || a.late < best.late || a.late == best.late && len(a.left) < len(best.left) {
			best = a
		}
		if a.short < 0 || try >= len(groups) {
			break
		}
		front := order[a.short]
		copy(order[1:], order[:a.short])
		order[0] = front
	}
	return best
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

// solveAlone hangs each group as if it had all flasks to itself, several at once.
// Most groups never need more than others leave.
func solveAlone(w *workshop.Workshop, groups []*group, in Input) map[*group]solved {
	stock := stockOf(w, in.Folder.Wishes)
	order := slices.Clone(groups) // those of most work first
	slices.SortStableFunc(order, func(a, b *group) int { return len(b.items) - len(a.items) })
	answers := make([]solved, len(order))
	in.traced.each(len(order), func(t *traced, k int) {
		own := in
		own.traced = t
		answers[k] = newPacking(w, order[k], stock, stock, own).solveSound()
	})
	alone := map[*group]solved{}
	for k, g := range order {
		alone[g] = answers[k]
	}
	return alone
}

// attemptAll hangs the groups in their order, each in the flasks that those before
// it leave. alone is what they found by themselves, where that is known.
func attemptAll(w *workshop.Workshop, order []*group, alone map[*group]solved, in Input) attempt {
	a := attempt{results: map[*group]result{}, short: -1}
	stock := stockOf(w, in.Folder.Wishes)
	free := maps.Clone(stock)
	for i, g := range order {
		s := newPacking(w, g, stock, free, in)
		got, known := alone[g]
		if !known || !s.plenty() {
			got = s.solveSound()
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
		if !in.next.IsZero() && in.next.Add(w.BenchTime).After(l.item.casting.Job.Due) {
			a.late++
		}
	}
	return a
}
