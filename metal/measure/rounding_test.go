package measure

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

// Charges are rounded up, and dust of the arithmetic is no reason for a step.
func TestRoundings(t *testing.T) {
	for _, c := range []struct {
		g                 Gram
		step              Milligram
		up, down, nearest Milligram
	}{
		{0, 10, 0, 0, 0},
		{74.25, 1, 74250, 74250, 74250},
		{0.1 + 0.2, 1, 300, 300, 300}, // 0.30000000000000004
		{0.1 + 0.2, 10, 300, 300, 300},
		{1.1 + 2.2, 100, 3300, 3300, 3300}, // 3.3000000000000003
		{0.00105, 1, 2, 1, 1},
		{0.00101, 1, 2, 1, 1},
		{24.0261, 10, 24030, 24020, 24030},
		{24.0201, 10, 24030, 24020, 24020},
		{0.0005, 1, 1, 0, 1},
		{12.345, 0, 12345, 12345, 12345}, // a step that nobody gave is a milligram
	} {
		if up, down, nearest := c.g.RoundUp(c.step), c.g.RoundDown(c.step), c.g.Round(c.step); up != c.up || down != c.down || nearest != c.nearest {
			t.Errorf("%v in steps of %d: %d up, %d down, %d; want %d, %d, %d", float64(c.g), c.step, up, down, nearest, c.up, c.down, c.nearest)
		}
	}
	for _, c := range []struct{ m, step, up Milligram }{{24026, 10, 24030}, {24030, 10, 24030}, {24031, 10, 24040}, {0, 10, 0}, {7, 0, 7}, {1, 1000, 1000}} {
		if got := c.m.RoundUp(c.step); got != c.up {
			t.Errorf("%d in steps of %d: %d, want %d", c.m, c.step, got, c.up)
		}
	}
}

// Rounding against exact arithmetic: never less than the weight by more than the
// dust, never a whole step more.
func TestRoundingAgainstRationals(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := Gram(rapid.Float64Range(0, 5000).Draw(t, "g"))
		step := Milligram(rapid.SampledFrom([]int{1, 2, 5, 10, 50, 100, 1000}).Draw(t, "step"))
		exact := new(big.Rat).SetFloat64(float64(g))
		exact.Mul(exact, big.NewRat(1000, int64(step))) // in steps
		dust := new(big.Rat).SetFloat64(1e-5)
		up, down := big.NewRat(int64(g.RoundUp(step)/step), 1), big.NewRat(int64(g.RoundDown(step)/step), 1)
		if over := new(big.Rat).Sub(up, exact); over.Cmp(new(big.Rat).Neg(dust)) < 0 || over.Cmp(big.NewRat(1, 1)) >= 0 {
			t.Fatalf("%v up in steps of %d is %v", g, step, g.RoundUp(step))
		}
		if under := new(big.Rat).Sub(exact, down); under.Cmp(new(big.Rat).Neg(dust)) < 0 || under.Cmp(big.NewRat(1, 1)) >= 0 {
			t.Fatalf("%v down in steps of %d is %v", g, step, g.RoundDown(step))
		}
		if g.RoundUp(step)%step != 0 || g.RoundDown(step)%step != 0 {
			t.Fatalf("%v: not whole steps of %d", g, step)
		}
	})
}

func TestTexts(t *testing.T) {
	for got, want := range map[string]string{
		Milligram(74250).String(): "74.250 g", Milligram(-5).String(): "-0.005 g", Milligram(74256).Number(2): "74.26", Milligram(0).String(): "0.000 g",
		Gram(-0.0001).String(): "0.000 g", MM(1.005).String(): "1.00 mm", CubicMM(420).String(): "420.0 mm³", PerMille(999.9).String(): "999.9 ‰", PerMille(750).String(): "750 ‰",
		Percent(1.26).String(): "1.26 %", Celsius(732).String(): "732 °C", Carat(0.25).String(): "0.250 ct", GramPerCC(15.45).String(): "15.45 g/cm³",
		Size{24, 22, 9.5}.String(): "24 x 22 x 9.5 mm", Millilitre(455).String(): "455 ml", SquareMM(0.14).String(): "0.1 mm²",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// 3.0 g of resin at 1.09 and 4.0 g of wax at 0.96 are 6.919 cm³; one carat is
// 200 mg (4th General Conference on Weights and Measures, 1907).
func TestVolumesAndWeights(t *testing.T) {
	if v := float64(Gram(3).At(1.09) + Gram(4).At(0.96)); math.Abs(v-6919) > 0.5 {
		t.Errorf("%v mm³", v)
	}
	if g := CubicMM(1000).Times(15.45); math.Abs(float64(g)-15.45) > 1e-12 {
		t.Errorf("%v", g)
	}
	if v := Gram(1).At(0); v != 0 {
		t.Errorf("without a density: %v", v)
	}
	if w := Carat(0.5).Weight().Round(1); w != 100 {
		t.Errorf("half a carat: %v", w)
	}
}
