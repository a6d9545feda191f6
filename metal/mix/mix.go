// Package mix makes a wanted alloy and fineness from the lots on hand, and
// shares lots out over several pours.
//
// It is a numeric leaf: amounts of metal are exact rationals ([big.Rat]) or
// whole milligrams, finenesses are exact rationals in parts per thousand by
// mass, and nothing is decided on a float. A mark has no minus tolerance (ISO
// 9202; Hallmarking Act 1973 s.1(4)), so every comparison with a standard is
// >= on rationals.
package mix

import (
	"math/big"

	"castweek/metal/measure"
	"castweek/metal/problem"
)

// Content is one element of a composition, in parts per thousand by mass. The
// element is its chemical symbol ("Au").
type Content struct {
	Element  string
	PerMille *big.Rat
}

// A Lot is metal that may go into the mix.
type Lot struct {
	Name string
	// Comp adds up to 1000 ‰ ±1, unless the lot is Partial or StampOnly.
	Comp []Content
	// Limit is what there is of it; it counts only when Limited.
	Limit   measure.Milligram
	Limited bool
	// Fresh marks fine metal that LeastFresh spends last.
	Fresh bool
	// Cost is money per gram, in any one currency; nil when not known.
	Cost *big.Rat
	// StampOnly: the fineness was read off a stamp. It counts at the house
	// discount of the Want, or the lot is refused.
	StampOnly bool
	// Partial: only the listed elements are known. The rest counts as
	// whatever would be worst for each band.
	Partial bool
	// Soldered metal is refused: its fineness is not that of its stamp and
	// its solder may hold anything.
	Soldered bool
}

// A Band bounds one element of the result, in parts per thousand. A nil bound
// is none. Bands keep a mix that is fine enough from being another alloy.
type Band struct {
	Element   string
	Low, High *big.Rat
}

// Objective says what is spent as little as possible.
type Objective int

const (
	// LeastFresh spends the fewest grams of lots marked Fresh, and among
	// those mixes the least of the wanted metal.
	LeastFresh Objective = iota
	// LeastCost spends the least money, and among those mixes the least of
	// the wanted metal.
	LeastCost
)

// A Want is what shall come out.
type Want struct {
	// Metal is the symbol whose fineness is wanted, Fineness the legal
	// standard in ‰. The mix aims at Fineness + Margin.
	Metal    string
	Fineness *big.Rat
	Margin   *big.Rat
	Bands    []Band
	// Grams is the least total; Step is one step of the scale.
	Grams     measure.Milligram
	Step      measure.Milligram
	Objective Objective
	// StampDiscount is taken off the fineness of lots known by a stamp only;
	// nil refuses such lots.
	StampDiscount *big.Rat
}

// DefaultMargin is the house margin over the standard, in ‰: common practice,
// no source. It covers what a single weighing error does not: loss of the
// dearer metal in melting and the spread of an assay.
func DefaultMargin() *big.Rat { return big.NewRat(1, 1) }

// Aim is the fineness the mix aims at: standard plus margin.
func (w Want) Aim() *big.Rat {
	a := new(big.Rat).Set(w.Fineness)
	if w.Margin != nil {
		a.Add(a, w.Margin)
	}
	return a
}

// A Take is how much of a lot goes in.
type Take struct {
	Lot   int // index into the lots that were given
	Name  string
	Grams measure.Milligram
}

// A Shortage is what is missing of one element. Element is a symbol, or
// [AnyAlloy] for metal without any of the elements that were asked about.
type Shortage struct {
	Element string
	Grams   measure.Milligram
}

// AnyAlloy stands in a Shortage for gold-free alloy whose recipe was not asked
// for.
const AnyAlloy = "alloy"

// An Answer is a mix that can be weighed, if it is [Answer.OK]; otherwise Short
// says what is missing, where it could be made up at all.
type Answer struct {
	Takes []Take
	Total measure.Milligram
	// Fineness is that of the weighed amounts, Worst the least that it can be
	// when every weighing is off by one step of the scale. Exact, in ‰.
	Fineness, Worst *big.Rat
	// Optimum is the objective before rounding to the scale, in mg of fresh
	// metal or money.
	Optimum  *big.Rat
	Short    []Shortage
	Problems problem.List
}

// OK says whether the mix can be made.
func (a Answer) OK() bool { return len(a.Problems.Errors()) == 0 }

// names are the words for the elements met at the bench.
var names = map[string]string{
	"Au": "gold", "Ag": "silver", "Pt": "platinum", "Pd": "palladium", "Cu": "copper",
	"Zn": "zinc", "Ni": "nickel", "Co": "cobalt", "Ga": "gallium", "Ir": "iridium",
	"Ru": "ruthenium", "Rh": "rhodium", "In": "indium", "Sn": "tin", "Ge": "germanium",
	"Si": "silicon", "Fe": "iron", "Cd": "cadmium", "Pb": "lead",
}

// ElementName is the word for a symbol, or the symbol itself.
func ElementName(symbol string) string {
	if n, ok := names[symbol]; ok {
		return n
	}
	return symbol
}

// Precious says whether a symbol is one of the metals whose fineness is marked.
func Precious(symbol string) bool {
	return symbol == "Au" || symbol == "Ag" || symbol == "Pt" || symbol == "Pd"
}
