package tree

import (
	"fmt"
	"slices"
	"strings"

	"castweek/jobs"
	"castweek/jobs/workshop"
	"castweek/metal/measure"
	"castweek/metal/problem"
	"castweek/tree/pack"
)

// wished turns a person's wishes into the packer's words, for one group.
type wished struct {
	together [][]int
	apart    []pack.Apart
	kept     []keptTree
}

// A keptTree is a tree as it was, found in a group.
type keptTree struct {
	wish  jobs.KeptTree
	items []int
}

// wishesOf reads the wishes that speak of castings of a group. A wish that
// names castings of another group as well was refused before.
func (s *packing) wishesOf(w jobs.Wishes) wished {
	at := map[string]int{}
	for i, it := range s.group.items {
		at[it.casting.ID] = i
	}
	found := func(ids []string) (out []int) {
		for _, id := range ids {
			if i, ok := at[id]; ok {
				out = append(out, i)
			}
		}
		return out
	}
	var out wished
	for _, g := range w.Together {
		if set := found(g.Castings()); len(set) > 1 {
			out.together = append(out.together, set)
		}
	}
	for _, g := range w.Apart {
		for i, m := range g.Members {
			for _, o := range g.Members[:i] {
				if a, b := found(o.Castings), found(m.Castings); len(a) > 0 && len(b) > 0 {
					out.apart = append(out.apart, pack.Apart{A: a, B: b})
				}
			}
		}
	}
	for _, k := range w.Keep {
		if set := found(k.Castings); len(set) > 0 {
			out.kept = append(out.kept, keptTree{k, set})
		}
	}
	return out
}

// fix finds the flask of each kept tree and hangs it. The faults say which can
// not stay as it was.
func (s *packing) fix(kept []keptTree) (fixed []pack.Group, faults []string) {
	used := map[string]int{}
	for _, k := range kept {
		done := false
		for bin, f := range s.shop.Flasks {
			if (k.wish.Flask != "" && k.wish.Flask != f.Name) || s.free[f.Name] <= used[f.Name] {
				continue
			}
			if s.canHang(bin, k.items) == pack.Hangs {
				used[f.Name]++
				fixed = append(fixed, pack.Group{Bin: bin, Items: k.items})
				done = true
				break
			}
		}
		if !done {
			faults = append(faults, fmt.Sprintf("tree %s can not stay as it was: its castings hang in no flask that is free", k.wish.Tree))
		}
	}
	return fixed, faults
}

// neverMixed refuses wishes to mix sections in a house that never does.
func (q *queue) neverMixed() (out problem.List) {
	if q.shop.Sections.Mixing != workshop.MixNever {
		return nil
	}
	for _, w := range q.wishes.Mixed {
		if slices.ContainsFunc(q.items, func(it *item) bool { return it.casting.Job.Number == w.Job }) {
			out.Add(w.At, "wish-mixed", "take it out of the wishes, or set mixing: avoid under sections in workshop.yaml",
				"%s can not share a tree with other sections: the house never mixes them (sections: mixing: never, in workshop.yaml)", w.Job)
		}
	}
	return out
}

// checkWishes refuses wishes that no tree can follow: castings wished on one
// tree that burn out or are poured differently, and kept trees with castings
// that are not to be cast.
func checkWishes(w jobs.Wishes, groups []*group) problem.List {
	var out problem.List
	of := map[string]*group{}
	for _, g := range groups {
		for _, it := range g.items {
			of[it.casting.ID] = g
		}
	}
	one := func(at problem.Place, ids []string, wish string) {
		var first *group
		name := ""
		for _, id := range ids {
			g := of[id]
			if g == nil {
				continue
			}
			if first == nil {
				first, name = g, id
			}
			if why := first.differs(g); why != "" {
				out.Add(at, "wish-class", "take one of them out of the wish", "%s and %s can not be %s: %s", name, id, wish, why)
				return
			}
		}
	}
	for _, g := range w.Together {
		one(g.At, g.Castings(), "on one tree")
	}
	for _, k := range w.Keep {
		var gone []string
		for _, id := range k.Castings {
			if of[id] == nil {
				gone = append(gone, id)
			}
		}
		if len(gone) > 0 {
			verb := "is"
			if len(gone) > 1 {
				verb = "are"
			}
			out.Add(k.At, "wish-gone", "take it out of the wish, or let its job be cast", "tree %s can not stay as it was: %s %s not to be cast now", k.Tree, strings.Join(gone, ", "), verb)
		}
		one(k.At, k.Castings, "on one tree")
	}
	return out
}

// tooMuch refuses castings wished on one tree, or kept on one, that no flask of
// the house takes together: by what is proved of their metal and room.
func (q *queue) tooMuch(groups []*group, in Input) (out problem.List) {
	try := func(at problem.Place, ids []string, wish string) {
		for _, g := range groups {
			set := &group{class: g.class}
			for _, it := range g.items {
				if slices.Contains(ids, it.casting.ID) {
					set.items = append(set.items, it)
				}
			}
			if len(set.items) > 1 && !(&packing{shop: q.shop, group: set, traced: in.traced}).mayHang() {
				out.Add(at, "wish-too-much", "take some of them out of the wish", "%s and %d more can not be %s: together they are more than any flask or crucible of the house takes",
					set.items[0].casting.ID, len(set.items)-1, wish)
			}
		}
	}
	for _, w := range q.wishes.Together {
		try(w.At, w.Castings(), "on one tree")
	}
	for _, k := range q.wishes.Keep {
		try(k.At, k.Castings, "kept on one tree")
	}
	return out
}

// mayHang tells whether nothing proves that the group's castings can not all hang
// on one tree.
func (s *packing) mayHang() bool {
	needs := s.needs(false)
	for b, f := range s.shop.Flasks {
		metal, share, room := s.leastTrunk(b, f), measure.MM(0), measure.MM(0)
		for i, it := range s.group.items {
			n := needs[b][i]
			metal += leastMetal(it, n)
			share, room = share+n.LeastShare, n.Room
		}
		if metal <= metalCapacity(s.shop, s.group.items[0].alloy, f) && (share <= room || room == 0) {
			return true
		}
	}
	return false
}

// differs says why two groups can not share a tree, "" when they can.
func (g *group) differs(o *group) string {
	switch {
	case g == o:
		return ""
	case g.alloy != o.alloy:
		return fmt.Sprintf("one is %s, the other %s", g.alloy, o.alloy)
	case g.owner != o.owner:
		return fmt.Sprintf("the metal of one is %s's, that of the other %s's", g.owner, o.owner)
	case g.resin != o.resin:
		return "one is resin and the other wax, and they burn out differently"
	case g.inWax != o.inWax:
		return "one has stones set in the wax"
	}
	return fmt.Sprintf("one is %s and the other %s, which the house keeps apart", g.section, o.section)
}

// firstJobs are those wished on the first pour.
func firstJobs(w jobs.Wishes) map[string]bool {
	out := map[string]bool{}
	for _, x := range w.First {
		out[x.Job] = true
	}
	return out
}
