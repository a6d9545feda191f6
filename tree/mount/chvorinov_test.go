package mount

import (
	"math"
	"testing"

	"castweek/metal/measure"
)

// sides of the shapes in the published exercises, volumes in mm³, areas in mm².
func boxModulus(a, b, c float64) measure.MM {
	return Modulus(measure.CubicMM(a*b*c), measure.SquareMM(2*(a*b+b*c+c*a)))
}

func cylinderModulus(d, h float64) measure.MM {
	return Modulus(measure.CubicMM(math.Pi/4*d*d*h), measure.SquareMM(math.Pi*d*h+math.Pi/2*d*d))
}

func sphereModulus(d float64) measure.MM {
	return Modulus(measure.CubicMM(math.Pi/6*d*d*d), measure.SquareMM(math.Pi*d*d))
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if math.Abs(got-want) > tolerance {
		t.Errorf("%s: got %v, want %v ± %v", what, got, want, tolerance)
	}
}

// Worked exercise of a casting course: sphere, cylinder and cube of 10 cm, with
// B = 3.5 min/cm², have one modulus of 1.667 cm and freeze in 9.72 min.
func TestSphereCylinderAndCubeFreezeTogether(t *testing.T) {
	for name, m := range map[string]measure.MM{"sphere": sphereModulus(100), "cylinder": cylinderModulus(100, 100), "cube": boxModulus(100, 100, 100)} {
		near(t, name+" modulus", float64(m), 16.667, 0.001)
		near(t, name, FreezingTime(3.5/100, m, 2), 9.72, 0.01)
	}
}

// Entrance examination GATE, mechanical engineering, 2018: a plate of 80×120×20 mm
// freezes in 2 min, a cylindrical riser as high as wide shall take 3 min; answer 51.87 mm
// (accepted from 42 to 52).
func TestRiserOfThePlate(t *testing.T) {
	m := boxModulus(80, 120, 20)
	near(t, "plate", float64(m), 7.0588, 0.0001)
	b := MouldConstant(2, m, 2)
	riser := ModulusFor(3, b, 2)
	near(t, "riser modulus", float64(riser), 8.645, 0.001)
	near(t, "riser", float64(RiserDiameter(riser)), 51.87, 0.01)
	near(t, "its time", FreezingTime(b, cylinderModulus(51.87, 51.87), 2), 3, 0.001)
}

// Worked exercise: a cube of 30 mm freezes in 4 min, so B = 0.16 min/mm²; a riser that
// takes a quarter longer measures 33.54 mm (the second figure is our arithmetic).
func TestMouldConstantOfTheCube(t *testing.T) {
	m := boxModulus(30, 30, 30)
	b := MouldConstant(4, m, 2)
	near(t, "B", b, 0.16, 1e-9)
	near(t, "riser", float64(RiserDiameter(ModulusFor(5, b, 2))), 33.54, 0.01)
}

// Worked exercise: a round bar of 0.3 m by 0.5 m against a slab of the same volume and
// length with a section of 3 to 1: the slab freezes in 0.6588 of the time (printed with
// rounded sides; unrounded it is 0.6577).
func TestRoundAgainstSlab(t *testing.T) {
	area := math.Pi / 4 * 300 * 300
	thick := math.Sqrt(area / 3)
	round, slab := cylinderModulus(300, 500), boxModulus(thick, 3*thick, 500)
	near(t, "ratio", FreezingTime(1, slab, 2)/FreezingTime(1, round, 2), 0.6588, 0.0015)
}

// Worked exercise: a plate of 10×10×4 cm has a modulus of 1.111 cm.
func TestPlateModulus(t *testing.T) {
	near(t, "modulus", float64(boxModulus(100, 100, 40)), 11.11, 0.01)
}

// The feeder rule follows from the moduli of long bars, and the width unknown gives
// the thicker feeder.
func TestFeederDiameter(t *testing.T) {
	near(t, "plate", float64(FeederDiameter(1.5, 0)), 3.6, 1e-9)
	near(t, "shank of 3 x 1.5", float64(FeederDiameter(1.5, 3)), 2.4, 1e-9)
	// A goldsmiths' forum gives 3.2 mm for a shank of 3 × 1.5 mm: between the two.
	for _, c := range []struct{ t, w measure.MM }{{1, 1}, {1.5, 3}, {2, 9}, {3, 0}} {
		d := FeederDiameter(c.t, c.w)
		if got, least := FeederModulus(d), FeederMargin*SectionModulus(c.t, c.w); got < least-1e-12 {
			t.Errorf("feeder %v for %v: modulus %v below %v", d, c, got, least)
		}
		// A long bar's modulus is the limit of a box's as its length grows.
		w := c.w
		if w == 0 {
			w = 1e7
		}
		near(t, "bar", float64(boxModulus(float64(c.t), float64(w), 1e8)), float64(SectionModulus(c.t, c.w)), 1e-4)
	}
	if Modulus(5, 0) != 0 {
		t.Error("a body without surface has no modulus")
	}
}
