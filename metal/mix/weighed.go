package mix

import (
	"math/big"
	"sort"

	"castweek/metal/measure"
)

// Weighed judges weights of lots as they are, one per lot, by the same exact
// conditions that [Make] keeps: the aim, the standard with every weighing off
// by one step against us, the bands, and what there is of each lot. Short says
// how much of the finest lot to add, where that is the remedy.
func Weighed(w Want, lots []Lot, weighed []measure.Milligram) Answer {
	a := Answer{Problems: judge(w, lots)}
	if len(a.Problems.Errors()) > 0 {
		return a
	}
	if len(weighed) != len(lots) {
		a.Problems.Add(atMix, "mix-weights", "give one weight for each lot", "%d weights for %d lots", len(weighed), len(lots))
		return a
	}
	f := finenesses(w, lots)
	for i, g := range weighed {
		switch {
		case g < 0 || g > largest || g%w.Step != 0:
			a.Problems.Add(atLot(lots[i].Name), "mix-weight", "weigh in whole steps of the scale", "%v can not be weighed on a scale of %v", g, w.Step)
			return a
		case lots[i].Limited && g > lots[i].Limit:
			a.Problems.Add(atLot(lots[i].Name), "mix-over-lot", "take no more than there is", "%v wanted, %v there", g, lots[i].Limit)
		case g > 0:
			a.Takes = append(a.Takes, Take{i, lots[i].Name, g})
			a.Total += g
		}
	}
	if a.Total <= 0 {
		a.Problems.Add(atMix, "mix-empty", "weigh something", "nothing is weighed")
		return a
	}
	a.Fineness, a.Worst = fineness(f, weighed, w.Step)
	if a.Total < w.Grams {
		a.Problems.Add(atMix, "mix-under", "add more", "%v weighed, %v wanted", a.Total, w.Grams)
	}
	m := newModel(w, lots, w.Step, true)
	n := steps(weighed, w.Step)
	if weigh(new(big.Rat), m.conditions[0], n).Sign() < 0 || a.Worst.Cmp(w.Fineness) < 0 {
		a.tooPoor(w, lots, f, weighed)
	}
	a.checkBands(w, lots, n)
	return a
}

func (a *Answer) tooPoor(w Want, lots []Lot, f []*big.Rat, weighed []measure.Milligram) {
	message, values := "%s ‰ of %s, %s ‰ if the scale is one step off each time; wanted %s ‰ with the margin, and never under %s ‰",
		[]any{Shown(a.Fineness), ElementName(w.Metal), Shown(a.Worst), w.Aim().FloatString(1), w.Fineness.FloatString(1)}
	i, more := add(w, f, weighed)
	if i < 0 {
		a.Problems.Add(atMix, "mix-not-fine-enough", "no lot here is fine enough to mend it: add finer metal", message, values...)
		return
	}
	a.Short = []Shortage{{w.Metal, more}}
	a.Problems.Add(atMix, "mix-not-fine-enough", "add "+more.String()+" of "+lots[i].Name, message, values...)
}

// checkBands names each element that is out of its band.
func (a *Answer) checkBands(w Want, lots []Lot, n []int64) {
	for _, b := range w.Bands {
		least, most := new(big.Rat), new(big.Rat)
		for i, x := range lots {
			surely, atMost := x.of(w, b.Element)
			k := big.NewRat(n[i], 1)
			least.Add(least, mul(surely, k))
			most.Add(most, mul(atMost, k))
		}
		all := big.NewRat(int64(a.Total/w.Step), 1)
		least.Quo(least, all)
		most.Quo(most, all)
		if b.Low != nil && least.Cmp(b.Low) < 0 {
			a.Problems.Add(atMix, "mix-band-low", "add what holds more of it, or it is another alloy", "%s ‰ of %s, at least %s ‰ wanted", Shown(least), ElementName(b.Element), b.Low.FloatString(1))
		}
		if b.High != nil && most.Cmp(b.High) > 0 {
			a.Problems.Add(atMix, "mix-band-high", "add what holds less of it, or it is another alloy", "%s ‰ of %s, at most %s ‰ wanted", most.FloatString(2), ElementName(b.Element), b.High.FloatString(1))
		}
	}
}

func steps(weighed []measure.Milligram, step measure.Milligram) []int64 {
	n := make([]int64, len(weighed))
	for i, g := range weighed {
		n[i] = int64(g / step)
	}
	return n
}

// fineness is Σfm/Σm of the weights, and the least it can be when each weighing
// is off by up to one step. The least is reached with every lot finer than some
// bound one step less and every other one step more; each bound is tried.
func fineness(f []*big.Rat, weighed []measure.Milligram, step measure.Milligram) (is, worst *big.Rat) {
	var order []int
	for i, g := range weighed {
		if g > 0 {
			order = append(order, i)
		}
	}
	sort.SliceStable(order, func(a, b int) bool { return f[order[a]].Cmp(f[order[b]]) < 0 })
	ratio := func(poor int, off measure.Milligram) *big.Rat {
		fine, mass := new(big.Rat), new(big.Rat)
		for k, i := range order {
			g := weighed[i] + off
			if k >= poor {
				g = weighed[i] - off
			}
			m := big.NewRat(int64(g), 1)
			fine.Add(fine, mul(f[i], m))
			mass.Add(mass, m)
		}
		if mass.Sign() == 0 {
			return nil
		}
		return fine.Quo(fine, mass)
	}
	is = ratio(0, 0)
	worst = is
	for poor := 0; poor <= len(order); poor++ {
		if r := ratio(poor, step); r != nil && r.Cmp(worst) < 0 {
			worst = r
		}
	}
	return is, worst
}

// add is the least weight of the finest lot that mends a mix which is too poor.
// It is one more weighing, with an error of its own. A lot that has too little
// left still says how much is needed. -1 if no lot is fine enough.
func add(w Want, f []*big.Rat, weighed []measure.Milligram) (int, measure.Milligram) {
	finest := 0
	for i := range f {
		if f[i].Cmp(f[finest]) > 0 {
			finest = i
		}
	}
	gain := sub(f[finest], w.Aim())
	if gain.Sign() <= 0 {
		return -1, 0
	}
	// Steps y with Σn(f−aim) + y·gain ≥ 0, and Σn(f−s) + y·(F−s) ≥ Σ|f−s| + (F−s).
	lack, slack := new(big.Rat), new(big.Rat)
	for i, n := range steps(weighed, w.Step) {
		if n > 0 {
			k := big.NewRat(n, 1)
			lack.Sub(lack, mul(k, sub(f[i], w.Aim())))
			d := sub(f[i], w.Fineness)
			slack.Sub(slack, mul(k, d))
			slack.Add(slack, d.Abs(d))
		}
	}
	over := sub(f[finest], w.Fineness)
	slack.Add(slack, over)
	y := max(ceil(lack.Quo(lack, gain)), ceil(slack.Quo(slack, over)), 1)
	return finest, measure.Milligram(y) * w.Step
}

func ceil(r *big.Rat) int64 { return -floor(new(big.Rat).Neg(r)) }

// Shown writes a fineness in ‰ with two decimals, rounded down: 749.996 must
// not be read as 750.00.
func Shown(fineness *big.Rat) string {
	return big.NewRat(floor(mul(fineness, big.NewRat(100, 1))), 100).FloatString(2)
}
