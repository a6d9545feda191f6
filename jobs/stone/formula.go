package stone

import (
	"math"

	"castweek/metal/measure"
)

// product is what a formula multiplies its factor with.
type product int

const (
	lengthWidth  product = iota // L × W × depth
	meanDiameter                // mean diameter² × depth, the mean of L and W
)

// A formula gives carats: product × factor, and × SG unless the factor has the
// SG of diamond in it.
type formula struct {
	product product
	factor  float64
	diamond bool
	source  string
}

// Sources of factors.
const (
	appraiser = "appraisers' formula list"
	tradeList = "trade list of formulas"
	diamondA  = "diamond weight formulas, calculator's page"
	diamondB  = "diamond weight formulas, trade forum"
	bothSets  = appraiser + "; " + tradeList
	solid     = "volume of the solid"
)

// squareWithin is the length-to-width ratio up to which a cushion counts as
// square. House rule.
const squareWithin = 1.05

func formulas(m Measured) []formula {
	if m.Kind.Name == "diamond" {
		if f := diamondFormulas(m); f != nil {
			return f
		}
	}
	ratio := float64(m.Length / m.Width)
	switch m.Cut {
	case Round:
		return []formula{{meanDiameter, 0.0018, false, bothSets}}
	case Oval:
		return []formula{{lengthWidth, 0.0020, false, appraiser}, {meanDiameter, 0.0020, false, tradeList + ", older form"}}
	case EmeraldCut:
		return []formula{{lengthWidth, 0.0025, false, bothSets}}
	case Baguette, TaperedBaguette:
		return []formula{{lengthWidth, 0.0026, false, bothSets + ", rectangular"}}
	case Square:
		return []formula{{lengthWidth, 0.0023, false, appraiser}, {lengthWidth, 0.0025, false, tradeList}}
	case Princess:
		return []formula{{lengthWidth, 0.0023, false, appraiser + ", square"}, {lengthWidth, 0.0025, false, tradeList + ", square"}}
	case Marquise:
		return []formula{{lengthWidth, 0.0016, false, appraiser}, {lengthWidth, 0.0017, false, tradeList}}
	case Pear, Heart:
		return []formula{{lengthWidth, 0.0018, false, bothSets}}
	case Cushion:
		if ratio <= squareWithin {
			return []formula{{meanDiameter, 0.0018, false, appraiser + ", square cushion"}}
		}
		return []formula{{meanDiameter, 0.0022, false, appraiser + ", rectangular cushion"}}
	case Trilliant:
		// Only a factor for diamond is printed: 0.0057 / 3.52.
		return []formula{{lengthWidth, 0.0057 / 3.52, false, "from the diamond factor of " + diamondB}}
	case Cabochon:
		return []formula{{lengthWidth, 0.0027, false, appraiser}}
	case Bead:
		// π/6 d³ in mm³ × SG / 200.
		return []formula{{meanDiameter, math.Pi / 6 / measure.MilligramPerCarat, false, solid}}
	}
	return nil
}

// diamondFormulas has the factors with SG 3.52 in them. The generic round with
// 3.52 is 3.9 % heavier than these, so diamonds go by their own. A cut without
// a factor of its own gives nil.
func diamondFormulas(m Measured) []formula {
	ratio := float64(m.Length / m.Width)
	switch m.Cut {
	case Round:
		return []formula{{meanDiameter, 0.0061, true, diamondA + "; " + diamondB}}
	case Oval:
		return []formula{{meanDiameter, 0.0062, true, diamondA + "; " + diamondB}}
	case Heart:
		return []formula{{lengthWidth, 0.0059, true, diamondB}}
	case Trilliant:
		return []formula{{lengthWidth, 0.0057, true, diamondB}}
	case Baguette, TaperedBaguette:
		return []formula{{lengthWidth, 0.00915, true, "atlas page on cut proportions"}}
	case EmeraldCut, Square:
		return emeraldDiamond(ratio)
	case Princess:
		return append([]formula{{lengthWidth, 0.0083, true, "page on princess-cut weights"}}, emeraldDiamond(ratio)[0])
	case Marquise:
		return []formula{{lengthWidth, along(ratio, byRatio{{1.5, 0.00565}, {2, 0.00580}, {2.5, 0.00585}, {3, 0.00595}}), true, diamondA}}
	case Pear:
		return []formula{{lengthWidth, along(ratio, byRatio{{1.25, 0.00615}, {1.5, 0.00600}, {2, 0.00575}}), true, diamondA}}
	}
	return nil
}

// emeraldDiamond: one source is read between its ratios, the other says to take
// the nearest, and they part on where 0.0080 belongs.
func emeraldDiamond(ratio float64) []formula {
	return []formula{
		{lengthWidth, along(ratio, byRatio{{1, 0.0080}, {1.5, 0.0092}, {2, 0.0100}, {2.5, 0.0106}}), true, diamondA},
		{lengthWidth, nearestOf(ratio, byRatio{{1.25, 0.0080}, {1.5, 0.0090}, {2, 0.0100}, {2.5, 0.0105}}), true, "page on step-cut weights"},
	}
}

// byRatio lists factors by length-to-width ratio, rising.
type byRatio [][2]float64

// along reads between the rows; beyond either end the last factor holds.
func along(ratio float64, rows byRatio) float64 {
	if ratio <= rows[0][0] {
		return rows[0][1]
	}
	for i := 1; i < len(rows); i++ {
		if a, b := rows[i-1], rows[i]; ratio <= b[0] {
			return a[1] + (b[1]-a[1])*(ratio-a[0])/(b[0]-a[0])
		}
	}
	return rows[len(rows)-1][1]
}

func nearestOf(ratio float64, rows byRatio) float64 {
	best := rows[0]
	for _, r := range rows {
		if math.Abs(r[0]-ratio) < math.Abs(best[0]-ratio) {
			best = r
		}
	}
	return best[1]
}

// reckon works the formula out for a stone.
func (f formula) reckon(m Measured) Reckoning {
	area := float64(m.Length * m.Width)
	if f.product == meanDiameter {
		mean := float64(m.Length+m.Width) / 2
		area = mean * mean
	}
	ct := area * float64(m.Depth) * f.factor
	if !f.diamond {
		ct *= float64(m.Kind.SG)
	}
	girdle := 1.0
	if f.diamond && m.Cut == Round {
		if g, ok := GirdleFactor(m.Girdle, (m.Length+m.Width)/2); ok {
			girdle = g
		}
	}
	return Reckoning{measure.Carat(ct * girdle), f.text(), f.worked(m, girdle), f.source}
}
