package pattern

import (
	"math"
	"math/rand/v2"
	"testing"
)

// The volumes and areas of these solids were computed by an exact boolean
// library (manifold-3d 3.5.4) from the same faces; the smooth shapes agree to
// the chord error of the mesh: 2π²Rr² for a torus, the lens of two spheres
// π(R+r−d)²(d²+2dr−3r²+2dR+6rR−3R²)/(12d).
func TestUnionAgreesWithExactBooleans(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	lap := torus(9, 1.2, 400, 60)
	overswept := sweepTube(func(s float64) (Point, float64) {
		y, x := math.Sincos(2 * math.Pi * 1.25 * s)
		return Point{9 * x, 9 * y, 0}, 1.2
	}, 501, 60, false, Point{0, 0, 1})
	big := ball(3, Point{}, 150, 300)
	cases := []struct {
		name                string
		sum, volume, area   float64
		solids, buried, cav int
		parts               []solid
	}{
		{"torus", 255.34234, 255.34234, 426.16117, 1, 0, 0, []solid{lap}},
		{"tori on one axis", 510.68468, 386.89196, 542.83070, 2, 0, 0, []solid{lap, lap.shifted(Point{0, 0, 1})}},
		{"tori crossed", 510.68467, 454.54820, 706.84922, 2, 0, 0, []solid{lap, lap.spun(1, 2, math.Pi/9)}},
		// one shell that overlaps itself: one clean lap is the truth
		{"sweep over its own start", 319.2, 255.345, 0, 1, 0, 0, []solid{overswept}},
		{"spheres", 146.58086, 139.13732, 141.13774, 2, 0, 0, []solid{big, ball(2, Point{3.5, 0, 0}, 150, 300)}},
		{"sphere in sphere", 146.58086, 113.07667, 113.08700, 2, 1, 0, []solid{big, ball(2, Point{}, 150, 300)}},
		{"hollow sphere", 55.18141, 55.18141, 185.46268, 1, 0, 1, []solid{big, ball(2.4, Point{}, 150, 300).inverted()}},
		{"sphere twice", 226.15333, 113.07667, 113.08758, 2, 0, 0, []solid{big, big}},
		{"boxes", 240, 192, 248, 2, 0, 0, []solid{box(Point{}, Point{10, 4, 3}), box(Point{}, Point{4, 10, 3})}},
		{"box half sunk", 132.167, 126.0835, 174.58, 2, 0, 0, []solid{box(Point{}, Point{10, 4, 3}), box(Point{3.1, 0.9, 1.85}, Point{5.4, 3.2, 4.15})}},
		{"boxes touching", 48, 48, 80, 2, 0, 0, []solid{box(Point{}, Point{4, 4, 2}), box(Point{0, 0, 2}, Point{4, 4, 3})}},
		{"sphere inside out", 113.07667, 113.07667, 113.08700, 1, 0, 0, []solid{big.inverted()}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			r := mustMeasure(t, Defaults(), c.parts...)
			if c.name != "sweep over its own start" {
				closeTo(t, "plain sum", float64(r.PlainSum), c.sum, 1e-5*c.sum)
				closeTo(t, "area", float64(r.Area), c.area, 1e-4*c.area)
			}
			closeTo(t, "volume", float64(r.Volume), c.volume, 5e-5*c.volume)
			closeTo(t, "volume within its bound", float64(r.Volume), c.volume, float64(r.Bound)+1e-5*c.volume)
			if r.Solids != c.solids || r.BuriedSolids != c.buried || len(r.Cavities) != c.cav || r.State != Exact {
				t.Errorf("solids %d, buried %d, cavities %d, %s", r.Solids, r.BuriedSolids, len(r.Cavities), r.State)
			}
			if v := float64(r.Volume); v > float64(r.PlainSum)*(1+1e-6) || v > boxVolume(r.Box)*(1+1e-6) {
				t.Errorf("volume %g over the sum %g or the box", v, float64(r.PlainSum))
			}
		})
	}
}

// Two spheres that overlap in a lens, by the formula, with meshes fine enough
// for it.
func TestLensFormula(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	R, r, d := 3.0, 2.0, 3.5
	lens := math.Pi * math.Pow(R+r-d, 2) * (d*d + 2*d*r - 3*r*r + 2*d*R + 6*r*R - 3*R*R) / (12 * d)
	got := mustMeasure(t, Defaults(), ball(R, Point{}, 150, 300), ball(r, Point{d, 0, 0}, 150, 300))
	closeTo(t, "union", float64(got.Volume), 4./3*math.Pi*(R*R*R+r*r*r)-lens, 0.03)
}

func smallRing() []solid { return ring(5) }

// Turning, shifting and scaling change nothing beyond the bound; nor does the
// order of the solids, a copy of a solid, or a solid wholly inside.
func TestMovesChangeNothing(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	parts := smallRing()
	want := mustMeasure(t, Defaults(), parts...)
	r := rand.New(rand.NewPCG(3, 5))
	for range 8 {
		a, b, c := r.Float64()*7, r.Float64()*7, r.Float64()*7
		shift := Point{r.Float64()*200 - 100, r.Float64()*200 - 100, r.Float64()*200 - 100}
		k := math.Pow(10, r.Float64()*5-2.5)
		first := r.IntN(len(parts))
		var moved []solid
		for i := range parts {
			p := parts[(first+i)%len(parts)]
			moved = append(moved, p.spun(0, 1, a).spun(1, 2, b).spun(0, 2, c).shifted(shift).moved(func(p Point) Point { return p.scale(k) }))
		}
		got := mustMeasure(t, Defaults(), moved...)
		closeTo(t, "volume", float64(got.Volume)/(k*k*k), float64(want.Volume), 1e-4*float64(want.Volume))
		if got.State != Exact || got.Solids != 7 {
			t.Errorf("%s, %d solids", got.State, got.Solids)
		}
	}
	// Nor does the order of the faces.
	mixed, err := Measure("t.stl", damaged(parts, without(0)), Defaults())
	if err != nil {
		t.Fatal(err)
	}
	closeTo(t, "in another order", float64(mixed.Volume), float64(want.Volume), 1e-9*float64(want.Volume))
	// Scaling alone leaves even the samples where they are.
	for _, k := range []float64{0.001, 1024} {
		var scaled []solid
		for _, p := range parts {
			scaled = append(scaled, p.moved(func(p Point) Point { return p.scale(k) }))
		}
		closeTo(t, "scaled", float64(mustMeasure(t, Defaults(), scaled...).Volume)/(k*k*k), float64(want.Volume), 1e-5*float64(want.Volume))
	}
}

func TestCopiesAndContentsAddNothing(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	parts := smallRing()
	want := float64(mustMeasure(t, Defaults(), parts...).Volume)
	twice := append(append([]solid{}, parts...), parts...)
	closeTo(t, "twice", float64(mustMeasure(t, Defaults(), twice...).Volume), want, 1e-5*want)
	inner := append(append([]solid{}, parts...), ball(0.6, Point{-9.6, 0, 0}, 20, 30))
	r := mustMeasure(t, Defaults(), inner...)
	closeTo(t, "with a ball inside", float64(r.Volume), want, 2e-5*want)
	if r.BuriedSolids != 1 {
		t.Errorf("%d buried", r.BuriedSolids)
	}
	// Solids apart from each other add up exactly: the correction is zero.
	apart := mustMeasure(t, Defaults(), parts[0], parts[0].shifted(Point{0, 0, 5}))
	if apart.Volume != apart.PlainSum {
		t.Errorf("%g and %g", float64(apart.Volume), float64(apart.PlainSum))
	}
	if v := float64(r.Volume); v < float64(mustMeasure(t, Defaults(), parts[0]).Volume) {
		t.Errorf("the union %g is less than one solid", v)
	}
}

// Turned solids are found one by one, whatever runs into them.
func TestInsideOutSolidsAreTurned(t *testing.T) {
	t.Parallel()
	parts := smallRing()
	want := mustMeasure(t, coarser(128), parts...)
	for k := range parts {
		list := append([]solid{}, parts...)
		list[k] = list[k].inverted()
		r := mustMeasure(t, coarser(128), list...)
		if r.State == Untrusted {
			continue // more than half buried: a person has to say
		}
		closeTo(t, "volume", float64(r.Volume), float64(want.Volume), 2e-5*float64(want.Volume))
		if r.InsideOutSolids != 1 && k > 0 {
			t.Errorf("solid %d: %d were turned", k, r.InsideOutSolids)
		}
	}
	var all []solid
	for _, p := range parts {
		all = append(all, p.inverted())
	}
	r := mustMeasure(t, coarser(128), all...)
	closeTo(t, "mirrored", float64(r.Volume), float64(want.Volume), 2e-5*float64(want.Volume))
	if r.InsideOutSolids != 7 {
		t.Errorf("%d were turned", r.InsideOutSolids)
	}
}

// On a coarse grid, where errors are large enough to see, they stay within the
// stated bound in any turn.
func TestBoundHoldsInAnyTurn(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	lap := torus(9, 1.2, 120, 24)
	r := rand.New(rand.NewPCG(9, 9))
	for name, parts := range map[string][]solid{
		"ring": ring(4), "tori": {lap, lap.spun(1, 2, 0.35)}, "tori on one axis": {lap, lap.shifted(Point{0, 0, 1})},
	} {
		truth := float64(mustMeasure(t, coarser(1024), parts...).Volume)
		for range 6 {
			a, b := r.Float64()*7, r.Float64()*7
			var turned []solid
			for _, p := range parts {
				turned = append(turned, p.spun(0, 1, a).spun(1, 2, b))
			}
			got := mustMeasure(t, coarser(128), turned...)
			closeTo(t, name, float64(got.Volume), truth, float64(got.Bound)+1e-5*truth)
		}
	}
}
