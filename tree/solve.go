package tree

import (
	"fmt"
	"sort"

	"castweek/jobs"
	"castweek/jobs/workshop"
	"castweek/metal/measure"
	"castweek/tree/mount"
	"castweek/tree/pack"
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
// and the attempt that leaves the fewest castings over is kept.
func solve(w *workshop.Workshop, groups []*group, in Input) ([]hungTree, []leftItem) {
	order := append([]*group(nil), groups...)
	sort.SliceStable(order, func(i, j int) bool { return earliest(order[i]).Before(earliest(order[j])) })
	var best attempt
	for try := 0; ; try++ {
		a := attemptAll(w, order, in)
		if try == 0 || len(a.left) < len(best.left) {
			best = a
		}
		if a.short < 0 || try >= len(groups) {
			break
		}
		front := order[a.short]
		copy(order[1:], order[:a.short])
		order[0] = front
	}
	for g, r := range best.results {
		g.trees, g.bound, g.proved = r.trees, r.bound, r.proved
	}
	sortHung(best.hung, groups, firstJobs(in.Folder.Wishes))
	sort.SliceStable(best.left, func(i, j int) bool { return best.left[i].item.casting.ID < best.left[j].item.casting.ID })
	return best.hung, best.left
}

// result is what packing says of one group.
type result struct {
	trees, bound int
	proved       bool
}

type attempt struct {
	hung    []hungTree
	left    []leftItem
	results map[*group]result
	short   int // index of the first group that found too few flasks, or -1
}

func attemptAll(w *workshop.Workshop, order []*group, in Input) attempt {
	a := attempt{results: map[*group]result{}, short: -1}
	free := map[string]int{}
	for _, f := range w.Flasks {
		free[f.Name] = f.Count
	}
	for _, b := range in.Folder.Wishes.Broken {
		free[b.Flask] = max(0, free[b.Flask]-b.Count)
	}
	for i, g := range order {
		s := packing{shop: w, group: g, free: free, bodies: in.bodies, wishes: in.Folder.Wishes, thorough: in.Thorough}
		hung, left, r, ranOut := s.solve()
		a.hung, a.left, a.results[g] = append(a.hung, hung...), append(a.left, left...), r
		if ranOut && a.short < 0 && i > 0 {
			a.short = i
		}
		for _, h := range hung {
			free[h.flask.Name]--
		}
	}
	return a
}

// packing puts one group to the packer.
type packing struct {
	shop     *workshop.Workshop
	group    *group
	free     map[string]int
	bodies   bodies
	wishes   jobs.Wishes
	thorough bool
	trees    map[string]mount.Tree // mountings found, by flask and castings
}

func (s *packing) solve() (hung []hungTree, left []leftItem, r result, ranOut bool) {
	s.trees = map[string]mount.Tree{}
	q := s.question()
	wishes := s.wishesOf(s.wishes)
	q.Together, q.Apart = wishes.together, wishes.apart
	fixed, broken := s.fix(wishes.kept)
	if len(broken) > 0 {
		for _, it := range s.group.items {
			left = append(left, leftItem{it, broken[0]})
		}
		return nil, left, r, false
	}
	q.Fixed = fixed
	a, faults := pack.Solve(q)
	if len(faults) > 0 {
		for _, it := range s.group.items {
			left = append(left, leftItem{it, faults[0].Message})
		}
		return nil, left, r, false
	}
	for _, g := range a.Groups {
		h := hungTree{group: s.group, flask: s.shop.Flasks[g.Bin], mount: s.trees[key(g.Bin, g.Items)]}
		for _, i := range g.Items {
			h.items = append(h.items, s.group.items[i])
		}
		hung = append(hung, h)
	}
	for _, l := range a.Left {
		left = append(left, leftItem{s.group.items[l.Item], s.reason(l)})
		ranOut = ranOut || l.Reason == pack.RanOut
	}
	return hung, left, result{len(a.Groups), a.Bound, a.Proved}, ranOut
}

// question states the group in the packer's numbers: the metal of the patterns
// alone, which a tree can not have less of; whether a set really hangs, and
// whether its metal with feeders and trunk keeps all limits, is asked of
// mounting.
func (s *packing) question() pack.Question {
	a := s.group.items[0].alloy
	q := pack.Question{Dims: []string{"metal"}, CanHang: s.canHang, Thorough: s.thorough}
	for _, f := range s.shop.Flasks {
		available := s.free[f.Name]
		if available <= 0 {
			available = -1
		}
		capacity := metalCapacity(s.shop, a, f)
		if capacity < 0 {
			capacity, available = 0, -1
		}
		_, least := chargeInput(s.shop, a, f).TotalFor(0)
		q.Bins = append(q.Bins, pack.Bin{Name: f.Name, Capacity: []int64{int64(capacity)}, Metal: int64(least), Available: available})
	}
	q.Tied = func(bin int, load []int64) int64 {
		f := s.shop.Flasks[bin]
		in := chargeInput(s.shop, a, f)
		// the trunk is known only when the tree is mounted; a thicker one ties
		// up more, whatever its length
		trunk := measure.CubicMM(f.TrunkDiameter * f.TrunkDiameter * f.TrunkLength / 2).Times(in.Density).RoundUp(1)
		_, button := in.TotalFor(trunk + measure.Milligram(load[0]))
		return int64(trunk + button)
	}
	for _, it := range s.group.items {
		q.Items = append(q.Items, pack.Item{ID: it.casting.ID, Job: it.casting.Job.Number, Size: []int64{int64(it.metal())}})
	}
	return q
}

// canHang asks mounting, and checks the charge with the feeders as mounted.
func (s *packing) canHang(bin int, items []int) pack.Verdict {
	f := s.shop.Flasks[bin]
	var list []mount.Body
	var metal measure.Milligram
	for _, i := range items {
		it := s.group.items[i]
		list = append(list, s.bodies.of(it))
		metal += it.metal()
	}
	tree, verdict := hang(f, mountGaps(s.shop, s.group.resin), list, mount.Options{Thorough: s.thorough})
	switch verdict.Outcome {
	case mount.CannotProved:
		return pack.Cannot
	case mount.Hangs:
	default:
		return pack.GaveUp
	}
	a := s.group.items[0].alloy
	in := chargeInput(s.shop, a, f)
	c, _ := largestCrucible(s.shop, a)
	metal += (tree.FeederVolume.Times(in.Density) + tree.TrunkVolume.Times(in.Density)).RoundUp(1) + 2
	if !holds(in, c.Limit.RoundDown(1), metal) {
		return pack.GaveUp
	}
	s.trees[key(bin, items)] = tree
	return pack.Hangs
}

func key(bin int, items []int) string { return fmt.Sprint(bin, items) }

// reason says in words why a casting is on no tree.
func (s *packing) reason(l pack.Left) string {
	it := s.group.items[l.Item]
	switch l.Reason {
	case pack.TooBig:
		c, ok := largestCrucible(s.shop, it.alloy)
		if !ok {
			return fmt.Sprintf("no crucible of the house may hold %s", it.alloy.Name)
		}
		return fmt.Sprintf("its %s of metal with trunk and button is more than the crucible's %s or the button cavity of any flask allows", it.metal(), c.Limit)
	case pack.CannotHang:
		return fmt.Sprintf("%s fits no flask of the house with its gaps", it.outer)
	case pack.NotHung:
		return fmt.Sprintf("no way was found to hang %s in a flask of the house with its gaps", it.outer)
	}
	return "no flask is left that would take it"
}
