package tree

import (
	"castweek/metal"
	"castweek/metal/measure"
)

// Yield says what becomes of the metal that is charged. Sheets quote two
// figures by one name: what is cast of what is charged (about a half, where
// button and trunk are to weigh as much as the pieces), and that with what
// comes back (89 to 96 %).
type Yield struct {
	Charge          measure.Percent // castings of what is charged
	Net             measure.Percent // castings, and what comes back, of what is charged
	Castings, Total measure.Milligram

	TiedUp measure.Milligram // comes back as button, trunk and feeders
	Loss   measure.Milligram // expected to go in melting
}

// yieldOf works it out: what the scale's step adds comes back with the button.
//
//	charge = castings / total
//	net    = (total − loss) / total
func yieldOf(c metal.Charge) Yield {
	y := Yield{Castings: c.Patterns, Total: c.Total, TiedUp: c.TiedUp() + c.Rounding, Loss: c.MeltLoss}
	if c.Total > 0 {
		y.Charge = share(c.Patterns, c.Total)
		y.Net = share(c.Patterns+y.TiedUp, c.Total)
	}
	return y
}

// share in hundredths, rounded down to a tenth.
func share(part, of measure.Milligram) measure.Percent {
	return measure.Percent(float64(part*1000/of) / 10)
}
