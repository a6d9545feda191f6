package mix

import (
	"math/big"

	"castweek/metal/measure"
)

// model is a mix as a linear programme: x[i] is how much of lot i goes in, in
// steps of the scale.
//
//	Σx = total,  0 ≤ x[i] ≤ limit[i]
//	Σ x[i]·(f[i] − aim) ≥ 0               fine enough, with the house margin
//	Σ x[i]·(surely[i] − low) ≥ 0          each band's lower bound
//	Σ x[i]·(high − atMost[i]) ≥ 0         each band's upper bound
//	Σ x[i]·(f[i] − s) ≥ Σ |f[i] − s|      over the lots that are weighed
//
// The last one is the standard s with every weighing off by one step against
// us: of what is finer than s a step too little, of the rest one too much.
type model struct {
	total      *big.Rat
	limit      []*big.Rat // nil: as much as wanted
	conditions [][]*big.Rat
	over       []*big.Rat // f − s
	objectives [][]*big.Rat
}

// newModel counts in units of unit milligrams. With whole, a lot gives whole
// units only and the total is rounded up to one.
func newModel(w Want, lots []Lot, unit measure.Milligram, whole bool) model {
	m := model{limit: make([]*big.Rat, len(lots)), total: units(w.Grams, unit)}
	if whole {
		m.total.SetInt64(int64(w.Grams.RoundUp(unit) / unit))
	}
	for i, x := range lots {
		if x.Limited {
			m.limit[i] = units(x.Limit, unit)
			if whole {
				m.limit[i].SetInt64(int64(x.Limit / unit))
			}
		}
	}
	f := finenesses(w, lots)
	against := func(bound *big.Rat) []*big.Rat {
		a := make([]*big.Rat, len(lots))
		for i := range a {
			a[i] = sub(f[i], bound)
		}
		return a
	}
	m.over = against(w.Fineness)
	m.conditions = append(m.conditions, against(w.Aim()))
	for _, b := range w.Bands {
		low, high := make([]*big.Rat, len(lots)), make([]*big.Rat, len(lots))
		for i, x := range lots {
			surely, atMost := x.of(w, b.Element)
			if b.Low != nil {
				low[i] = sub(surely, b.Low)
			}
			if b.High != nil {
				high[i] = sub(b.High, atMost)
			}
		}
		if b.Low != nil {
			m.conditions = append(m.conditions, low)
		}
		if b.High != nil {
			m.conditions = append(m.conditions, high)
		}
	}
	first := zeros(len(lots))
	for i, x := range lots {
		switch {
		case w.Objective == LeastCost:
			// Cost is per gram; a unit is unit/1000 g.
			first[i] = mul(x.Cost, big.NewRat(int64(unit), 1000))
		case x.Fresh:
			first[i].SetInt64(int64(unit))
		}
	}
	m.objectives = [][]*big.Rat{first, f}
	return m
}

func units(g, unit measure.Milligram) *big.Rat { return big.NewRat(int64(g), int64(unit)) }

// programme writes the model down for the lots that count as weighed. With
// sturdy, every condition keeps room for one step of rounding in each of them.
func (m model) programme(weighed []bool, sturdy bool) program {
	n := len(m.limit)
	p := program{n: n, objectives: m.objectives}
	ones := zeros(n)
	for i := range ones {
		ones[i].SetInt64(1)
	}
	p.rows = append(p.rows, row{ones, equal, m.total})
	for _, a := range m.conditions {
		room := new(big.Rat)
		if sturdy {
			room = room1(a, weighed)
		}
		p.rows = append(p.rows, row{a, atLeast, room})
	}
	worst := room1(m.over, weighed)
	if sturdy {
		worst = mul(worst, big.NewRat(2, 1))
	}
	if worst.Sign() > 0 {
		p.rows = append(p.rows, row{m.over, atLeast, worst})
	}
	for i, l := range m.limit {
		if l != nil {
			only := zeros(n)
			only[i].SetInt64(1)
			p.rows = append(p.rows, row{only, atMost, l})
		}
	}
	return p
}

// room1 is how far Σa·x can fall when each weighed x is off by one.
func room1(a []*big.Rat, weighed []bool) *big.Rat {
	r := new(big.Rat)
	for i, v := range a {
		if weighed[i] {
			r.Add(r, new(big.Rat).Abs(v))
		}
	}
	return r
}

// best solves the programme. Which lots are weighed is only known afterwards,
// so it starts with none and adds those the answer uses until they agree.
// Counting a lot that in the end is not used is on the safe side; where it
// leaves no mix, the choices of lots are tried one by one.
func (m model) best(sturdy bool) (x, values []*big.Rat, err error) {
	weighed := make([]bool, len(m.limit))
	for {
		x, values, err = m.programme(weighed, sturdy).solve()
		if err != nil {
			break
		}
		grew := false
		for i, v := range x {
			if v.Sign() > 0 && !weighed[i] {
				weighed[i], grew = true, true
			}
		}
		if !grew {
			return x, values, nil
		}
	}
	if none(weighed) || err != errInfeasible {
		return nil, nil, err
	}
	return m.bestChoice(sturdy)
}

func none(b []bool) bool {
	for _, v := range b {
		if v {
			return false
		}
	}
	return true
}

// choices bounds how many choices of lots are tried when weighing errors alone
// stand in the way.
const choices = 100

// bestChoice tries the choices of one lot, two lots and so on, and takes the
// first size at which a mix exists: fewer weighings, fewer errors.
func (m model) bestChoice(sturdy bool) (x, values []*big.Rat, err error) {
	n, tried := len(m.limit), 0
	for size := 1; size <= n; size++ {
		var pick func(from, left int, chosen []bool)
		pick = func(from, left int, chosen []bool) {
			if tried >= choices {
				return
			}
			if left == 0 {
				only, index := m.only(chosen)
				if !only.likely() {
					return
				}
				tried++
				all := make([]bool, len(index))
				for i := range all {
					all[i] = true
				}
				small, cv, cerr := only.programme(all, sturdy).solve()
				cx := zeros(n)
				for i := range small {
					cx[index[i]] = small[i]
				}
				if cerr == nil && (x == nil || cv[0].Cmp(values[0]) < 0) {
					x, values = cx, cv
				}
				return
			}
			for i := from; i+left <= n; i++ {
				chosen[i] = true
				pick(i+1, left-1, chosen)
				chosen[i] = false
			}
		}
		pick(0, size, make([]bool, n))
		if x != nil {
			return x, values, nil
		}
	}
	return nil, nil, errInfeasible
}

// only is the model of the chosen lots, and where each of them came from.
func (m model) only(chosen []bool) (model, []int) {
	var index []int
	for i, c := range chosen {
		if c {
			index = append(index, i)
		}
	}
	keep := func(a []*big.Rat) []*big.Rat {
		out := make([]*big.Rat, len(index))
		for k, i := range index {
			out[k] = a[i]
		}
		return out
	}
	o := model{total: m.total, limit: keep(m.limit), over: keep(m.over)}
	for _, a := range m.conditions {
		o.conditions = append(o.conditions, keep(a))
	}
	for _, a := range m.objectives {
		o.objectives = append(o.objectives, keep(a))
	}
	return o, index
}

// likely is false when the lots are too little in all, or none of them fulfils
// some condition by itself.
func (m model) likely() bool {
	sum := new(big.Rat)
	for _, l := range m.limit {
		if l == nil {
			sum = m.total
			break
		}
		sum.Add(sum, l)
	}
	if sum.Cmp(m.total) < 0 {
		return false
	}
	for _, a := range m.conditions {
		some := false
		for _, v := range a {
			some = some || v.Sign() >= 0
		}
		if !some {
			return false
		}
	}
	return true
}
