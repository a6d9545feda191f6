package mix

import (
	"math/big"

	"castweek/metal/measure"
)

// Make finds a mix: in exact rationals by the simplex method, rounded to the
// scale so that the total is not under and as near as can be, and checked again
// on the rounded weights. When there is none the answer says what is short.
func Make(w Want, lots []Lot) Answer {
	if l := judge(w, lots); len(l.Errors()) > 0 {
		return Answer{Problems: l}
	}
	a, err := attempt(w, lots)
	if err != nil {
		return refuse(w, lots)
	}
	return a
}

// attempt is Make without the refusal's reckoning.
func attempt(w Want, lots []Lot) (Answer, error) {
	m := newModel(w, lots, w.Step, true)
	x, values, err := m.best(false)
	if err != nil {
		return Answer{}, err
	}
	n, ok := m.round(x)
	if !ok { // leave room for the rounding
		if x, values, err = m.best(true); err != nil {
			return Answer{}, errTooCoarse
		}
		if n, ok = m.round(x); !ok {
			return Answer{}, errTooCoarse
		}
	}
	weighed := make([]measure.Milligram, len(n))
	for i := range n {
		weighed[i] = measure.Milligram(n[i]) * w.Step
	}
	a := Weighed(w, lots, weighed)
	a.Optimum = values[0]
	return a, nil
}

// Exact is the mix without a scale: how much of each lot, in mg, for exactly
// the wanted weight at the aim, and the least of the objective. It returns an
// error when there is none.
func Exact(w Want, lots []Lot) (amounts []*big.Rat, optimum *big.Rat, err error) {
	if l := judge(w, lots); len(l.Errors()) > 0 {
		return nil, nil, l.Errors()[0]
	}
	m := newModel(w, lots, 1, false)
	x, values, err := m.programme(make([]bool, len(lots)), false).solve()
	if err != nil {
		return nil, nil, err
	}
	return x, values[0], nil
}

// CoarseOnly tells whether it is the scale alone that makes a mix finer than the
// standard by more than over ‰: without a scale the same lots would not.
func CoarseOnly(w Want, lots []Lot, over *big.Rat) bool {
	x, _, err := Exact(w, lots)
	if err != nil {
		return false
	}
	f, fine := finenesses(w, lots), new(big.Rat)
	for i := range x {
		fine.Add(fine, mul(x[i], f[i]))
	}
	most := new(big.Rat).Add(w.Fineness, over)
	return fine.Cmp(most.Mul(most, big.NewRat(int64(w.Grams), 1))) <= 0
}
