package pattern

import (
	"math"
	"testing"

	"castweek/metal/measure"
)

// band is a ring of rectangular section.
func band(inside, width, thickness float64, n int) solid {
	var b solid
	for i := range n {
		y, x := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		for _, c := range [4][2]float64{{inside / 2, 0}, {inside/2 + thickness, 0}, {inside/2 + thickness, width}, {inside / 2, width}} {
			b.points = append(b.points, [3]float64{x * c[0], y * c[0], c[1]})
		}
	}
	for i := range n {
		for k := range 4 {
			a, c := int32(4*i+k), int32(4*i+(k+1)%4)
			d, e := int32(4*((i+1)%n)+k), int32(4*((i+1)%n)+(k+1)%4)
			b.faces = append(b.faces, [3]int32{a, d, e}, [3]int32{a, e, c})
		}
	}
	return b.outward()
}

// A measured ring (E. Teague, Santa Fe Symposium): 4.12 x 1.91 mm cast, 3.82 x
// 1.72 finished, 5.877 g and 4.907 g. The ratio of the sections is that of the
// weights: 0.835.
func TestWeightsOfAMeasuredRing(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	closeTo(t, "sections", 3.82*1.72/(4.12*1.91), 4.907/5.877, 0.001)
	r := mustMeasure(t, ringOptions(), band(19.63, 4.12, 1.91, 360))
	closeTo(t, "volume", float64(r.Volume), math.Pi*(19.63+1.91)*4.12*1.91, 0.3)
	f := Finishing{Least: LeastCleaned, Most: MostCleaned}
	// the alloy is not told; its density follows from the cast weight
	density := measure.GramPerCC(5.877 / float64(r.Volume) * 1000)
	cast, done := r.Cast(density, f), r.Finished(density, f)
	closeTo(t, "cast", float64(cast.Likely), 5.877, 1e-6)
	if done.Least > 4.907 || done.Most < 4.907 || !(done.Least < done.Likely && done.Likely < done.Most) {
		t.Errorf("finished %v, measured 4.907 g", done)
	}
	// A pattern 1.26 % larger casts to the same ring: 19.88 mm wax, 19.63 cast.
	k := 1 / (1 - 0.0126)
	wax := mustMeasure(t, ringOptions(), band(19.63*k, 4.12*k, 1.91*k, 360))
	f.Shrinkage = 1.26
	closeTo(t, "cast from the pattern", float64(wax.Cast(density, f).Likely), 5.877, 0.001)
	closeTo(t, "hole of the pattern", float64(wax.Finger.Diameter), 19.88, 0.01)
}
