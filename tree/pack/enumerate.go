package pack

import (
	"math"
	"math/bits"
	"slices"
)

// A list of patterns is closed for a target when every packing of target bins
// is made of its patterns alone. With prices v, demand n and z no less than the
// worth of any pattern, target * z - sum n v is all that the bins of such a
// packing may fall short of z together, and so each of them alone.
type closedList struct {
	patterns []pattern
	prices   []int64
	refuted  bool // no packing of target bins exists
}

const (
	mostListed = 20_000
	mostCells  = 1 << 23 // of the table of best worths
	listNodes  = 20_000_000
)

// enumerate lists all patterns that a packing of target bins could use; ok is
// false if there are too many. Classes without a price are left out of the
// patterns, which relaxes the question.
func (e *engine) enumerate(target int) (out closedList, ok bool) {
	if len(e.stockRow) > 0 {
		return out, false
	}
	capacity := int64(1)
	for _, k := range e.kinds {
		for _, c := range e.s.q.Bins[k].Capacity {
			capacity = max(capacity, c)
		}
	}
	// Finer prices leave less to rounding: as fine as the products allow.
	shift := min(40, 60-bits.Len64(uint64(capacity)))
	if shift < 24 {
		return out, false
	}
	scale := int64(1) << shift
	e.lp.duals()
	out.prices = make([]int64, len(e.classes))
	var sum int64
	for c := range out.prices {
		out.prices[c] = int64(math.Floor(float64(min(max(e.lp.y[c], 0), 1) * float64(scale))))
		sum += out.prices[c] * int64(e.demand[c])
	}
	z := scale
	for _, k := range e.kinds {
		p := pricer{s: e.s, classes: e.classes, kind: k, prices: out.prices, most: e.demand, floor: scale, gather: 1}
		var best priced
		if e.s.dims == 1 && !e.conflicts() {
			best = p.list()
		} else {
			best = p.depth(1_000_000, e.scarce[k])
		}
		if !best.exact {
			return out, false
		}
		z = max(z, best.ceiling)
	}
	slack := int64(target)*z - sum
	if slack < 0 {
		out.refuted = true
		return out, true
	}
	for _, k := range e.kinds {
		p := pricer{s: e.s, classes: e.classes, kind: k, prices: out.prices, most: e.demand}
		found, all := p.all(z-slack, e.scarce[k])
		out.patterns = append(out.patterns, found...)
		if !all || len(out.patterns) > mostListed {
			return out, false
		}
	}
	return out, true
}

// all lists the patterns worth at least least, those that another one contains
// too; false if there are too many or they take too long.
func (p *pricer) all(least int64, scarce []float64) ([]pattern, bool) {
	d := p.newDiver(scarce)
	d.least = max(least, 1)
	d.nodes = listNodes
	if p.s.dims == 1 {
		// One dimension: from each place on, the best worth of each room.
		room := p.s.q.Bins[p.kind].Capacity[0]
		if (room+1)*int64(len(d.cs)+1) > mostCells {
			return nil, false
		}
		d.table = d.worths(room)
		p.s.spend((room + 1) * int64(len(d.cs)))
	}
	ok := d.gather(0, 0)
	p.s.spend(int64(listNodes-d.nodes)*20 + 4*d.looks)
	return d.found, ok && d.nodes > 0
}

// worths is, from each place on and for each room, the most that fits.
func (d *diver) worths(room int64) [][]int64 {
	t := make([][]int64, len(d.cs)+1)
	t[len(d.cs)] = make([]int64, room+1)
	for i := len(d.cs) - 1; i >= 0; i-- {
		row := slices.Clone(t[i+1])
		size := d.size[i][0]
		for range d.copies[i] {
			changed := false
			for r := room; r >= size; r-- {
				if v := row[r-size] + d.value[i]; size > 0 && v > row[r] {
					row[r] = v
					changed = true
				}
			}
			if size == 0 {
				for r := range row {
					row[r] += d.value[i]
				}
			} else if !changed {
				break
			}
		}
		t[i] = row
	}
	return t
}

// gather walks every pattern worth at least d.least.
func (d *diver) gather(i int, value int64) bool {
	if d.nodes <= 0 {
		return false
	}
	d.nodes--
	if i == len(d.cs) {
		if len(d.found) > mostListed {
			return false
		}
		d.keep(value)
		return true
	}
	reach := int64(0)
	if d.table != nil {
		reach = value + d.table[i][d.room[0]]
	} else {
		reach = value + int64(d.gain(i, d.surrogateRoom())) + 1
	}
	if reach < d.least {
		return true
	}
	n := 0
	if d.fits(i) {
		n = d.most(i)
	}
	for ; n >= 0; n-- {
		d.put(i, n)
		ok := d.gather(i+1, value+int64(n)*d.value[i])
		d.put(i, -n)
		if !ok {
			return false
		}
	}
	return true
}

// surrogateRoom is the room left in the surrogate dimension, rounded up.
func (d *diver) surrogateRoom() float64 {
	sum := 0.0
	for k, r := range d.room {
		sum += float64(d.scarce[k] * share(r, d.p.s.q.Bins[d.p.kind].Capacity[k]))
	}
	return sum + 1e-9
}
