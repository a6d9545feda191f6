package pattern

import (
	"math"
	"testing"
)

// coarser options for what does not ask for the last digit.
func coarser(grid int) Options {
	o := Defaults()
	o.Grid = grid
	return o
}

func spunAll(parts []solid) []solid {
	var out []solid
	for _, p := range parts {
		out = append(out, p.spun(0, 1, 0.83).spun(1, 2, 0.41).spun(0, 2, 1.9))
	}
	return out
}

// wedge is a prism of 10 mm with an edge of the given angle.
func wedge(degrees float64) solid {
	h := 10 * math.Tan(degrees*math.Pi/180)
	return solid{points: [][3]float64{{0, 0, 0}, {10, 0, 0}, {10, h, 0}, {0, 0, 10}, {10, 0, 10}, {10, h, 10}},
		faces: [][3]int32{{0, 2, 1}, {3, 4, 5}, {0, 1, 4}, {0, 4, 3}, {1, 2, 5}, {1, 5, 4}, {2, 0, 3}, {2, 3, 5}}}.outward()
}

func TestThinWalls(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	wire := sweepTube(func(s float64) (Point, float64) { return Point{10*s - 5, 0, 0}, 0.6 }, 40, 40, false, Point{0, 0, 1})
	for _, c := range []struct {
		name string
		want float64 // 0: no thin wall
		part []solid
	}{
		{"plate of 0.6", 0.6, []solid{box(Point{}, Point{10, 10, 0.6})}},
		{"plate at the limit", 0, []solid{box(Point{}, Point{10, 10, 0.8})}},
		{"wire of 0.7", 0.69, []solid{torus(9, 0.35, 200, 40)}},
		{"wire of 2.4", 0, []solid{torus(9, 1.2, 200, 40)}},
		{"cube", 0, []solid{box(Point{}, Point{10, 10, 10})}},
		{"ball", 0, []solid{ball(3, Point{}, 60, 120)}},
		{"wedge of 20 degrees", 0, []solid{wedge(20)}},
		{"wedge of 60 degrees", 0, []solid{wedge(60)}},
		{"round wires crossing", 0, []solid{wire, wire.spun(0, 1, math.Pi/2).shifted(Point{0, 0, 1})}},
	} {
		for i, parts := range [][]solid{c.part, spunAll(c.part)} {
			r := mustMeasure(t, coarser(256), parts...)
			switch {
			case c.want == 0 && r.Thinnest != nil:
				t.Errorf("%s, turn %d: a wall of %s %s", c.name, i, r.Thinnest.MM, r.Thinnest.Where)
			case c.want > 0 && r.Thinnest == nil:
				t.Errorf("%s, turn %d: no thin wall", c.name, i)
			case c.want > 0:
				closeTo(t, c.name, float64(r.Thinnest.MM), c.want, 0.012)
			}
		}
	}
}

func TestNarrowGaps(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	for i, parts := range [][]solid{
		{box(Point{}, Point{3, 3, 2}), box(Point{0, 0, 2.2}, Point{3, 3, 4})},
		spunAll([]solid{box(Point{}, Point{3, 3, 2}), box(Point{0, 0, 2.2}, Point{3, 3, 4})}),
	} {
		r := mustMeasure(t, Defaults(), parts...)
		if len(r.NarrowGaps) != 1 {
			t.Fatalf("turn %d: %d gaps", i, len(r.NarrowGaps))
		}
		g := r.NarrowGaps[0]
		closeTo(t, "gap", float64(g.MM), 0.2, 0.01)
		closeTo(t, "depth", float64(g.Depth), 3, 0.35)
		closeTo(t, "area", float64(g.Area), 9, 1.2)
	}
	// 0.2 mm wide and 0.15 mm deep lets the investment out again.
	groove := []solid{box(Point{}, Point{8, 3, 1}), box(Point{0, 0, 0.9}, Point{8, 1.4, 1.15}), box(Point{0, 1.6, 0.9}, Point{8, 3, 1.15})}
	if r := mustMeasure(t, Defaults(), groove...); len(r.NarrowGaps) != 0 {
		t.Errorf("a shallow groove: %+v", r.NarrowGaps)
	}
	// A round hole of 0.3 mm through 2 mm: a pin of investment that breaks off.
	for _, pin := range [][]solid{{band(0.3, 2, 1.5, 24)}, spunAll([]solid{band(0.3, 2, 1.5, 24)})} {
		r := mustMeasure(t, Defaults(), pin...)
		if len(r.NarrowGaps) != 1 {
			t.Fatalf("pin: %+v", r.NarrowGaps)
		}
		closeTo(t, "pin", float64(r.NarrowGaps[0].MM), 0.3, 0.01)
		closeTo(t, "depth of the pin", float64(r.NarrowGaps[0].Depth), 2, 0.35)
	}
	// Round wires that run into each other make a crevice, not a slit.
	wire := sweepTube(func(s float64) (Point, float64) { return Point{10*s - 5, 0, 0}, 0.6 }, 40, 60, false, Point{0, 0, 1})
	for _, angle := range []float64{0.6, 1, math.Pi / 2} {
		if r := mustMeasure(t, Defaults(), wire, wire.spun(0, 1, angle).shifted(Point{0, 0, 1})); len(r.NarrowGaps) != 0 {
			t.Errorf("wires crossing at %.1f: %+v", angle, r.NarrowGaps)
		}
	}
	// Strands side by side that nearly touch do make one.
	if r := mustMeasure(t, Defaults(), wire, wire.shifted(Point{0, 0, 1.3})); len(r.NarrowGaps) != 1 {
		t.Errorf("strands: %+v", r.NarrowGaps)
	}
	wide := []solid{box(Point{}, Point{3, 3, 2}), box(Point{0, 0, 2.4}, Point{3, 3, 4})}
	if r := mustMeasure(t, Defaults(), wide...); len(r.NarrowGaps) != 0 {
		t.Errorf("a gap at the limit: %+v", r.NarrowGaps)
	}
}

func TestThickestSection(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	for _, c := range []struct {
		want  float64
		wide  float64
		parts []solid
	}{
		{10, 10, []solid{box(Point{}, Point{10, 10, 10})}}, {6, 6, []solid{ball(3, Point{}, 60, 120)}}, {2.4, 2.4, []solid{torus(9, 1.2, 200, 40)}},
		{0.6, 10, []solid{box(Point{}, Point{10, 10, 0.6})}}, {2, 5, []solid{box(Point{}, Point{20, 5, 2})}}, {2, 5, spunAll([]solid{box(Point{}, Point{20, 5, 2})})},
		// Two solids that overlap are one section.
		{2, 5, []solid{box(Point{}, Point{20, 3, 2}), box(Point{0, 2, 0}, Point{20, 5, 2})}},
	} {
		r := mustMeasure(t, coarser(256), c.parts...)
		closeTo(t, "thickest", float64(r.Thickest), c.want, 0.02+0.01*c.want)
		closeTo(t, "its width", float64(r.SectionWidth), c.wide, 0.02+0.03*c.wide)
	}
}
