package jobs

import "castweek/metal/problem"

// contradictions refuses wishes that cannot all be followed, each with both
// lines named.
func (w Wishes) contradictions(r *wishReader, problems *problem.List) {
	on := newBundles()
	for _, g := range w.Together {
		r.alike(g.At, g.Castings(), "together", problems)
		on.join(g.Castings(), g.At)
	}
	kept := map[string]KeptTree{}
	letters := map[string]KeptTree{}
	for _, k := range w.Keep {
		r.alike(k.At, k.Castings, "kept on one tree", problems)
		if o, double := letters[k.Tree]; double {
			clash(problems, k.At, o.At, "tree %s is kept twice", k.Tree)
		}
		letters[k.Tree] = k
		for _, id := range k.Castings {
			o, double := kept[id]
			switch {
			case double && o.At == k.At:
				problems.Add(k.At, "wish-double", "name it once", "%s is named twice", id)
				continue
			case double:
				clash(problems, k.At, o.At, "%s is kept on tree %s and on tree %s", id, o.Tree, k.Tree)
				continue
			}
			kept[id] = k
		}
		on.join(k.Castings, k.At)
	}
	w.keptApart(on, kept, problems)
	if r.shop != nil {
		for _, f := range r.shop.Flasks {
			w.flasks(f.Name, f.Count, problems)
		}
	}
	for _, g := range w.Apart {
		for i, m := range g.Members {
			for _, o := range g.Members[:i] {
				on.apart(g.At, o, m, problems)
			}
		}
	}
}

// flasks refuses more broken flasks of a size than there are, and more trees that
// stay in it than are left.
func (w Wishes) flasks(name string, count int, problems *problem.List) {
	broken, left := problem.Place{}, count
	for _, b := range w.Broken {
		if b.Flask != name {
			continue
		}
		if left < b.Count && broken.Line > 0 {
			clash(problems, b.At, broken, "more flasks %s are broken than the house has: %d", name, count)
			return
		}
		broken, left = b.At, left-b.Count
	}
	last := broken
	for _, k := range w.Keep {
		if k.Flask != name {
			continue
		}
		if left--; left < 0 && last.Line > 0 {
			clash(problems, k.At, last, "tree %s stays in a flask %s, and none is left for it: the house has %d, less the broken ones", k.Tree, name, count)
			return
		}
		last = k.At
	}
}

// apart reports the first two castings of two members that other wishes put on
// one tree.
func (b *bundles) apart(at problem.Place, x, y Member, problems *problem.List) {
	for _, a := range x.Castings {
		for _, c := range y.Castings {
			if other, joined := b.joined(a, c); joined {
				clash(problems, at, other, "%s and %s are wished apart and on one tree", a, c)
				return
			}
		}
	}
}

// keptApart refuses a tree that stays as it was and shall also gain a casting.
func (w Wishes) keptApart(on *bundles, kept map[string]KeptTree, problems *problem.List) {
	for _, g := range w.Together {
		for _, a := range g.Castings() {
			for _, b := range g.Castings() {
				k, isKept := kept[a]
				if o, too := kept[b]; isKept && (!too || o.Tree != k.Tree) {
					clash(problems, g.At, k.At, "%s stays on tree %s as it was, and shall be together with %s, which is not on it", a, k.Tree, b)
					return
				}
			}
		}
	}
}

func clash(problems *problem.List, at, other problem.Place, format string, args ...any) {
	args = append(args, at.Line, other.Line)
	problems.Add(at, "wish-contradiction", "remove one of the two wishes", format+" (lines %d and %d)", args...)
}

// alike refuses a wish that no tree can follow: one tree has one alloy and one
// owner of the metal.
func (r *wishReader) alike(at problem.Place, ids []string, wish string, problems *problem.List) {
	for i, id := range ids {
		a, b := r.one[ids[0]], r.one[id]
		if i == 0 || a.Job == nil || b.Job == nil {
			continue
		}
		switch x, y := a.Job.Parts[a.Part].Alloy, b.Job.Parts[b.Part].Alloy; {
		case x != y:
			problems.Add(at, "wish-alloy", "name single castings of one alloy, such as K-204/1a", "%s is of %s and %s of %s: they cannot be %s", a.ID, x, b.ID, y, wish)
			return
		case a.Job.Owner != b.Job.Owner:
			problems.Add(at, "wish-owner", "cast them apart", "the metal of %s is %s's and that of %s is %s's: they cannot be %s", a.ID, a.Job.Owner, b.ID, b.Job.Owner, wish)
			return
		}
	}
}

// bundles are castings that have to hang on one tree, with the place of the
// wish that last joined each of them.
type bundles struct {
	root map[string]string
	at   map[string]problem.Place
}

func newBundles() *bundles { return &bundles{map[string]string{}, map[string]problem.Place{}} }

func (b *bundles) find(id string) string {
	for b.root[id] != "" && b.root[id] != id {
		id = b.root[id]
	}
	return id
}

func (b *bundles) join(ids []string, at problem.Place) {
	for _, id := range ids {
		b.at[id] = at
		if x, y := b.find(ids[0]), b.find(id); x != y {
			b.root[y] = x
		}
	}
}

func (b *bundles) joined(x, y string) (problem.Place, bool) {
	return b.at[x], b.find(x) == b.find(y)
}
