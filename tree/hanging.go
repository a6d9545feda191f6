package tree

import (
	"slices"
	"strconv"

	"castweek/metal/measure"
	"castweek/tree/mount"
	"castweek/tree/pack"
)

// A hungSet is a set of castings that was found to hang in a flask.
type hungSet struct {
	bin   int
	items []int
}

// An asked is what mounting said of a set.
type asked struct {
	verdict pack.Verdict
	heavy   measure.Milligram // it hangs, but with so much metal that it passes a limit
	tree    mount.Tree
	tied    measure.Milligram // in its button, trunk and feeders
}

// canHang asks mounting, and checks the charge with the feeders as mounted.
func (s *packing) canHang(bin int, items []int) pack.Verdict {
	return s.asked(bin, items).verdict
}

// asked asks about a set once, whatever the fill and whichever plan it is for.
func (s *packing) asked(bin int, items []int) asked {
	k := s.key(bin, items)
	a, known := s.traced.asked.get(k)
	if !known && s.brief { // what hangs after few steps hangs
		a, known = s.traced.asked.get(k + brief)
	}
	if !known {
		a = s.askMount(bin, items)
		if s.brief && a.verdict == pack.GaveUp && a.heavy == 0 {
			k += brief
		}
		s.traced.asked.put(k, a)
	}
	if a.verdict == pack.Hangs {
		s.sets = append(s.sets, hungSet{bin, items})
	}
	return a
}

func (s *packing) askMount(bin int, items []int) asked {
	f := s.shop.Flasks[bin]
	var list []mount.Body
	var metal measure.Milligram
	for _, i := range items {
		it := s.group.items[i]
		list = append(list, s.traced.of(it))
		metal += it.metal()
	}
	tree, verdict := hang(f, mountGaps(s.shop, s.group.resin), list, s.options())
	switch verdict.Outcome {
	case mount.CannotProved:
		return asked{verdict: pack.Cannot}
	case mount.Hangs:
	default:
		return asked{verdict: pack.GaveUp}
	}
	a := s.group.items[0].alloy
	in := chargeInput(s.shop, a, f)
	c, _ := largestCrucible(s.shop, a)
	extra := (tree.FeederVolume.Times(in.Density) + tree.TrunkVolume.Times(in.Density)).RoundUp(1) + 2
	metal += extra
	if !holds(in, c.Limit.RoundDown(1), metal) {
		return asked{verdict: pack.GaveUp, heavy: metal}
	}
	_, button := in.TotalFor(metal)
	return asked{verdict: pack.Hangs, tree: tree, tied: button + extra}
}

// brief marks questions that were given few steps, briefSteps how many: trees
// that hang at all mostly take a third of them.
const (
	brief      = "\x00brief"
	briefSteps = 120_000
)

// key names a question to mounting.
func (s *packing) key(bin int, items []int) string {
	b := []byte(s.shop.Flasks[bin].Name)
	b = strconv.AppendBool(strconv.AppendBool(b, s.thorough), s.poor)
	for _, i := range items {
		b = append(append(b, 0), s.group.items[i].casting.ID...)
	}
	return string(b)
}

// mounting gives the tree of a set that hangs. A set that was taken to hang
// because it is part of one that does is what is left of that tree.
func (s *packing) mounting(bin int, items []int) (mount.Tree, bool) {
	if a := s.asked(bin, items); a.verdict == pack.Hangs {
		return a.tree, true
	}
	for _, whole := range s.sets {
		if whole.bin != bin || !containsAll(whole.items, items) {
			continue
		}
		wanted := map[string]bool{}
		for _, i := range items {
			wanted[s.group.items[i].casting.ID] = true
		}
		return s.asked(bin, whole.items).tree.Only(func(id string) bool { return wanted[id] }), true
	}
	return mount.Tree{}, false
}

// options are how the house hangs castings, and how long the search may be.
func (s *packing) options() mount.Options {
	o := s.traced.options(s.shop, s.poor)
	o.Thorough = s.thorough
	if s.brief {
		o.Steps = briefSteps
	}
	return o
}

func containsAll(whole, part []int) bool {
	for _, i := range part {
		if !slices.Contains(whole, i) {
			return false
		}
	}
	return true
}
