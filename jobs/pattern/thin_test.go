package pattern

import "testing"
import "math"

func TestThinProto(t *testing.T) {
	opt := Defaults()
	opt.GapDepth = 1
	opt.Gap = 0.8
	show := func(name string, parts ...solid) {
		r := mustMeasure(t, opt, parts...)
		t.Logf("%s V=%.3f thickest %.3f", name, r.Volume, r.Thickest)
		for _, w := range r.Walls {
			t.Logf("   wall %.3f area %.2f at %.2f", w.MM, float64(w.Area), w.At)
		}
		for _, w := range r.KnifeEdges {
			t.Logf("   knife %.3f area %.2f at %.2f", w.MM, float64(w.Area), w.At)
		}
		for _, w := range r.NarrowGaps {
			t.Logf("   gap %.3f area %.2f depth %.2f at %.2f", w.MM, float64(w.Area), w.Depth, w.At)
		}
	}
	show("plate", box(Point{0, 0, 0}, Point{10, 10, 0.6}))
	show("plate spun", box(Point{0, 0, 0}, Point{10, 10, 0.6}).spun(0, 1, 1).spun(1, 2, 0.4))
	show("cube", box(Point{0, 0, 0}, Point{10, 10, 10}))
	show("ball", ball(3, Point{}, 80, 160))
	show("wire2.4", torus(9, 1.2, 200, 40))
	show("wire0.7", torus(9, 0.35, 200, 40))
	show("gap", box(Point{0, 0, 0}, Point{3, 3, 2}), box(Point{0, 0, 2.2}, Point{3, 3, 4}))
	wedge := func(a float64) solid {
		h := 10 * math.Tan(a*math.Pi/180)
		b := solid{points: [][3]float64{{0, 0, 0}, {10, 0, 0}, {10, h, 0}, {0, 0, 10}, {10, 0, 10}, {10, h, 10}}, faces: [][3]int32{{0, 2, 1}, {3, 4, 5}, {0, 1, 4}, {0, 4, 3}, {1, 2, 5}, {1, 5, 4}, {2, 0, 3}, {2, 3, 5}}}
		return b.outward()
	}
	show("wedge20", wedge(20))
	show("wedge60", wedge(60))
	show("wedge8", wedge(8))
	show("ring", ring(12)...)
	show("wires crossing", sweepTube(func(s float64) (Point, float64) { return Point{10*s - 5, 0, 0}, 0.6 }, 40, 40, false, Point{0, 0, 1}), sweepTube(func(s float64) (Point, float64) { return Point{0, 10*s - 5, 1}, 0.6 }, 40, 40, false, Point{0, 0, 1}))
	// pin hole: plate of 3 with hole: a tube
}
