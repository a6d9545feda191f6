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
	needed    [2][][]mount.Need     // see needs
}

func newPacking(w *workshop.Workshop, g *group, stock, free map[string]int, in Input) *packing {
	return &packing{shop: w, group: g, stock: stock, free: free, most: in.most, brief: in.most > 0, traced: in.traced, wishes: in.Folder.Wishes, thorough: in.Thorough}
}

// solved is what came of a group by itself.
type solved struct {
	hung []hungTree
	left []leftItem
	result
	ranOut bool
}

// solveSound packs the group with sound hangs only. Poor ones, with a long feeder
// or at a flat tilt, are taken where they save a pour or let a casting be poured
// at all, never for less metal.
func (s *packing) solveSound() solved {
	s.wish = s.wishesOf(s.wishes)
	lower, faults := s.bound()
	if len(faults) > 0 {
		return solved{left: s.all(faults[0].Message)}
	}
	if s.most > 0 && lower > s.most {
		return solved{left: s.all(tooMany)}
	}
	sound := s.solve(lower)
	if s.most > 0 || len(sound.left) == 0 && (sound.bound == sound.trees || sound.trees < 2) {
		return sound
	}
	any := *s
	any.poor, any.sets = true, nil
	if len(sound.left) == 0 {
		any.most = len(sound.hung) - 1
	}
	if poor := any.solve(lower); len(poor.left) < len(sound.left) || len(poor.left) == len(sound.left) && len(poor.hung) < len(sound.hung) {
		return poor
	}
	return sound
}

// solve packs the group, the fullest trees first. What hangs at no fill is
// packed and mounted as one search. At least lower trees are needed.
func (s *packing) solve(lower int) (a solved) {
	s.heavy = map[*jobs.Part]string{}
	var broken []string
	if s.fixed, broken = s.fix(s.wish.kept); len(broken) > 0 {
		return solved{left: s.all(broken[0]), ranOut: true} // another group may have taken its flask
	}
	groups, over, ok := s.fewest()
	if !ok {
		return solved{left: s.all(tooMany)}
	}
	for _, g := range groups {
		t, ok := s.mounting(g.Bin, g.Items)
		if !ok { // never taken for granted: what can not be shown to hang is left over
			for _, i := range g.Items {
				a.left = append(a.left, leftItem{s.group.items[i], notHung(s.group.items[i])})
			}
			continue
		}
		h := hungTree{group: s.group, flask: s.shop.Flasks[g.Bin], mount: t}
		for _, i := range g.Items {
			h.items = append(h.items, s.group.items[i])
		}
		slices.SortFunc(h.items, func(a, b *item) int { return a.place - b.place })
		a.hung = append(a.hung, h)
	}
	for _, l := range over {
		a.left = append(a.left, leftItem{s.group.items[l.Item], s.reason(l)})
		a.ranOut = a.ranOut || l.Reason == pack.RanOut
	}
	// the bound speaks of the whole group; with castings left over it says
	// nothing of those that hang
	a.result = result{trees: len(a.hung), bound: min(lower, len(a.hung))}
	if len(a.left) > 0 {
		a.bound = min(a.bound, 1)
	}
	return a
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
