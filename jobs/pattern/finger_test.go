package pattern

import (
	"math"
	"testing"
	"time"
)

func TestFingerProto(t *testing.T) {
	opt := Defaults()
	opt.Kind = Ring
	show := func(name string, want float64, parts ...solid) {
		d := stlOf(parts...)
		s := time.Now()
		r, err := Measure("x.stl", d, opt)
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("%s %v want %.4f finger %+v fit %q", name, time.Since(s), want, r.Finger, r.UnitWouldFit)
		for _, p := range r.Problems {
			t.Logf("     %s: %s", p.Code, p.Message)
		}
	}
	n := 60.0
	tube := torus(9.6, 1.1, 60, 24)
	show("torus60", 2*8.5*math.Cos(math.Pi/n), tube)
	tilt := func(b solid) solid {
		return b.spun(0, 1, 0.7).spun(1, 2, 1.1).spun(0, 2, 0.3).shifted(Point{30, -20, 7})
	}
	show("tilted", 2*8.5*math.Cos(math.Pi/n), tilt(tube))
	var rg []solid
	for _, p := range ring(12) {
		rg = append(rg, tilt(p))
	}
	show("ring", 2*8.5*math.Cos(math.Pi/288), rg...)
	show("inch", 0, tube.moved(func(p Point) Point { return p.scale(1 / 25.4) }))
	show("cube", 0, box(Point{0, 0, 0}, Point{20, 20, 5}))
	c := sweepTube(func(s float64) (Point, float64) {
		sn, cs := math.Sincos(0.3 + 5.6*s)
		return Point{9.6 * cs, 9.6 * sn, 0}, 1.1
	}, 80, 24, false, Point{0, 0, 1})
	show("open ring", 17, c)
}
