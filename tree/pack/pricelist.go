package pack

import "slices"

// A label is a set of classes taken so far in one dimension: what it takes up, what it is
// worth, and the label and class it grew from.
type label struct {
	size, value int64
	from        int32
	class       int32
}

// mostLabels bounds the memory of one pricing: 64 MB.
const mostLabels = 1 << 21

// list prices patterns in one dimension. It keeps a list of labels of rising
// size and strictly rising value, merged class by class with its copies moved
// up by one more of the class; the classes come by falling value for size, so
// that what a label can still gain is known. Independent of the capacity.
func (p *pricer) list() priced {
	cs := p.candidates()
	var free []pick // classes without size: all of them go in
	var worth int64
	cs = slices.DeleteFunc(cs, func(c int) bool {
		if p.classes[c].size[p.kind][0] > 0 {
			return false
		}
		free = append(free, pick{c, p.most[c]})
		worth += p.prices[c] * int64(p.most[c])
		return true
	})
	size := func(c int) int64 { return p.classes[c].size[p.kind][0] }
	slices.SortStableFunc(cs, func(a, b int) int {
		switch x, y := p.prices[a]*size(b), p.prices[b]*size(a); {
		case x > y:
			return -1
		case x < y:
			return 1
		}
		return 0
	})
	capacity := p.s.q.Bins[p.kind].Capacity[0]
	arena := []label{{0, worth, -1, -1}}
	now := []int32{0}
	best := max(p.floor, worth)
	target := p.floor
	for n, c := range cs {
		layer := now
		for range p.copies(c) {
			if len(arena)+len(layer) > mostLabels || !p.s.spend(int64(len(now)+len(layer))) {
				return priced{ceiling: p.outline(cs, capacity, worth)}
			}
			var grown []int32
			now, grown = p.merge(&arena, now, layer, c, capacity)
			if len(grown) == 0 {
				break
			}
			layer = grown
		}
		if last := arena[now[len(now)-1]].value; last > best {
			best = last
		}
		// A long list is pruned by the best so far; a short one keeps its variety.
		if target = p.floor; len(now) > 400 {
			target = max(target, best-1)
		}
		if n+1 < len(cs) {
			v, w := p.prices[cs[n+1]], size(cs[n+1])
			now = slices.DeleteFunc(slices.Clone(now), func(l int32) bool {
				// value + room * v/w <= target, without a division
				return arena[l].value <= target && (capacity-arena[l].size)*v <= (target-arena[l].value)*w
			})
			if len(now) == 0 {
				break
			}
		}
	}
	out := priced{ceiling: best, exact: true}
	var found []pattern
	for k := len(now) - 1; k >= 0 && len(found) < 20*p.gather && arena[now[k]].value > p.floor; k-- {
		found = append(found, p.trace(arena, now[k], free))
	}
	out.patterns = choose(found, p.gather)
	return out
}

// merge joins a list with a layer of it moved up by one of class c; grown are
// the labels of the moved layer that are not dominated.
func (p *pricer) merge(arena *[]label, now, layer []int32, c int, capacity int64) (merged, grown []int32) {
	a := *arena
	w, v := p.classes[c].size[p.kind][0], p.prices[c]
	merged = make([]int32, 0, len(now)+len(layer))
	top := int64(-1)
	i, j := 0, 0
	for i < len(now) || j < len(layer) {
		if j < len(layer) && a[layer[j]].size+w > capacity {
			j = len(layer)
			continue
		}
		old := j == len(layer)
		if !old && i < len(now) {
			x, y := &a[now[i]], &a[layer[j]]
			old = x.size < y.size+w || x.size == y.size+w && x.value >= y.value+v
		}
		if old {
			if a[now[i]].value > top {
				top = a[now[i]].value
				merged = append(merged, now[i])
			}
			i++
			continue
		}
		if l := a[layer[j]]; l.value+v > top {
			top = l.value + v
			a = append(a, label{l.size + w, top, layer[j], int32(c)})
			merged = append(merged, int32(len(a)-1))
			grown = append(grown, int32(len(a)-1))
		}
		j++
	}
	*arena = a
	return merged, grown
}

func (p *pricer) trace(arena []label, at int32, free []pick) pattern {
	out := pattern{kind: p.kind, picks: slices.Clone(free), value: arena[at].value}
	count := map[int32]int{}
	for ; arena[at].from >= 0; at = arena[at].from {
		count[arena[at].class]++
	}
	for c := range p.classes {
		if n := count[int32(c)]; n > 0 {
			out.picks = append(out.picks, pick{c, n})
		}
	}
	slices.SortFunc(out.picks, func(a, b pick) int { return a.class - b.class })
	return out
}

// outline is what a bin filled by fractions would be worth, rounded up: an upper
// bound for when the list grew too long.
func (p *pricer) outline(cs []int, capacity, worth int64) int64 {
	for _, c := range cs {
		w := p.classes[c].size[p.kind][0]
		take := min(int64(p.copies(c)), capacity/w)
		worth += take * p.prices[c]
		capacity -= take * w
		if take < int64(p.copies(c)) {
			return worth + (capacity*p.prices[c]+w-1)/w
		}
	}
	return worth
}
