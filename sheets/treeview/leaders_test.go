package treeview

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"
)

// Ids never lie on each other or outside their column, each keeps its own
// spot, and no two leaders of a column cross.
func TestLeaders(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const edge, top, bottom = 100.0, 20.0, 200.0
		n := rapid.IntRange(0, margin{top: top, bottom: bottom}.room()).Draw(t, "n")
		pins := make([]pin, n)
		spots := map[string][2]float64{}
		for i := range pins {
			pins[i] = pin{id: fmt.Sprint(i), x: rapid.Float64Range(0, edge-1).Draw(t, "x"), y: rapid.Float64Range(top, bottom).Draw(t, "y")}
			spots[pins[i].id] = [2]float64{pins[i].x, pins[i].y}
		}
		spread(pins, edge, top, bottom)
		for i, a := range pins {
			if spots[a.id] != [2]float64{a.x, a.y} {
				t.Fatalf("id %s points elsewhere", a.id)
			}
			if a.at < top+idPitch/2-1e-6 || a.at > bottom-idPitch/2+1e-6 {
				t.Fatalf("id %s stands at %v", a.id, a.at)
			}
			for _, b := range pins[i+1:] {
				if d := a.at - b.at; d < idPitch-1e-6 && d > -idPitch+1e-6 {
					t.Fatalf("ids %s and %s lie on each other: %v, %v", a.id, b.id, a.at, b.at)
				}
				if crosses(a, b, edge) {
					t.Fatalf("leaders of %s and %s cross", a.id, b.id)
				}
			}
		}
	})
}

// crosses tells whether two leaders cross by the turns of their four ends, a
// way that spread does not use.
func crosses(a, b pin, edge float64) bool {
	turn := func(p, q, r [2]float64) float64 { return (q[0]-p[0])*(r[1]-p[1]) - (q[1]-p[1])*(r[0]-p[0]) }
	a1, a2, b1, b2 := [2]float64{a.x, a.y}, [2]float64{edge, a.at}, [2]float64{b.x, b.y}, [2]float64{edge, b.at}
	const small = 1e-6
	opposite := func(u, v float64) bool { return u > small && v < -small || u < -small && v > small }
	return opposite(turn(a1, a2, b1), turn(a1, a2, b2)) && opposite(turn(b1, b2, a1), turn(b1, b2, a2))
}

// Both columns together hold every pin, and neither more than its room unless
// both are full.
func TestSides(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		room := rapid.IntRange(1, 20).Draw(t, "room")
		n := rapid.IntRange(0, 2*room).Draw(t, "n")
		pins := make([]pin, n)
		for i := range pins {
			pins[i] = pin{x: rapid.Float64Range(-50, 50).Draw(t, "x")}
		}
		left, right := sides(pins, 0, room)
		if len(left)+len(right) != n || len(left) > room || len(right) > room {
			t.Fatalf("%d and %d of %d in columns of %d", len(left), len(right), n, room)
		}
	})
}
