package mount

import (
	"math"
	"testing"

	"castweek/metal/measure"
)

// withFeeder adds a feeder to a ring's mesh: a round bar from the far side of the
// shank downwards.
func withFeeder(b Body, outer, diameter, length float64) Body {
	at := int32(len(b.Points))
	const n = 12
	for _, y := range []float64{-outer/2 + 0.5, -outer/2 - length} {
		for k := range n {
			s, c := math.Sincos(2 * math.Pi * float64(k) / n)
			b.Points = append(b.Points, [3]float64{diameter / 2 * c, y, diameter / 2 * s})
		}
	}
	for k := range int32(n) {
		a, z := at+k, at+(k+1)%n
		b.Faces = append(b.Faces, [3]int32{a, z, z + n}, [3]int32{a, z + n, a + n})
		b.Faces = append(b.Faces, [3]int32{at, a, z}, [3]int32{at + n, at + n + z - at, at + n + a - at})
	}
	b.Feeders.InMesh = true
	return b
}

func TestFeederInMesh(t *testing.T) {
	for _, hint := range []bool{true, false} {
		var bodies []Body
		for i, outer := range []float64{20, 22, 24, 21} {
			b := withFeeder(ringBody(string(rune('A'+i)), outer, 4, 5), outer, 3, 9)
			if !hint {
				b.Attach = Attach{}
			}
			bodies = append(bodies, b)
		}
		tree, v := Place(testFlask, testGaps, bodies, Options{})
		if v.Outcome != Hangs {
			t.Fatalf("hint %v: %v, %s", hint, v.Outcome, v.Message)
		}
		for i := range bodies {
			bodies[i].Feeders.Length = 9 // tells the referee what is feeder
		}
		judge(t, testFlask, testGaps, bodies, tree)
		if tree.FeederVolume != 0 {
			t.Errorf("a feeder in the mesh was added again: %v", tree.FeederVolume)
		}
		for _, p := range tree.Placements {
			if !p.FeederInMesh || p.FeederLength != 0 {
				t.Errorf("%+v", p)
			}
			near(t, "diameter", float64(p.FeederDiameter), 3, 0.2)
		}
	}
	// A ring without one must not be taken for a ring with one.
	b := ringBody("R", 22, 4, 0)
	b.Feeders.InMesh = true
	if _, v := Place(testFlask, testGaps, []Body{b}, Options{}); v.Outcome == Hangs {
		t.Error("a feeder was found in the mesh of a plain ring")
	}
}

func TestFeederRules(t *testing.T) {
	place := func(change func(*Body)) Placement {
		b := ringBody("R", 22, 4, 0)
		change(&b)
		tree, v := Place(testFlask, testGaps, []Body{b}, Options{})
		if v.Outcome != Hangs {
			t.Fatalf("%v: %s", v.Outcome, v.Message)
		}
		return tree.Placements[0]
	}
	plain := place(func(*Body) {})
	// 1.8 × 4 mm: modulus 0.6207 mm, times 1.2 and 4: 2.979 mm, to the next tenth.
	near(t, "diameter", float64(plain.FeederDiameter), 3.0, 1e-9)
	near(t, "volume", float64(plain.FeederVolume), math.Pi/4*9*float64(plain.FeederLength), 1e-9)
	if p := place(func(b *Body) { b.Feeders.Count = 2 }); p.Feeders != 2 || math.Abs(float64(p.FeederVolume)-2*math.Pi/4*9*float64(p.FeederLength)) > 1e-9 {
		t.Errorf("two feeders: %+v", p)
	}
	if p := place(func(b *Body) { b.Feeders.Length = 15 }); p.FeederLength != 15 {
		t.Errorf("a length of 15 mm was asked, %v given", p.FeederLength)
	}
	if p := place(func(b *Body) { b.Feeders.Diameter = 2 }); !p.FeederTooThin || p.FeederDiameter != 2 {
		t.Errorf("a feeder of 2 mm is too thin: %+v", p)
	}
	if p := place(func(b *Body) { b.Thickest, b.SectionWidth = 6, 0 }); !p.FeederTooThin || p.FeederDiameter != testFlask.TrunkDiameter {
		t.Errorf("no feeder is thicker than the trunk: %+v", p)
	}
}

func TestBadInputIsNamed(t *testing.T) {
	good := ringBody("R", 22, 4, 0)
	for name, change := range map[string]func(*Body){
		"no id": func(b *Body) { b.ID = "" }, "no weight": func(b *Body) { b.Weight = 0 }, "no section": func(b *Body) { b.Thickest = 0 },
		"nan": func(b *Body) { b.Points = [][3]float64{{math.NaN(), 0, 0}} }, "no shape": func(b *Body) { b.Points, b.Faces = nil, nil },
		"corner": func(b *Body) { b.Faces = [][3]int32{{0, 1, 9999}} }, "count": func(b *Body) { b.Feeders.Count = -1 },
		"infinite": func(b *Body) { b.Weight = measure.Gram(math.Inf(1)) },
		"attach":   func(b *Body) { b.Attach.Toward[0] = math.Inf(1) },
		"at":       func(b *Body) { b.Attach.At = &[3]float64{math.NaN()} },
		"in mesh": func(b *Body) {
			b.Points, b.Faces, b.Size, b.Feeders.InMesh = nil, nil, measure.Size{Length: 9, Width: 9, Height: 9}, true
		},
	} {
		b := good
		change(&b)
		if _, v := Place(testFlask, testGaps, []Body{b}, Options{}); v.Outcome != BadInput || len(v.Problems) == 0 || v.Problems[0].Remedy == "" {
			t.Errorf("%s: %v", name, v)
		}
	}
	if _, v := Place(testFlask, testGaps, []Body{good, good}, Options{}); v.Outcome != BadInput {
		t.Error("one casting twice")
	}
	for name, f := range map[string]Flask{"none": {}, "low": {InnerDiameter: 80, Height: 20, TrunkDiameter: 8, ButtonHeight: 15},
		"narrow": {InnerDiameter: 20, Height: 90, TrunkDiameter: 8}, "long trunk": {InnerDiameter: 80, Height: 90, TrunkDiameter: 8, TrunkLength: 85}} {
		if _, v := Place(f, testGaps, []Body{good}, Options{}); v.Outcome != BadInput {
			t.Errorf("flask %s: %v", name, v.Outcome)
		}
	}
	if _, v := Place(testFlask, testGaps, []Body{good}, Options{TiltDeg: 120}); v.Outcome != BadInput {
		t.Error("a tilt of 120°")
	}
	if tree, v := Place(testFlask, testGaps, nil, Options{}); v.Outcome != Hangs || len(tree.Placements) != 0 {
		t.Error("an empty tree hangs")
	}
}
