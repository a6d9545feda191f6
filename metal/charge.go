package metal

import "castweek/metal/measure"

// ChargeInput is what a charge is worked out from. Volumes are those of the
// pattern side: what is wax or resin now is metal after the pour.
type ChargeInput struct {
	Density  measure.GramPerCC
	Castings []measure.CubicMM // each pattern hanging on the tree
	Feeders  measure.CubicMM
	Trunk    measure.CubicMM
	Button   ButtonRule
	Cavity   measure.CubicMM // of the base's button cavity; 0 when unknown
	Loss     measure.Percent
	Step     measure.Milligram // of the scale that the metal is weighed on
}

// A Charge is the metal of one tree, line by line. Every line is rounded up to
// whole milligrams and the lines add up to Total exactly.
type Charge struct {
	Density  measure.GramPerCC
	Castings []measure.Milligram // one each, in the order of the input
	Patterns measure.Milligram   // their sum
	Feeders  measure.Milligram
	Trunk    measure.Milligram
	Button   measure.Milligram
	MeltLoss measure.Milligram
	Rounding measure.Milligram // what rounding up to the scale's step adds
	Total    measure.Milligram
}

// NewCharge works the charge out:
//
//	tree   = Σ volume × density
//	button = by the rule, over tree, once
//	loss   = (tree + button) × p / (100 − p), so that p % of the total may go
//	total  = the sum, rounded up to the scale's step
func NewCharge(in ChargeInput) Charge {
	c := Charge{Density: in.Density}
	for _, v := range in.Castings {
		mg := v.Times(in.Density).RoundUp(1)
		c.Castings = append(c.Castings, mg)
		c.Patterns += mg
	}
	c.Feeders = in.Feeders.Times(in.Density).RoundUp(1)
	c.Trunk = in.Trunk.Times(in.Density).RoundUp(1)
	c.finish(in, c.Patterns+c.Feeders+c.Trunk)
	return c
}

// TotalFor is the charge and the button of a tree of so much metal, for who
// asks how heavy a tree may become before it is built.
func (in ChargeInput) TotalFor(tree measure.Milligram) (total, button measure.Milligram) {
	c := Charge{Density: in.Density}
	c.finish(in, tree)
	return c.Total, c.Button
}

// finish adds what comes on top of a tree's metal.
func (c *Charge) finish(in ChargeInput, tree measure.Milligram) {
	c.Button = in.Button.weight(tree.Gram(), in.Cavity, in.Density).RoundUp(1)
	need := tree + c.Button
	c.MeltLoss = (need.Gram() * measure.Gram(in.Loss) / measure.Gram(100-in.Loss)).RoundUp(1)
	sum := need + c.MeltLoss
	c.Total = sum.RoundUp(in.Step)
	c.Rounding = c.Total - sum
}

// Tree is the metal that the flask's mould takes: castings, feeders and trunk.
func (c Charge) Tree() measure.Milligram { return c.Patterns + c.Feeders + c.Trunk }

// Poured is the tree with its button, before what melting takes.
func (c Charge) Poured() measure.Milligram { return c.Tree() + c.Button }

// TiedUp is the metal that comes back as button, trunk and feeders.
func (c Charge) TiedUp() measure.Milligram { return c.Feeders + c.Trunk + c.Button }

// ButtonVolume is the room that the button needs in the base.
func (c Charge) ButtonVolume() measure.CubicMM { return c.Button.Gram().At(c.Density) }
