package mount

import (
	"math"

	"castweek/metal/measure"
)

// Chvorinov's rule: a casting that cools in a uniform mould freezes in
//
//	t = B · (V/A)ⁿ
//
// with V its volume, A the surface that gives off heat, V/A its modulus, n close
// to 2, and B a constant of metal and mould (N. Chvorinov, Theory of the
// solidification of castings, Giesserei 27 (1940); Askeland and Phulé, The
// Science and Engineering of Materials). A feeder must freeze after what it
// feeds, so its modulus must be the larger.

// FeederMargin is the least ratio of a feeder's modulus to that of the section
// that it feeds. Foundry practice, from memory.
const FeederMargin = 1.2

// Modulus is V/A in millimetres; 0 for a surface that is not positive.
func Modulus(v measure.CubicMM, a measure.SquareMM) measure.MM {
	if a <= 0 {
		return 0
	}
	return measure.MM(float64(v) / float64(a))
}

// FreezingTime is B·mⁿ, in the unit of time of b, which is a time per mmⁿ.
func FreezingTime(b float64, m measure.MM, n float64) float64 {
	return b * math.Pow(float64(m), n)
}

// MouldConstant is B = t/mⁿ, from a freezing time that was observed.
func MouldConstant(t float64, m measure.MM, n float64) float64 {
	return t / math.Pow(float64(m), n)
}

// ModulusFor is the modulus that freezes in time t: m = (t/B)^(1/n).
func ModulusFor(t, b, n float64) measure.MM { return measure.MM(math.Pow(t/b, 1/n)) }

// RiserDiameter is the diameter, and height, of a cylinder as high as wide that
// gives off heat all round and has the modulus m: V/A = D/6.
func RiserDiameter(m measure.MM) measure.MM { return 6 * m }

// SectionModulus is the modulus of a long bar of rectangular section, t·w/(2(t+w)).
// With w = 0 the width is unknown and the section counts as a plate, t/2, which
// is the largest that a section of thickness t can have.
func SectionModulus(t, w measure.MM) measure.MM {
	if w <= 0 {
		return t / 2
	}
	return t * w / (2 * (t + w))
}

// FeederModulus is the modulus of a long round feeder, d/4: its ends give off no
// heat, because trunk and casting are as hot.
func FeederModulus(d measure.MM) measure.MM { return d / 4 }

// FeederDiameter is the least diameter of a round feeder that freezes after a
// section of thickness t and width w (0: unknown): d/4 = FeederMargin · modulus.
func FeederDiameter(t, w measure.MM) measure.MM {
	return 4 * FeederMargin * SectionModulus(t, w)
}
