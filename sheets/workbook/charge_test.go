package workbook

import (
	"fmt"
	"math"
	"strconv"
	"testing"

	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"

	"castweek/metal"
	"castweek/metal/measure"
	"castweek/sheets/internal/reading"
	"castweek/sheets/internal/trial"
	"castweek/tree"
)

// milligramsIn calculates a cell with the library's calculator.
func milligramsIn(t *testing.T, f *excelize.File, ref string) measure.Milligram {
	t.Helper()
	s, err := f.CalcCellValue("Charge", ref, excelize.Options{RawCellValue: true})
	v, bad := strconv.ParseFloat(s, 64)
	if err != nil || bad != nil {
		t.Fatalf("%s is %q: %v", ref, s, err)
	}
	if d := math.Abs(v*1000 - math.Round(v*1000)); d > 1e-6 {
		t.Fatalf("%s is %s g, which is no whole milligram", ref, s)
	}
	return measure.Gram(v).Round(1)
}

// anyTree is a tree with any button rule, materials, loss and density, for a
// scale with the given step.
func anyTree(step measure.Milligram) *rapid.Generator[tree.Tree] {
	return rapid.Custom(func(t *rapid.T) tree.Tree {
		rule := metal.ButtonRule{Kind: metal.ButtonKind(rapid.IntRange(0, 3).Draw(t, "kind")), Minimum: measure.Gram(rapid.SampledFrom([]float64{0, 0.5, 10}).Draw(t, "minimum"))}
		switch rule.Kind {
		case metal.ButtonAdded, metal.ButtonOfTotal:
			rule.Share = measure.Percent(rapid.IntRange(0, 700).Draw(t, "share")) / 10
		case metal.ButtonFixed:
			rule.Fixed = measure.Gram(rapid.IntRange(1, 30000).Draw(t, "fixed")) / 1000
		}
		resin := measure.CubicMM(rapid.IntRange(0, 900000).Draw(t, "resin")) / 100
		wax := measure.CubicMM(rapid.IntRange(1, 900000).Draw(t, "wax")) / 100
		in := metal.ChargeInput{Density: measure.GramPerCC(rapid.IntRange(700, 2200).Draw(t, "density")) / 100, Castings: []measure.CubicMM{resin}, Trunk: wax,
			Button: rule, Cavity: measure.CubicMM(rapid.IntRange(0, 5000).Draw(t, "cavity")), Loss: measure.Percent(rapid.IntRange(0, 40).Draw(t, "loss")) / 10, Step: step}
		return tree.Tree{Alloy: "alloy", Charge: metal.NewCharge(in), Rule: rule, Cavity: in.Cavity, Loss: in.Loss, Patterns: resin, Trunk: wax,
			Castings: []tree.Hanging{{Casting: "K-1/1", Job: "K-1"}},
			Before: []tree.MaterialWeight{{Material: "resin", Density: 1.09, Volume: resin, Weight: resin.Times(1.09).Round(1)},
				{Material: "wax", Density: 0.96, Volume: wax, Weight: wax.Times(0.96).Round(1)}}}
	})
}

// Whatever the button rule, the materials, the loss and the scale: with no
// weight typed the sheet has the plan's charge, and with one typed it has the
// charge that metal.NewCharge makes of that weight.
func TestChargeFollowsTheRules(t *testing.T) {
	if reading.UnderRace {
		t.Skip("one goroutine, and slow under the race detector")
	}
	t.Parallel()
	const trees = 40
	for k, step := range []measure.Milligram{1, 5, 10, 50, 100, 1000} {
		c := &tree.Cast{Name: "2026-W49", AsOf: trial.Cast().AsOf, House: tree.House{ScaleStep: step}}
		kinds := map[metal.ButtonKind]bool{}
		for i := range trees {
			tr := anyTree(step).Example(1000*k + i)
			tr.Name = fmt.Sprintf("2026-W49-%d", i)
			kinds[tr.Rule.Kind] = true
			c.Trees = append(c.Trees, tr)
		}
		if len(kinds) != 4 {
			t.Fatalf("only %d button rules among %d trees", len(kinds), trees)
		}
		f := open(t, write(t, c))
		table := chargeTable(c)
		compare := func(i int, what string, want metal.Charge) {
			for key, mg := range map[string]measure.Milligram{"tree_g": want.Tree(), "button": want.Button, "loss": want.MeltLoss, "rounding": want.Rounding, "total": want.Total} {
				if got := milligramsIn(t, f, fmt.Sprintf("%s%d", table.letters(key), i+2)); got != mg {
					t.Errorf("step %v, %v, %s, %s: the sheet makes it %v, metal.NewCharge %v", step, c.Trees[i].Rule, what, key, got, mg)
				}
			}
		}
		for i := range c.Trees {
			compare(i, "as planned", c.Trees[i].Charge)
			weighed := measure.Gram(1+(i*7919+k*104729)%40000) / 1000
			if err := f.SetCellFloat("Charge", fmt.Sprintf("%s%d", table.letters("real"), i+2), float64(weighed), -1, 64); err != nil {
				t.Fatal(err)
			}
			compare(i, fmt.Sprintf("weighed at %v", weighed), retyped(c.Trees[i], c.House, weighed))
		}
	}
}
