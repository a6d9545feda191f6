package stone

import (
	"math"

	"castweek/metal/measure"
)

// Proportions describe a round brilliant; shares are of its diameter.
type Proportions struct {
	Table         measure.Percent
	CrownAngle    float64 // degrees
	PavilionAngle float64 // degrees
	Girdle        measure.Percent
}

// Reference is a gem laboratory's stone for weight ratios; Knife is the stone of
// Tolkowsky, Diamond Design, 1919, with a girdle like a knife's edge.
var (
	Reference = Proportions{Table: 57, CrownAngle: 34.0, PavilionAngle: 40.7, Girdle: 2.5}
	Knife     = Proportions{Table: 53, CrownAngle: 34.5, PavilionAngle: 40.75}
)

// Crown is the height of the crown: (100 - table) / 2 × tan(crown angle).
func (p Proportions) Crown() measure.Percent {
	return measure.Percent((100 - float64(p.Table)) / 2 * math.Tan(p.CrownAngle*math.Pi/180))
}

// Pavilion is the depth of the pavilion: 50 × tan(pavilion angle).
func (p Proportions) Pavilion() measure.Percent {
	return measure.Percent(50 * math.Tan(p.PavilionAngle*math.Pi/180))
}

// Total is the depth from table to culet.
func (p Proportions) Total() measure.Percent { return p.Crown() + p.Girdle + p.Pavilion() }

// Heights are the parts of a stone's depth: above, at and below the girdle.
type Heights struct{ Crown, Girdle, Pavilion measure.MM }

// HeightsOf shares out the depth of a stone as [Reference] does: crown 24 %,
// girdle 4 %, pavilion 72 % of it. A cabochon has all of its depth above the
// base, a bead half on either side. For other cuts than round the shares are
// taken over, which is an assumption.
func HeightsOf(cut Cut, depth measure.MM) Heights {
	switch cut {
	case Cabochon:
		return Heights{Crown: depth}
	case Bead:
		return Heights{Crown: depth / 2, Pavilion: depth / 2}
	}
	t := float64(Reference.Total())
	share := func(p measure.Percent) measure.MM { return depth * measure.MM(float64(p)/t) }
	return Heights{share(Reference.Crown()), share(Reference.Girdle), share(Reference.Pavilion())}
}
