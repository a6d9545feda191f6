package meshes

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Distances that a pencil gives.
func TestDistance(t *testing.T) {
	flat := Triangle{{0, 0, 0}, {4, 0, 0}, {0, 4, 0}}
	for _, c := range []struct {
		name string
		b    Triangle
		want float64
	}{
		{"above", Triangle{{1, 1, 3}, {2, 1, 3}, {1, 2, 3}}, 3},
		{"a corner above", Triangle{{1, 1, 2}, {9, 9, 9}, {-9, 9, 9}}, 2},
		{"beside", Triangle{{7, 0, 0}, {8, 0, 0}, {7, 1, 0}}, 3},
		{"corner to corner", Triangle{{7, 0, 4}, {8, 0, 4}, {8, 1, 4}}, 5},
		{"edges that cross", Triangle{{-1, -1, 2}, {-1, -1, 2}, {-1, -1, 2}}, math.Sqrt(6)},
		{"through", Triangle{{1, 1, -1}, {1, 1, 1}, {2, 2, 1}}, 0},
		{"a line across an edge", Triangle{{2, -1, 1}, {2, -1, -1}, {2, -1, -1}}, 1},
	} {
		if got := Distance(flat, c.b); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
		if got := Distance(c.b, flat); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%s the other way: %v, want %v", c.name, got, c.want)
		}
	}
}

// The cells leave out nothing: comparing all triangles with all gives the same
// answer.
func TestApartAgainstAllPairs(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 7))
	cloud := func(x float64) (out []Triangle) {
		for range 12 {
			m := Point{x + 5*r.Float64(), 5 * r.Float64(), 5 * r.Float64()}
			var s Triangle
			for k := range s {
				s[k] = Point{m[0] + 3*r.Float64(), m[1] + 3*r.Float64(), m[2] + 3*r.Float64()}
			}
			out = append(out, s)
		}
		return out
	}
	near := 0
	for range 300 {
		a, b, gap := cloud(0), cloud(6+8*r.Float64()), 4*r.Float64()
		least := math.Inf(1)
		for _, s := range a {
			for _, u := range b {
				least = math.Min(least, Distance(s, u))
			}
		}
		_, ok := Apart(a, b, gap)
		if ok != (least >= gap) {
			t.Fatalf("at %v, gap %v: %v", least, gap, ok)
		}
		if !ok {
			near++
		}
	}
	if near < 50 || near > 250 {
		t.Errorf("%d of 300 too near: the clouds try nothing", near)
	}
}
