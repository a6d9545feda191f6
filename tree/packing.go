package tree

import (
	"fmt"
	"slices"

	"castweek/jobs"
	"castweek/jobs/workshop"
	"castweek/tree/mount"
	"castweek/tree/pack"
)

// packing puts one group to the packer.
type packing struct {
	shop     *workshop.Workshop
	group    *group
	stock    map[string]int // flasks in use, by name
	free     map[string]int // of them, those that other groups leave
	traced   *traced
	wishes   jobs.Wishes
	thorough bool
	poor     bool // hangs that are not sound are taken too

	most int // trees beyond which the answer is of no use; 0: none

	wish      wished
	fixed     []pack.Group
	sets      []hungSet
	heavy     map[*jobs.Part]string // which limit a part breaks, once it was asked
	brief     bool                  // mounting gets few steps
	metalFill float64               // share of the limit of metal that trees are packed to
}

// solveSound packs the group with sound hangs only. Poor ones, with a long feeder
// or at a flat tilt, are taken where they save a pour or let a casting be poured
// at all, never for less metal.
func (s *packing) solveSound() (hung []hungTree, left []leftItem, r result, ranOut bool) {
	s.wish = s.wishesOf(s.wishes)
	lower, faults := s.bound()
	if len(faults) > 0 {
		return nil, s.all(faults[0].Message), r, false
	}
	if s.most > 0 && lower > s.most {
		return nil, s.all(tooMany), r, false
	}
	hung, left, r, ranOut = s.solve(lower)
	if s.most > 0 || len(left) == 0 && (r.bound == r.trees || r.trees < 2) {
		return hung, left, r, ranOut
	}
	any := *s
	any.poor, any.sets = true, nil
	if len(left) == 0 {
		any.most = len(hung) - 1
	}
	hung2, left2, r2, ranOut2 := any.solve(lower)
	if len(left2) < len(left) || len(left2) == len(left) && len(hung2) < len(hung) {
		return hung2, left2, r2, ranOut2
	}
	return hung, left, r, ranOut
}

// solve packs the group, the fullest trees first. What hangs at no fill is
// packed and mounted as one search. At least lower trees are needed.
func (s *packing) solve(lower int) (hung []hungTree, left []leftItem, r result, ranOut bool) {
	s.heavy = map[*jobs.Part]string{}
	var broken []string
	if s.fixed, broken = s.fix(s.wish.kept); len(broken) > 0 {
		return nil, s.all(broken[0]), r, true // another group may have taken its flask
	}
	groups, over, ok := s.fewest()
	if !ok {
		return nil, s.all(tooMany), r, false
	}
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
		slices.SortFunc(h.items, func(a, b *item) int { return a.place - b.place })
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
	return hung, left, r, ranOut
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

func (s *packing) all(reason string) []leftItem {
	var out []leftItem
	for _, it := range s.group.items {
		out = append(out, leftItem{it, reason})
	}
	return out
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

// tooMany is why castings are left where the caller has no use for more trees.
const tooMany = "more trees than were asked about"

func notHung(it *item) string {
	return fmt.Sprintf("no way was found to hang %s in a flask of the house with its gaps", it.outer)
}
