package mount

import (
	"testing"

	"castweek/metal/measure"
)

func TestOnlyKeepsWhatIsLeftInItsPlace(t *testing.T) {
	var bodies []Body
	for _, id := range []string{"A", "B", "C", "D"} {
		bodies = append(bodies, Body{ID: id, Size: measure.Size{Length: 16, Width: 12, Height: 3}, Weight: 4, Thickest: 2, Feeders: Feeders{Count: 1, Diameter: 3, Length: 8}})
	}
	whole, v := Place(Flask{InnerDiameter: 90, Height: 150, TrunkDiameter: 8, ButtonHeight: 15}, Gaps{Between: 3, Wall: 6, Top: 13}, bodies, Options{})
	if v.Outcome != Hangs {
		t.Fatal(v)
	}
	part := whole.Only(func(id string) bool { return id == "B" || id == "D" })
	if len(part.Placements) != 2 || part.TrunkVolume != whole.TrunkVolume || len(part.Side(6)) != 2 {
		t.Fatalf("%+v", part)
	}
	var feeders measure.CubicMM
	count := 0
	for _, p := range part.Placements {
		feeders += p.FeederVolume
		for _, w := range whole.Placements {
			if w.ID == p.ID && w.Transform != p.Transform {
				t.Errorf("%s has moved", p.ID)
			}
		}
	}
	for _, l := range part.Levels {
		count += l.Count
	}
	if feeders != part.FeederVolume || count != 2 {
		t.Errorf("feeders %v of %v, %d on levels", part.FeederVolume, feeders, count)
	}
}
