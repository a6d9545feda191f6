package tree

import (
	"fmt"
	"slices"

	"castweek/metal/measure"
	"castweek/tree/mount"
	"castweek/tree/pack"
)

// A hungSet is a set of castings that was found to hang in a flask.
type hungSet struct {
	bin   int
	items []int
}

// canHang asks mounting, and checks the charge with the feeders as mounted.
// A set is asked once, whatever the fill.
func (s *packing) canHang(bin int, items []int) pack.Verdict {
	k := key(bin, items)
	if v, known := s.said[k]; known {
		return v
	}
	s.said[k] = s.askMount(bin, items)
	return s.said[k]
}

func (s *packing) askMount(bin int, items []int) pack.Verdict {
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
	s.sets = append(s.sets, hungSet{bin, items})
	return pack.Hangs
}

// mounting gives the tree of a set that hangs. A set that was taken to hang
// because it is part of one that does is what is left of that tree.
func (s *packing) mounting(bin int, items []int) (mount.Tree, bool) {
	if t, ok := s.trees[key(bin, items)]; ok {
		return t, true
	}
	if s.canHang(bin, items) == pack.Hangs {
		return s.trees[key(bin, items)], true
	}
	for _, whole := range s.sets {
		if whole.bin != bin || !containsAll(whole.items, items) {
			continue
		}
		wanted := map[string]bool{}
		for _, i := range items {
			wanted[s.group.items[i].casting.ID] = true
		}
		return s.trees[key(bin, whole.items)].Only(func(id string) bool { return wanted[id] }), true
	}
	return mount.Tree{}, false
}

// options are how the house hangs castings, and how long the search may be.
func (s *packing) options() mount.Options {
	o := s.traced.options(s.shop, s.poor)
	o.Thorough = s.thorough
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

func key(bin int, items []int) string { return fmt.Sprint(bin, items) }
