package mix

import (
	"math/big"
	"slices"
)

// ColourWidth is how far an element may be off the recipe, in ‰, before the
// colour is called another: common practice, no source; the steps between the
// named colours of 750 gold are 25 to 45 ‰ of silver.
func ColourWidth() *big.Rat { return big.NewRat(20, 1) }

// fineFrom is the fineness from which metal counts as fine, in ‰: the lowest
// that hallmarking laws list as such.
var fineFrom = big.NewRat(990, 1)

// IsFine says whether a fineness is that of fine metal.
func IsFine(fineness *big.Rat) bool { return fineness.Cmp(fineFrom) >= 0 }

// foreign lists what changes colour or wear when it comes into a recipe that
// has none of it.
var foreign = []string{"Ag", "Cu", "Zn", "Ni", "Pd", "Pt"}

// Around gives bands of the width around a recipe, for every element but the
// wanted metal, whose band is its fineness. Elements that the recipe has not
// get one too.
func Around(recipe []Content, metal string, width *big.Rat) (out []Band) {
	known := map[string]bool{metal: true}
	for _, c := range recipe {
		if c.Element == metal {
			continue
		}
		known[c.Element] = true
		low := sub(c.PerMille, width)
		if low.Sign() < 0 {
			low.SetInt64(0)
		}
		out = append(out, Band{c.Element, low, new(big.Rat).Add(c.PerMille, width)})
	}
	for _, e := range foreign {
		if !known[e] {
			out = append(out, Band{e, nil, new(big.Rat).Set(width)})
		}
	}
	return out
}

// A Departure is an element that is further from the recipe than [ColourWidth].
type Departure struct {
	Element    string
	Is, Recipe *big.Rat
}

// Departures lists them, the recipe's elements first. Without a recipe there
// are none.
func Departures(w Want, recipe []Content, lots []Lot, takes []Take) (out []Departure) {
	if len(recipe) == 0 {
		return nil
	}
	is := Composition(w, lots, takes)
	find := func(list []Content, e string) *big.Rat {
		if i := slices.IndexFunc(list, func(c Content) bool { return c.Element == e }); i >= 0 {
			return list[i].PerMille
		}
		return new(big.Rat)
	}
	elements := []string{}
	for _, c := range append(slices.Clone(recipe), is...) {
		if c.Element != w.Metal && !slices.Contains(elements, c.Element) {
			elements = append(elements, c.Element)
		}
	}
	for _, e := range elements {
		d := sub(find(is, e), find(recipe, e))
		if d.Abs(d).Cmp(ColourWidth()) > 0 {
			out = append(out, Departure{e, find(is, e), find(recipe, e)})
		}
	}
	return out
}
