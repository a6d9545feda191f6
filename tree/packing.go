package tree

import (
	"fmt"
	"slices"

	"castweek/jobs"
	"castweek/jobs/workshop"
	"castweek/metal"
	"castweek/metal/measure"
	"castweek/tree/mount"
	"castweek/tree/pack"
)

// packing puts one group to the packer.
type packing struct {
	shop     *workshop.Workshop
	group    *group
	free     map[string]int
	traced   *traced
	wishes   jobs.Wishes
	thorough bool
	poor     bool // hangs that are not sound are taken too

	wish  wished
	fixed []pack.Group
	said  map[string]pack.Verdict // by flask and castings
	trees map[string]mount.Tree   // mountings found, likewise
	sets  []hungSet
	heavy map[*jobs.Part]string // which limit a part breaks, once it was asked
}

// Fills say how full a tree is tried to be made, as a share of the length of
// trunk that its castings take by themselves. Below 0.8 nearly every mixed tree
// hangs, above 1.3 none was found to (measured on the invented weeks and on the
// sample's patterns).
var (
	quickFills    = []float64{1.3, 1.05, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4}
	thoroughFills = []float64{1.4, 1.3, 1.2, 1.12, 1.05, 0.97, 0.9, 0.85, 0.8, 0.75, 0.7, 0.6, 0.5, 0.4}
)

// mostHang is the share of the trees of a fill that have to hang for them to be
// kept.
const mostHang = 0.75

// The last resort asks mounting about every set while packing.
const (
	lastFill = 0.4
	lastAsks = 300
)

// solveSound packs the group with sound hangs only. Poor ones, with a long feeder
// or at a flat tilt, are taken where they save a pour or let a casting be poured
// at all, never for less metal.
func (s *packing) solveSound() (hung []hungTree, left []leftItem, r result, ranOut bool) {
	hung, left, r, ranOut = s.solve()
	if len(left) == 0 && r.proved {
		return hung, left, r, ranOut
	}
	any := *s
	any.poor = true
	hung2, left2, r2, ranOut2 := any.solve()
	if len(left2) < len(left) || len(left2) == len(left) && len(hung2) < len(hung) {
		return hung2, left2, r2, ranOut2
	}
	return hung, left, r, ranOut
}

// solve packs the group, the fullest trees first. What hangs at no fill is
// packed and mounted as one search.
func (s *packing) solve() (hung []hungTree, left []leftItem, r result, ranOut bool) {
	s.said, s.trees, s.heavy = map[string]pack.Verdict{}, map[string]mount.Tree{}, map[*jobs.Part]string{}
	s.wish = s.wishesOf(s.wishes)
	var broken []string
	if s.fixed, broken = s.fix(s.wish.kept); len(broken) > 0 {
		return nil, s.all(broken[0]), r, false
	}
	lower, faults := s.bound()
	if len(faults) > 0 {
		return nil, s.all(faults[0].Message), r, false
	}
	groups, over := s.fullest()
	for _, g := range groups {
		t, ok := s.mounting(g.Bin, g.Items)
		if !ok { // never taken for granted: what can not be shown to hang is left over
			for _, i := range g.Items {
				left = append(left, leftItem{s.group.items[i], notHung(s.group.items[i])})
			}
			continue
		}
		h := hungTree{group: s.group, flask: s.shop.Flasks[g.Bin], mount: t}
		for _, i := range g.Items {
			h.items = append(h.items, s.group.items[i])
		}
		hung = append(hung, h)
	}
	for _, l := range over {
		left = append(left, leftItem{s.group.items[l.Item], s.reason(l)})
		ranOut = ranOut || l.Reason == pack.RanOut
	}
	// the bound speaks of the whole group; with castings left over it says
	// nothing of those that hang
	r = result{trees: len(hung), bound: min(lower, len(hung))}
	if len(left) > 0 {
		r.bound = min(r.bound, 1)
	}
	r.proved = r.bound == r.trees
	return hung, left, r, ranOut
}

// fullest finds the fewest trees that hang: trees of a fill that hang are
// kept, and what is left is packed again at the next fill.
func (s *packing) fullest() (groups []pack.Group, left []pack.Left) {
	fills := quickFills
	if s.thorough {
		fills = thoroughFills
	}
	groups = append(groups, s.fixed...)
	rest := s.unfixed()
	for _, f := range fills {
		var more []pack.Group
		more, rest, left = s.round(f, rest, groups, nil, 0)
		groups = append(groups, more...)
		if len(rest) == 0 {
			return groups, left
		}
	}
	more, rest, left := s.round(lastFill, rest, groups, s.canHang, lastAsks)
	for _, i := range rest { // nothing is lost, even where the last search ends without an answer
		left = append(left, pack.Left{Item: i, Reason: pack.NotHung, Dim: -1})
	}
	return append(groups, more...), left
}

func (s *packing) unfixed() []int {
	var out []int
	for i := range s.group.items {
		if !slices.ContainsFunc(s.fixed, func(g pack.Group) bool { return slices.Contains(g.Items, i) }) {
			out = append(out, i)
		}
	}
	return out
}

// round packs the items of rest into flasks that taken does not use, and gives
// the trees that hang, the items of those that do not, and what fits nothing.
// With ask the packer itself asks mounting.
func (s *packing) round(fill float64, rest []int, taken []pack.Group, ask func(int, []int) pack.Verdict, asks int) (hung []pack.Group, again []int, left []pack.Left) {
	names := func(items []int) []int {
		out := make([]int, len(items))
		for k, i := range items {
			out[k] = rest[i]
		}
		return out
	}
	q := s.question(fill).among(rest)
	for _, g := range taken {
		if b := &q.Bins[g.Bin]; b.Available > 0 {
			if b.Available--; b.Available == 0 {
				b.Available = -1
			}
		}
	}
	if ask != nil {
		q.CanHang, q.Asks = func(bin int, items []int) pack.Verdict { return ask(bin, names(items)) }, asks
	}
	a, ok := fewest(q)
	if !ok {
		return nil, rest, nil
	}
	for _, g := range a.Groups {
		g = pack.Group{Bin: g.Bin, Items: names(g.Items)}
		if ask != nil || s.canHang(g.Bin, g.Items) == pack.Hangs {
			hung = append(hung, g)
		} else {
			again = append(again, g.Items...)
		}
	}
	for _, l := range a.Left {
		if l.Reason == pack.RanOut && ask == nil {
			again = append(again, rest[l.Item]) // flasks of trees that do not hang are free again
			continue
		}
		l.Item = rest[l.Item]
		left = append(left, l)
	}
	if float64(len(hung)) < mostHang*float64(len(a.Groups)) {
		return nil, rest, nil // too full for most: keeping the few that hang would only scatter the rest
	}
	slices.Sort(again)
	if len(again) > 0 {
		for _, l := range left { // told again in the next round
			again = append(again, l.Item)
		}
		slices.Sort(again)
		left = nil
	}
	return hung, again, left
}

// fewest solves a question with all kinds of flask, and with each kind alone:
// where a search over mixed kinds ends early, one kind alone often needs fewer.
func fewest(q groupQuestion) (best pack.Answer, ok bool) {
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

// A question about the whole group, to be asked of a part of it.
type groupQuestion pack.Question

// among keeps the items at the rising indices rest. Wishes about others are
// dropped: what is together was kept together.
func (q groupQuestion) among(rest []int) groupQuestion {
	at := map[int]int{}
	var items []pack.Item
	for k, i := range rest {
		at[i] = k
		items = append(items, q.Items[i])
	}
	found := func(set []int) (out []int) {
		for _, i := range set {
			if k, ok := at[i]; ok {
				out = append(out, k)
			}
		}
		return out
	}
	var together [][]int
	for _, t := range q.Together {
		if set := found(t); len(set) > 1 {
			together = append(together, set)
		}
	}
	var apart []pack.Apart
	for _, p := range q.Apart {
		if x, y := found(p.A), found(p.B); len(x) > 0 && len(y) > 0 {
			apart = append(apart, pack.Apart{A: x, B: y})
		}
	}
	q.Items, q.Together, q.Apart, q.Fixed = items, together, apart, nil
	return q
}

func (s *packing) all(reason string) []leftItem {
	var out []leftItem
	for _, it := range s.group.items {
		out = append(out, leftItem{it, reason})
	}
	return out
}

// shares count a casting's part of a trunk in millionths.
const shares = 1_000_000

// Work spent on one fill and on a bound, in the packer's steps: with mountings
// to ask for, more of it hardly ever finds a better tree.
const (
	fillLimit  = pack.DefaultLimit / 10
	boundLimit = pack.DefaultLimit / 5
)

// bound is the least number of trees that the group needs, by what is proved:
// the metal of the patterns alone, and of the trunk no more than the proved
// least share. Refusals of mounting that prove nothing have no part in it.
func (s *packing) bound() (int, []pack.Fault) {
	q := s.bins()
	for b := range q.Bins {
		q.Bins[b].Capacity = append(q.Bins[b].Capacity, shares)
	}
	for _, it := range s.group.items {
		item := pack.Item{ID: it.casting.ID, Job: it.casting.Job.Number}
		for _, f := range s.shop.Flasks {
			n := s.traced.need(s.shop, f, it, s.poor)
			part := int64(0)
			if n.Room > 0 {
				part = int64(float64(n.LeastShare) / float64(n.Room) * shares) // rounded down: a bound may only be low
			}
			item.SizeIn = append(item.SizeIn, []int64{int64(it.metal()), part})
		}
		q.Items = append(q.Items, item)
	}
	q.Limit = boundLimit
	a, faults := pack.Solve(q)
	return a.Bound, faults
}

// question states the group in the packer's numbers for a fill: the metal of
// the patterns, which a tree can not have less of, and their part of the
// trunk. Whether a set really hangs, and whether its metal with feeders and
// trunk keeps all limits, mounting says.
func (s *packing) question(fill float64) groupQuestion {
	q := s.bins()
	q.Limit = fillLimit
	if s.thorough {
		q.Limit = pack.DefaultLimit
	}
	for b := range q.Bins {
		q.Bins[b].Capacity = append(q.Bins[b].Capacity, int64(fill*shares))
	}
	for _, it := range s.group.items {
		item := pack.Item{ID: it.casting.ID, Job: it.casting.Job.Number}
		for _, flask := range s.shop.Flasks {
			n := s.traced.need(s.shop, flask, it, s.poor)
			if !n.Hangs || n.Roots <= 0 {
				item.SizeIn = append(item.SizeIn, nil)
				continue
			}
			part := min(int64(float64(n.Share)/float64(n.Roots)*shares), int64(fill*shares)) // alone it hangs whatever its share
			item.SizeIn = append(item.SizeIn, []int64{int64(it.metal()), part})
		}
		q.Items = append(q.Items, item)
	}
	return groupQuestion(q)
}

// bins are the flasks of the house with what is left of them, and the wishes.
func (s *packing) bins() pack.Question {
	a := s.group.items[0].alloy
	q := pack.Question{Together: s.wish.together, Apart: s.wish.apart, Fixed: s.fixed}
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
	inputs := make([]metal.ChargeInput, len(s.shop.Flasks))
	trunks := make([]measure.Milligram, len(s.shop.Flasks))
	for b, f := range s.shop.Flasks {
		inputs[b] = chargeInput(s.shop, a, f)
		// the trunk is known only when the tree is mounted; a thicker one ties
		// up more, whatever its length
		trunks[b] = measure.CubicMM(f.TrunkDiameter * f.TrunkDiameter * f.TrunkLength / 2).Times(inputs[b].Density).RoundUp(1)
	}
	q.Tied = func(bin int, load []int64) int64 {
		_, button := inputs[bin].TotalFor(trunks[bin] + measure.Milligram(load[0]))
		return int64(trunks[bin] + button)
	}
	return q
}

// reason says in words why a casting is on no tree.
func (s *packing) reason(l pack.Left) string {
	it := s.group.items[l.Item]
	why, asked := s.heavy[it.part]
	if !asked {
		why = s.tooHeavy(it)
		s.heavy[it.part] = why
	}
	if why != "" {
		return why
	}
	if l.Reason == pack.RanOut {
		return "no flask is left that would take it"
	}
	c, ok := largestCrucible(s.shop, it.alloy)
	if !ok {
		return fmt.Sprintf("no crucible of the house may hold %s", it.alloy.Name)
	}
	hangs, proved, light := false, true, false
	for _, f := range s.shop.Flasks {
		_, v := hang(f, mountGaps(s.shop, s.group.resin), []mount.Body{s.traced.of(it)}, s.options())
		hangs = hangs || v.Outcome == mount.Hangs
		proved = proved && v.Outcome == mount.CannotProved
		light = light || it.metal() <= metalCapacity(s.shop, it.alloy, f)
	}
	switch {
	case !light:
		return fmt.Sprintf("its %s of metal with trunk and button is more than the crucible's %s or the button cavity of any flask allows", it.metal(), c.Limit)
	case proved:
		return fmt.Sprintf("%s fits no flask of the house with its gaps", it.outer)
	case !hangs:
		return notHung(it)
	}
	return "no flask is left that would take it"
}

func notHung(it *item) string {
	return fmt.Sprintf("no way was found to hang %s in a flask of the house with its gaps", it.outer)
}
