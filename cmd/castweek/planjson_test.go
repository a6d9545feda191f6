package main

import (
	"encoding/json"
	"testing"
	"time"

	"castweek/metal/measure"
	"castweek/tree"
)

// Each fixed word of the answer carries the figure that it names: a key with
// its neighbour's figure would be weighed out.
func TestTheKeysOfATreeCarryTheirFigures(t *testing.T) {
	at := time.Date(2026, 12, 3, 9, 0, 0, 0, time.UTC)
	x := tree.Tree{Name: "2026-W49-A", Alloy: "750 yellow", Owner: "house", Flask: "90 x 150", Patterns: 1234.5678,
		Castings: []tree.Hanging{{Casting: "K-1/1", Level: 2, Hour: 3, Tilt: 40.04}}, Order: 4, PourAt: at, FlaskAt: 550, MetalAt: 1010}
	x.Charge.Patterns, x.Charge.Feeders, x.Charge.Trunk, x.Charge.Button, x.Charge.MeltLoss, x.Charge.Rounding, x.Charge.Total = 1001, 2002, 3003, 4004, 5005, 6006, 21021
	x.Before = []tree.MaterialWeight{{Material: "wax", Weight: 860}, {Material: "resin", Weight: 120}}
	x.Invest.Powder, x.Invest.Liquid = 1198_000, 455_000
	x.Lots.Takes, x.Lots.Short = []tree.LotTake{{Lot: "L1", Weight: 7007}}, 8008
	data, err := json.Marshal(treeAnswer(x))
	if err != nil {
		t.Fatal(err)
	}
	var got map[string]any
	if err := json.Unmarshal(data, &got); err != nil {
		t.Fatal(err)
	}
	for key, want := range map[string]any{"name": "2026-W49-A", "alloy": "750 yellow", "owner": "house", "flask": "90 x 150", "pattern_volume_mm3": 1234.568, "pour_order": 4.0,
		"pour_at": "2026-12-03T09:00:00Z", "flask_c": 550.0, "metal_c": 1010.0, "powder_g": 1198.0, "liquid_g": 455.0, "short_g": 8.008} {
		if got[key] != want {
			t.Errorf("%s: %v, want %v", key, got[key], want)
		}
	}
	metal, sum := got["metal_g"].(map[string]any), measure.Milligram(0)
	for key, want := range map[string]float64{"patterns": 1.001, "feeders": 2.002, "trunk": 3.003, "button": 4.004, "melt_loss": 5.005, "rounding": 6.006, "total": 21.021} {
		if metal[key] != want {
			t.Errorf("metal_g %s: %v, want %v", key, metal[key], want)
		}
	}
	for key, v := range metal { // every key but total is an addend
		if key != "total" {
			sum += measure.Gram(v.(float64)).Round(1)
		}
	}
	if sum != x.Charge.Total {
		t.Errorf("the addends make %v", sum)
	}
	before := got["tree_before_investing_g"].(map[string]any)
	if before["wax"] != 0.86 || before["resin"] != 0.12 || len(before) != 2 {
		t.Errorf("before investing: %v", before)
	}
	lot := got["lots"].([]any)[0].(map[string]any)
	if lot["lot"] != "L1" || lot["grams"] != 7.007 || got["castings"].([]any)[0] != "K-1/1" {
		t.Errorf("lots %v, castings %v", got["lots"], got["castings"])
	}
}
