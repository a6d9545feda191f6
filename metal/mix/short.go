package mix

import (
	"errors"
	"math/big"
	"slices"
	"strings"

	"castweek/metal/measure"
)

var errTooCoarse = errors.New("no weighing on this scale keeps all conditions")

// fineMetal is the fineness of metal that could be bought, where no lot is
// finer: the usual refined quality (common practice, no source).
var fineMetal = big.NewRat(9999, 10)

// refuse explains why there is no mix, and reckons what is missing: the least
// of the wanted metal and then the least of the others that, added to the lots
// within the same total, makes the mix possible.
func refuse(w Want, lots []Lot) Answer {
	var a Answer
	if top, _ := pure(w, lots, w.Metal).of(w, w.Metal); w.Aim().Cmp(top) > 0 {
		a.Problems.Add(atMix, "mix-aim-too-high", "give a smaller margin: metal this fine is used as it was bought", "the aim of %s ‰ is above the finest metal, %s ‰", w.Aim().FloatString(1), Shown(top))
		return a
	}
	short, err := shortage(w, lots)
	if err != nil && err != errTooCoarse {
		a.Problems.Add(atMix, "mix-impossible", "check the bands against the standard and the margin", "no metal at all could make this: the conditions contradict each other")
		return a
	}
	a.Short = short
	var parts []string
	for _, s := range short {
		word := ElementName(s.Element)
		if s.Element == w.Metal {
			word = "fine " + word
		}
		parts = append(parts, s.Grams.String()+" more "+word)
	}
	// Not on top: the total stays what was wanted.
	offer := "add " + strings.Join(parts, ", ") + " to the lots, for a whole of " + w.Grams.RoundUp(w.Step).String() + " as before"
	switch {
	case len(parts) == 0: // only the rounding stands in the way
		a.Problems.Add(atMix, "mix-scale-too-coarse", "mix more at once, use a finer scale, or widen the bands", "no weighing in steps of %v keeps every bound", w.Step)
	case short[0].Element == w.Metal:
		a.Problems.Add(atMix, "mix-not-fine-enough", offer, "not fine enough: %s", strings.Join(parts, ", "))
	default:
		a.Problems.Add(atMix, "mix-short", offer, "too little metal for this alloy: %s", strings.Join(parts, ", "))
	}
	return a
}

// shortage reckons with pure elements added to the lots. Its weights are
// checked: with them the mix can be made.
func shortage(w Want, lots []Lot) ([]Shortage, error) {
	all := append([]Lot(nil), lots...)
	for _, e := range wanting(w) {
		all = append(all, pure(w, lots, e))
	}
	m := newModel(w, all, w.Step, true)
	first, rest := zeros(len(all)), zeros(len(all))
	first[len(lots)].SetInt64(1)
	for i := len(lots) + 1; i < len(all); i++ {
		rest[i].SetInt64(1)
	}
	m.objectives = append([][]*big.Rat{first, rest}, m.objectives...)
	x, _, err := m.best(false)
	if err != nil {
		return nil, err
	}
	// Rounding may need a few steps more than the programme.
	for _, extra := range []int64{0, 1, 2, 4, 8} {
		var short []Shortage
		for i := len(lots); i < len(all); i++ {
			all[i].Limited, all[i].Limit = true, 0
			if x[i].Sign() > 0 {
				g := measure.Milligram(ceil(x[i])+extra) * w.Step
				all[i].Limit = g
				short = append(short, Shortage{all[i].Name, g})
			}
		}
		if _, err := attempt(w, all); err == nil {
			return short, nil
		}
	}
	return nil, errTooCoarse
}

// wanting lists what may be missing: the wanted metal, the elements with bands,
// and any alloy without them.
func wanting(w Want) []string {
	out := []string{w.Metal}
	for _, b := range w.Bands {
		if !slices.Contains(out, b.Element) {
			out = append(out, b.Element)
		}
	}
	return append(out, AnyAlloy)
}

// pure is unlimited metal of one element; the wanted one as fine as the finest
// lot, or as can be bought.
func pure(w Want, lots []Lot, element string) Lot {
	fineness := new(big.Rat).Set(thousand)
	if element == w.Metal {
		fineness.Set(fineMetal)
		for _, f := range finenesses(w, lots) {
			if f.Cmp(fineness) > 0 {
				fineness.Set(f)
			}
		}
	}
	return Lot{Name: element, Comp: []Content{{element, fineness}}, Cost: new(big.Rat)}
}
