package tree

import (
	"testing"

	"castweek/jobs/workshop"
	"castweek/metal"
	"castweek/metal/measure"

	"pgregory.net/rapid"
)

// A limit is kept to the milligram: the crucible's, and the room of the base.
func TestLimitsAreKeptToTheMilligram(t *testing.T) {
	in := metal.ChargeInput{Density: 15, Cavity: 1000, Button: metal.ButtonRule{Kind: metal.ButtonFixed, Fixed: 10}, Step: 1}
	for _, c := range []struct {
		limit, tree measure.Milligram
		want        bool
	}{{30_000, 20_000, true}, {30_000, 20_001, false}, {29_999, 20_000, false}} {
		if got := holds(in, c.limit, c.tree); got != c.want {
			t.Errorf("a tree of %v and a button of 10 g in a crucible for %v: %v", c.tree, c.limit, got)
		}
	}
	for _, c := range []struct {
		fixed measure.Gram
		want  bool
	}{{15, true}, {15.01, false}} { // 15 g/cm³ in 1 cm³
		in.Button.Fixed = c.fixed
		if got := holds(in, 1_000_000, 1000); got != c.want {
			t.Errorf("a button of %v in 1 cm³: %v", c.fixed, got)
		}
	}
}

// The capacity found by halving is the last tree that holds.
func TestMetalCapacityIsTheLastThatHolds(t *testing.T) {
	gold, _ := metal.StartList().Find("750 yellow")
	rapid.Check(t, func(t *rapid.T) {
		w := &workshop.Workshop{ScaleStep: 10, MeltLoss: metal.LossRule{Default: 0.5},
			Button:    metal.ButtonRule{Kind: metal.ButtonKind(rapid.IntRange(0, 3).Draw(t, "kind")), Share: 12, Fixed: 14, Minimum: 10},
			Crucibles: []workshop.Crucible{{Name: "clay", Alloys: []string{"gold"}, Limit: measure.Gram(rapid.IntRange(5, 500).Draw(t, "limit"))}}}
		f := workshop.Flask{ButtonCavity: measure.CubicMM(rapid.IntRange(100, 12_000).Draw(t, "cavity"))}
		in, limit := chargeInput(w, gold, f), w.Crucibles[0].Limit.RoundDown(1)
		most := metalCapacity(w, gold, f)
		if most >= 0 && !holds(in, limit, most) || most < 0 && holds(in, limit, 0) {
			t.Fatalf("%v does not hold", most)
		}
		if most >= 0 && most < limit && holds(in, limit, most+1) {
			t.Fatalf("one more than %v holds", most)
		}
	})
}
