package tree

import (
	"strings"
	"testing"

	"castweek/jobs"
)

// TestSpots: a stone is marked in the view that the job names, where it says,
// and nowhere else.
func TestSpots(t *testing.T) {
	pair := []jobs.Part{{Name: "left", Pattern: jobs.Pattern{Mesh: "drop.stl"}}, {Name: "right", Pattern: jobs.Pattern{Mesh: "drop.stl"}}, {Name: "pin", Pattern: jobs.Pattern{Mesh: "pin.stl"}}}
	j := &jobs.Job{Parts: pair, Stones: []jobs.Stone{
		{Part: 0, Count: 2, Sits: []jobs.Seat{{View: "top", X: 1, Y: 2}, {View: "top", X: 3, Y: 2}}},
		{Part: 1, Count: 1, Sits: []jobs.Seat{{View: "front", X: 4, Y: 4}}},
		{Part: 2, Count: 1, Sits: []jobs.Seat{{View: "top", X: 1, Y: 1}}},
		{Part: 0, Count: 1},
		{Part: 0, Count: 1, Sits: []jobs.Seat{{View: "top", X: 11, Y: 1}}},
	}}
	b := &Bag{Pictures: []Picture{{Part: "left", View: "front", Width: 10, Height: 5}, {Part: "left", View: "top", Width: 10, Height: 4}},
		Stones: []BagStone{{Mark: "A"}, {Mark: "B"}, {Mark: "C"}, {Mark: "D"}, {Mark: "E"}}}
	told := spots(j, b, []int{0, 1, 2, 3, 4})
	if got := b.Pictures[1].Spots; len(got) != 2 || got[0] != (Spot{"A1", 1, 2}) || got[1] != (Spot{"A2", 3, 2}) {
		t.Errorf("top: %v", got)
	}
	if got := b.Pictures[0].Spots; len(got) != 1 || got[0] != (Spot{"B", 4, 4}) { // the equal pattern's picture
		t.Errorf("front: %v", got)
	}
	for i, want := range []bool{true, true, false, false, false} {
		if b.Stones[i].Drawn != want {
			t.Errorf("%s: drawn %v", b.Stones[i].Mark, !want)
		}
	}
	if len(told) != 1 || !strings.Contains(told[0], "E at top 11 x 1 mm lies outside the pattern, which is 10 x 4 mm there") {
		t.Errorf("%q", told)
	}
}
