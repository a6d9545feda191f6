// Package invest works out how much investment powder and water a flask takes,
// and by which minute each step of mixing has to be done. All figures are house
// data with a default and its source; the powder maker's own sheet wins.
package invest

import (
	"fmt"
	"math"

	"castweek/metal/measure"
)

// A Powder is an investment powder as its maker's sheet describes it.
type Powder struct {
	Name      string
	Phosphate bool // phosphate-bonded; otherwise gypsum-bonded
	// Liquid per 100 parts of powder by weight, by section of the tree.
	Thin, Medium, Heavy measure.Percent
	// Slurry is the density of the mixed slurry. Weigh a known volume to be sure.
	Slurry measure.GramPerCC
	Spare  measure.Percent // mixed beyond what the flask takes
	Clock  Clock
	Sheet  string // where the figures are from
}

// Gypsum is a gypsum-bonded powder: 40, 39 and 38 parts of water for fine,
// medium and heavy castings (application specialist of an investment maker);
// slurry 1.73 g/cm³ (common practice, no source: 1.6 to 1.8); 15 % spare as in
// published amounts for small flasks.
func Gypsum(name string) Powder {
	return Powder{Name: name, Thin: 40, Medium: 39, Heavy: 38, Slurry: 1.73, Spare: 15, Clock: GypsumClock(), Sheet: "general figures; replace by the maker's sheet"}
}

// Phosphate is a phosphate-bonded powder: 28 to 33 ml of special liquid for 100
// g, 3 to 5 minutes of working time (from memory; dental sheets give 16 to
// 24 ml). Slurry taken as for gypsum.
func Phosphate(name string) Powder {
	return Powder{Name: name, Phosphate: true, Thin: 30, Medium: 30, Heavy: 30, Slurry: 1.8, Spare: 15, Clock: PhosphateClock(), Sheet: "from memory; use only with the maker's sheet in hand"}
}

// Ratio of liquid to powder for a section: "thin", "medium" or "heavy"; a
// section that is not known is poured as medium.
func (p Powder) Ratio(section string) measure.Percent {
	switch section {
	case "thin":
		return p.Thin
	case "heavy":
		return p.Heavy
	}
	return p.Medium
}

// A Mix is what one flask takes.
type Mix struct {
	Fill   measure.CubicMM   // flask less tree
	Powder measure.Milligram // whole grams
	Liquid measure.Milligram // whole grams; of water 1 g is 1 ml
	Ratio  measure.Percent
	Spare  measure.Percent
}

// gram is the step that powder and water are weighed in.
const gram measure.Milligram = 1000

// FlaskVolume is that of the inside of a flask: π/4 · d² · h.
func FlaskVolume(diameter, height measure.MM) measure.CubicMM {
	return measure.CubicMM(math.Pi / 4 * float64(diameter*diameter*height))
}

// For works out the mix of one flask:
//
//	slurry = (V_flask − V_tree) · ρ_slurry · (1 + spare)
//	powder = slurry / (1 + r), water = r · powder
//
// Powder is rounded up to whole grams and water follows the rounded powder, so
// that the ratio holds.
func (p Powder) For(flask, tree measure.CubicMM, section string) (Mix, error) {
	fill := flask - tree
	if fill <= 0 || tree < 0 {
		return Mix{}, fmt.Errorf("a tree of %s does not fit into a flask of %s", tree, flask)
	}
	r := p.Ratio(section)
	if r <= 0 || p.Slurry <= 0 {
		return Mix{}, fmt.Errorf("the powder %q has no ratio or no density of its slurry", p.Name)
	}
	m := Mix{Fill: fill, Ratio: r, Spare: p.Spare}
	slurry := fill.Times(p.Slurry) * measure.Gram(1+p.Spare/100)
	m.Powder = (slurry / measure.Gram(1+r/100)).RoundUp(gram)
	m.Liquid = p.LiquidFor(m.Powder, section)
	return m, nil
}

// LiquidFor is the liquid for powder that was really weighed, in whole grams.
func (p Powder) LiquidFor(powder measure.Milligram, section string) measure.Milligram {
	return p.liquid(powder.Gram(), section).Round(gram)
}

// liquid is so many parts of 100 of the powder, before it is rounded to what is
// weighed.
func (p Powder) liquid(powder measure.Gram, section string) measure.Gram {
	return powder * measure.Gram(p.Ratio(section)) / 100
}
