package pack

import (
	"fmt"
	"slices"
)

// Setups is bin packing with set-ups: a bin that holds any item of a class gives
// up the class's weight and costs its cost, once. It is the published relative
// of keeping jobs together (a job is a class), and is here so that the moves
// which keep jobs together are measured on instances with known optima.
type Setups struct {
	Capacity int64
	Bin      int64 // cost of a bin
	Classes  []SetupClass
}

// A SetupClass is items, by weight, that share a set-up.
type SetupClass struct {
	Weight, Cost int64
	Items        []int64
}

// A SetupAnswer holds, by class and item, the bin; Value is the cost of bins and
// set-ups, and no packing costs less than Bound.
type SetupAnswer struct {
	In           [][]int
	Bins         int
	Value, Bound int64
}

// SolveSetups packs by local search, from several starts for each number of
// bins that could still pay.
func SolveSetups(q Setups) (SetupAnswer, error) {
	var best SetupAnswer
	if q.Capacity <= 0 || q.Capacity > largest || q.Bin < 0 {
		return best, fmt.Errorf("a bin of %d at a cost of %d", q.Capacity, q.Bin)
	}
	for c, class := range q.Classes {
		if class.Cost < 0 {
			return best, fmt.Errorf("class %d costs %d", c, class.Cost)
		}
		for _, w := range class.Items {
			if w < 0 || class.Weight < 0 || w+class.Weight > q.Capacity {
				return best, fmt.Errorf("an item of %d in class %d does not fit %d", w, c, q.Capacity)
			}
		}
	}
	bins, setups := q.least()
	bound := int64(bins)*q.Bin + setups
	items := 0
	for _, class := range q.Classes {
		items += len(class.Items)
	}
	for n := bins; n <= items; n++ {
		if best.In != nil && int64(n)*q.Bin+setups >= best.Value {
			break
		}
		for start := range setupStarts {
			p := newSetupPacking(&q, n, start)
			if p.settle() {
				if a := p.answer(); best.In == nil || a.Value < best.Value {
					best = a
				}
			}
		}
	}
	best.Bound = bound
	return best, nil
}

// least is a bound on the bins and on the cost of set-ups: each class needs as
// many bins as its items fill beside its own set-up.
func (q *Setups) least() (bins int, setups int64) {
	var sum int64
	for _, class := range q.Classes {
		if len(class.Items) == 0 {
			continue
		}
		var own int64
		for _, w := range class.Items {
			own += w
		}
		times := int64(1)
		if room := q.Capacity - class.Weight; own > 0 { // some item fits beside it
			times = max(1, (own+room-1)/room)
		}
		sum += own + times*class.Weight
		setups += times * class.Cost
		bins = max(bins, int(times))
	}
	return max(bins, int((sum+q.Capacity-1)/q.Capacity)), setups
}

// setupStarts is how many ways there are to begin a packing.
const setupStarts = 3

type setupItem struct {
	class int
	w     int64
	at    int // place in its class
}

type setupPacking struct {
	q     *Setups
	items []setupItem // by falling weight within falling class
	in    []int
	load  []int64
	count [][]int // by bin, by class
}

func newSetupPacking(q *Setups, n, start int) *setupPacking {
	p := &setupPacking{q: q, load: make([]int64, n)}
	own := make([]int64, len(q.Classes))
	for c, class := range q.Classes {
		for at, w := range class.Items {
			p.items = append(p.items, setupItem{c, w, at})
			own[c] += w
		}
	}
	slices.SortStableFunc(p.items, func(a, b setupItem) int {
		if start != 2 && a.class != b.class {
			return compareInt(own[b.class], own[a.class], a.class-b.class)
		}
		return compareInt(b.w, a.w, a.class-b.class)
	})
	for range n {
		p.count = append(p.count, make([]int, len(q.Classes)))
	}
	p.in = make([]int, len(p.items))
	for i := range p.items {
		p.in[i] = -1
		p.move(i, p.home(i, start))
	}
	return p
}

func compareInt(a, b int64, tie int) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return tie
}

// home chooses a bin for an item: the one left emptiest, the first with room,
// or the one left fullest; without room the emptiest.
func (p *setupPacking) home(i, start int) int {
	best, emptiest := -1, 0
	var key, low int64
	for b := range p.load {
		after := p.load[b] + p.extra(i, b)
		if b == 0 || after < low {
			emptiest, low = b, after
		}
		if after > p.q.Capacity {
			continue
		}
		k := after
		switch start {
		case 1:
			k = 0
		case 2:
			k = -after
		}
		if best < 0 || k < key {
			best, key = b, k
		}
	}
	if best < 0 {
		return emptiest
	}
	return best
}

func (p *setupPacking) extra(i, b int) int64 {
	it := p.items[i]
	if p.count[b][it.class] == 0 {
		return it.w + p.q.Classes[it.class].Weight
	}
	return it.w
}

// move takes item i out of its bin and puts it into bin b.
func (p *setupPacking) move(i, b int) {
	it := p.items[i]
	if was := p.in[i]; was >= 0 {
		p.count[was][it.class]--
		p.load[was] -= p.extra(i, was)
	}
	p.load[b] += p.extra(i, b)
	p.count[b][it.class]++
	p.in[i] = b
}

// worth is the overload, then the cost of set-ups, then the square of the
// loads, which makes room for later moves.
func (p *setupPacking) worth() [3]int64 {
	var w [3]int64
	for b, l := range p.load {
		w[0] += max(0, l-p.q.Capacity)
		for c, n := range p.count[b] {
			if n > 0 {
				w[1] += p.q.Classes[c].Cost
			}
		}
		w[2] -= (l * 1000 / p.q.Capacity) * (l * 1000 / p.q.Capacity)
	}
	return w
}

// mostSetupMoves bounds the local search.
const mostSetupMoves = 400

// settle makes the best move, exchange or shift of a class between two bins as
// long as one helps; true if no bin is too full.
func (p *setupPacking) settle() bool {
	for range mostSetupMoves {
		now := p.worth()
		best, do := now, []int(nil)
		for i := range p.items {
			for b := range p.load {
				if b == p.in[i] {
					continue
				}
				p.try(&best, &do, []int{i, b})
				p.try(&best, &do, p.clump(i, b))
				for j := i + 1; j < len(p.items); j++ {
					if p.in[j] == b {
						p.try(&best, &do, []int{i, b, j, p.in[i]})
					}
				}
			}
		}
		if do == nil {
			return now[0] == 0
		}
		p.apply(do)
	}
	return p.worth()[0] == 0
}

// clump is the moves that bring all of an item's class in its bin to bin b.
func (p *setupPacking) clump(i, b int) (moves []int) {
	for j := range p.items {
		if p.in[j] == p.in[i] && p.items[j].class == p.items[i].class {
			moves = append(moves, j, b)
		}
	}
	return moves
}

// apply makes moves, pairs of item and bin, and hands back those that undo them.
func (p *setupPacking) apply(moves []int) (undo []int) {
	for k := 0; k < len(moves); k += 2 {
		undo = append(undo, moves[k], p.in[moves[k]])
		p.move(moves[k], moves[k+1])
	}
	return undo
}

func (p *setupPacking) try(best *[3]int64, do *[]int, moves []int) {
	undo := p.apply(moves)
	if w := p.worth(); slices.Compare(w[:], best[:]) < 0 {
		*best, *do = w, moves
	}
	p.apply(undo)
}

func (p *setupPacking) answer() SetupAnswer {
	a := SetupAnswer{In: make([][]int, len(p.q.Classes))}
	for c, class := range p.q.Classes {
		a.In[c] = make([]int, len(class.Items))
	}
	name := map[int]int{} // bins in use, in order of their first item
	for i, it := range p.items {
		if _, seen := name[p.in[i]]; !seen {
			name[p.in[i]] = len(name)
		}
		a.In[it.class][it.at] = name[p.in[i]]
	}
	a.Bins = len(name)
	a.Value = int64(a.Bins)*p.q.Bin + p.worth()[1]
	return a
}
