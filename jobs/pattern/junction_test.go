package pattern

import (
	"math/rand/v2"
	"testing"
)

// gridTop is a box whose upper side is a grid of squares, its other sides two
// faces each: every corner of the grid on the rim is a T-junction.
func gridTop(hi Point, n int) solid {
	b := box(Point{}, hi)
	out := solid{points: b.points}
	for _, f := range b.faces {
		if b.points[f[0]][2]+b.points[f[1]][2]+b.points[f[2]][2] < 3*hi[2] {
			out.faces = append(out.faces, f)
		}
	}
	first := int32(len(out.points))
	for i := range n + 1 {
		for j := range n + 1 {
			out.points = append(out.points, [3]float64{hi[0] * float64(i) / float64(n), hi[1] * float64(j) / float64(n), hi[2]})
		}
	}
	at := func(i, j int) int32 { return first + int32(i*(n+1)+j) }
	for i := range n {
		for j := range n {
			out.faces = append(out.faces, [3]int32{at(i, j), at(i+1, j), at(i+1, j+1)}, [3]int32{at(i, j), at(i+1, j+1), at(i, j+1)})
		}
	}
	return out
}

// A T-junction loses nothing: the state is exact, whether the corners come
// singly or all around a side, and however the pattern is turned.
func TestJunctionsAreExact(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	top := gridTop(Point{10, 8, 6}, 9)
	for i, p := range []solid{top, top.spun(0, 1, 0.83).spun(1, 2, 0.41).shifted(Point{30, -7, 12})} {
		r := mustMeasure(t, coarser(64), p)
		closeTo(t, "volume", float64(r.Volume), 480, 1e-5*480)
		closeTo(t, "area", float64(r.Area), 2*(80+60+48), 1e-4*376)
		if r.State != Exact || r.OpenEdges != 0 || r.Junctions != 4*8 || r.Solids != 1 || r.PatchedArea != 0 {
			t.Errorf("turn %d: %s, %d open, %d junctions, %d solids, %.3g mm² patched", i, r.State, r.OpenEdges, r.Junctions, r.Solids, float64(r.PatchedArea))
		}
	}
	// On a ring, fifty sides that only one of the two faces knows to be cut.
	parts := ring(5)
	want := mustMeasure(t, coarser(128), parts...)
	r, err := Measure("t.stl", damaged(parts, func(r *rand.Rand, f [][3]Point) [][3]Point {
		for range 50 {
			k := r.IntN(len(f))
			m := f[k][0].add(f[k][1]).scale(0.5)
			f = append(f, [3]Point{m, f[k][1], f[k][2]})
			f[k][1] = m
		}
		return f
	}), coarser(128))
	if err != nil {
		t.Fatal(err)
	}
	closeTo(t, "ring", float64(r.Volume), float64(want.Volume), 1e-5*float64(want.Volume))
	if r.State != Exact || r.Junctions < 45 || r.Solids != want.Solids {
		t.Errorf("%s, %d open, %d junctions, %d solids", r.State, r.OpenEdges, r.Junctions, r.Solids)
	}
	// A true hole beside a T-junction stays a hole.
	open := gridTop(Point{10, 8, 6}, 9)
	open.faces = open.faces[:len(open.faces)-1]
	if r := mustMeasure(t, coarser(64), open); r.State != Patched || r.Holes != 1 || r.OpenEdges != 3 {
		t.Errorf("%s, %d holes, %d open", r.State, r.Holes, r.OpenEdges)
	}
}

// The third corner of a face without extent lies on its own side, and is no
// T-junction of it.
func TestSliverIsNoJunction(t *testing.T) {
	t.Parallel()
	b := box(Point{}, Point{10, 8, 6})
	b.points = append(b.points, [3]float64{5, 0, 0})
	for _, sliver := range [][3]int32{{0, 1, 8}, {1, 0, 8}} {
		with := solid{b.points, append(append([][3]int32(nil), b.faces...), sliver)}
		r := mustMeasure(t, coarser(64), with)
		closeTo(t, "volume", float64(r.Volume), 480, 1e-5*480)
		if r.State == Untrusted {
			t.Errorf("%v: %v", sliver, r.Problems)
		}
	}
}
