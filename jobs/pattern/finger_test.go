package pattern

import (
	"math"
	"os"
	"strings"
	"testing"
)

func ringOptions() Options {
	o := coarser(256)
	o.Kind = Ring
	return o
}

// A face that is called a ring has no finger hole, and the search for one ends:
// beside the piece a circle would grow for ever.
func TestNoFingerHoleInAFace(t *testing.T) {
	t.Parallel()
	data, err := os.ReadFile("../../samples/saltmarsh/patterns/cufflink-face.stl")
	if err != nil {
		t.Fatal(err)
	}
	opt := Defaults() // the search starts from points of the skin
	opt.Kind = Ring
	if r, err := Measure("face.stl", data, opt); err != nil || r.Finger != nil {
		t.Errorf("%+v, %v", r.Finger, err)
	}
}

// The hole of a torus of 60 facets around is a polygon: the largest cylinder
// touches the middles of its sides, 2(R-r) cos(π/60).
func TestFingerHole(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	want := 2 * 8.5 * math.Cos(math.Pi/60)
	shank := torus(9.6, 1.1, 60, 24)
	open := sweepTube(func(s float64) (Point, float64) {
		y, x := math.Sincos(0.3 + 5.6*s)
		return Point{9.6 * x, 9.6 * y, 0}, 1.1
	}, 300, 24, false, Point{0, 0, 1})
	turned := func(b solid) solid {
		return b.spun(0, 1, 0.7).spun(1, 2, 1.1).spun(0, 2, 0.3).shifted(Point{30, -20, 7})
	}
	for _, c := range []struct {
		name string
		want float64
		part solid
	}{{"shank", want, shank}, {"turned and shifted", want, turned(shank)}, {"open ring", 17, turned(open)}} {
		r := mustMeasure(t, ringOptions(), c.part)
		if r.Finger == nil {
			t.Errorf("%s: no hole", c.name)
			continue
		}
		closeTo(t, c.name, float64(r.Finger.Diameter), c.want, 0.006)
	}
	r := mustMeasure(t, ringOptions(), turned(shank))
	axis := turned(solid{points: [][3]float64{{0, 0, 1}}}).points[0]
	centre := turned(solid{points: [][3]float64{{0, 0, 0}}}).points[0]
	closeTo(t, "axis", math.Abs(r.Finger.Axis.dot(Point(axis).sub(centre))), 1, 1e-5)
	closeTo(t, "centre", r.Finger.Centre.distance(centre), 0, 0.01)
	for _, p := range []solid{box(Point{}, Point{20, 20, 5}), ball(9, Point{}, 40, 60)} {
		if r := mustMeasure(t, ringOptions(), p); r.Finger != nil {
			t.Errorf("a hole in a solid body: %+v", r.Finger)
		}
	}
}

// A ring with a head is spoken of from its head.
func TestPlacesInWords(t *testing.T) {
	t.Parallel()
	r := mustMeasure(t, ringOptions(), spunAll(ring(6))...)
	f := r.Frame
	if !f.Head || r.Finger == nil {
		t.Fatalf("%+v", f)
	}
	for _, c := range []struct {
		at   Point // right, up, front
		want string
	}{
		{Point{-2.1, 12, 0}, "near the head, 2.1 mm left, 12.0 mm above the centre"},
		{Point{0, -9.6, 0.4}, "at the back of the shank, 0.4 mm in front, 9.6 mm below the centre"},
		{Point{7, 6, 0}, "on the right shoulder, 7.0 mm right, 6.0 mm above the centre"},
		{Point{-9.6, 0, 0}, "on the left of the shank, 9.6 mm left of the centre"},
		{Point{0, 0, -0.4}, "0.4 mm behind the centre"},
		{Point{0, 0, 0.4}, "0.4 mm in front of the centre"},
	} {
		p := f.Origin.add(f.Right.scale(c.at[0])).add(f.Up.scale(c.at[1])).add(f.Front.scale(c.at[2]))
		if got := f.where(p); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	up := spunAll([]solid{{points: [][3]float64{{0, 0, 0}, {0, 1, 0}}}})[0].points
	closeTo(t, "head", f.Up.dot(Point(up[1]).sub(up[0])), 1, 1e-3)
}

func TestUnitThatWouldFit(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	for _, c := range []struct {
		scale float64
		want  Unit
	}{{1, ""}, {1 / 25.4, Inch}, {0.1, Centimetre}, {0.001, Metre}, {1000, Micron}} {
		o := ringOptions()
		o.Grid = 64
		r := mustMeasure(t, o, torus(9.6, 1.1, 60, 24).moved(func(p Point) Point { return p.scale(c.scale) }))
		if r.UnitWouldFit != c.want || r.Unit != Millimetre {
			t.Errorf("%g: %q in %s", c.scale, r.UnitWouldFit, r.Unit)
		}
		if held := len(r.Problems.Errors()) > 0; held != (c.want != "") {
			t.Errorf("%g: %v", c.scale, r.Problems)
		}
		for _, p := range r.Problems.Errors() {
			if !strings.Contains(p.Remedy, "write unit: "+string(c.want)) {
				t.Errorf("%g: %s", c.scale, p.Remedy)
			}
		}
	}
}
