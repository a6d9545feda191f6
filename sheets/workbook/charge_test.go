package workbook

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"testing"

	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"

	"castweek/metal"
	"castweek/metal/measure"
	"castweek/sheets/internal/trial"
	"castweek/tree"
)

// milligramsIn calculates a cell with the library's calculator.
func milligramsIn(t *rapid.T, f *excelize.File, ref string) measure.Milligram {
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

// Whatever the button rule, the materials, the loss and the scale: with no
// weight typed the sheet has the plan's charge, and with one typed it has the
// charge that metal.NewCharge makes of that weight.
func TestChargeFollowsTheRules(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rules := []metal.ButtonRule{
			{Kind: metal.ButtonAdded, Share: measure.Percent(rapid.IntRange(0, 70).Draw(t, "added"))},
			{Kind: metal.ButtonOfTotal, Share: measure.Percent(rapid.IntRange(0, 70).Draw(t, "of total"))},
			{Kind: metal.ButtonFixed, Fixed: measure.Gram(rapid.IntRange(1, 30000).Draw(t, "fixed")) / 1000},
			{Kind: metal.ButtonByFlask}}
		rule := rapid.SampledFrom(rules).Draw(t, "rule")
		rule.Minimum = measure.Gram(rapid.SampledFrom([]float64{0, 0.5, 10}).Draw(t, "minimum"))
		resin := measure.CubicMM(rapid.IntRange(0, 900000).Draw(t, "resin")) / 100
		wax := measure.CubicMM(rapid.IntRange(1, 900000).Draw(t, "wax")) / 100
		in := metal.ChargeInput{Density: measure.GramPerCC(rapid.IntRange(700, 2200).Draw(t, "density")) / 100, Castings: []measure.CubicMM{resin}, Trunk: wax,
			Button: rule, Cavity: measure.CubicMM(rapid.IntRange(0, 5000).Draw(t, "cavity")), Loss: measure.Percent(rapid.IntRange(0, 40).Draw(t, "loss")) / 10,
			Step: measure.Milligram(rapid.SampledFrom([]int{1, 5, 10, 50, 100, 1000}).Draw(t, "step"))}
		tr := tree.Tree{Name: "2026-W49-A", Alloy: "alloy", Charge: metal.NewCharge(in), Rule: rule, Cavity: in.Cavity, Loss: in.Loss, Patterns: resin, Trunk: wax,
			Castings: []tree.Hanging{{Casting: "K-1/1", Job: "K-1"}},
			Before: []tree.MaterialWeight{{Material: "resin", Density: 1.09, Volume: resin, Weight: resin.Times(1.09).Round(1)},
				{Material: "wax", Density: 0.96, Volume: wax, Weight: wax.Times(0.96).Round(1)}}}
		c := &tree.Cast{Name: "2026-W49", AsOf: trial.Cast().AsOf, House: tree.House{ScaleStep: in.Step}, Trees: []tree.Tree{tr}}
		data, _, err := Write(c)
		if err != nil {
			t.Fatal(err)
		}
		f, err := excelize.OpenReader(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		table := chargeTable(c)
		compare := func(what string, want metal.Charge) {
			for key, mg := range map[string]measure.Milligram{"tree_g": want.Tree(), "button": want.Button, "loss": want.MeltLoss, "rounding": want.Rounding, "total": want.Total} {
				if got := milligramsIn(t, f, table.letters(key)+"2"); got != mg {
					t.Fatalf("%s, %s: the sheet makes it %v, metal.NewCharge %v", what, key, got, mg)
				}
			}
		}
		compare("as planned", tr.Charge)
		weighed := measure.Gram(rapid.IntRange(1, 40000).Draw(t, "weighed")) / 1000
		if err := f.SetCellFloat("Charge", table.letters("real")+"2", float64(weighed), -1, 64); err != nil {
			t.Fatal(err)
		}
		compare(fmt.Sprintf("weighed at %v", weighed), retyped(tr, c.House, weighed))
	})
}
