package tree

import (
	"slices"
	"sort"

	"castweek/jobs"
	"castweek/jobs/workshop"
)

// A class is what one tree may hold together: one alloy, one owner of the
// metal, resin or none, stones set in the wax or none, and sections that share
// a flask temperature. An empty section stands for all.
type class struct {
	alloy, owner string
	resin, inWax bool
	section      string
}

// A group is the castings of one class, which may share trees.
type group struct {
	class
	items []*item
	trees int
	bound int // of those that can hang nowhere else
}

// own tells whether a casting is in its group by its own section. One that rides
// with finer ones by a wish might have stayed with its like.
func (g *group) own(it *item) bool { return g.section == "" || it.section == g.section }

// fineness of sections, the finest first: it decides the flask temperature.
var sections = []string{"thin", "medium", "heavy"}

// finest names the finest section among castings.
func finest(items []*item) string {
	for _, s := range sections {
		for _, it := range items {
			if it.section == s {
				return s
			}
		}
	}
	return "medium"
}

// groups parts the queue by class, in a fixed order: the workshop's alloys in
// their order, house metal first, the finest section first.
func (q *queue) groups(mixing workshop.Mixing) []*group {
	rides := map[string]string{}
	if mixing == workshop.MixAvoid {
		rides = q.rides()
	}
	by := map[class]*group{}
	var out []*group
	for n, it := range q.items {
		it.place = n
		c := baseOf(it)
		if mixing != workshop.MixAllow {
			c.section = it.section
			if finer := rides[it.casting.ID]; finer != "" {
				c.section = finer
			}
		}
		if by[c] == nil {
			by[c] = &group{class: c}
			out = append(out, by[c])
		}
		by[c].items = append(by[c].items, it)
	}
	for _, g := range out { // where flasks run out the last are left over
		slices.SortStableFunc(g.items, func(a, b *item) int { return a.casting.Job.Due.Compare(b.casting.Job.Due) })
	}
	q.sort(out)
	return out
}

// rides gives, for castings that a wish lets ride with finer ones, the section
// that they ride with: the finest of the class for jobs that are named so, and
// the finest of those wished on one tree.
func (q *queue) rides() map[string]string {
	of := map[string]*item{}
	base := map[class][]*item{}
	for _, it := range q.items {
		of[it.casting.ID] = it
		base[baseOf(it)] = append(base[baseOf(it)], it)
	}
	jobs := map[string]bool{}
	for _, w := range q.wishes.Mixed {
		jobs[w.Job] = true
	}
	out := map[string]string{}
	for _, it := range q.items {
		if jobs[it.casting.Job.Number] {
			out[it.casting.ID] = finest(base[baseOf(it)])
		}
	}
	section := func(id string) string {
		if s := out[id]; s != "" {
			return s
		}
		return of[id].section
	}
	for again := true; again; { // wishes that share castings pass it on
		again = false
		for _, g := range q.wishes.Together {
			var ids []string
			for _, id := range g.Castings() {
				if of[id] != nil {
					ids = append(ids, id)
				}
			}
			for _, s := range sections {
				if !slices.ContainsFunc(ids, func(id string) bool { return section(id) == s }) {
					continue
				}
				for _, id := range ids {
					if section(id) != s {
						out[id], again = s, true
					}
				}
				break
			}
		}
	}
	return out
}

// base is the class without its section.
func (c class) base() class {
	c.section = ""
	return c
}

func baseOf(it *item) class {
	return class{alloy: it.alloy.Name, owner: it.casting.Job.Owner, resin: it.material.Resin, inWax: it.inWax}
}

func (q *queue) sort(groups []*group) {
	rank := map[string]int{}
	for i, a := range q.shop.Alloys {
		rank[a.Name] = i
	}
	section := map[string]int{}
	for i, s := range sections {
		section[s] = i
	}
	sort.SliceStable(groups, func(i, j int) bool {
		a, b := groups[i], groups[j]
		switch {
		case a.alloy != b.alloy:
			return rank[a.alloy] < rank[b.alloy]
		case a.owner != b.owner:
			return a.owner == jobs.House || (b.owner != jobs.House && a.owner < b.owner)
		case a.resin != b.resin:
			return a.resin
		case a.inWax != b.inWax:
			return !a.inWax
		}
		return section[a.section] < section[b.section]
	})
}

// bounds adds the groups up by alloy and owner: classes may never share a
// tree, so their bounds add.
func bounds(groups []*group) []Bound {
	var out []Bound
	for _, g := range groups {
		if n := len(out); n > 0 && out[n-1].Alloy == g.alloy && out[n-1].Owner == g.owner {
			b := &out[n-1]
			b.Trees, b.Bound = b.Trees+g.trees, b.Bound+g.bound
			continue
		}
		out = append(out, Bound{Alloy: g.alloy, Owner: g.owner, Trees: g.trees, Bound: g.bound})
	}
	for k := range out {
		b := &out[k]
		b.Bound = max(b.Bound, min(b.Trees, 1)) // castings need a tree
		b.Proved = b.Bound == b.Trees
	}
	return out
}
