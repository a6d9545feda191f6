package pack

import "slices"

// wishes are what the wishes of a question say about each item.
type wishes struct {
	block []int   // by item: the least item it has to stay with (itself, if alone)
	fixed []int   // by item: the fixed bin it is in, or -1
	foes  [][]int // by item: items that it may not meet, rising; nil if none
}

// readWishes turns the wishes into one view, or names those at odds.
func (q *Question) readWishes() (w wishes, fs faults) {
	n := len(q.Items)
	w = wishes{block: make([]int, n), fixed: make([]int, n)}
	for i := range n {
		w.block[i], w.fixed[i] = i, -1
	}
	for _, set := range q.Together {
		for _, i := range set {
			w.join(set[0], i)
		}
	}
	for i := range n {
		w.block[i] = w.root(i)
	}
	for k, g := range q.Fixed {
		for _, i := range g.Items {
			if was := w.fixed[i]; was >= 0 {
				fs.add(WishesAtOdds, []string{fixed(was), fixed(k)}, []int{i}, "item %q is in two bins as they were", q.Items[i].ID)
				continue
			}
			w.fixed[i] = k
		}
	}
	for k, set := range q.Together {
		for _, i := range set {
			if f := max(w.fixed[i], w.fixed[set[0]]); w.fixed[i] != w.fixed[set[0]] {
				fs.add(WishesAtOdds, []string{together(k), fixed(f)}, []int{set[0], i}, "a bin as it was holds only some of those to be kept together")
				break
			}
		}
	}
	fs = append(fs, q.readApart(&w)...)
	return w, fs
}

func (q *Question) readApart(w *wishes) (fs faults) {
	if len(q.Apart) == 0 {
		return nil
	}
	w.foes = make([][]int, len(q.Items))
	for k, a := range q.Apart {
		for _, i := range a.A {
			for _, j := range a.B {
				switch {
				case i == j:
					fs.add(WishesAtOdds, []string{apart(k)}, []int{i}, "item %q cannot be kept apart from itself", q.Items[i].ID)
				case w.block[i] == w.block[j]:
					names := append([]string{apart(k)}, q.chain(i, j)...)
					fs.add(WishesAtOdds, names, []int{i, j}, "items %q and %q are to be kept together and apart", q.Items[i].ID, q.Items[j].ID)
				case w.fixed[i] >= 0 && w.fixed[i] == w.fixed[j]:
					fs.add(WishesAtOdds, []string{apart(k), fixed(w.fixed[i])}, []int{i, j}, "a bin as it was holds items %q and %q, which are to be kept apart", q.Items[i].ID, q.Items[j].ID)
				default:
					w.foes[i] = append(w.foes[i], j)
					w.foes[j] = append(w.foes[j], i)
				}
			}
		}
	}
	for i := range w.foes {
		slices.Sort(w.foes[i])
		w.foes[i] = slices.Compact(w.foes[i])
	}
	return fs
}

// chain names the sets that tie item i to item j, the fewest that do.
func (q *Question) chain(i, j int) []string {
	cameBy := map[int]int{i: -1} // item: the set that reached it
	from := map[int]int{}
	for queue := []int{i}; len(queue) > 0; queue = queue[1:] {
		at := queue[0]
		for k, set := range q.Together {
			if !slices.Contains(set, at) {
				continue
			}
			for _, next := range set {
				if _, seen := cameBy[next]; !seen {
					cameBy[next], from[next] = k, at
					queue = append(queue, next)
				}
			}
		}
	}
	var names []string
	for at := j; at != i; at = from[at] {
		if name := together(cameBy[at]); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	return names
}

func (w *wishes) root(i int) int {
	for w.block[i] != i {
		i = w.block[i]
	}
	return i
}

func (w *wishes) join(i, j int) {
	i, j = w.root(i), w.root(j)
	w.block[max(i, j)] = min(i, j)
}
