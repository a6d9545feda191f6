// Package ringsize reads finger sizes and says them in other systems.
//
// The truth of a size is a length: the inside diameter of the ring and its
// circumference. A label is kept as it was typed and is never turned into
// another label directly; every answer goes through millimetres and takes the
// nearest label from there, because two systems hardly ever meet exactly.
package ringsize

import (
	"math"

	"castweek/metal/measure"
)

// A Size is a finger size as a length. Circumference = π × Inside.
type Size struct {
	AsTyped       string     // the text that was read
	System        System     // the system of the text; [Measured] for a length
	Inside        measure.MM // inside diameter
	Circumference measure.MM // inside circumference
}

// The lengths within which a ring for a finger lies. The smallest label of any
// system is 11.63 mm across and the largest 24.64 mm; the bounds leave a margin
// for what is measured. No length is inside both pairs of bounds, so that a
// diameter never passes for a circumference. Common practice, no source.
const (
	SmallestInside measure.MM = 10
	LargestInside  measure.MM = 27
)

// OfInside is the size with an inside diameter.
func OfInside(d measure.MM) Size {
	return Size{System: Measured, Inside: d, Circumference: d * math.Pi}
}

// OfCircumference is the size with an inside circumference.
func OfCircumference(c measure.MM) Size {
	return Size{System: Measured, Inside: c / math.Pi, Circumference: c}
}

// A Label is the name of a size in one system, and how far the size lies from
// the length that the name stands for.
type Label struct {
	System System
	Text   string     // "N½", "7¼", "54"; empty when the scale does not reach the size
	Inside measure.MM // what the label stands for
	// Off is the circumference of the label less that of the size: positive
	// when a ring made to the label would be the larger one.
	Off measure.MM
}

// Reached says whether the system has a label for the size.
func (l Label) Reached() bool { return l.Text != "" }

// Labels gives the nearest label of every system, in the order of [Systems].
func (s Size) Labels() []Label {
	var out []Label
	for _, system := range Systems() {
		out = append(out, s.Label(system))
	}
	return out
}

// Label gives the nearest label of one system.
func (s Size) Label(system System) Label {
	sc, ok := scaleOf(system)
	if !ok {
		return Label{System: system}
	}
	return sc.nearest(s.Circumference)
}

// NearestLabel gives the label of a system nearest to an inside diameter.
func NearestLabel(system System, inside measure.MM) Label {
	return OfInside(inside).Label(system)
}
