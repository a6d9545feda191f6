package mount

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"castweek/metal/measure"

	"pgregory.net/rapid"
)

var (
	testFlask = Flask{InnerDiameter: 89, Height: 130, TrunkDiameter: 9, ButtonHeight: 15}
	testGaps  = Gaps{Between: 3, Wall: 6, WallResin: 10, Top: 12.7}
)

func rings(n int, head float64) []Body {
	var out []Body
	for i := range n {
		out = append(out, ringBody(fmt.Sprintf("R%03d", i), 19+float64(i*7%15)/2, 2+float64(i*5%11)/2, head))
	}
	return out
}

func TestRingsHang(t *testing.T) {
	for _, head := range []float64{0, 6} {
		bodies := rings(20, head)
		tree, v := Place(testFlask, testGaps, bodies, Options{})
		if v.Outcome != Hangs {
			t.Fatalf("head %v: %v, %s", head, v.Outcome, v.Message)
		}
		judge(t, testFlask, testGaps, bodies, tree)
		for _, p := range tree.Placements {
			if p.TiltDeg != DefaultTilt || p.Hour <= 0 || p.Hour > 12 || p.Hour*4 != float64(int(p.Hour*4)) {
				t.Errorf("%s at tilt %v, hour %v", p.ID, p.TiltDeg, p.Hour)
			}
		}
	}
}

// The referee itself must be able to find a fault.
func TestRefereeSeesFaults(t *testing.T) {
	bodies := rings(12, 0)
	fresh := func() Tree {
		tree, _ := Place(testFlask, testGaps, bodies, Options{})
		return tree
	}
	for name, spoil := range map[string]func(*Tree){
		"twice":    func(t *Tree) { t.Placements[1].ID = t.Placements[0].ID },
		"lost":     func(t *Tree) { t.Placements = t.Placements[1:] },
		"shifted":  func(t *Tree) { t.Placements[3].Transform[2][3] += 8 },
		"outward":  func(t *Tree) { t.Placements[3].Transform[0][3] += 12 },
		"reversed": func(t *Tree) { t.Placements[0].Level = 99 },
	} {
		tree := fresh()
		spoil(&tree)
		if verdictOfReferee(testFlask, testGaps, bodies, tree) == nil {
			t.Errorf("%s was not seen", name)
		}
	}
}

// Random weeks of rings with heads, boxes of outer size and different flasks: what
// hangs keeps all promises, and what does not is named.
func TestPromisesOnRandomTrees(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := Flask{
			InnerDiameter: measure.MM(rapid.IntRange(50, 110).Draw(t, "flask")), Height: measure.MM(rapid.IntRange(60, 150).Draw(t, "height")),
			TrunkDiameter: measure.MM(rapid.IntRange(6, 12).Draw(t, "trunk")), ButtonHeight: measure.MM(rapid.IntRange(0, 15).Draw(t, "button")),
		}
		g := Gaps{Between: measure.MM(rapid.IntRange(0, 12).Draw(t, "gap")) / 2, Wall: 6, WallResin: 10, Top: 12.7, Resin: rapid.Bool().Draw(t, "resin")}
		n := rapid.IntRange(1, 9).Draw(t, "castings")
		var bodies []Body
		for i := range n {
			id := fmt.Sprintf("K-%d", i)
			outer := float64(rapid.IntRange(8, 26).Draw(t, "outer"))
			width := float64(rapid.IntRange(2, 16).Draw(t, "width")) / 2
			b := ringBody(id, outer, width, float64(rapid.IntRange(0, 8).Draw(t, "head")))
			switch rapid.IntRange(0, 4).Draw(t, "kind") {
			case 0:
				b.Points, b.Faces, b.Size = nil, nil, measure.Size{Length: measure.MM(outer), Width: measure.MM(outer), Height: measure.MM(width)}
			case 1:
				b.Attach = Attach{}
			case 2:
				b.Feeders.Count = rapid.IntRange(1, 3).Draw(t, "feeders")
				b.Feeders.Length = measure.MM(rapid.IntRange(0, 12).Draw(t, "length"))
				b.Feeders.Diameter = 2.6
			}
			bodies = append(bodies, b)
		}
		o := Options{TiltDeg: float64(rapid.SampledFrom([]int{0, 30, 45, 60, 90}).Draw(t, "tilt")), Steps: 50_000}
		tree, v := Place(f, g, bodies, o)
		if v.Outcome == BadInput {
			if len(v.Problems) == 0 {
				t.Fatal("bad input without a problem")
			}
			return
		}
		if (v.Outcome == Hangs) != (len(tree.Left) == 0) || (v.Outcome != Hangs && v.Message == "") {
			t.Fatalf("%v with %d left: %q", v.Outcome, len(tree.Left), v.Message)
		}
		if err := verdictOfReferee(f, g, bodies, tree); err != nil {
			t.Fatal(err)
		}
	})
}

func TestSameTreeEveryTime(t *testing.T) {
	bodies := rings(25, 4)
	first, v1 := Place(testFlask, testGaps, bodies, Options{})
	for range 3 {
		again, v2 := Place(testFlask, testGaps, bodies, Options{})
		if !reflect.DeepEqual(first.Placements, again.Placements) || !reflect.DeepEqual(v1, v2) {
			t.Fatal("two runs differ")
		}
	}
	turned := append([]Body(nil), bodies...)
	for i, j := 0, len(turned)-1; i < j; i, j = i+1, j-1 {
		turned[i], turned[j] = turned[j], turned[i]
	}
	if again, _ := Place(testFlask, testGaps, turned, Options{}); !reflect.DeepEqual(first.Placements, again.Placements) {
		t.Fatal("the order of the castings changes the tree")
	}
}

// A search that may not compare anything ends, says so, and loses nothing.
func TestStepLimit(t *testing.T) {
	bodies := rings(12, 0)
	tree, v := Place(testFlask, testGaps, bodies, Options{Steps: 20})
	if v.Outcome != GaveUp || v.Code != "mount-steps" {
		t.Errorf("%v, %s", v.Outcome, v.Code)
	}
	judge(t, testFlask, testGaps, bodies, tree)
}

func TestTrunkOfTheHouse(t *testing.T) {
	f := testFlask
	f.TrunkLength = 40
	bodies := rings(8, 0)
	tree, v := Place(f, testGaps, bodies, Options{})
	if v.Outcome != Hangs || tree.TrunkLength != 40 {
		t.Fatalf("%v on %v", v.Outcome, tree.TrunkLength)
	}
	judge(t, f, testGaps, bodies, tree)
	near(t, "volume", float64(tree.TrunkVolume), math.Pi/4*81*40, 1e-6)
}

// Trees of an invented week, dealt out by their estimated shares, all hang.
func TestWeekHangs(t *testing.T) {
	for i, group := range week(t, "week-0200.json") {
		for _, bodies := range trees(group, weekFlask, testGaps) {
			tree, v := Place(weekFlask, testGaps, bodies, Options{})
			if v.Outcome != Hangs {
				t.Errorf("group %d, %d castings: %v, %s", i, len(bodies), v.Outcome, v.Message)
			}
			if i%7 == 0 {
				judge(t, weekFlask, testGaps, bodies, tree)
			}
		}
	}
}

// Bodies measured beforehand, and bodies that share a mesh, give the same tree.
func TestTracedBeforehand(t *testing.T) {
	bodies := rings(15, 0)
	plain, _ := Place(testFlask, testGaps, bodies, Options{})
	for i := range bodies {
		bodies[i] = bodies[i].Traced()
	}
	traced, _ := Place(testFlask, testGaps, bodies, Options{})
	if !reflect.DeepEqual(plain.Placements, traced.Placements) {
		t.Error("measuring beforehand changes the tree")
	}
}
