package pattern

import (
	"math"
	"math/rand/v2"
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

// A plate reads 0.59 to 0.61 mm in any turn, and a cube, a ball and a blunt wedge
// have no thin wall in any.
func TestThinInAnyTurn(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	plate, plump := box(Point{}, Point{10, 10, 0.6}), []solid{box(Point{}, Point{9, 9, 9}), ball(3, Point{}, 60, 120), wedge(60)}
	r := rand.New(rand.NewPCG(8, 1))
	for range 3 {
		a, b, c := r.Float64()*7, r.Float64()*7, r.Float64()*7
		turn := func(p solid) solid { return p.spun(0, 1, a).spun(1, 2, b).spun(0, 2, c) }
		m := mustMeasure(t, coarser(256), turn(plate))
		if len(m.Walls) != 1 {
			t.Fatalf("%d walls", len(m.Walls))
		}
		closeTo(t, "plate", float64(m.Walls[0].MM), 0.6, 0.01)
		for i, p := range plump {
			if m := mustMeasure(t, coarser(256), turn(p)); m.Thinnest != nil {
				t.Errorf("solid %d has a wall of %s, %.2f mm²", i, m.Thinnest.MM, float64(m.Thinnest.Area))
			}
		}
	}
}

// Gaps of known width, depth and area, whatever way they lie.
func TestGapsAreTrueInAnyTurn(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	shank := band(17, 2, 1.5, 120)
	wire := sweepTube(func(s float64) (Point, float64) { return Point{10*s - 5, 0, 0}, 0.6 }, 40, 60, false, Point{0, 0, 1})
	r := rand.New(rand.NewPCG(4, 7))
	for _, c := range []struct {
		name               string
		width, depth, area float64 // no area: not all of it is seen
		turns              int
		parts              []solid
	}{
		{"slit between boxes", 0.2, 3, 9, 2, []solid{box(Point{}, Point{3, 3, 2}), box(Point{0, 0, 2.2}, Point{3, 3, 4})}},
		{"blind slot", 0.2, 1.4, 8 * 1.4, 1, []solid{box(Point{}, Point{8, 4, 1}), box(Point{0, 0, 0.9}, Point{8, 1.9, 2.4}), box(Point{0, 2.1, 0.9}, Point{8, 4, 2.4})}},
		{"two bands side by side", 0.25, 1.5, math.Pi * (10*10 - 8.5*8.5), 1, []solid{shank, shank.shifted(Point{0, 0, 2.25})}},
		{"tube in tube", 0.2, 3, 2 * math.Pi * 2.1 * 3, 1, []solid{band(3, 3, 0.5, 200), band(4.4, 3, 0.6, 200)}},
		{"pin of investment", 0.3 * math.Cos(math.Pi/24), 2, 0, 3, []solid{band(0.3, 2, 1.5, 24)}},
		// skins face each other up to 18.4 degrees from the middle
		{"strands side by side", 0.1, 1.2 * math.Sin(0.5*math.Acos(0.8)), 0, 3, []solid{wire, wire.shifted(Point{0, 0, 1.3})}},
	} {
		for range c.turns {
			a, b, d := r.Float64()*7, r.Float64()*7, r.Float64()*7
			var parts []solid
			for _, p := range c.parts {
				parts = append(parts, p.spun(0, 1, a).spun(1, 2, b).spun(0, 2, d))
			}
			opt := Defaults()
			opt.Wall = 0.1 // the walls are not looked at
			m := mustMeasure(t, opt, parts...)
			if len(m.NarrowGaps) != 1 {
				t.Errorf("%s: %d gaps in turn %g %g %g", c.name, len(m.NarrowGaps), a, b, d)
				continue
			}
			g := m.NarrowGaps[0]
			closeTo(t, c.name+": gap", float64(g.MM), c.width, 0.01)
			closeTo(t, c.name+": depth", float64(g.Depth), c.depth, max(0.04*c.depth, 3*m.Box.longest()/512))
			if c.area > 0 {
				closeTo(t, c.name+": area", float64(g.Area), c.area, 0.3/9*c.area)
			}
		}
	}
}

// A wall's area holds its rim.
func TestAreaOfWalls(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	for _, c := range []struct {
		want  float64
		parts []solid
	}{
		{100, []solid{box(Point{}, Point{10, 10, 0.6})}},
		{2 * math.Pi * 4.175 * 8, []solid{band(8, 8, 0.35, 200)}},
	} {
		for _, parts := range [][]solid{c.parts, spunAll(c.parts)} {
			closeTo(t, "area", float64(mustMeasure(t, coarser(256), parts...).Thinnest.Area), c.want, 0.015*c.want)
		}
	}
}

func TestNarrowGaps(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	// 0.2 mm wide and 0.15 mm deep lets the investment out again.
	groove := []solid{box(Point{}, Point{8, 3, 1}), box(Point{0, 0, 0.9}, Point{8, 1.4, 1.15}), box(Point{0, 1.6, 0.9}, Point{8, 3, 1.15})}
	if r := mustMeasure(t, Defaults(), groove...); len(r.NarrowGaps) != 0 {
		t.Errorf("a shallow groove: %+v", r.NarrowGaps)
	}
	// Round wires that run into each other make a crevice, not a slit.
	wire := sweepTube(func(s float64) (Point, float64) { return Point{10*s - 5, 0, 0}, 0.6 }, 40, 60, false, Point{0, 0, 1})
	for _, angle := range []float64{0.6, 1, math.Pi / 2} {
		if r := mustMeasure(t, Defaults(), wire, wire.spun(0, 1, angle).shifted(Point{0, 0, 1})); len(r.NarrowGaps) != 0 {
			t.Errorf("wires crossing at %.1f: %+v", angle, r.NarrowGaps)
		}
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
		{10, 10, []solid{box(Point{}, Point{10, 10, 10})}}, {6, 6, []solid{ball(3, Point{}, 60, 120)}}, {2.4, 2.4, []solid{torus(9, 1.2, 200, 40)}}, {2.4, 2.4, []solid{torus(9, 1.2, 400, 100)}},
		{0.6, 10, []solid{box(Point{}, Point{10, 10, 0.6})}}, {2, 5, []solid{box(Point{}, Point{20, 5, 2})}}, {2, 5, spunAll([]solid{box(Point{}, Point{20, 5, 2})})},
		// Two solids that overlap are one section.
		{2, 5, []solid{box(Point{}, Point{20, 3, 2}), box(Point{0, 2, 0}, Point{20, 5, 2})}},
	} {
		r := mustMeasure(t, coarser(256), c.parts...)
		closeTo(t, "thickest", float64(r.Thickest), c.want, 0.02+0.01*c.want)
		closeTo(t, "its width", float64(r.SectionWidth), c.wide, 0.02+0.03*c.wide)
	}
}

// Twenty plates over the whole width are thin walls and narrow gaps everywhere:
// what is kept of them is bounded, and tells their areas all the same.
func TestStackOfPlatesIsBounded(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	var plates []solid
	for k := range 20 {
		plates = append(plates, box(Point{0, 0, 0.6 * float64(k)}, Point{25, 25, 0.6*float64(k) + 0.3}))
	}
	m, err := Read("t.stl", stlOf(plates...), Defaults())
	if err != nil {
		t.Fatal(err)
	}
	c := &chain{m.Points, m.Faces, m.body}
	var s soundness
	c.split(c.repair(&s, m.grain), &s)
	u := c.unite(&s, Defaults(), m.bodies)
	for what, n := range map[string]int{"walls": len(u.walls.samples), "gaps": len(u.gaps.samples), "beside walls": len(u.walls.beside) / 2, "beside gaps": len(u.gaps.beside) / 2} {
		if n > 3*mostSamples {
			t.Errorf("%d samples of %s", n, what)
		}
	}
	if len(u.walls.samples) < 100_000 || len(u.skin) > 3*mostSpotsKept || len(u.skin) < mostSpotsKept {
		t.Errorf("%d samples of walls, %d points of the skin", len(u.walls.samples), len(u.skin))
	}
	var r Report
	r.thin(&u, Defaults())
	if len(r.Walls) != 20 || len(r.NarrowGaps) != 19 {
		t.Fatalf("%d walls, %d gaps", len(r.Walls), len(r.NarrowGaps))
	}
	for k := range r.Walls {
		closeTo(t, "area of a plate", float64(r.Walls[k].Area), 625, 6)
		closeTo(t, "its thickness", float64(r.Walls[k].MM), 0.3, 0.001)
	}
	for k := range r.NarrowGaps {
		closeTo(t, "area of a gap", float64(r.NarrowGaps[k].Area), 625, 6)
	}
}

// A sheet of less than two cells of the coarse look has its thickness and its
// width; the points of the skin are 0.04 mm apart.
func TestThickestOfOneSheet(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	for _, parts := range [][]solid{{box(Point{}, Point{20, 20, 0.5})}, spunAll([]solid{box(Point{}, Point{20, 20, 0.5})})} {
		r := mustMeasure(t, Defaults(), parts...)
		closeTo(t, "thickest", float64(r.Thickest), 0.5, 0.02)
		closeTo(t, "its width", float64(r.SectionWidth), 20, 1)
	}
}

// A ball does not grow out of one of many thin plates that lie close together,
// on whose skin no point is near another.
func TestThickestOfManyPlates(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	var plates []solid
	for k := range 6 {
		plates = append(plates, box(Point{0, 0, 0.8 * float64(k)}, Point{24, 24, 0.8*float64(k) + 0.5}))
	}
	r := mustMeasure(t, Defaults(), plates...)
	closeTo(t, "thickest", float64(r.Thickest), 0.5, 0.03) // points of the skin are 0.1 mm apart
	for _, w := range r.Walls {
		closeTo(t, "area of a plate", float64(w.Area), 576, 6)
	}
	if len(r.Walls) != 6 || len(r.NarrowGaps) != 5 {
		t.Errorf("%d walls, %d gaps", len(r.Walls), len(r.NarrowGaps))
	}
}
