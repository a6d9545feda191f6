package mix

import (
	"math/big"

	"castweek/metal/measure"
	"castweek/metal/problem"
)

// sumTolerance is how far a composition may be from 1000 ‰: the sheets round
// each element to a whole ‰.
var sumTolerance = big.NewRat(1, 1)

var thousand = big.NewRat(1000, 1)

// largest bounds a mix; a workshop's melt is far below 100 kg.
const largest measure.Milligram = 100_000_000

func atLot(name string) problem.Place { return problem.Place{File: "lot " + name} }

var atMix = problem.Place{File: "mix"}

// judge collects what is wrong with the wish and the lots.
func judge(w Want, lots []Lot) (l problem.List) {
	if w.Metal == "" || w.Fineness == nil || w.Fineness.Sign() <= 0 || w.Fineness.Cmp(thousand) > 0 {
		l.Add(atMix, "mix-fineness", "say which metal, and its standard in parts per thousand", "the wanted fineness must lie above 0 and not above 1000 ‰")
	}
	if w.Margin != nil && w.Margin.Sign() < 0 {
		l.Add(atMix, "mix-margin", "give a margin of 0 ‰ or more; there is no minus tolerance", "the house margin is negative")
	}
	if w.Grams <= 0 || w.Grams > largest {
		l.Add(atMix, "mix-grams", "give the weight of the whole mix", "%v is not a weight to mix", w.Grams)
	}
	if w.Step < 1 {
		l.Add(atMix, "mix-step", "give one step of the scale, such as 0.01 g", "the scale has no step")
	}
	if w.StampDiscount != nil && w.StampDiscount.Sign() < 0 {
		l.Add(atMix, "mix-discount", "give a discount of 0 ‰ or more", "the discount on stamps is negative")
	}
	if len(lots) == 0 {
		l.Add(atMix, "mix-no-lots", "name at least one lot", "there is nothing to mix from")
	}
	for _, b := range w.Bands {
		if b.Element == "" || b.Low != nil && (b.Low.Sign() < 0 || b.Low.Cmp(thousand) > 0) ||
			b.High != nil && b.High.Sign() < 0 || b.Low != nil && b.High != nil && b.Low.Cmp(b.High) > 0 {
			l.Add(atMix, "mix-band", "give the least and the most, in parts per thousand", "the band of %s is not one", ElementName(b.Element))
		}
	}
	for _, x := range lots {
		judgeLot(&l, w, x)
	}
	return l
}

func judgeLot(l *problem.List, w Want, x Lot) {
	at := atLot(x.Name)
	if x.Limited && x.Limit < 0 {
		l.Add(at, "lot-weight", "a lot that ran out has 0 g", "%v is not a weight", x.Limit)
	}
	if x.Soldered {
		l.Add(at, "lot-soldered", "send it to the refiner, or assay it", "it holds solder, so that its fineness is not known")
	}
	if w.Objective == LeastCost && (x.Cost == nil || x.Cost.Sign() < 0) {
		l.Add(at, "lot-cost", "give its cost per gram, or ask for the least fresh metal", "its cost is not known")
	}
	if x.StampOnly && w.StampDiscount == nil {
		l.Add(at, "lot-stamp-only", "assay it, or set a house discount for stamps", "a stamp is not a fineness")
	}
	sum, seen := new(big.Rat), map[string]bool{}
	for _, c := range x.Comp {
		if c.PerMille == nil || c.PerMille.Sign() < 0 || c.Element == "" || seen[c.Element] {
			l.Add(at, "lot-composition", "name each element once, with 0 to 1000 ‰", "its composition can not be read at %q", c.Element)
			return
		}
		seen[c.Element] = true
		sum.Add(sum, c.PerMille)
		if c.Element == "Cd" && c.PerMille.Sign() > 0 {
			l.Add(at, "lot-cadmium", "send it to the refiner", "it holds cadmium")
		}
	}
	short := sub(thousand, sum)
	if short.Cmp(new(big.Rat).Neg(sumTolerance)) < 0 || !x.Partial && !x.StampOnly && short.Cmp(sumTolerance) > 0 {
		l.Add(at, "lot-sum", "give a composition that adds up to 1000 ‰", "its composition adds up to %s ‰, not 1000", sum.FloatString(1))
	}
}

// of is what the lot surely holds of an element, in ‰, and at most.
func (x Lot) of(w Want, element string) (surely, atMost *big.Rat) {
	surely, rest := new(big.Rat), new(big.Rat).Set(thousand)
	for _, c := range x.Comp {
		rest.Sub(rest, c.PerMille)
		if c.Element == element {
			surely.Set(c.PerMille)
		}
	}
	if !x.Partial && !x.StampOnly || rest.Sign() < 0 {
		rest.SetInt64(0)
	}
	atMost = new(big.Rat).Add(surely, rest)
	if x.StampOnly && element == w.Metal && w.StampDiscount != nil {
		surely.Sub(surely, w.StampDiscount)
		if surely.Sign() < 0 {
			surely.SetInt64(0)
		}
	}
	return surely, atMost
}

// finenesses are the lots' contents of the wanted metal that are counted on.
func finenesses(w Want, lots []Lot) []*big.Rat {
	f := make([]*big.Rat, len(lots))
	for i, x := range lots {
		f[i], _ = x.of(w, w.Metal)
	}
	return f
}

// Rescaled is a recipe brought to another fineness of one metal: the others
// share what is left in the proportions they have. It is how a melt of a known
// alloy that came out a little finer is reckoned.
func Rescaled(recipe []Content, metal string, fineness *big.Rat) []Content {
	rest := new(big.Rat)
	for _, c := range recipe {
		if c.Element != metal {
			rest.Add(rest, c.PerMille)
		}
	}
	out := []Content{{metal, fineness}}
	for _, c := range recipe {
		if c.Element != metal && rest.Sign() > 0 {
			out = append(out, Content{c.Element, mul(c.PerMille, new(big.Rat).Quo(sub(thousand, fineness), rest))})
		}
	}
	return out
}

// Composition of what is taken of the lots, in ‰, each element as it surely is.
// Elements come in the order in which the lots name them.
func Composition(w Want, lots []Lot, takes []Take) (out []Content) {
	total := new(big.Rat)
	at := map[string]int{}
	for _, k := range takes {
		g := big.NewRat(int64(k.Grams), 1)
		total.Add(total, g)
		for _, c := range lots[k.Lot].Comp {
			i, ok := at[c.Element]
			if !ok {
				i = len(out)
				at[c.Element] = i
				out = append(out, Content{c.Element, new(big.Rat)})
			}
			surely, _ := lots[k.Lot].of(w, c.Element)
			out[i].PerMille.Add(out[i].PerMille, mul(surely, g))
		}
	}
	for _, c := range out {
		c.PerMille.Quo(c.PerMille, total)
	}
	return out
}
