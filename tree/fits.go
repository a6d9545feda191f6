package tree

import (
	"fmt"
	"slices"

	"castweek/jobs"
	"castweek/jobs/workshop"
)

// A Fit answers "do these castings fit, and in how many pours?".
type Fit struct {
	Pours  int // of the trees that were found
	Bound  int // no plan needs fewer
	Proved bool
	Groups []Bound // the same by alloy and owner
	Left   []LeftOver

	groups []*group
	hung   []hungTree
	left   []leftItem
}

// Fits finds in how many pours castings of the folder fit, whatever their jobs
// wait for, and how many they need at least. It is what a plan of the same
// castings does, by the same code and the same wishes; of trees that stay as they
// were only those count that hold some of the castings.
func Fits(in Input, castings []string) (Fit, error) {
	q := &queue{shop: in.Folder.Workshop, wishes: in.Folder.Wishes}
	wanted := map[string]bool{}
	for _, id := range castings {
		wanted[id] = true
	}
	for _, j := range in.Folder.Jobs {
		for _, k := range j.Castings() {
			if wanted[k.ID] {
				q.items = append(q.items, q.item(k))
				delete(wanted, k.ID)
			}
		}
	}
	for _, id := range castings { // in the order asked, so that the answer is always the same
		if wanted[id] {
			return Fit{}, fmt.Errorf("there is no casting %s", id)
		}
	}
	q.wishes.Keep = slices.DeleteFunc(slices.Clone(q.wishes.Keep), func(k jobs.KeptTree) bool {
		return !slices.ContainsFunc(k.Castings, func(id string) bool { return slices.Contains(castings, id) })
	})
	return q.fit(in)
}

// fit groups and hangs the queue. A job that may ride with finer ones need not:
// both are tried, and what takes fewer pours is kept.
func (q *queue) fit(in Input) (Fit, error) {
	if in.traced == nil {
		in.traced = newTraced(q.shop)
	}
	f, err := q.fitOnce(in)
	if err != nil || len(q.wishes.Mixed) == 0 || q.shop.Sections.Mixing != workshop.MixAvoid || f.Proved && len(f.left) == 0 {
		return f, err
	}
	stay := *q
	stay.wishes.Mixed = nil
	g, err := stay.fitOnce(in)
	if err != nil || len(g.left) > len(f.left) || len(g.left) == len(f.left) && g.Pours >= f.Pours {
		return f, nil
	}
	for k := range g.Groups { // what was proved of castings that have to stay is not proved of these
		g.Groups[k].Bound = min(g.Groups[k].Bound, f.Groups[k].Bound)
	}
	g.add()
	return g, nil
}

func (q *queue) fitOnce(in Input) (Fit, error) {
	f := Fit{groups: q.groups(q.shop.Sections.Mixing)}
	if faults := append(q.neverMixed(), checkWishes(q.wishes, f.groups)...); len(faults) > 0 {
		return f, Refusal{faults}
	}
	if faults := q.tooMuch(f.groups, in); len(faults) > 0 {
		return f, Refusal{faults}
	}
	f.hung, f.left = solve(q.shop, f.groups, in)
	f.Groups, f.Left = bounds(f.groups), leftOver(f.left)
	f.add()
	return f, nil
}

// add adds up the groups.
func (f *Fit) add() {
	f.Pours, f.Bound = 0, 0
	for k := range f.Groups {
		b := &f.Groups[k]
		b.Proved = b.Bound == b.Trees
		f.Pours, f.Bound = f.Pours+b.Trees, f.Bound+b.Bound
	}
	f.Proved = f.Pours == f.Bound
}
