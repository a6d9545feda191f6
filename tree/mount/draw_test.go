package mount

import (
	"math"
	"testing"
)

// inside says by the winding of a polygon whether a point lies in it.
func inside(p [2]float64, poly []Spot) bool {
	in := false
	for i, j := 0, len(poly)-1; i < len(poly); j, i = i, i+1 {
		xi, yi, xj, yj := float64(poly[i].X), float64(poly[i].Y), float64(poly[j].X), float64(poly[j].Y)
		if (yi > p[1]) != (yj > p[1]) && p[0] < (xj-xi)*(p[1]-yi)/(yj-yi)+xi {
			in = !in
		}
	}
	return in
}

func offOutline(p [2]float64, poly []Spot) float64 {
	if inside(p, poly) {
		return 0
	}
	best := math.Inf(1)
	for i, q := range poly {
		n := poly[(i+1)%len(poly)]
		best = math.Min(best, pointSegment(vec{p[0], p[1]}, vec{float64(q.X), float64(q.Y)}, vec{float64(n.X), float64(n.Y)}))
	}
	return best
}

// Every corner of every mesh, moved by the printed transform, falls into the
// silhouettes to within a slice, and no silhouette is larger than its casting.
func TestSilhouettesShowTheMeshes(t *testing.T) {
	bodies := rings(14, 5)
	bodies = append(bodies, boxBody("box", 12, 12, 4))
	by := map[string]Body{}
	for _, b := range bodies {
		by[b.ID] = b
	}
	tree, v := Place(testFlask, testGaps, bodies, Options{})
	if v.Outcome != Hangs {
		t.Fatal(v.Message)
	}
	at := map[string][]tri{}
	for _, p := range tree.Placements {
		at[p.ID] = solid(by[p.ID], p.Transform)
	}
	check := func(s Silhouette, to func(vec) [2]float64) {
		t.Helper()
		lo, hi := [2]float64{1e9, 1e9}, [2]float64{-1e9, -1e9}
		for _, x := range at[s.ID] {
			for _, c := range x {
				q := to(c)
				if d := offOutline(q, s.Outline); d > 0.8 {
					t.Fatalf("%s: a corner lies %v outside its silhouette", s.ID, d)
				}
				for k := range 2 {
					lo[k], hi[k] = math.Min(lo[k], q[k]), math.Max(hi[k], q[k])
				}
			}
		}
		for _, q := range s.Outline {
			if x, y := float64(q.X), float64(q.Y); x < lo[0]-0.6 || x > hi[0]+0.6 || y < lo[1]-0.6 || y > hi[1]+0.6 {
				t.Fatalf("%s: silhouette reaches %v, mesh %v to %v", s.ID, q, lo, hi)
			}
		}
		if len(s.Feeder) < 4 {
			t.Fatalf("%s: no feeder is drawn", s.ID)
		}
	}
	for _, hour := range []float64{6, 3, 10.25} {
		sin, cos := math.Sincos(hour * math.Pi / 6)
		side := tree.Side(hour)
		if len(side) != len(bodies) {
			t.Fatalf("%d silhouettes for %d castings", len(side), len(bodies))
		}
		for i, s := range side {
			check(s, func(p vec) [2]float64 { return [2]float64{-cos*p[0] + sin*p[1], p[2]} })
			if i > 0 && s.Depth < side[i-1].Depth {
				t.Error("the nearest must be drawn last")
			}
		}
	}
	shown := 0
	for _, l := range tree.Plans() {
		if l.Count != len(l.Castings) {
			t.Errorf("level %d: %d of %d", l.Number, len(l.Castings), l.Count)
		}
		for _, s := range l.Castings {
			shown++
			check(s, func(p vec) [2]float64 { return [2]float64{p[0], p[1]} })
			// The middle lies at its hour mark, clockwise from 12 at the top.
			if a := math.Mod(math.Atan2(float64(s.Middle.X), float64(s.Middle.Y))*6/math.Pi+12, 12); math.Abs(math.Mod(a-s.Hour+18, 12)-6) > 0.4 {
				t.Errorf("%s at hour %v is drawn at %v", s.ID, s.Hour, a)
			}
		}
	}
	if shown != len(bodies) {
		t.Errorf("%d castings in the plans", shown)
	}
	half, bottom, top := tree.Limits()
	if half != 38.5 || bottom != 3 || math.Abs(float64(top)-102.3) > 1e-9 || len(tree.TrunkSide()) != 4 {
		t.Errorf("limits %v, %v, %v", half, bottom, top)
	}
}
