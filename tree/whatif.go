package tree

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"castweek/jobs"
	"castweek/jobs/workshop"
	"castweek/metal/measure"
)

// prices tells what the house's own rules cost, each line found by planning
// again without the rule. Nothing of it is ever done unasked.
func prices(in Input, q *queue, groups []*group, hung []hungTree, next time.Time) []Remark {
	return append(priceOfSections(in, q, groups, hung), priceOfHaste(in, q, groups, hung, next)...)
}

// priceOfSections hangs thin, medium and heavy castings of a class together
// and says what it would save. Where two of three sections would save as many
// pours, only they are named.
func priceOfSections(in Input, q *queue, groups []*group, hung []hungTree) []Remark {
	w := in.Folder.Workshop
	if w.Sections.Mixing != workshop.MixAvoid {
		return nil
	}
	parts := map[class][]*group{}
	for _, g := range groups {
		parts[g.base()] = append(parts[g.base()], g)
	}
	var classes []*group
	for _, merged := range q.groups(workshop.MixAllow) {
		if len(parts[merged.base()]) > 1 {
			classes = append(classes, merged)
		}
	}
	found := make([][]Remark, len(classes))
	in.traced.each(len(classes), func(t *traced, k int) {
		own := in
		own.traced = t
		found[k] = priceOfApart(own, hung, classes[k], parts[classes[k].base()])
	})
	return slices.Concat(found...)
}

// priceOfApart is the price of one class, whose sections are apart.
func priceOfApart(in Input, hung []hungTree, merged *group, apart []*group) []Remark {
	w := in.Folder.Workshop
	then, ok := together(in, hung, apart, 1)
	if !ok {
		return nil
	}
	saved := len(treesOf(hung, apart...)) - len(then)
	for k := 1; k < 3 && len(apart) == 3; k++ { // a wish lets castings ride with the finest
		two := []*group{apart[0], apart[k]}
		if fewer, ok := together(in, hung, two, saved); ok {
			apart, then = two, fewer
		}
	}
	now := treesOf(hung, apart...)
	text := fmt.Sprintf("%s could be saved, and %s in buttons, trunks and feeders, by letting %s castings of %s%s share a tree; it is then poured at the %s pieces' temperature",
		pours(len(now)-len(then)), lessOrMore(tiedUp(w, now)-tiedUp(w, then)), sectionsOf(apart), merged.alloy, ofOwner(merged.owner), apart[0].section)
	return []Remark{{"", "price-sections", text, fmt.Sprintf("wish it for %s (mixed, in wishes.yaml), if the caster agrees", jobsOf(apart[1:]))}}
}

// mostJobs is how many jobs are named in a remedy.
const mostJobs = 8

// jobsOf names the jobs of groups.
func jobsOf(groups []*group) string {
	var names []string
	for _, g := range groups {
		for _, it := range g.items {
			if n := it.casting.Job.Number; !slices.Contains(names, n) {
				names = append(names, n)
			}
		}
	}
	slices.Sort(names)
	if len(names) > mostJobs {
		return fmt.Sprintf("the %d jobs of them", len(names))
	}
	return strings.Join(names, ", ")
}

// together hangs groups as one, on so many trees fewer at least.
func together(in Input, hung []hungTree, groups []*group, fewer int) ([]hungTree, bool) {
	all := &group{class: groups[0].base()}
	for _, g := range groups {
		all.items = append(all.items, g.items...)
	}
	return again(in, all, len(treesOf(hung, groups...))-fewer)
}

func lessOrMore(saved measure.Milligram) string {
	if saved < 0 {
		return fmt.Sprintf("%s more", -saved)
	}
	return fmt.Sprintf("%s less", saved)
}

// again hangs a group by itself on so many trees at most; false where that is
// not possible or not found.
func again(in Input, g *group, most int) ([]hungTree, bool) {
	if most < 1 {
		return nil, false
	}
	in.most = most
	a := attemptAll(in.Folder.Workshop, []*group{g}, map[state]solved{}, in)
	return a.hung, len(a.left) == 0
}

// priceOfHaste finds jobs that have a tree, or trees, of their own and time to
// wait for the next cast, and says what waiting would save: button and trunk, if
// other castings of the class take them in then. Their feeders are needed in any
// week.
func priceOfHaste(in Input, q *queue, groups []*group, hung []hungTree, next time.Time) []Remark {
	found := make([][]Remark, len(groups))
	in.traced.each(len(groups), func(t *traced, k int) {
		own := in
		own.traced = t
		found[k] = priceOfHasteIn(own, q, groups[k], hung, next)
	})
	return slices.Concat(found...)
}

// priceOfHasteIn is the price of haste in one group.
func priceOfHasteIn(in Input, q *queue, g *group, hung []hungTree, next time.Time) (out []Remark) {
	if g.owner != jobs.House {
		return nil // a customer's metal has its own tree in any week
	}
	w := in.Folder.Workshop
	for _, j := range alone(hung, g) {
		if next.Add(w.BenchTime).After(j.Due) {
			continue
		}
		now := treesOf(hung, g)
		rest := &group{class: g.class}
		for _, it := range g.items {
			if it.casting.Job != j {
				rest.items = append(rest.items, it)
			}
		}
		var then []hungTree
		if len(rest.items) > 0 {
			var ok bool
			if then, ok = again(in, rest, len(now)-1); !ok {
				continue
			}
		}
		saved := tiedUp(w, now) - tiedUp(w, then) - feedersOf(w, now, j)
		if saved <= 0 {
			continue
		}
		out = append(out, Remark{j.Number, "price-haste",
			fmt.Sprintf("alone needs %s of %s, with %s in button and trunk; waiting a week saves that, if it shares a tree then; %s",
				trees(len(now)-len(then)), g.alloy, saved, q.company(g, j)), "put it on hold for a week, if the customer agrees"})
	}
	return out
}

// feedersOf is the metal of a job's own feeders.
func feedersOf(w *workshop.Workshop, hung []hungTree, j *jobs.Job) measure.Milligram {
	own := map[string]bool{}
	var mg measure.Milligram
	for _, h := range hung {
		for _, it := range h.items {
			own[it.casting.ID] = it.casting.Job == j
		}
		for _, p := range h.mount.Placements {
			if own[p.ID] {
				mg += p.FeederVolume.Times(h.items[0].density).RoundUp(1)
			}
		}
	}
	return mg.Gram().Round(w.ScaleStep)
}

// company says which jobs that wait now could share a tree with a job later.
func (q *queue) company(g *group, j *jobs.Job) string {
	var names []string
	for _, it := range q.waiting {
		c := baseOf(it)
		if g.section != "" {
			c.section = it.section
		}
		if c == g.class && it.casting.Job != j && !slices.Contains(names, it.casting.Job.Number) {
			names = append(names, it.casting.Job.Number)
		}
	}
	if len(names) == 0 {
		return "nothing else for such a tree is waiting now"
	}
	return "for such a tree waits " + strings.Join(names, ", ")
}

// alone lists the jobs that have a tree of a group to themselves.
func alone(hung []hungTree, g *group) []*jobs.Job {
	var out []*jobs.Job
	seen := map[*jobs.Job]bool{}
	for _, h := range treesOf(hung, g) {
		j := h.items[0].casting.Job
		own := true
		for _, it := range h.items {
			own = own && it.casting.Job == j
		}
		if own && !seen[j] {
			seen[j] = true
			out = append(out, j)
		}
	}
	return out
}

func treesOf(hung []hungTree, groups ...*group) []hungTree {
	var out []hungTree
	for _, h := range hung {
		for _, g := range groups {
			if h.group == g {
				out = append(out, h)
			}
		}
	}
	return out
}

// tiedUp is the metal that comes back as buttons, trunks and feeders.
func tiedUp(w *workshop.Workshop, hung []hungTree) (mg measure.Milligram) {
	for _, h := range hung {
		mg += chargeOf(w, h).TiedUp()
	}
	return mg.Gram().Round(w.ScaleStep)
}

func sectionsOf(groups []*group) string {
	var out []string
	for _, g := range groups {
		out = append(out, g.section)
	}
	return strings.Join(out[:len(out)-1], ", ") + " and " + out[len(out)-1]
}

func ofOwner(owner string) string {
	if owner == jobs.House {
		return ""
	}
	return " of " + owner
}

func pours(n int) string {
	if n == 1 {
		return "1 pour"
	}
	return fmt.Sprintf("%d pours", n)
}

func trees(n int) string {
	if n == 1 {
		return "a tree"
	}
	return fmt.Sprintf("%d trees", n)
}
