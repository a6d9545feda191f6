package tree

import (
	"math"

	"castweek/jobs"
	"castweek/metal/measure"
	"castweek/tree/mount"
)

// rodSides is the number of sides that a rod is drawn with. They lie outside the
// round, so that no distance is taken too large.
const rodSides = 24

// A rod without feeders of its own is fixed to the trunk by its end: a wire feeds
// itself. ownFeeder says so of a part.
func ownFeeder(p *jobs.Part) bool {
	return p.Pattern.Rod != nil && p.Feeders == (jobs.Feeders{})
}

// stem is how much of such a rod is nearer to the trunk than the gap, at the
// flattest sound tilt of 30°, but no more than half of it.
func stem(r jobs.Rod, gap measure.MM) measure.MM { return min(2*(gap+r.Diameter/2), r.Length/2) }

// standing makes such a rod's body: a cylinder along x whose stem is its feeder.
func standing(body mount.Body, r jobs.Rod, gap measure.MM) mount.Body {
	radius := float64(r.Diameter) / 2 / math.Cos(math.Pi/rodSides)
	for i := range rodSides {
		s, c := math.Sincos(2 * math.Pi * float64(i) / rodSides)
		for _, x := range []float64{0, float64(r.Length)} {
			body.Points = append(body.Points, [3]float64{x, radius * c, radius * s})
		}
	}
	const n = int32(2 * rodSides)
	for i := int32(0); i < n; i += 2 {
		a, b := i, (i+2)%n
		body.Faces = append(body.Faces, [3]int32{a, b, b + 1}, [3]int32{a, b + 1, a + 1})
		if i > 0 {
			body.Faces = append(body.Faces, [3]int32{0, b, a}, [3]int32{1, a + 1, b + 1})
		}
	}
	body.Feeders = mount.Feeders{InMesh: true, Length: stem(r, gap)}
	body.Attach = mount.Attach{Toward: [3]float64{-1, 0, 0}, At: &[3]float64{}}
	body.Thickest, body.SectionWidth = 0, 0 // nothing thicker hangs on it
	return body
}
