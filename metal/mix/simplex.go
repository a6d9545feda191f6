package mix

import (
	"errors"
	"math/big"
)

// relation is how a row's left side stands to its right side.
type relation int

const (
	atMost relation = iota
	equal
	atLeast
)

// row is Σ a[i]·x[i] (≤, =, ≥) b.
type row struct {
	a  []*big.Rat
	is relation
	b  *big.Rat
}

// program is a linear programme over x ≥ 0. The objectives are minimised one
// after the other: a later one never spoils an earlier one.
type program struct {
	n          int
	rows       []row
	objectives [][]*big.Rat
}

var (
	errInfeasible = errors.New("no mix fulfils all conditions")
	errUnbounded  = errors.New("the objective has no least value")
)

// tableau is a simplex tableau in canonical form: basis[r] is the column that
// is 1 in row r and 0 in the others. The last entry of a row is its right side.
type tableau struct {
	t      [][]*big.Rat
	basis  []int
	cols   int
	barred []bool // columns that may not enter
}

// solve finds an optimum with the two-phase simplex method on exact rationals.
// Pivots follow Bland's rule (R. G. Bland, "New finite pivoting rules for the
// simplex method", Mathematics of Operations Research 2, 1977): the entering
// and the leaving column are those of least index, which can not cycle.
func (p program) solve() (x []*big.Rat, values []*big.Rat, err error) {
	tb, artificial := p.canonical()
	if artificial < tb.cols {
		phase1 := zeros(tb.cols)
		for c := artificial; c < tb.cols; c++ {
			phase1[c].SetInt64(1)
		}
		v, err := tb.minimise(phase1)
		if err != nil {
			return nil, nil, err
		}
		if v.Sign() != 0 {
			return nil, nil, errInfeasible
		}
		tb.expel(artificial)
	}
	for _, o := range p.objectives {
		c := zeros(tb.cols)
		copy(c, o)
		v, err := tb.minimise(c)
		if err != nil {
			return nil, nil, err
		}
		values = append(values, v)
	}
	x = zeros(p.n)
	for r, c := range tb.basis {
		if c < p.n {
			x[c].Set(tb.t[r][tb.cols])
		}
	}
	return x, values, nil
}

// canonical adds slack columns and, from column artificial on, artificial ones.
func (p program) canonical() (tb *tableau, artificial int) {
	slacks, arts := 0, 0
	signed := make([]row, len(p.rows))
	for i, r := range p.rows {
		if r.b.Sign() < 0 { // right sides must not be negative
			a := make([]*big.Rat, p.n)
			for j := range a {
				a[j] = new(big.Rat).Neg(r.a[j])
			}
			r = row{a, atLeast - r.is, new(big.Rat).Neg(r.b)}
		}
		signed[i] = r
		if r.is != equal {
			slacks++
		}
		if r.is != atMost {
			arts++
		}
	}
	artificial = p.n + slacks
	tb = &tableau{cols: artificial + arts}
	tb.barred = make([]bool, tb.cols)
	s, a := p.n, artificial
	for _, r := range signed {
		line := zeros(tb.cols + 1)
		for j := range r.a {
			line[j].Set(r.a[j])
		}
		line[tb.cols].Set(r.b)
		basic := 0
		if r.is == atMost {
			line[s].SetInt64(1)
			basic, s = s, s+1
		} else {
			if r.is == atLeast {
				line[s].SetInt64(-1)
				s++
			}
			line[a].SetInt64(1)
			basic, a = a, a+1
		}
		tb.t = append(tb.t, line)
		tb.basis = append(tb.basis, basic)
	}
	return tb, artificial
}

// minimise pivots to the least Σ c·x and then bars every column whose entering
// would raise it, so that the next objective keeps this one.
func (tb *tableau) minimise(c []*big.Rat) (*big.Rat, error) {
	reduced := make([]*big.Rat, tb.cols+1)
	for j := 0; j <= tb.cols; j++ {
		d := new(big.Rat)
		if j < tb.cols {
			d.Set(c[j])
		}
		for r, b := range tb.basis {
			if c[b].Sign() != 0 && tb.t[r][j].Sign() != 0 {
				d.Sub(d, new(big.Rat).Mul(c[b], tb.t[r][j]))
			}
		}
		reduced[j] = d
	}
	for {
		enter := -1
		for j := 0; j < tb.cols && enter < 0; j++ {
			if !tb.barred[j] && reduced[j].Sign() < 0 {
				enter = j
			}
		}
		if enter < 0 {
			break
		}
		leave := tb.leaving(enter)
		if leave < 0 {
			return nil, errUnbounded
		}
		tb.pivot(leave, enter)
		subtract(reduced, tb.t[leave], enter)
	}
	for j := 0; j < tb.cols; j++ {
		tb.barred[j] = tb.barred[j] || reduced[j].Sign() > 0
	}
	return new(big.Rat).Neg(reduced[tb.cols]), nil
}

// leaving is the row of the least ratio; of equal ones that whose basic column
// has the least index.
func (tb *tableau) leaving(enter int) int {
	leave := -1
	var least *big.Rat
	for r, line := range tb.t {
		if line[enter].Sign() <= 0 {
			continue
		}
		q := new(big.Rat).Quo(line[tb.cols], line[enter])
		cmp := -1
		if leave >= 0 {
			cmp = q.Cmp(least)
		}
		if cmp < 0 || cmp == 0 && tb.basis[r] < tb.basis[leave] {
			leave, least = r, q
		}
	}
	return leave
}

func (tb *tableau) pivot(r, c int) {
	inv := new(big.Rat).Inv(tb.t[r][c])
	for _, v := range tb.t[r] {
		if v.Sign() != 0 {
			v.Mul(v, inv)
		}
	}
	for i := range tb.t {
		if i != r {
			subtract(tb.t[i], tb.t[r], c)
		}
	}
	tb.basis[r] = c
}

// subtract takes as much of the pivot line from line as makes its column c 0.
func subtract(line, pivot []*big.Rat, c int) {
	if line[c].Sign() == 0 {
		return
	}
	f, m := new(big.Rat).Set(line[c]), new(big.Rat)
	for j := range line {
		if pivot[j].Sign() != 0 {
			line[j].Sub(line[j], m.Mul(f, pivot[j]))
		}
	}
}

// expel bars the artificial columns and takes those still in the basis, at
// level 0, out of it; a row without any other column says nothing and goes.
func (tb *tableau) expel(artificial int) {
	for c := artificial; c < tb.cols; c++ {
		tb.barred[c] = true
	}
	for c := 0; c < artificial; c++ { // phase 1 barred these for its own objective only
		tb.barred[c] = false
	}
	for r := 0; r < len(tb.basis); r++ {
		if tb.basis[r] < artificial {
			continue
		}
		c := 0
		for c < artificial && tb.t[r][c].Sign() == 0 {
			c++
		}
		if c < artificial {
			tb.pivot(r, c)
			continue
		}
		tb.t = append(tb.t[:r], tb.t[r+1:]...)
		tb.basis = append(tb.basis[:r], tb.basis[r+1:]...)
		r--
	}
}

func zeros(n int) []*big.Rat {
	z := make([]*big.Rat, n)
	for i := range z {
		z[i] = new(big.Rat)
	}
	return z
}
