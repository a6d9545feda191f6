// Package metal knows alloys, their density, and how much of one has to be
// melted for a tree. It knows nothing of jobs or of sheets.
package metal

import (
	"fmt"
	"strings"

	"castweek/metal/measure"
)

// An Element is named by its chemical symbol.
type Element string

// element carries what is needed of one element.
type element struct {
	symbol  Element
	name    string
	density measure.GramPerCC // near 20 °C
}

// elements lists densities near 20 °C. Cu, Zn, Ni, Co and Ga are the figures
// of the CRC Handbook of Chemistry and Physics; Pd 12.02 and Pt 21.45 are given
// by Platinum Metals Review 16(2), 1972, p. 59 beside the rounded handbook
// figures used here; Au, Ag, Pd, Pt, Ir, Ru and all after it are the
// handbook's from memory.
var elements = []element{
	{"Au", "gold", 19.3},
	{"Ag", "silver", 10.5},
	{"Cu", "copper", 8.96},
	{"Zn", "zinc", 7.134},
	{"Ni", "nickel", 8.90},
	{"Co", "cobalt", 8.86},
	{"Ga", "gallium", 5.91},
	{"Pd", "palladium", 12.0},
	{"Pt", "platinum", 21.5},
	{"Ir", "iridium", 22.56},
	{"Ru", "ruthenium", 12.1},
	{"Rh", "rhodium", 12.4},
	{"In", "indium", 7.31},
	{"Sn", "tin", 7.287},
	{"Cd", "cadmium", 8.69},
	{"Fe", "iron", 7.87},
	{"Ge", "germanium", 5.323},
	{"Si", "silicon", 2.33},
	{"Pb", "lead", 11.34},
}

// ElementNamed finds an element by its symbol or by its English name.
func ElementNamed(text string) (Element, bool) {
	for _, e := range elements {
		if string(e.symbol) == text || strings.EqualFold(e.name, text) {
			return e.symbol, true
		}
	}
	return "", false
}

// Name is the element's English name, or its symbol when it is not listed.
func (e Element) Name() string {
	for _, k := range elements {
		if k.symbol == e {
			return k.name
		}
	}
	return string(e)
}

// Densities are densities by element.
type Densities map[Element]measure.GramPerCC

// ElementDensities is the house table, as a fresh map.
func ElementDensities() Densities {
	d := Densities{}
	for _, e := range elements {
		d[e.symbol] = e.density
	}
	return d
}

// Parts is a mass share in parts per million, so that what was typed with up
// to three decimals of a per mille is kept exactly.
type Parts int64

// Whole is the sum that the shares of an alloy add up to.
const Whole Parts = 1_000_000

// PerMille is the share in thousandths.
func (p Parts) PerMille() measure.PerMille { return measure.PerMille(float64(p) / 1000) }

// PartsOf turns thousandths into parts per million, to the nearest one.
func PartsOf(p measure.PerMille) Parts { return Parts(float64(p)*1000 + 0.5) }

// A Share is how much of an alloy is one element.
type Share struct {
	Element Element
	Parts   Parts
}

// Composition is an alloy's recipe, the named metal first.
type Composition []Share

// Sum of all shares.
func (c Composition) Sum() Parts {
	var s Parts
	for _, e := range c {
		s += e.Parts
	}
	return s
}

// Of is the share of one element.
func (c Composition) Of(e Element) Parts {
	var s Parts
	for _, x := range c {
		if x.Element == e {
			s += x.Parts
		}
	}
	return s
}

// sumSlack is how far the shares of a recipe may miss 1000 ‰: printed recipes
// are rounded to whole thousandths; more than 1 ‰ is a misprint (four
// published tables hold such rows).
const sumSlack Parts = 1000

// AddsUp tells whether the shares make 1000 ± 1 ‰.
func (c Composition) AddsUp() bool {
	d := c.Sum() - Whole
	return -sumSlack <= d && d <= sumSlack
}

// Density by the rule of mixtures: 1/ρ = Σ wᵢ/ρᵢ with the mass fractions wᵢ
// (volumes add, not densities), over the shares as they add up. An element
// without a density is an error.
func (c Composition) Density(table Densities) (measure.GramPerCC, error) {
	volume := 0.0
	for _, s := range c {
		d := table[s.Element]
		if d <= 0 {
			return 0, fmt.Errorf("no density is known for %s", s.Element.Name())
		}
		volume += float64(s.Parts) / float64(d)
	}
	if volume == 0 {
		return 0, fmt.Errorf("the composition is empty")
	}
	return measure.GramPerCC(float64(c.Sum()) / volume), nil
}

// String writes "gold 750 ‰, silver 125 ‰, copper 125 ‰".
func (c Composition) String() string {
	var parts []string
	for _, s := range c {
		parts = append(parts, s.Element.Name()+" "+s.Parts.PerMille().String())
	}
	return strings.Join(parts, ", ")
}
