// Package measure holds the quantities of the house. Each type names its unit
// and prints with it, so that a length never ends up where a weight belongs.
//
// What is computed is float64 behind one of these types. What is weighed,
// booked or printed as metal is a whole number of [Milligram]; it becomes one
// exactly once, through a rounding whose name says its direction
// ([Gram.RoundUp], [Gram.RoundDown], [Gram.Round]).
package measure

import (
	"fmt"
	"math"
	"strconv"
)

type (
	// MM is a length in millimetres.
	MM float64
	// SquareMM is an area in square millimetres.
	SquareMM float64
	// CubicMM is a volume in cubic millimetres.
	CubicMM float64
	// GramPerCC is a density in grams per cubic centimetre.
	GramPerCC float64
	// Gram is a computed weight in grams; see [Milligram] for a booked one.
	Gram float64
	// PerMille is a fineness or a share in thousandths by mass.
	PerMille float64
	// Percent is a share in hundredths.
	Percent float64
	// Carat is a weight of stones: one metric carat is 200 mg exactly
	// (4th General Conference on Weights and Measures, 1907).
	Carat float64
	// Celsius is a temperature in degrees Celsius.
	Celsius float64
	// Milligram is a weight that is weighed, booked or printed: a whole number
	// of milligrams.
	Milligram int64
	// Millilitre is a volume of liquid.
	Millilitre float64
)

// MilligramPerCarat is exact by definition.
const MilligramPerCarat = 200

// Times is the weight of a volume at a density: g = mm³ × g/cm³ / 1000.
func (v CubicMM) Times(d GramPerCC) Gram { return Gram(float64(v) * float64(d) / 1000) }

// At is the volume that a weight takes at a density: mm³ = g / (g/cm³) × 1000.
// A density that is not positive gives 0.
func (g Gram) At(d GramPerCC) CubicMM {
	if d <= 0 {
		return 0
	}
	return CubicMM(float64(g) / float64(d) * 1000)
}

// floatDust is how far a computed weight may lie beyond a whole number of
// steps and still be taken for that number: 1e-6 of a step. Without it a sum
// such as 0.1+0.2 would be rounded up to the next step.
const floatDust = 1e-6

// RoundUp gives the smallest whole number of steps that is not less than g.
func (g Gram) RoundUp(step Milligram) Milligram {
	if step < 1 {
		step = 1
	}
	return Milligram(math.Ceil(float64(g)*1000/float64(step)-floatDust)) * step
}

// RoundDown gives the largest whole number of steps that is not more than g.
func (g Gram) RoundDown(step Milligram) Milligram {
	if step < 1 {
		step = 1
	}
	return Milligram(math.Floor(float64(g)*1000/float64(step)+floatDust)) * step
}

// Round gives the nearest whole number of steps, halves away from zero.
func (g Gram) Round(step Milligram) Milligram {
	if step < 1 {
		step = 1
	}
	return Milligram(math.Round(float64(g)*1000/float64(step))) * step
}

// Gram is the same weight as a computed one.
func (m Milligram) Gram() Gram { return Gram(float64(m) / 1000) }

// RoundUp gives the smallest multiple of step that is not less than m.
func (m Milligram) RoundUp(step Milligram) Milligram {
	if step < 1 {
		return m
	}
	q := m / step
	if m > 0 && m%step != 0 {
		q++
	}
	return q * step
}

// Weight is the stone's weight in grams.
func (c Carat) Weight() Gram { return Gram(c * MilligramPerCarat / 1000) }

// Decimals writes a number with a fixed count of decimals and a decimal point.
// A value that rounds to zero is written without a sign.
func Decimals(v float64, n int) string {
	s := strconv.FormatFloat(v, 'f', n, 64)
	if s[0] == '-' && isZero(s[1:]) {
		return s[1:]
	}
	return s
}

func isZero(s string) bool {
	for _, r := range s {
		if r != '0' && r != '.' {
			return false
		}
	}
	return true
}

func (m MM) String() string         { return Decimals(float64(m), 2) + " mm" }
func (a SquareMM) String() string   { return Decimals(float64(a), 1) + " mm²" }
func (v CubicMM) String() string    { return Decimals(float64(v), 1) + " mm³" }
func (d GramPerCC) String() string  { return Decimals(float64(d), 2) + " g/cm³" }
func (g Gram) String() string       { return Decimals(float64(g), 3) + " g" }
func (p PerMille) String() string   { return trimmed(float64(p), 3) + " ‰" }
func (p Percent) String() string    { return trimmed(float64(p), 3) + " %" }
func (c Carat) String() string      { return Decimals(float64(c), 3) + " ct" }
func (c Celsius) String() string    { return trimmed(float64(c), 1) + " °C" }
func (m Millilitre) String() string { return trimmed(float64(m), 1) + " ml" }

// String writes the weight in grams with three decimals: "74.250 g".
func (m Milligram) String() string { return m.Number(3) + " g" }

// Number writes the weight in grams without its unit, with n decimals (0 to 3).
func (m Milligram) Number(n int) string { return Decimals(float64(m)/1000, n) }

// trimmed writes up to n decimals and drops the zeros at the end.
func trimmed(v float64, n int) string {
	s := Decimals(v, n)
	for n > 0 && (s[len(s)-1] == '0' || s[len(s)-1] == '.') {
		last := s[len(s)-1]
		s = s[:len(s)-1]
		if last == '.' {
			break
		}
	}
	return s
}

// Size is the outer size of a thing: length, width and height.
type Size struct{ Length, Width, Height MM }

// String writes "24 x 22 x 9 mm".
func (s Size) String() string {
	return fmt.Sprintf("%s x %s x %s mm", trimmed(float64(s.Length), 2), trimmed(float64(s.Width), 2), trimmed(float64(s.Height), 2))
}
