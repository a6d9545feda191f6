package pack

import (
	"math"
	"slices"
)

// A dive turns the linear programme into a packing of target bins: it fixes
// columns one after the other and prices new ones for what is left.
type dive struct {
	e      *engine
	target int
	left   []int // by class
	fixed  []pattern
	stock  []int
	floors bool // fix whole columns at once, never to be undone
	until  int64
	tries  int // best-fit attempts
}

// dive looks for a packing of target bins with a budget of discrepancies, the
// places where it may take a second or third choice; until is the work at which it stops.
func (e *engine) dive(target, budget int, floors bool, until int64) *filling {
	d := &dive{e: e, target: target, left: slices.Clone(e.demand), stock: slices.Clone(e.stock), floors: floors, until: until}
	d.demand()
	ok := e.lp.dual() && d.walk(budget)
	e.restore()
	if !ok {
		return nil
	}
	bins := make([][]int, 0, len(d.fixed))
	var kinds []int
	for _, p := range d.fixed {
		var cs []int
		for _, k := range p.picks {
			for range k.count {
				cs = append(cs, k.class)
			}
		}
		bins = append(bins, cs)
		kinds = append(kinds, p.kind)
	}
	return e.s.unpack(e.units, e.classes, bins, kinds)
}

// demand sets the right side of the programme to what is left.
func (d *dive) demand() {
	for c, n := range d.left {
		d.e.lp.demand[c] = float64(n)
	}
	for k, r := range d.e.stockRow {
		d.e.lp.demand[r] = -float64(d.stock[k])
	}
}

// forget drops all but the first patterns: those of a dive suit its ends, and
// draw the prices away from the even ones that keep a closed list short.
func (e *engine) forget(but int) {
	e.patterns = e.patterns[:but]
	e.restore()
}

// restore gives the programme its own demand back, from a fresh start over
// the patterns that are known.
func (e *engine) restore() {
	patterns := e.patterns
	e.patterns, e.known = nil, map[string]bool{}
	e.reset()
	for _, p := range patterns {
		e.learn(p)
	}
}

func (d *dive) spent() bool { return d.e.s.work >= d.until || d.e.s.work >= d.e.s.limit }

func (d *dive) walk(budget int) bool {
	rest := 0
	for _, n := range d.left {
		rest += n
	}
	if rest == 0 {
		return len(d.fixed) <= d.target
	}
	if len(d.fixed) >= d.target || d.spent() {
		return false
	}
	if d.finish() {
		return true
	}
	d.ban()
	if !d.e.lp.primal() {
		return false
	}
	if _, ok := d.e.generate(d.left, steer); !ok {
		return false
	}
	if len(d.fixed)+int(math.Ceil(d.e.lp.value()-1e-6)) > d.target {
		return false
	}
	picks := d.choices()
	if d.floors && picks != nil {
		mark := len(d.fixed)
		for _, c := range picks {
			for range int(c.x + 1e-6) {
				d.fix(c.pattern)
			}
		}
		if len(d.fixed) > mark {
			d.demand()
			if d.e.lp.dual() && d.walk(budget) {
				return true
			}
			d.unfix(mark)
			return false
		}
	}
	for n, c := range picks {
		if n > budget || n > 2 {
			break
		}
		mark := len(d.fixed)
		d.fix(c.pattern)
		d.demand()
		if d.e.lp.dual() && d.walk(budget-n) {
			return true
		}
		d.unfix(mark)
		if d.spent() || n < min(budget, 2) && !d.back() {
			return false
		}
	}
	return false
}

// back brings the programme to the demand of this node again, from a fresh
// start over the known patterns.
func (d *dive) back() bool {
	d.e.restore()
	d.demand()
	d.ban()
	return d.e.lp.dual()
}

type choice struct {
	pattern pattern
	x       float64
	column  int
}

// choices are the columns in use, the largest share first, then the one with
// fewer classes, then the older one.
func (d *dive) choices() []choice {
	var out []choice
	for r, c := range d.e.lp.basis {
		if x := d.e.lp.x[r]; c >= d.e.start && x > 1e-6 {
			out = append(out, choice{d.trim(d.e.patterns[c-d.e.start]), x, c})
		}
	}
	slices.SortFunc(out, func(a, b choice) int {
		switch {
		case a.x > b.x+1e-7:
			return -1
		case a.x < b.x-1e-7:
			return 1
		case len(a.pattern.picks) != len(b.pattern.picks):
			return len(a.pattern.picks) - len(b.pattern.picks)
		}
		return a.column - b.column
	})
	return out
}

// trim takes out of a pattern what is no longer wanted.
func (d *dive) trim(p pattern) pattern {
	out := pattern{kind: p.kind}
	for _, k := range p.picks {
		if n := min(k.count, d.left[k.class]); n > 0 {
			out.picks = append(out.picks, pick{k.class, n})
		}
	}
	return out
}

func (d *dive) fix(p pattern) {
	p = d.trim(p)
	if len(p.picks) == 0 || d.stock[p.kind] == 0 {
		return
	}
	for _, k := range p.picks {
		d.left[k.class] -= k.count
	}
	d.stock[p.kind]--
	d.fixed = append(d.fixed, p)
}

func (d *dive) unfix(mark int) {
	for _, p := range d.fixed[mark:] {
		for _, k := range p.picks {
			d.left[k.class] += k.count
		}
		d.stock[p.kind]++
	}
	d.fixed = d.fixed[:mark]
}

// ban keeps columns that hold more than is left from entering, and makes those
// in the basis dear, so that they leave.
func (d *dive) ban() {
	for i, p := range d.e.patterns {
		c := &d.e.lp.columns[d.e.start+i]
		over := slices.ContainsFunc(p.picks, func(k pick) bool { return k.count > d.left[k.class] })
		c.banned, c.cost = over, 1
		if over {
			c.cost = 1.5
		}
	}
}

// finish tries to pack what is left by minimum slack.
func (d *dive) finish() bool {
	room := d.target - len(d.fixed)
	nodes := 300
	if room > 40 && d.tries%8 != 0 {
		nodes = 1
	}
	d.tries++
	bins, kinds := d.e.s.minSlack(d.e.classes, d.left, d.stock, d.e.s.preference(d.e.units), room, nodes)
	if bins == nil {
		return false
	}
	for b := range bins {
		d.fixed = append(d.fixed, bundle(kinds[b], bins[b]))
	}
	return true
}
