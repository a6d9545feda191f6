package tree

import (
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
	items  []*item
	trees  int
	bound  int
	proved bool
}

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
	base := map[class][]*item{}
	for _, it := range q.items {
		c := baseOf(it)
		base[c] = append(base[c], it)
	}
	mixed := q.mixed()
	by := map[class]*group{}
	var out []*group
	for _, it := range q.items {
		c := baseOf(it)
		switch {
		case mixing == workshop.MixAllow:
		case mixing == workshop.MixAvoid && mixed[it.casting.ID]:
			// a wish lets it ride with the finest pieces of its class
			c.section = finest(base[c])
		default:
			c.section = it.section
		}
		if by[c] == nil {
			by[c] = &group{class: c}
			out = append(out, by[c])
		}
		by[c].items = append(by[c].items, it)
	}
	q.sort(out)
	return out
}

// mixed are the castings that a wish lets ride with another section: those of
// jobs named so, and those wished on one tree.
func (q *queue) mixed() map[string]bool {
	out := map[string]bool{}
	jobs := map[string]bool{}
	for _, w := range q.wishes.Mixed {
		jobs[w.Job] = true
	}
	for _, it := range q.items {
		out[it.casting.ID] = jobs[it.casting.Job.Number]
	}
	for _, g := range q.wishes.Together {
		for _, id := range g.Castings() {
			out[id] = true
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
			b.Trees, b.Bound, b.Proved = b.Trees+g.trees, b.Bound+g.bound, b.Proved && g.proved
			continue
		}
		out = append(out, Bound{g.alloy, g.owner, g.trees, g.bound, g.proved})
	}
	return out
}
