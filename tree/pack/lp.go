package pack

import "math"

// An lp is the linear programme over patterns: minimise the cost of columns x
// >= 0 so that every row gets at least its demand. Its floats only steer the
// search; what is published comes from the whole numbers of columns.go. Each
// product is rounded on its own (float64 round a*b), so that machines with a
// fused multiply-add take the same path.
type lp struct {
	rows    int
	columns []column
	demand  []float64
	basis   []int // by row: the column
	at      []int // by column: its row in the basis, or -1
	inverse []float64
	x, y    []float64
	pivots  int
	since   int // pivots since the inverse was made anew
	spend   func(units int64) bool
	alpha   []float64
}

// A column holds entries by rising row.
type column struct {
	entries []entry
	cost    float64
	banned  bool // may leave the basis, not enter
}

type entry struct {
	row   int
	value float64
}

const (
	tiny     = 1e-9
	renewals = 150 // pivots after which the inverse is made anew
)

// newLP starts from one column for each row, a multiple of a unit vector.
// The columns before them, as many as rows, are the surplus.
func newLP(start []entry, costs []float64, demand []float64, spend func(int64) bool) *lp {
	n := len(start)
	l := &lp{rows: n, demand: demand, spend: spend, alpha: make([]float64, n)}
	for r := range n {
		l.add(column{entries: []entry{{r, -1}}})
	}
	for r, e := range start {
		c := l.add(column{entries: []entry{e}, cost: costs[r]})
		l.basis = append(l.basis, c)
		l.at[c] = r
	}
	l.x, l.y = make([]float64, n), make([]float64, n)
	l.renew()
	return l
}

func (l *lp) add(c column) int {
	l.columns = append(l.columns, c)
	l.at = append(l.at, -1)
	return len(l.columns) - 1
}

// renew computes the inverse of the basis anew, by elimination with the
// largest pivot, and x with it. It fails if the basis has become singular.
func (l *lp) renew() bool {
	n := l.rows
	a := make([]float64, n*n)
	inv := make([]float64, n*n)
	for r, c := range l.basis {
		for _, e := range l.columns[c].entries {
			a[e.row*n+r] = e.value
		}
		inv[r*n+r] = 1
	}
	for k := range n {
		p := k
		for r := k + 1; r < n; r++ {
			if math.Abs(a[r*n+k]) > math.Abs(a[p*n+k]) {
				p = r
			}
		}
		if math.Abs(a[p*n+k]) < tiny {
			return false
		}
		if p != k {
			for j := range n {
				a[p*n+j], a[k*n+j] = a[k*n+j], a[p*n+j]
				inv[p*n+j], inv[k*n+j] = inv[k*n+j], inv[p*n+j]
			}
		}
		scale := 1 / a[k*n+k]
		for j := range n {
			a[k*n+j] *= scale
			inv[k*n+j] *= scale
		}
		for r := range n {
			f := a[r*n+k]
			if r == k || f == 0 {
				continue
			}
			for j := k; j < n; j++ {
				a[r*n+j] -= float64(f * a[k*n+j])
			}
			for j := range n {
				if v := inv[k*n+j]; v != 0 {
					inv[r*n+j] -= float64(f * v)
				}
			}
		}
	}
	l.inverse = inv
	l.since = 0
	l.spend(int64(n) * int64(n) * int64(n) / 4)
	l.solveX()
	return true
}

func (l *lp) solveX() {
	n := l.rows
	l.spend(int64(n) * int64(n))
	for r := range n {
		sum := 0.0
		row := l.inverse[r*n : (r+1)*n]
		for j, b := range l.demand {
			sum += float64(row[j] * b)
		}
		l.x[r] = sum
	}
}

// duals are the prices of the rows.
func (l *lp) duals() {
	l.spend(int64(l.rows) * int64(l.rows) / 2)
	for j := range l.y {
		l.y[j] = 0
	}
	for r, c := range l.basis {
		cost := l.columns[c].cost
		if cost == 0 {
			continue
		}
		row := l.inverse[r*l.rows : (r+1)*l.rows]
		for j, v := range row {
			l.y[j] += float64(cost * v)
		}
	}
}

func (l *lp) reduced(c int) float64 {
	sum := l.columns[c].cost
	for _, e := range l.columns[c].entries {
		sum -= float64(e.value * l.y[e.row])
	}
	return sum
}

// pivot brings column c, of reduced cost rc, into the basis in row r; alpha is
// its column. The duals are brought up to date with it.
func (l *lp) pivot(r, c int, rc float64) bool {
	n := l.rows
	scale := 1 / l.alpha[r]
	prow := l.inverse[r*n : (r+1)*n]
	var where []int
	for j := range prow {
		if prow[j] != 0 {
			prow[j] *= scale
			where = append(where, j)
		}
	}
	touched := 1
	step := l.x[r] * scale
	for i := range n {
		f := l.alpha[i]
		if i == r || math.Abs(f) < 1e-12 {
			continue
		}
		touched++
		row := l.inverse[i*n : (i+1)*n]
		if len(where) == n {
			for j, v := range prow {
				row[j] -= float64(f * v)
			}
		} else {
			for _, j := range where {
				row[j] -= float64(f * prow[j])
			}
		}
		l.x[i] -= float64(f * step)
	}
	l.x[r] = step
	for _, j := range where {
		l.y[j] += float64(rc * prow[j])
	}
	l.at[l.basis[r]] = -1
	l.basis[r] = c
	l.at[c] = r
	l.pivots++
	l.since++
	ok := l.spend(int64(touched)*int64(len(where)) + int64(4*len(l.columns)))
	if l.since >= renewals {
		ok = l.renew() && ok
		l.duals()
	}
	return ok
}

// column computes alpha, the inverse times column c.
func (l *lp) column(c int) {
	n := l.rows
	for i := range l.alpha {
		sum := 0.0
		for _, e := range l.columns[c].entries {
			sum += float64(l.inverse[i*n+e.row] * e.value)
		}
		l.alpha[i] = sum
	}
}

// primal goes on from a basis with x >= 0 to the cheapest over all columns
// that may enter; false if the work ran out or the numbers went bad.
func (l *lp) primal() bool {
	l.duals()
	for {
		enter, least := -1, -1e-7
		for c := range l.columns {
			if l.at[c] < 0 && !l.columns[c].banned {
				if rc := l.reduced(c); rc < least {
					enter, least = c, rc
				}
			}
		}
		if enter < 0 {
			return true
		}
		l.column(enter)
		leave := -1
		ratio := math.Inf(1)
		for i, a := range l.alpha {
			if a < tiny {
				continue
			}
			q := max(l.x[i], 0) / a
			if q < ratio-1e-10 || q < ratio+1e-10 && leave >= 0 && a > l.alpha[leave] {
				leave = i
				ratio = min(q, ratio)
			}
		}
		if leave < 0 || !l.pivot(leave, enter, least) {
			return false
		}
	}
}

// dual goes from a basis whose reduced costs are all right to one with x >= 0,
// after demands have changed.
func (l *lp) dual() bool {
	l.solveX()
	l.duals()
	for {
		leave, worst := -1, -1e-7
		for i, v := range l.x {
			if v < worst {
				leave, worst = i, v
			}
		}
		if leave < 0 {
			return true
		}
		row := l.inverse[leave*l.rows : (leave+1)*l.rows]
		enter, ratio, size := -1, math.Inf(1), 0.0
		for c := range l.columns {
			if l.at[c] >= 0 || l.columns[c].banned {
				continue
			}
			a := 0.0
			for _, e := range l.columns[c].entries {
				a += float64(row[e.row] * e.value)
			}
			if a > -1e-8 {
				continue
			}
			q := max(l.reduced(c), 0) / -a
			if q < ratio-1e-10 || q < ratio+1e-10 && -a > size {
				enter, ratio, size = c, min(q, ratio), -a
			}
		}
		if enter < 0 {
			return false
		}
		l.column(enter)
		if math.Abs(l.alpha[leave]) < tiny || !l.pivot(leave, enter, l.reduced(enter)) {
			return false
		}
	}
}

// value of the basis.
func (l *lp) value() float64 {
	sum := 0.0
	for r, c := range l.basis {
		sum += float64(l.columns[c].cost * l.x[r])
	}
	return sum
}
