package pack

import (
	"math"
	"slices"
)

// diver prices patterns in several dimensions, or with pairs kept apart,
// depth first. Classes come by falling value for surrogate size, a weighted
// sum of the dimensions that counts the scarce ones most.
type diver struct {
	p      *pricer
	cs     []int
	copies []int
	value  []int64
	size   [][]int64
	weight []float64   // surrogate size
	foes   [][]int     // by place: the places that may not be met
	rate   [][]float64 // by dimension, from each place on: best value for size
	room   []int64
	count  []int // by place
	found  []pattern
	best   int64
	open   int64 // the largest bound of a node that was not looked into
	nodes  int
	looks  int64 // classes looked at in bounds
	scarce []float64
	least  int64     // gather: what a pattern has to be worth
	table  [][]int64 // gather, in one dimension
}

// depth runs the search within a number of nodes.
func (p *pricer) depth(nodes int, scarce []float64) priced {
	d := p.newDiver(scarce)
	d.nodes = nodes
	full := 0.0
	for _, l := range scarce {
		full += l
	}
	d.walk(0, 0, full)
	p.s.spend(int64(nodes-d.nodes)*20 + 4*d.looks)
	return priced{choose(d.found, p.gather), max(d.best, d.open), d.nodes > 0 || d.open <= d.best}
}

func (p *pricer) newDiver(scarce []float64) *diver {
	d := &diver{p: p, cs: p.candidates(), best: p.floor, open: p.floor, scarce: scarce}
	capacity := p.s.q.Bins[p.kind].Capacity
	d.room = slices.Clone(capacity)
	surrogate := func(c int) float64 {
		sum := 0.0
		for k, v := range p.classes[c].size[p.kind] {
			if v > 0 {
				sum += float64(scarce[k] * share(v, capacity[k]))
			}
		}
		return sum
	}
	worth := map[int]float64{}
	for _, c := range d.cs {
		worth[c] = float64(p.prices[c]) / max(surrogate(c), 1e-9)
	}
	slices.SortStableFunc(d.cs, func(a, b int) int {
		switch {
		case worth[a] > worth[b]:
			return -1
		case worth[a] < worth[b]:
			return 1
		}
		return 0
	})
	n := len(d.cs)
	d.count = make([]int, n)
	for _, c := range d.cs {
		d.copies = append(d.copies, p.copies(c))
		d.value = append(d.value, p.prices[c])
		d.size = append(d.size, p.classes[c].size[p.kind])
		d.weight = append(d.weight, surrogate(c))
		var foes []int
		for _, foe := range p.classes[c].foes {
			if j := slices.Index(d.cs, foe); j >= 0 {
				foes = append(foes, j)
			}
		}
		d.foes = append(d.foes, foes)
	}
	d.rate = make([][]float64, len(capacity))
	for k := range capacity {
		d.rate[k] = make([]float64, n+1)
		for i := n - 1; i >= 0; i-- {
			r := math.Inf(1)
			if w := d.size[i][k]; w > 0 {
				r = float64(d.value[i]) / float64(w)
			}
			d.rate[k][i] = max(r, d.rate[k][i+1])
		}
	}
	return d
}

// gain bounds what the classes from place i on add, rounded well up.
func (d *diver) gain(i int, left float64) float64 {
	bound := math.Inf(1)
	for k, r := range d.room {
		if rate := d.rate[k][i]; !math.IsInf(rate, 1) {
			bound = min(bound, float64(float64(r)*rate))
		}
	}
	// By fractions of the surrogate, over the classes that still fit. Where the
	// surrogate takes no account of a class at all, its pieces are free.
	sum := 0.0
	j := i
	for ; j < len(d.cs) && sum < bound; j++ {
		n := d.copies[j]
		for k, v := range d.size[j] {
			if v > d.room[k] {
				n = 0
				break
			}
		}
		if n == 0 {
			continue
		}
		w := float64(float64(n) * d.weight[j])
		if w <= left {
			left -= w
			sum += float64(float64(n) * float64(d.value[j]))
			continue
		}
		sum += float64(float64(d.value[j]) * left / d.weight[j])
		break
	}
	d.looks += int64(j - i + 1)
	return float64(min(bound, sum)*(1+1e-9)) + 2
}

func (d *diver) walk(i int, value int64, left float64) {
	if value > d.p.floor && value > d.best-(d.best-d.p.floor)/4 {
		d.keep(value)
	}
	d.best = max(d.best, value)
	for ; i < len(d.cs); i++ {
		if !d.fits(i) {
			continue
		}
		bound := d.gain(i, max(left, 0)+1e-9)
		if float64(value)+bound <= float64(d.best)+1 {
			return
		}
		if d.nodes <= 0 {
			d.open = max(d.open, value+int64(bound)+1)
			return
		}
		d.nodes--
		for n := d.most(i); n > 0; n-- {
			d.put(i, n)
			d.walk(i+1, value+int64(n)*d.value[i], left-float64(float64(n)*d.weight[i]))
			d.put(i, -n)
		}
	}
}

func (d *diver) put(i, n int) {
	d.count[i] += n
	for k, v := range d.size[i] {
		d.room[k] -= int64(n) * v
	}
}

func (d *diver) most(i int) int {
	n := d.copies[i]
	for k, v := range d.size[i] {
		if v > 0 {
			n = int(min(int64(n), d.room[k]/v))
		}
	}
	return n
}

func (d *diver) fits(i int) bool {
	for k, v := range d.size[i] {
		if v > d.room[k] {
			return false
		}
	}
	for _, j := range d.foes[i] {
		if d.count[j] > 0 {
			return false
		}
	}
	return true
}

func (d *diver) keep(value int64) {
	pat := pattern{kind: d.p.kind, value: value}
	for j, n := range d.count {
		if n > 0 {
			pat.picks = append(pat.picks, pick{d.cs[j], n})
		}
	}
	slices.SortFunc(pat.picks, func(a, b pick) int { return a.class - b.class })
	d.found = append(d.found, pat)
	if d.least == 0 && len(d.found) > 40*d.p.gather {
		d.found = choose(d.found, 4*d.p.gather)
	}
}
