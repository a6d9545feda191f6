package desk

import (
	"slices"
	"strings"

	"castweek/tree"
)

// Keys of prints that other sheets ask for.
const (
	BagKey  = "bag "
	PourKey = "pour sheet "
)

// Valid are the numbers of the prints of a job's bags that are valid now, each
// once and rising; none where prints are not counted.
func (d *Desk) Valid(job string) []int {
	var out []int
	if d.options.Prints == nil {
		return nil
	}
	for i := range d.Cast.Bags {
		b := &d.Cast.Bags[i]
		if b.Job != job {
			continue
		}
		if p, known := d.options.Prints.Last(BagKey + b.Key()); known && !slices.Contains(out, p.Number) {
			out = append(out, p.Number)
		}
	}
	slices.Sort(out)
	return out
}

// Gone is a paper that was printed for this cast and that nothing in it answers
// to any more: it has to be found and torn.
type Gone struct {
	Bag, Tree string // one of the two: a bag's key or a tree's name
	Number    int    // of its last print
}

// GoneOf lists them, bags first.
func (d *Desk) GoneOf() []Gone {
	var bags, trees []Gone
	if d.options.Prints == nil {
		return nil
	}
	for _, p := range d.options.Prints.List {
		if key, ok := strings.CutPrefix(p.Key, BagKey); ok && !slices.ContainsFunc(d.Cast.Bags, func(b tree.Bag) bool { return b.Key() == key }) {
			bags = append(bags, Gone{Bag: key, Number: p.Number})
		}
		if key, ok := strings.CutPrefix(p.Key, PourKey); ok && !slices.ContainsFunc(d.Cast.Trees, func(t tree.Tree) bool { return t.Name == key && t.Pourable() }) {
			trees = append(trees, Gone{Tree: key, Number: p.Number})
		}
	}
	return append(bags, trees...)
}
