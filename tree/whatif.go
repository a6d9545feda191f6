package tree

import (
	"fmt"
	"strings"
	"time"

	"castweek/jobs"
	"castweek/jobs/workshop"
	"castweek/metal/measure"
)

// prices tells what the house's own rules cost, each line found by planning
// again without the rule. Nothing of it is ever done unasked.
func prices(in Input, q *queue, groups []*group, hung []hungTree, next time.Time) []Remark {
	return append(priceOfSections(in, q, groups, hung), priceOfHaste(in, groups, hung, next)...)
}

// priceOfSections hangs thin, medium and heavy castings of a class together
// and says what it would save.
func priceOfSections(in Input, q *queue, groups []*group, hung []hungTree) []Remark {
	w := in.Folder.Workshop
	if w.Sections.Mixing != workshop.MixAvoid {
		return nil
	}
	parts := map[class][]*group{}
	for _, g := range groups {
		parts[g.base()] = append(parts[g.base()], g)
	}
	var out []Remark
	for _, merged := range q.groups(workshop.MixAllow) {
		apart := parts[merged.base()]
		if len(apart) < 2 {
			continue
		}
		now := treesOf(hung, apart...)
		a := attemptAll(w, []*group{merged}, in)
		saved := len(now) - len(a.hung)
		if len(a.left) > 0 || saved < 1 {
			continue
		}
		text := fmt.Sprintf("%s could be saved, and %s less in buttons, trunks and feeders, by letting %s castings of %s%s share a tree; it is then poured at the %s pieces' temperature",
			pours(saved), tiedUp(w, now)-tiedUp(w, a.hung), sectionsOf(apart), merged.alloy, ofOwner(merged.owner), finest(merged.items))
		out = append(out, Remark{"", "price-sections", text, "wish it for the jobs (mixed, in wishes.yaml), if the caster agrees"})
	}
	return out
}

// priceOfHaste finds jobs that have a tree, or trees, of their own and time to
// wait for the next cast, and says what waiting would save.
func priceOfHaste(in Input, groups []*group, hung []hungTree, next time.Time) []Remark {
	w := in.Folder.Workshop
	var out []Remark
	for _, g := range groups {
		if g.owner != jobs.House {
			continue // a customer's metal has its own tree in any week
		}
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
				a := attemptAll(w, []*group{rest}, in)
				if len(a.left) > 0 {
					continue
				}
				then = a.hung
			}
			if len(then) >= len(now) {
				continue
			}
			out = append(out, Remark{j.Number, "price-haste",
				fmt.Sprintf("alone needs %s of %s; waiting a week saves %s in buttons, trunks and feeders, unless nothing else of it comes then either",
					trees(len(now)-len(then)), g.alloy, tiedUp(w, now)-tiedUp(w, then)), "put it on hold for a week, if the customer agrees"})
		}
	}
	return out
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
