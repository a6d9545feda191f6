package pack

import (
	"math"
	"slices"
)

// An engine packs classes by columns: a linear programme over patterns, new
// patterns by pricing, and from its prices a bound (Gilmore and Gomory 1961).
type engine struct {
	s        *space
	units    []unit
	classes  []class
	kinds    []int // in use
	stock    []int // by kind
	demand   []int // by class
	lp       *lp
	patterns []pattern   // by column, from the first one after start
	start    int         // columns before the first pattern
	stockRow map[int]int // by kind of which there are not enough
	scarce   [][]float64 // by kind: weights of the dimensions
	known    map[string]bool
}

const (
	artificial  = 16.0 // cost of a column that stands for no bin
	mostColumns = 20_000
	cheapNodes  = 3_000 // of the first pricing pass in several dimensions
	// mostNodes of a later pass are taken in any case, and ten times as many while a
	// node may cost deepUnits of the work that is left.
	mostNodes, deepUnits = 10_000_000, 200
)

// newEngine prepares an engine; nil if the numbers are too large for the whole
// numbers of the bound, or some class fits no kind in stock.
func (s *space) newEngine(units []unit, stock []int) *engine {
	e := &engine{s: s, units: units, classes: classes(units), stock: stock, stockRow: map[int]int{}, known: map[string]bool{}}
	for k, b := range s.q.Bins {
		if stock[k] == 0 {
			continue
		}
		e.kinds = append(e.kinds, k)
		for _, c := range b.Capacity {
			if c > 1<<33 {
				return nil // times a price of up to 2^29 this still has 62 bits
			}
		}
	}
	for c := range e.classes {
		e.demand = append(e.demand, len(e.classes[c].units))
		if !slices.ContainsFunc(e.kinds, func(k int) bool { return e.classes[c].size[k] != nil }) {
			return nil
		}
	}
	e.weigh()
	e.reset()
	e.plain()
	return e
}

// weigh sets the weights of the dimensions by the square of the total demand.
func (e *engine) weigh() {
	e.scarce = make([][]float64, len(e.s.q.Bins))
	for _, k := range e.kinds {
		w := make([]float64, e.s.dims)
		sum := 0.0
		for d, c := range e.s.q.Bins[k].Capacity {
			for i := range e.classes {
				if size := e.classes[i].size[k]; size != nil {
					w[d] += float64(float64(e.demand[i]) * share(size[d], c))
				}
			}
			w[d] = float64(w[d]*w[d]) + 1e-6
			sum += w[d]
		}
		for d := range w {
			w[d] /= sum
		}
		e.scarce[k] = w
	}
}

// reset makes the first linear programme: an artificial column for each class,
// and a row for each kind that could run out.
func (e *engine) reset() {
	var rows []entry
	var costs, demand []float64
	limited := slices.ContainsFunc(e.kinds, func(k int) bool { return e.stock[k] < e.total() })
	for c, n := range e.demand {
		rows = append(rows, entry{c, 1})
		costs = append(costs, artificial)
		demand = append(demand, float64(n))
	}
	if limited {
		for _, k := range e.kinds {
			if e.stock[k] < e.total() {
				e.stockRow[k] = len(rows)
				// The slack of "no more than there are", as a column of its own.
				rows = append(rows, entry{len(rows), -1})
				costs = append(costs, 0)
				demand = append(demand, -float64(e.stock[k]))
			}
		}
	}
	e.lp = newLP(rows, costs, demand, e.s.spend)
	e.start = len(e.lp.columns)
}

// plain learns, for each class and kind, the bin filled with copies of it.
func (e *engine) plain() {
	for _, k := range e.kinds {
		p := pricer{s: e.s, classes: e.classes, kind: k, most: e.demand}
		for c := range e.classes {
			if e.classes[c].size[k] == nil {
				continue
			}
			n := p.copies(c)
			e.learn(pattern{kind: k, picks: []pick{{c, n}}})
		}
	}
}

func (e *engine) total() int {
	n := 0
	for _, d := range e.demand {
		n += d
	}
	return n
}

// learn adds a pattern as a column, once.
func (e *engine) learn(p pattern) bool {
	key := []byte{byte(p.kind)}
	for _, k := range p.picks {
		key = append(key, byte(k.class), byte(k.class>>8), byte(k.class>>16), byte(k.count), byte(k.count>>8), byte(k.count>>16))
	}
	if e.known[string(key)] || len(e.patterns) >= mostColumns {
		return false
	}
	e.known[string(key)] = true
	c := column{cost: 1}
	for _, k := range p.picks {
		c.entries = append(c.entries, entry{k.class, float64(k.count)})
	}
	if r, is := e.stockRow[p.kind]; is {
		c.entries = append(c.entries, entry{r, -1})
	}
	e.lp.add(c)
	e.patterns = append(e.patterns, p)
	return true
}

// learnFilling adds the trays of a packing as columns.
func (e *engine) learnFilling(f *filling) {
	of := make([]int, len(e.units))
	for c := range e.classes {
		for _, u := range e.classes[c].units {
			of[u] = c
		}
	}
	for t := range f.trays {
		if len(f.trays[t].units) == 0 {
			continue
		}
		var cs []int
		for _, u := range f.trays[t].units {
			cs = append(cs, of[u])
		}
		e.learn(bundle(f.trays[t].kind, cs))
	}
}

// bundle counts a list of classes into a pattern.
func bundle(kind int, cs []int) pattern {
	p := pattern{kind: kind}
	cs = sorted(cs)
	for i, c := range cs {
		if i > 0 && cs[i-1] == c {
			p.picks[len(p.picks)-1].count++
		} else {
			p.picks = append(p.picks, pick{c, 1})
		}
	}
	return p
}

// An effort is how far column generation goes.
type effort int

const (
	steer  effort = iota // for a dive: in several dimensions only cheap pricing
	bound                // until the bound is as good as the programme's value
	settle               // until no pattern helps
)

// generate solves the linear programme for a demand, with new patterns until
// none helps. lower is a proved bound for that demand; ok is false if the work ran
// out or the numbers went bad.
func (e *engine) generate(demand []int, how effort) (lower int, ok bool) {
	for {
		if !e.lp.primal() {
			return lower, false
		}
		e.lp.duals()
		prices, fines := e.prices()
		found := false
		ceiling, sound := int64(1), true
		for _, k := range e.kinds {
			out := e.price(k, prices, fines[k], demand, how)
			for _, p := range out.patterns {
				found = e.learn(p) || found
			}
			ceiling = max(ceiling, out.ceiling-fines[k])
			sound = sound && out.ceiling < math.MaxInt64/2
		}
		if sound {
			lower = max(lower, farley(prices, fines, demand, e.stock, ceiling))
		}
		if !found || how != settle && int(math.Ceil(e.lp.value()-1e-6)) <= lower {
			return lower, true
		}
		if !e.s.spend(1) {
			return lower, false
		}
	}
}

// prices scales the duals to whole numbers, rounded down; fines are the prices
// of kinds that run out. Whatever the floats were, they are 0 or more.
func (e *engine) prices() (prices, fines []int64) {
	prices = make([]int64, len(e.classes))
	fines = make([]int64, len(e.s.q.Bins))
	whole := func(r int) int64 { return int64(math.Floor(float64(min(max(e.lp.y[r], 0), artificial) * one))) }
	for c := range prices {
		prices[c] = whole(c)
	}
	for k, r := range e.stockRow {
		fines[k] = whole(r)
	}
	return prices, fines
}

// farley is the bound from prices (Farley 1990): with v the prices of the
// classes, q the fines, n the demand, u the stock, and z such that for each
// pattern of kind k the sum of v less q_k is at most z, no packing has fewer
// bins than (sum n v - sum u q) / z. It holds for any v, q >= 0, and is all in
// whole numbers.
func farley(prices, fines []int64, demand, stock []int, z int64) int {
	var sum int64
	for c, v := range prices {
		sum += v * int64(demand[c])
	}
	for k, q := range fines {
		if q > 0 {
			sum -= q * int64(stock[k])
		}
	}
	if sum <= 0 {
		return 0
	}
	return int((sum + z - 1) / z)
}

// price looks for patterns of a kind whose prices sum to more than one bin and
// the fine.
func (e *engine) price(kind int, prices []int64, fine int64, demand []int, how effort) priced {
	p := pricer{s: e.s, classes: e.classes, kind: kind, prices: prices, most: demand, floor: one + fine, gather: 30}
	if e.s.dims == 1 && !e.conflicts() {
		return p.list()
	}
	out := p.depth(cheapNodes, e.scarce[kind])
	if how != steer && !out.exact && len(out.patterns) == 0 {
		for nodes := 100 * cheapNodes; e.s.work < e.s.limit && (nodes <= mostNodes || int64(nodes)*deepUnits <= e.s.limit-e.s.work); nodes *= 10 {
			out = p.depth(nodes, e.scarce[kind])
			if out.exact || len(out.patterns) > 0 {
				break
			}
		}
	}
	return out
}

func (e *engine) conflicts() bool {
	return slices.ContainsFunc(e.classes, func(c class) bool { return len(c.foes) > 0 })
}
