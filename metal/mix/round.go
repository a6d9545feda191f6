package mix

import (
	"math/big"
	"sort"
)

// holds says whether whole steps fulfil every condition of the model, exactly.
func (m model) holds(n []int64) bool {
	t := new(big.Rat)
	for _, a := range m.conditions {
		if weigh(t, a, n).Sign() < 0 {
			return false
		}
	}
	weighed := make([]bool, len(n))
	for i := range n {
		weighed[i] = n[i] > 0
	}
	return weigh(t, m.over, n).Cmp(room1(m.over, weighed)) >= 0
}

// weigh sets t to Σ a·n.
func weigh(t *big.Rat, a []*big.Rat, n []int64) *big.Rat {
	t.SetInt64(0)
	m := new(big.Rat)
	for i, v := range a {
		if n[i] != 0 {
			t.Add(t, m.Mul(v, m.SetInt64(n[i])))
		}
	}
	return t
}

// candidates bounds how many roundings of one mix are looked at.
const candidates = 20_000

// mostOver is by how many steps the total may pass what is wanted.
const mostOver = 3

// rounding is a try at whole steps.
type rounding struct {
	n            []int64
	excess       int64
	crumbs       int // lots of which only a few steps would be left
	object, fine float64
}

// crumb is the most steps of a lot that are not worth keeping by themselves:
// common practice, no source.
const crumb = 3

// round finds whole steps near x that hold: the total not under and as near as
// can be, and of those the least of the objective. In effect precious metal
// goes up and alloy down, for the other way round is not fine enough. Nothing
// is taken on trust: a try counts only if [model.holds]. Floats below only put
// the tries in order.
func (m model) round(x []*big.Rat) ([]int64, bool) {
	tries := m.tries(x)
	sort.SliceStable(tries, func(a, b int) bool {
		p, q := tries[a], tries[b]
		switch {
		case p.excess != q.excess:
			return p.excess < q.excess
		case p.object != q.object:
			return p.object < q.object
		case p.crumbs != q.crumbs:
			return p.crumbs < q.crumbs
		}
		return p.fine < q.fine
	})
	for _, t := range tries {
		if m.holds(t.n) {
			return t.n, true
		}
	}
	return nil, false
}

func (m model) tries(x []*big.Rat) (out []rounding) {
	low, high := m.spans(x)
	total := floor(m.total)
	cost := make([]float64, len(x))
	fine := make([]float64, len(x))
	for i := range x {
		cost[i], _ = m.objectives[0][i].Float64()
		fine[i], _ = m.objectives[1][i].Float64()
	}
	most := make([]int64, len(x)+1) // most[i]: what lots i… can still give
	for i := len(x) - 1; i >= 0; i-- {
		most[i] = most[i+1] + high[i]
	}
	n := make([]int64, len(x))
	var walk func(i int, sum int64, c, f float64)
	walk = func(i int, sum int64, c, f float64) {
		if sum+most[i] < total || sum > total+mostOver {
			return
		}
		if i == len(n) {
			out = append(out, rounding{append([]int64(nil), n...), sum - total, m.crumbs(n), c, f})
			return
		}
		for v := low[i]; v <= high[i]; v++ {
			n[i] = v
			walk(i+1, sum+v, c+float64(v)*cost[i], f+float64(v)*fine[i])
		}
	}
	walk(0, 0, 0, 0)
	return out
}

func (m model) crumbs(n []int64) (count int) {
	for i, l := range m.limit {
		if l != nil && n[i] > 0 {
			if left := floor(l) - n[i]; left > 0 && left <= crumb {
				count++
			}
		}
	}
	return count
}

// spans gives each used lot a small range of whole steps around its x, narrowed
// until the tries are few enough.
func (m model) spans(x []*big.Rat) (low, high []int64) {
	low, high = make([]int64, len(x)), make([]int64, len(x))
	for _, narrow := range []int{0, 1, 2} {
		product := 1
		for i, v := range x {
			f := floor(v)
			a, b := f, f
			if v.Sign() > 0 {
				switch {
				case !v.IsInt() && narrow < 2:
					a, b = f-1, f+2
				case !v.IsInt():
					a, b = f, f+1
				case narrow < 1:
					a, b = f-1, f+1
				}
			}
			if m.limit[i] != nil {
				b = min(b, floor(m.limit[i]))
			}
			low[i], high[i] = max(a, 0), b
			if product <= candidates {
				product *= int(high[i] - low[i] + 1)
			}
		}
		if product <= candidates {
			break
		}
	}
	return low, high
}

func floor(r *big.Rat) int64 {
	return new(big.Int).Div(r.Num(), r.Denom()).Int64() // Div is Euclidean, Denom positive
}
