package stone

import (
	"math"

	"castweek/metal/measure"
)

// A Cut is the outline and faceting of a stone, by its trade name.
type Cut string

const (
	Round           Cut = "round"
	Oval            Cut = "oval"
	EmeraldCut      Cut = "emerald cut" // rectangle with cut corners, in steps
	Baguette        Cut = "baguette"    // rectangle with sharp corners
	TaperedBaguette Cut = "tapered baguette"
	Square          Cut = "square" // in steps, cut corners or not
	Princess        Cut = "princess"
	Marquise        Cut = "marquise"
	Pear            Cut = "pear"
	Heart           Cut = "heart"
	Cushion         Cut = "cushion"
	Trilliant       Cut = "trilliant"
	Cabochon        Cut = "cabochon" // flat base, round or oval outline
	Bead            Cut = "bead"     // a ball, as a pearl is
)

// Cuts lists the cuts that are known here.
func Cuts() []Cut {
	return []Cut{Round, Oval, EmeraldCut, Baguette, TaperedBaguette, Square, Princess, Marquise, Pear, Heart, Cushion, Trilliant, Cabochon, Bead}
}

// cutAliases are other names of the same cut. "emerald" alone is not among
// them: it is a stone.
var cutAliases = map[string]Cut{
	"round brilliant": Round, "brilliant": Round, "emerald-cut": EmeraldCut, "octagon": EmeraldCut, "trillion": Trilliant, "triangle": Trilliant,
	"navette": Marquise, "drop": Pear, "cab": Cabochon, "ball": Bead, "carré": Square, "carre": Square, "step square": Square,
}

// CutOf finds the cut of a name.
func CutOf(name string) (Cut, bool) {
	n := plain(name)
	if alias, ok := cutAliases[n]; ok {
		return alias, true
	}
	for _, c := range Cuts() {
		if n == string(c) {
			return c, true
		}
	}
	return "", false
}

// Points is the number of pointed corners, which a claw must guard and the seat
// must leave free of load.
func (c Cut) Points() int {
	switch c {
	case Marquise:
		return 2
	case Pear, Heart:
		return 1
	case Trilliant:
		return 3
	case Princess, Baguette, TaperedBaguette:
		return 4
	}
	return 0
}

// Faceted says whether the stone has a crown, a girdle and a pavilion.
func (c Cut) Faceted() bool { return c != Cabochon && c != Bead }

// Equal says whether length and width of the cut are one size.
func (c Cut) Equal() bool { return c == Round || c == Bead }

// A Depth is how deep a stone is taken to be for its width, as a share of it.
type Depth struct {
	Share  measure.Percent
	Source string
}

// AssumedDepth is the depth of a stone that nobody measured, from its cut and
// kind and its narrower side, to the hundredth that is printed of it. It is to
// be marked as assumed wherever it is used.
func AssumedDepth(cut Cut, kind Kind, width measure.MM) (measure.MM, Depth) {
	d := Depth{65, "coloured stones are cut 65 to 70 % deep, most settings made for 65 %: two cutters' pages"}
	switch {
	case cut == Bead:
		d = Depth{100, "a ball"}
	case cut == Cabochon:
		d = Depth{50, fromMemory}
	case cut == Round && kind.Name == "diamond":
		d = Depth{60, "reference stone for weight ratio of a gem laboratory, table 57 %"}
	}
	return measure.MM(math.Round(float64(width)*float64(d.Share)) / 100), d
}
