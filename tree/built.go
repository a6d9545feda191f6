package tree

import (
	"strings"

	"castweek/metal/measure"
)

// Built is the planned weight of the built tree before investing, without its
// base.
func (t *Tree) Built() measure.Milligram {
	var sum measure.Milligram
	for _, m := range t.Before {
		sum += m.Weight
	}
	return sum
}

// BuiltWithin are the least and the greatest weight of the built tree that the
// house takes as it is; outside them a person stops and recounts. Both are on
// the scale's step and never outside the house's limit.
func (t *Tree) BuiltWithin(h House) (least, greatest measure.Milligram) {
	part := measure.Gram(h.RecountBeyond()) / 100
	planned := t.Built().Gram()
	return (planned * (1 - part)).RoundUp(h.ScaleStep), (planned * (1 + part)).RoundDown(h.ScaleStep)
}

// Letter is the part of the name that tells the tree from the others of its
// cast, as it is marked on the flask: C of 2026-W49-C.
func (t *Tree) Letter() string {
	return t.Name[strings.LastIndex(t.Name, "-")+1:]
}

// Pourable tells whether there is a pour sheet for the tree.
func (t *Tree) Pourable() bool { return len(t.Refused) == 0 }

// Bright tells a metal that is poured so hot that it blinds: platinum and
// palladium, by the words of the alloy's name.
func (t *Tree) Bright() bool {
	return strings.Contains(t.Alloy, "platinum") || strings.Contains(t.Alloy, "palladium")
}
