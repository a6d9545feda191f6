package mount

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

// The thorough search never leaves more castings, and never takes more trunk.
func TestThoroughIsNeverWorse(t *testing.T) {
	f := testFlask
	f.Height = 100
	gained := 0
	for n := 6; n <= 18; n += 4 {
		bodies := rings(n, float64(n%3)*2)
		quick, _ := Place(f, testGaps, bodies, Options{Steps: 40_000})
		long, _ := Place(f, testGaps, bodies, Options{Steps: 40_000, Thorough: true})
		judge(t, f, testGaps, bodies, long)
		if len(long.Left) > len(quick.Left) || (len(long.Left) == len(quick.Left) && long.TrunkLength > quick.TrunkLength) {
			t.Errorf("%d castings: quick leaves %d on %v, thorough %d on %v", n, len(quick.Left), quick.TrunkLength, len(long.Left), long.TrunkLength)
		}
		if len(long.Left) < len(quick.Left) || long.TrunkLength < quick.TrunkLength {
			gained++
		}
	}
	if gained == 0 {
		t.Error("the thorough search found nothing better in any case")
	}
}

// exhaustive tries every hour, every third millimetre and both short styles for
// each of a few castings, in the order of weight. It shares the distance test with
// the search, which has a referee of its own, but not one line of the search.
func exhaustive(r room, bodies []Body) bool {
	const every, step = 4, 3.0
	type at struct {
		h      *hung
		slot   int
		height float64
	}
	options := make([][]at, len(bodies))
	for i := range bodies {
		b := bodies[i].Traced()
		for _, roll := range []float64{0, 90} {
			h := hang(&b, &b.traced.frames[0], pose{DefaultTilt, roll, 0, longestFeeder}, r)
			if h == nil {
				continue
			}
			for z := 0.5; z <= r.top; z += step {
				if z+h.low < r.bottom || z+h.high > r.top || z < h.diameter/2 || z > r.roots-h.diameter/2 {
					continue
				}
				for s := 0; s < slots; s += every {
					options[i] = append(options[i], at{h, s, z})
				}
			}
		}
	}
	taken := make([]at, 0, len(bodies))
	var try func(i int) bool
	try = func(i int) bool {
		if i == len(bodies) {
			return true
		}
	next:
		for _, o := range options[i] {
			if i == 0 && o.slot != 0 {
				continue // a tree may be turned
			}
			for k, p := range taken {
				if !clear(p.h, o.h, (o.slot-p.slot+slots)%slots, o.height-p.height, r.between) {
					continue next
				}
				if heavy, light := bodies[k].Weight, bodies[i].Weight; (o.height > p.height && heavy < (1-WeightBand)*light) || (o.height < p.height && light < (1-WeightBand)*heavy) {
					continue next
				}
			}
			taken = append(taken, o)
			if try(i + 1) {
				return true
			}
			taken = taken[:len(taken)-1]
		}
		return false
	}
	return try(0)
}

func TestAgainstExhaustiveSearch(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	fits, missed, refused := 0, 0, 0
	for range 300 {
		f := Flask{InnerDiameter: mm(40 + r.IntN(30)), Height: mm(40 + r.IntN(30)), TrunkDiameter: 7, ButtonHeight: 5}
		g := Gaps{Between: mm(1 + r.IntN(3)), Wall: 5, WallResin: 10, Top: 6}
		var bodies []Body
		for i := range 2 + r.IntN(2) {
			if i > 0 && r.IntN(2) == 0 {
				b := bodies[i-1]
				b.ID = fmt.Sprint(i)
				bodies = append(bodies, b)
				continue
			}
			bodies = append(bodies, boxBody(fmt.Sprint(i), float64(8+r.IntN(14)), float64(6+r.IntN(10)), float64(2+r.IntN(8))))
			bodies[i].Attach.Toward = [3]float64{-1, 0, 0}
		}
		_, v := Place(f, g, bodies, Options{})
		can := exhaustive(roomOf(f, g), bodies)
		switch {
		case can && v.Outcome == CannotProved:
			t.Fatalf("%v in %v: proved impossible, but it hangs: %s", bodies, f, v.Message)
		case can && v.Outcome != Hangs:
			missed++
		case !can && v.Outcome == CannotProved:
			refused++
		}
		if can {
			fits++
		}
	}
	t.Logf("%d of 300 hang by exhaustive search; the quick search missed %d; %d refused by proof", fits, missed, refused)
	if fits < 50 || missed*20 > fits {
		t.Errorf("of %d that hang the quick search missed %d", fits, missed)
	}
}
