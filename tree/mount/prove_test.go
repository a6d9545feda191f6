package mount

import (
	"fmt"
	"testing"

	"castweek/metal/measure"
)

func boxBody(id string, l, w, h float64) Body {
	return Body{ID: id, Size: measure.Size{Length: measure.MM(l), Width: measure.MM(w), Height: measure.MM(h)}, Weight: measure.CubicMM(l * w * h).Times(10.36), Thickest: 2}
}

func TestTooLargeIsProved(t *testing.T) {
	f := Flask{InnerDiameter: 76, Height: 90, TrunkDiameter: 8, ButtonHeight: 10}
	// Beside the trunk: 38-6 = 32 out, 4+3 = 7 in, 25 deep, 62.4 chord, 64.3 high, 89.6 from end to end.
	for _, c := range []struct {
		b      Body
		proved bool
	}{
		{boxBody("cube", 26, 26, 26), true},
		{boxBody("rod", 90, 2, 2), true},
		{boxBody("ring", 20, 20, 4), false},
	} {
		_, v := Place(f, testGaps, []Body{boxBody("small", 10, 10, 3), c.b}, Options{})
		if c.proved && (v.Outcome != CannotProved || v.Culprit != c.b.ID || v.Code != "mount-too-large") {
			t.Errorf("%s: %v, culprit %q, %s", c.b.ID, v.Outcome, v.Culprit, v.Message)
		}
		if !c.proved && v.Outcome != Hangs {
			t.Errorf("%s: %v, %s", c.b.ID, v.Outcome, v.Message)
		}
	}
	// What fits in no pose, but for no reason that is proved, is named and left open.
	_, v := Place(f, testGaps, []Body{boxBody("slab", 40, 40, 22)}, Options{})
	if v.Outcome != GaveUp || v.Culprit != "slab" || v.Code != "mount-no-pose" {
		t.Errorf("slab: %v, culprit %q, %s", v.Outcome, v.Culprit, v.Message)
	}
}

func TestVolumeIsProved(t *testing.T) {
	var many []Body
	for i := range 250 {
		many = append(many, boxBody(fmt.Sprint(i), 20, 20, 6))
	}
	_, v := Place(testFlask, testGaps, many, Options{Steps: 1000})
	if v.Outcome != CannotProved || v.Code != "mount-volume" {
		t.Errorf("%v: %s", v.Outcome, v.Message)
	}
}

// No proof may speak against a tree that hangs, and what hangs must keep to the
// shares of the relaxation.
func TestProofsSpareWhatHangs(t *testing.T) {
	f := Flask{InnerDiameter: 70, Height: 90, TrunkDiameter: 8, ButtonHeight: 10}
	for _, gap := range []measure.MM{0, 1, 3} {
		g := testGaps
		g.Between = gap
		for n := 1; n <= 16; n += 3 {
			var bodies []Body
			for i := range n {
				b := ringBody(fmt.Sprint(i), 15+float64(i%5), 3+float64(i%3), float64(i%2)*5)
				b.Feeders = Feeders{Count: i % 3, Length: measure.MM(i % 4 * 3), Diameter: measure.MM(i % 5)}
				bodies = append(bodies, b.Traced())
			}
			tree, _ := Place(f, g, bodies, Options{})
			left := map[string]bool{}
			for _, id := range tree.Left {
				left[id] = true
			}
			var hung []Body
			var need, room measure.MM
			feeder := map[string]measure.CubicMM{}
			for _, p := range tree.Placements {
				feeder[p.ID] = p.FeederVolume
			}
			for _, b := range bodies {
				if !left[b.ID] {
					hung = append(hung, b)
					e := Estimate(f, g, b, Options{})
					need, room = need+e.LeastShare, e.Room
					if e.LeastFeeder > feeder[b.ID] || gap > 0 && e.LeastFeeder <= 0 || e.LeastTrunk > tree.TrunkLength {
						t.Fatalf("gap %v: at least %v of feeder on %v of trunk, but %v on %v hang", gap, e.LeastFeeder, e.LeastTrunk, feeder[b.ID], tree.TrunkLength)
					}
				}
			}
			if v, ok := refute(roomOf(f, g), hung); ok {
				t.Fatalf("gap %v: %d castings hang, yet %s", gap, len(hung), v.Message)
			}
			if need > room {
				t.Fatalf("gap %v: shares %v in a room of %v", gap, need, room)
			}
		}
	}
}

// The estimate holds for a tree of one kind: as many as its shares let hang on the
// trunk do, to a fifth less.
func TestEstimateOfOneKind(t *testing.T) {
	b := ringBody("R", 22, 4, 0)
	e := Estimate(testFlask, testGaps, b, Options{})
	if !e.Hangs || e.Share <= 0 || e.Roots <= e.Share || e.Feeder <= 0 {
		t.Fatalf("%+v", e)
	}
	var bodies []Body
	for i := range int(0.8 * e.Roots / e.Share) {
		c := b
		c.ID = fmt.Sprint(i)
		bodies = append(bodies, c.Traced())
	}
	tree, v := Place(testFlask, testGaps, bodies, Options{})
	if v.Outcome != Hangs || len(bodies) < 6 {
		t.Errorf("%d castings: %v on %d levels", len(bodies), v.Outcome, len(tree.Levels))
	}
	if (Estimate(testFlask, testGaps, Body{}, Options{}) != Need{}) {
		t.Error("a body without anything has no need")
	}
}

func mm(x int) measure.MM { return measure.MM(x) }
