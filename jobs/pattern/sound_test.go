package pattern

import (
	"math"
	"math/rand/v2"
	"testing"
)

// damaged writes the solids as one soup of facets after a change.
func damaged(parts []solid, change func(r *rand.Rand, facets [][3]Point) [][3]Point) []byte {
	var facets [][3]Point
	for _, p := range parts {
		for _, f := range p.faces {
			facets = append(facets, [3]Point{p.points[f[0]], p.points[f[1]], p.points[f[2]]})
		}
	}
	facets = change(rand.New(rand.NewPCG(1, 2)), facets)
	out := stlOf()
	out[80], out[81], out[82] = byte(len(facets)), byte(len(facets)>>8), byte(len(facets)>>16)
	for _, f := range facets {
		out = appendFacet(out, f[0], f[1], f[2])
	}
	return out
}

func without(n int) func(*rand.Rand, [][3]Point) [][3]Point {
	return func(r *rand.Rand, f [][3]Point) [][3]Point {
		r.Shuffle(len(f), func(i, j int) { f[i], f[j] = f[j], f[i] })
		return f[n:]
	}
}

func flipped(n int) func(*rand.Rand, [][3]Point) [][3]Point {
	return func(r *rand.Rand, f [][3]Point) [][3]Point {
		for range n {
			k := r.IntN(len(f))
			f[k][1], f[k][2] = f[k][2], f[k][1]
		}
		return f
	}
}

// hole takes away the skin of the shank within a radius of a place.
func hole(radius float64) func(*rand.Rand, [][3]Point) [][3]Point {
	return func(_ *rand.Rand, f [][3]Point) [][3]Point {
		var out [][3]Point
		for _, t := range f {
			if t[0].add(t[1]).add(t[2]).scale(1./3).distance(Point{-10.7, 0, 0}) > radius {
				out = append(out, t)
			}
		}
		return out
	}
}

// Damage that is closed: volume off by no more than the share, and by no more
// than the stated bound.
func TestDamageIsClosed(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	parts := ring(8)
	want := float64(mustMeasure(t, Defaults(), parts...).Volume)
	for _, c := range []struct {
		name   string
		share  float64
		state  State
		change func(*rand.Rand, [][3]Point) [][3]Point
	}{
		{"1 face missing", 1e-5, Patched, without(1)},
		{"10 faces missing", 3e-5, Patched, without(10)},
		{"100 faces missing", 1e-4, Patched, without(100)},
		{"5 % of the faces missing", 1e-3, Untrusted, without(2900)},
		{"a hole of 0.5 mm radius", 3e-4, Patched, hole(0.5)},
		{"a hole of 1 mm radius", 2.5e-3, Patched, hole(1)},
		{"the shank cut through", 0.06, Untrusted, hole(2.4)},
		{"1 face flipped", 1e-5, Exact, flipped(1)},
		{"100 faces flipped", 1e-5, Exact, flipped(100)},
	} {
		r, err := Measure("t.stl", damaged(parts, c.change), Defaults())
		if err != nil {
			t.Fatal(err)
		}
		closeTo(t, c.name, float64(r.Volume), want, c.share*want+2e-5*want)
		closeTo(t, c.name+", within its bound", float64(r.Volume), want, float64(r.Bound))
		if r.State != c.state {
			t.Errorf("%s: %s, patched %.2f of %.1f mm²", c.name, r.State, float64(r.PatchedArea), float64(r.Area))
		}
	}
}

// Points that were moved by the last bit are joined, and nothing else is.
func TestLastBitsAreJoined(t *testing.T) {
	t.Parallel()
	one := []solid{torus(9.6, 1.1, 60, 24)}
	r, err := Measure("t.stl", damaged(one, func(r *rand.Rand, f [][3]Point) [][3]Point {
		for i := range f {
			for k := range 3 {
				for a := range 3 {
					if r.IntN(10) == 0 {
						f[i][k][a] = float64(math.Nextafter32(float32(f[i][k][a]), 100))
					}
				}
			}
		}
		return f
	}), Defaults())
	if err != nil {
		t.Fatal(err)
	}
	if r.State != Exact || r.OpenEdges != 0 || r.Solids != 1 || r.JoinedPoints == 0 {
		t.Errorf("%s, %d open, %d solids, %d joined", r.State, r.OpenEdges, r.Solids, r.JoinedPoints)
	}
	// Two cubes 20 µm apart stay two.
	apart := mustMeasure(t, Defaults(), box(Point{}, Point{5, 5, 5}), box(Point{0, 0, 5.02}, Point{5, 5, 9}))
	if apart.Solids != 2 || apart.JoinedPoints != 0 {
		t.Errorf("%d solids, %d joined", apart.Solids, apart.JoinedPoints)
	}
}

// An inverted solid that is mostly, but not wholly, inside another may be
// metal or a cut: nobody but a person can tell.
func TestMetalOrCut(t *testing.T) {
	t.Parallel()
	r := mustMeasure(t, Defaults(), box(Point{}, Point{10, 10, 10}), box(Point{3, 3, 3}, Point{6, 6, 10.5}).inverted())
	if r.State != Untrusted || r.Problems.Errors()[0].Code != "pattern-in-or-out" {
		t.Errorf("%s %v", r.State, r.Problems)
	}
}
