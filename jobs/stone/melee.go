package stone

import (
	"castweek/metal/measure"
)

// meleeChart is a trade chart of round brilliants, mm → ct. The printed rows
// for 1.1 and 1.2 mm ("0.065", "0.075") have a zero missing: their own stones
// per carat, 154 and 133, give the values here.
var meleeChart = byRatio{
	{0.8, 0.0035}, {1.0, 0.005}, {1.1, 0.0065}, {1.2, 0.0075}, {1.3, 0.010}, {1.5, 0.015}, {1.8, 0.025}, {2.0, 0.035}, {2.5, 0.065}, {3.0, 0.11},
}

// melee gives the chart's weight for a small round diamond whose depth nobody
// measured: below about 2 mm stones are cut fuller, and the formula is too low
// by a third at 1 mm.
func melee(m Measured) (Reckoning, bool) {
	d := float64(m.Length+m.Width) / 2
	first, last := meleeChart[0][0], meleeChart[len(meleeChart)-1][0]
	if m.Kind.Name != "diamond" || m.Cut != Round || !m.DepthAssumed || d < first || d > last {
		return Reckoning{}, false
	}
	ct := measure.Carat(along(d, meleeChart))
	return Reckoning{ct, chartFormula, chartWorked(measure.MM(d), ct), "trade chart of round brilliants"}, true
}

// girdleFactors by band of diameter: 3.1 to 4.1, 4.15 to 6.9, from 7 mm. The
// printed "1.05" for a large medium-to-slightly-thick girdle is 1.005 misprinted
// and is not taken over. From a diamond calculator's page on girdles.
var girdleFactors = map[string][3]float64{
	"thin":           {0.985, 0.98, 0.975},
	"medium":         {1, 1, 1},
	"slightly thick": {1.03, 1.02, 1.01},
	"thick":          {1.04, 1.03, 1.02},
}

// GirdleFactor corrects the weight of a round diamond for its girdle. It is not
// known for other words and for stones under 3.1 mm.
func GirdleFactor(girdle string, diameter measure.MM) (float64, bool) {
	f, ok := girdleFactors[plain(girdle)]
	switch {
	case !ok || diameter < 3.1:
		return 1, false
	case diameter < 4.15:
		return f[0], true
	case diameter < 7:
		return f[1], true
	}
	return f[2], true
}

// A Tolerance is how far calibrated stones may be off their size: Usual by most
// sellers, Wide by some.
type Tolerance struct {
	Usual, Wide measure.MM
	Source      string
}

// CalibrationTolerance for a stone of a kind and weight: round diamonds up to
// 4 mm go as melee.
func CalibrationTolerance(kind Kind, diameter measure.MM, weight measure.Carat) Tolerance {
	switch {
	case kind.Name == "diamond" && diameter <= 4:
		return Tolerance{0.05, 0.10, "two melee sellers' guides"}
	case weight <= 1:
		return Tolerance{0.10, 0.20, "two coloured-stone sellers' pages"}
	}
	return Tolerance{0.20, 0.30, "two coloured-stone sellers' pages"}
}
