package pack

import (
	"fmt"
	"slices"
)

// Check holds an answer against its question without the code that found it:
// each item once, limits and stock kept, wishes kept, sums as stated. It runs
// on every answer before it is handed out; nil says that all is well.
func Check(q *Question, a *Answer) error {
	seen := make([]int, len(q.Items)) // 0: nowhere; g+1: in group g; -1: left
	used := make([]int, len(q.Bins))
	var metal int64
	for g, group := range a.Groups {
		used[group.Bin]++
		if err := checkGroup(q, g, group, seen); err != nil {
			return err
		}
		metal += q.metal(group.Bin, group.Load)
	}
	for _, l := range a.Left {
		if seen[l.Item] != 0 {
			return fmt.Errorf("item %d is left out and packed", l.Item)
		}
		seen[l.Item] = -1
	}
	for i, where := range seen {
		if where == 0 {
			return fmt.Errorf("item %d is lost", i)
		}
	}
	for k, b := range q.Bins {
		if b.Available < 0 && used[k] > 0 || b.Available > 0 && used[k] > b.Available {
			return fmt.Errorf("%d bins %q are more than there are", used[k], b.Name)
		}
	}
	if err := checkWishes(q, a, seen); err != nil {
		return err
	}
	switch {
	case metal != a.Metal:
		return fmt.Errorf("metal is %d, not %d", metal, a.Metal)
	case a.MetalBound > a.Metal || a.SplitsBound > a.Splits || a.Bound > len(a.Groups):
		return fmt.Errorf("a bound is passed: bins %d of %d, metal %d of %d, splits %d of %d",
			len(a.Groups), a.Bound, a.Metal, a.MetalBound, a.Splits, a.SplitsBound)
	case a.Proved != (a.Bound == len(a.Groups)):
		return fmt.Errorf("proved is %v with %d bins and the bound %d", a.Proved, len(a.Groups), a.Bound)
	}
	return nil
}

func checkGroup(q *Question, g int, group Group, seen []int) error {
	if len(group.Items) == 0 && !group.Fixed {
		return fmt.Errorf("group %d is empty", g)
	}
	load := make([]int64, len(q.Bins[group.Bin].Capacity))
	for n, i := range group.Items {
		if n > 0 && group.Items[n-1] >= i {
			return fmt.Errorf("group %d is not in order", g)
		}
		if seen[i] != 0 {
			return fmt.Errorf("item %d is packed twice", i)
		}
		seen[i] = g + 1
		size := q.Items[i].Size
		if q.Items[i].SizeIn != nil {
			size = q.Items[i].SizeIn[group.Bin]
		}
		if size == nil {
			return fmt.Errorf("item %d does not go into bin %q", i, q.Bins[group.Bin].Name)
		}
		for d := range load {
			load[d] += size[d]
		}
	}
	for d, c := range q.Bins[group.Bin].Capacity {
		if load[d] > c {
			return fmt.Errorf("group %d takes %d of %d in dimension %d", g, load[d], c, d)
		}
	}
	if !slices.Equal(load, group.Load) {
		return fmt.Errorf("group %d takes %v, not %v", g, load, group.Load)
	}
	if q.CanHang != nil && !group.Fixed {
		if v := q.CanHang(group.Bin, slices.Clone(group.Items)); v != Hangs {
			return fmt.Errorf("group %d does not hang", g)
		}
	}
	return nil
}

func checkWishes(q *Question, a *Answer, seen []int) error {
	for k, set := range q.Together {
		for _, i := range set {
			if seen[i] != seen[set[0]] {
				return fmt.Errorf("together %d is torn apart", k)
			}
		}
	}
	for k, w := range q.Apart {
		for _, i := range w.A {
			for _, j := range w.B {
				if seen[i] > 0 && seen[i] == seen[j] {
					return fmt.Errorf("apart %d is not kept", k)
				}
			}
		}
	}
	for k, f := range q.Fixed {
		kept := slices.ContainsFunc(a.Groups, func(g Group) bool {
			return g.Fixed && g.Bin == f.Bin && slices.Equal(g.Items, sorted(f.Items))
		})
		if !kept {
			return fmt.Errorf("fixed %d is not as it was", k)
		}
	}
	return nil
}
