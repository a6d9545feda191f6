package mix

import (
	"bufio"
	"fmt"
	"math"
	"math/big"
	"math/rand"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"

	"castweek/metal/measure"

	"pgregory.net/rapid"
)

// drawCase makes a wish and lots of gold alloys; pick(n) gives 0 … n−1.
func drawCase(pick func(n int) int) (Want, []Lot) {
	tenth := func(n int) *big.Rat { return big.NewRat(int64(n), 10) }
	w := Want{
		Metal: "Au", Fineness: r([]string{"375", "585", "750", "916"}[pick(4)]), Margin: tenth(pick(30)),
		Grams: measure.Milligram(1 + pick(300_000)), Step: measure.Milligram([]int{1, 10, 100}[pick(3)]),
		Objective: Objective(pick(2)),
	}
	if pick(2) == 0 {
		low := pick(300)
		w.Bands = []Band{{"Ag", tenth(low * 5), tenth(low*5 + 100 + pick(3000))}}
		if pick(2) == 0 {
			w.Bands = append(w.Bands, Band{"Zn", nil, tenth(pick(500))})
		}
	}
	w.StampDiscount = r("15")
	var lots []Lot
	for i := range 2 + pick(7) {
		l := Lot{Name: fmt.Sprint("lot ", i+1), Cost: tenth(pick(900))}
		au := []int{0, 0, 3750, 5850, 7500, 9160, 9999, pick(10001)}[pick(8)]
		ag := pick(10001 - au)
		zn := pick(10001 - au - ag)
		for _, c := range []struct {
			e string
			v int
		}{{"Au", au}, {"Ag", ag}, {"Zn", zn}, {"Cu", 10000 - au - ag - zn}} {
			l.Comp = append(l.Comp, Content{c.e, tenth(c.v)})
		}
		l.Fresh = au == 9999
		if pick(3) > 0 {
			l.Limited, l.Limit = true, measure.Milligram(pick(200_000))
		}
		l.StampOnly = pick(20) == 0
		lots = append(lots, l)
	}
	return w, lots
}

// check reckons the answer again from the lots alone: fine metal in is fine
// metal out, no lot is overdrawn, the total and every bound holds, and no way
// of weighing each lot up to one step wrong brings it under the standard.
func check(t interface{ Fatalf(string, ...any) }, w Want, lots []Lot, a Answer) {
	in, total := map[string]*big.Rat{}, int64(0)
	used := map[int]bool{}
	var f []*big.Rat
	for _, k := range a.Takes {
		l := lots[k.Lot]
		if k.Grams <= 0 || k.Grams%w.Step != 0 || used[k.Lot] || l.Limited && k.Grams > l.Limit {
			t.Fatalf("take %v of a lot with %v", k, l.Limit)
		}
		used[k.Lot] = true
		total += int64(k.Grams)
		fine := new(big.Rat)
		for _, c := range l.Comp {
			v := new(big.Rat).Set(c.PerMille)
			if l.StampOnly && c.Element == w.Metal {
				if v.Sub(v, w.StampDiscount).Sign() < 0 {
					v.SetInt64(0)
				}
			}
			if c.Element == w.Metal {
				fine = v
			}
			if in[c.Element] == nil {
				in[c.Element] = new(big.Rat)
			}
			in[c.Element].Add(in[c.Element], mul(v, big.NewRat(int64(k.Grams), 1)))
		}
		f = append(f, fine)
	}
	all := big.NewRat(total, 1)
	if total < int64(w.Grams) || total >= int64(w.Grams)+4*int64(w.Step) || total != int64(a.Total) {
		t.Fatalf("total %d mg, said %v, wanted %v", total, a.Total, w.Grams)
	}
	if a.Fineness.Cmp(new(big.Rat).Quo(in[w.Metal], all)) != 0 || a.Fineness.Cmp(w.Aim()) < 0 {
		t.Fatalf("fineness %v, aim %v", a.Fineness, w.Aim())
	}
	for _, b := range w.Bands {
		v := new(big.Rat)
		if in[b.Element] != nil {
			v.Quo(in[b.Element], all)
		}
		if b.Low != nil && v.Cmp(b.Low) < 0 || b.High != nil && v.Cmp(b.High) > 0 {
			t.Fatalf("%s at %v ‰", b.Element, v)
		}
	}
	worst := new(big.Rat).Set(a.Fineness)
	for signs := range 1 << len(f) {
		fine, mass := new(big.Rat), new(big.Rat)
		for i, k := range a.Takes {
			g := k.Grams + w.Step
			if signs>>i&1 == 1 {
				g = k.Grams - w.Step
			}
			m := big.NewRat(int64(g), 1)
			mass.Add(mass, m)
			fine.Add(fine, mul(m, f[i]))
		}
		if mass.Sign() > 0 && fine.Quo(fine, mass).Cmp(worst) < 0 {
			worst = fine
		}
	}
	if worst.Cmp(a.Worst) != 0 || worst.Cmp(w.Fineness) < 0 {
		t.Fatalf("worst is %v, said %v, standard %v", worst, a.Worst, w.Fineness)
	}
}

func TestRandomLots(t *testing.T) {
	made, refused, mended := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		w, lots := drawCase(func(n int) int { return rapid.IntRange(0, n-1).Draw(t, "pick") })
		a := Make(w, lots)
		if a.OK() {
			made++
			check(t, w, lots, a)
			return
		}
		refused++
		for _, s := range a.Short {
			l := pure(w, lots, s.Element)
			l.Limited, l.Limit = true, s.Grams
			lots = append(lots, l)
		}
		if len(a.Short) == 0 {
			return
		}
		again := Make(w, lots)
		if !again.OK() {
			t.Fatalf("short %v, and with it still %v", a.Short, again.Problems)
		}
		mended++
		check(t, w, lots, again)
	})
	t.Logf("%d made, %d refused, %d of them mended by what was said to be short", made, refused, mended)
	if made == 0 || mended == 0 {
		t.Error("one branch was never taken")
	}
}

// lpText writes the mix for the independent solver from the lots alone.
func lpText(w Want, lots []Lot) string {
	var b strings.Builder
	line := func(coef func(l Lot) *big.Rat, tail string) {
		for i, l := range lots {
			fmt.Fprintf(&b, " %+.6f x%d", f64(coef(l)), i)
		}
		b.WriteString(tail + "\n")
	}
	of := func(l Lot, e string, most bool) *big.Rat {
		sum, v := new(big.Rat), new(big.Rat)
		for _, c := range l.Comp {
			sum.Add(sum, c.PerMille)
			if c.Element == e {
				v.Set(c.PerMille)
			}
		}
		if l.StampOnly && most {
			v.Add(v, sub(thousand, sum))
		} else if l.StampOnly && e == w.Metal {
			if v.Sub(v, w.StampDiscount).Sign() < 0 {
				v.SetInt64(0)
			}
		}
		return v
	}
	b.WriteString("Minimize\n o:")
	line(func(l Lot) *big.Rat {
		switch {
		case w.Objective == LeastCost:
			return l.Cost
		case l.Fresh:
			return r("1")
		}
		return new(big.Rat)
	}, "")
	b.WriteString("Subject To\n total:")
	line(func(Lot) *big.Rat { return r("1") }, fmt.Sprintf(" = %.3f", w.Grams.Gram()))
	b.WriteString(" fine:")
	line(func(l Lot) *big.Rat { return sub(of(l, "Au", false), w.Aim()) }, " >= 0")
	for _, d := range w.Bands {
		if d.Low != nil {
			line(func(l Lot) *big.Rat { return sub(of(l, d.Element, false), d.Low) }, " >= 0")
		}
		line(func(l Lot) *big.Rat { return sub(of(l, d.Element, true), d.High) }, " <= 0")
	}
	b.WriteString("Bounds\n")
	for i, l := range lots {
		if l.Limited {
			fmt.Fprintf(&b, " 0 <= x%d <= %.3f\n", i, l.Limit.Gram())
		}
	}
	return b.String() + "End\n"
}

func f64(v *big.Rat) float64 { f, _ := v.Float64(); return f }

// glpsol gives the optimum of an LP text, or false when there is none.
func glpsol(file string) (optimum float64, feasible bool, err error) {
	out := file + ".out"
	if text, err := exec.Command("glpsol", "--lp", file, "--exact", "--write", out).CombinedOutput(); err != nil {
		return 0, false, fmt.Errorf("%v: %s", err, text)
	}
	data, err := os.ReadFile(out)
	if err != nil {
		return 0, false, err
	}
	for s := bufio.NewScanner(strings.NewReader(string(data))); s.Scan(); {
		// s bas ROWS COLS PRIMAL DUAL VALUE
		if f := strings.Fields(s.Text()); len(f) == 7 && f[0] == "s" {
			v, err := strconv.ParseFloat(f[6], 64)
			return v, f[4] == "f" && f[5] == "f", err
		}
	}
	return 0, false, fmt.Errorf("no solution line in %s", data)
}

// The optimum and the verdict agree with those of GLPK's simplex on 500 random
// mixes.
func TestAgainstIndependentSolver(t *testing.T) {
	if _, err := exec.LookPath("glpsol"); err != nil {
		if os.Getenv("CASTWEEK_READERS") == "required" {
			t.Fatal("glpsol is required and not here")
		}
		t.Skip("glpsol is not here")
	}
	dir, random := t.TempDir(), rand.New(rand.NewSource(20261125))
	type verdict struct {
		value    float64
		feasible bool
	}
	const cases = 500
	var ours, theirs [cases]verdict
	var wg sync.WaitGroup
	slots := make(chan bool, 4)
	for i := range cases {
		w, lots := drawCase(random.Intn)
		_, optimum, err := Exact(w, lots)
		if err == nil {
			ours[i] = verdict{f64(optimum), true}
			if w.Objective == LeastFresh {
				ours[i].value /= 1000 // mg
			}
		} else if err != errInfeasible {
			t.Fatal(err)
		}
		file := filepath.Join(dir, fmt.Sprint(i, ".lp"))
		if err := os.WriteFile(file, []byte(lpText(w, lots)), 0o600); err != nil {
			t.Fatal(err)
		}
		wg.Add(1)
		slots <- true
		go func() {
			defer func() { <-slots; wg.Done() }()
			v, ok, err := glpsol(file)
			if err != nil {
				t.Error(err)
			}
			theirs[i] = verdict{v, ok}
		}()
	}
	wg.Wait()
	feasible := 0
	for i := range ours {
		if ours[i].feasible != theirs[i].feasible {
			t.Errorf("case %d: feasible here %v, there %v", i, ours[i].feasible, theirs[i].feasible)
		} else if ours[i].feasible {
			feasible++
			if d := math.Abs(ours[i].value - theirs[i].value); d > 1e-6*(1+math.Abs(theirs[i].value)) {
				t.Errorf("case %d: %g here, %g there", i, ours[i].value, theirs[i].value)
			}
		}
	}
	t.Logf("%d of %d mixes feasible", feasible, cases)
	if feasible < cases/10 || feasible > cases*9/10 {
		t.Error("the cases are one-sided")
	}
}
