package pack

import (
	"math"
	"slices"
)

// A closing searches the packings that a closed list allows: a linear programme
// over the list at each node, patterns dropped that fall too short by its
// prices, and a branch on the class that fewest patterns hold, over all of
// them. Exhausted, it proves that target bins are too few.
type closing struct {
	e        *engine
	patterns []pattern
	lp       *lp
	start    int
	alive    []bool
	left     []int // by class; classes without a price are 0
	fixed    []int // patterns
	nodes    int
	until    int64
	spent    bool
	misfits  int // packings that had no room for the classes without a price
	found    *filling
	prices   []int64
}

// close searches a closed list; refuted says that no packing of target bins exists.
func (e *engine) close(list closedList, target int, until int64) (f *filling, refuted bool) {
	c := &closing{e: e, patterns: list.patterns, left: make([]int, len(e.classes)), until: until, prices: make([]int64, len(e.classes))}
	for i, v := range list.prices {
		if v > 0 {
			c.left[i] = e.demand[i]
		}
	}
	for range c.patterns {
		c.alive = append(c.alive, true)
	}
	c.begin()
	done := c.walk(target)
	if c.found != nil {
		return c.found, false
	}
	return nil, done && !c.spent
}

func (c *closing) begin() {
	var rows []entry
	var costs, demand []float64
	for i := range c.left {
		rows = append(rows, entry{i, 1})
		costs = append(costs, artificial)
		demand = append(demand, float64(c.left[i]))
	}
	c.lp = newLP(rows, costs, demand, c.e.s.spend)
	c.start = len(c.lp.columns)
	for _, p := range c.patterns {
		col := column{cost: 1}
		for _, k := range p.picks {
			col.entries = append(col.entries, entry{k.class, float64(k.count)})
		}
		c.lp.add(col)
	}
}

// walk looks for a packing of what is left in bins bins; true says that the
// branch is exhausted, with or without one.
func (c *closing) walk(bins int) bool {
	rest := 0
	for _, n := range c.left {
		rest += n
	}
	if rest == 0 {
		return c.complete(bins)
	}
	if bins == 0 {
		return true
	}
	c.nodes++
	c.e.s.spend(20)
	if c.e.s.work >= c.until || c.e.s.work >= c.e.s.limit {
		c.spent = true
		return false
	}
	killed, cut, ok := c.tighten(bins)
	defer func() {
		for _, p := range killed {
			c.alive[p] = true
		}
	}()
	if cut {
		return true
	}
	if !ok {
		c.spent = true
		return false
	}
	var tried []int
	defer func() {
		for _, p := range tried {
			c.alive[p] = true
		}
	}()
	for _, p := range c.branch() {
		for _, k := range c.patterns[p].picks {
			c.left[k.class] -= k.count
		}
		c.fixed = append(c.fixed, p)
		done := c.walk(bins - 1)
		c.fixed = c.fixed[:len(c.fixed)-1]
		for _, k := range c.patterns[p].picks {
			c.left[k.class] += k.count
		}
		if !done || c.found != nil {
			return done
		}
		// All packings with this pattern are done: its sisters go without it.
		c.alive[p] = false
		tried = append(tried, p)
	}
	return true
}

// tighten solves the programme of a node and drops what its prices rule out;
// cut says that no packing in so many bins is left. Patterns it drops are named.
func (c *closing) tighten(bins int) (killed []int, cut, ok bool) {
	kill := func(p int) {
		c.alive[p] = false
		killed = append(killed, p)
	}
	for p := range c.patterns {
		if c.alive[p] && slices.ContainsFunc(c.patterns[p].picks, func(k pick) bool { return k.count > c.left[k.class] }) {
			kill(p)
		}
	}
	for {
		if !c.solve() {
			return killed, false, false
		}
		// Whole-number prices, and the worth of the best pattern by scanning.
		const scale = 1 << 40
		var sum int64
		for i := range c.prices {
			c.prices[i] = int64(math.Floor(float64(min(max(c.lp.y[i], 0), artificial) * scale)))
			sum += c.prices[i] * int64(c.left[i])
		}
		worth := func(p int) int64 {
			var v int64
			for _, k := range c.patterns[p].picks {
				v += c.prices[k.class] * int64(k.count)
			}
			return v
		}
		z := int64(1)
		for p, alive := range c.alive {
			if alive {
				z = max(z, worth(p))
			}
		}
		c.e.s.spend(int64(4 * len(c.patterns)))
		// Divided and not multiplied: prices of artificial columns are large.
		if sum/z > int64(bins) || sum/z == int64(bins) && sum%z > 0 {
			return killed, true, true
		}
		slack := int64(bins)*z - sum
		dropped := 0
		for p, alive := range c.alive {
			if alive && worth(p) < z-slack {
				kill(p)
				dropped++
			}
		}
		if dropped == 0 || !slices.ContainsFunc(killed[len(killed)-dropped:], func(p int) bool { return c.lp.at[c.start+p] >= 0 }) {
			return killed, false, true
		}
	}
}

// solve brings the programme to the demand and the patterns of the node.
func (c *closing) solve() bool {
	for i, n := range c.left {
		c.lp.demand[i] = float64(n)
	}
	for p, alive := range c.alive {
		col := &c.lp.columns[c.start+p]
		col.banned, col.cost = !alive, 1
		if !alive {
			col.cost = artificial
		}
	}
	if c.lp.dual() && c.lp.primal() {
		return true
	}
	if c.e.s.work >= c.e.s.limit {
		return false
	}
	c.begin()
	for p, alive := range c.alive {
		c.lp.columns[c.start+p].banned = !alive
	}
	return c.lp.primal()
}

// branch is the patterns that hold the class which fewest patterns hold, by
// falling share in the programme.
func (c *closing) branch() []int {
	holders := make([]int, len(c.left))
	for p, alive := range c.alive {
		if alive {
			for _, k := range c.patterns[p].picks {
				holders[k.class]++
			}
		}
	}
	on := -1
	for i, n := range c.left {
		if n > 0 && (on < 0 || holders[i] < holders[on]) {
			on = i
		}
	}
	var out []int
	for p, alive := range c.alive {
		if alive && slices.ContainsFunc(c.patterns[p].picks, func(k pick) bool { return k.class == on }) {
			out = append(out, p)
		}
	}
	x := func(p int) float64 {
		if r := c.lp.at[c.start+p]; r >= 0 {
			return c.lp.x[r]
		}
		return 0
	}
	slices.SortStableFunc(out, func(a, b int) int {
		switch xa, xb := x(a), x(b); {
		case xa > xb+1e-7:
			return -1
		case xa < xb-1e-7:
			return 1
		}
		return 0
	})
	return out
}

// mostMisfits is how many packings without room for the rest are looked at.
const mostMisfits = 20

// complete turns the fixed patterns into a packing, and finds room for the
// classes that had no price; where it does not, the branch is not exhausted.
func (c *closing) complete(bins int) bool {
	f := &filling{s: c.e.s, units: c.e.units}
	next := make([]int, len(c.e.classes))
	put := func(t, class int) {
		f.add(t, c.e.classes[class].units[next[class]])
		next[class]++
	}
	for _, p := range c.fixed {
		t := f.open(c.patterns[p].kind)
		for _, k := range c.patterns[p].picks {
			for range k.count {
				put(t, k.class)
			}
		}
	}
	for range bins {
		f.open(c.e.kinds[0])
	}
	for class := range c.e.classes {
		for next[class] < len(c.e.classes[class].units) {
			t := f.fullest(c.e.classes[class].units[next[class]])
			if t < 0 {
				c.spent = true
				c.misfits++
				return c.misfits < mostMisfits
			}
			put(t, class)
		}
	}
	c.found = f
	return true
}

// fullest is the tray with room for unit u that it leaves fullest, or -1.
func (f *filling) fullest(u int) int {
	to, most := -1, 0.0
	for t := range f.trays {
		if !f.admits(t, u) {
			continue
		}
		sum := 0.0
		for d, v := range f.units[u].size[f.trays[t].kind] {
			sum += share(f.trays[t].load[d]+v, f.s.q.Bins[f.trays[t].kind].Capacity[d])
		}
		if to < 0 || sum > most {
			to, most = t, sum
		}
	}
	return to
}
