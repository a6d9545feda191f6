package ringsize

import (
	"math"
	"strconv"

	"castweek/metal/measure"
)

// A System is a way of naming finger sizes. Its text is the key that other
// programs see.
type System string

const (
	UK    System = "uk"    // letters; also Ireland, Australia, New Zealand, South Africa
	US    System = "us"    // numbers with quarters; also Canada, Mexico
	ISO   System = "iso"   // the circumference in mm
	Japan System = "japan" // whole numbers, a third of a mm apart
	Swiss System = "swiss" // circumference less 40 mm; also Italy, Spain
	// Measured stands for a size given as a length, which has no label.
	Measured System = "mm"
)

// Systems lists the systems that have labels, in the order they are shown.
func Systems() []System { return []System{UK, US, ISO, Japan, Swiss} }

// A scale lists the labels of a system from the smallest. Step i runs from 0.
type scale struct {
	system System
	steps  int
	circ   func(i int) float64 // circumference in mm
	label  func(i int) string
}

// The lengths behind the labels, with their sources:
//
//   - UK: c = 37.5 + 1.25 i mm with A = 0, halves of 0.625 mm, then Z+1 to Z+6 a
//     whole letter apart. BS 6820:1987 with C = 40.00 mm, seen at second hand;
//     charts differ by up to a whole letter ([Notes] says so).
//   - US: d = 0.458 + 0.032 s inches; the rule of public tables, no standard
//     governs it. 0 to 16 is common practice.
//   - ISO: ISO 8653, sizes 41 to 76 are the circumference in mm.
//   - Japan: d = (n + 38) / 3 mm, the custom scale. 1 to 30 is from memory.
//   - Swiss: c - 40 mm, given the reach of the ISO scale.
func scaleOf(system System) (scale, bool) {
	switch system {
	case UK:
		return scale{UK, ukZ + 2 + 6, ukCirc, ukLabel}, true
	case US:
		return scale{US, 16*4 + 1, func(i int) float64 { return math.Pi * 25.4 * (0.458 + 0.032*float64(i)/4) },
			func(i int) string { return whole(i/4) + quarter(i) }}, true
	case ISO:
		return scale{ISO, 76 - 41 + 1, func(i int) float64 { return float64(41 + i) }, func(i int) string { return whole(41 + i) }}, true
	case Japan:
		return scale{Japan, 30, func(i int) float64 { return math.Pi * float64(i+1+38) / 3 }, func(i int) string { return whole(1 + i) }}, true
	case Swiss:
		return scale{Swiss, 36, func(i int) float64 { return float64(41 + i) }, func(i int) string { return whole(1 + i) }}, true
	}
	return scale{}, false
}

// ukZ is the step of Z: 25 letters of two halves above A.
const ukZ = 50

func ukCirc(i int) float64 {
	halves := i
	if i > ukZ+1 { // Z+1, Z+2, … have no halves between them
		halves = ukZ + 2*(i-ukZ-1)
	}
	return 37.5 + 0.625*float64(halves)
}

func ukLabel(i int) string {
	if i > ukZ+1 {
		return "Z+" + whole(i-ukZ-1)
	}
	return string(rune('A'+i/2)) + quarter(i%2*2)
}

func whole(n int) string { return strconv.Itoa(n) }

// quarter writes the part of a number of quarters that is not whole; US ½ is
// written "0½".
func quarter(q int) string { return []string{"", "¼", "½", "¾"}[q%4] }

// dust keeps a circumference that went through π and back on its side of a tie.
const dust = 1e-9

// nearest takes the label with the least distance; of two at the same distance
// the larger, as ISO 8653:1986 rounds 43.5 mm to 44. A size more than half a
// step beyond either end has no label.
func (s scale) nearest(c measure.MM) Label {
	best, least := 0, math.Inf(1)
	for i := range s.steps {
		if d := math.Abs(s.circ(i) - float64(c)); d <= least+dust {
			best, least = i, d
		}
	}
	half := (s.circ(1) - s.circ(0)) / 2
	if best == s.steps-1 {
		half = (s.circ(best) - s.circ(best-1)) / 2
	}
	if !(least <= half+dust) {
		return Label{System: s.system}
	}
	return Label{s.system, s.label(best), measure.MM(s.circ(best) / math.Pi), measure.MM(s.circ(best)) - c}
}

// size gives the size of step i.
func (s scale) size(i int) Size {
	z := OfCircumference(measure.MM(s.circ(i)))
	z.System = s.system
	return z
}
