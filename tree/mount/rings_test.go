package mount

import (
	"math"

	"castweek/metal/measure"
)

// band makes the mesh of a plain ring: axis along Z, outer diameter, width and
// thickness in mm, n corners round it.
func band(outer, width, thick float64, n int) (points [][3]float64, faces [][3]int32) {
	for i := range n {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		for _, r := range [2]float64{outer / 2, outer/2 - thick} {
			for _, z := range [2]float64{-width / 2, width / 2} {
				points = append(points, [3]float64{r * s, r * c, z})
			}
		}
	}
	m := int32(n)
	quad := func(a, b, c, d int32) { faces = append(faces, [3]int32{a, b, c}, [3]int32{a, c, d}) }
	for i := range m {
		a, b := 4*i, 4*((i+1)%m)
		quad(a, a+1, b+1, b)     // outside
		quad(a+2, b+2, b+3, a+3) // inside
		quad(a, b, b+2, a+2)     // one edge
		quad(a+1, a+3, b+3, b+1) // the other
	}
	return points, faces
}

// block adds a box to a mesh.
func block(points [][3]float64, faces [][3]int32, lo, hi vec) ([][3]float64, [][3]int32) {
	h := box(lo, hi)
	at := int32(len(points))
	for _, c := range h.corners {
		points = append(points, c)
	}
	for _, f := range h.faces {
		faces = append(faces, [3]int32{at + int32(f[0]), at + int32(f[1]), at + int32(f[2])})
	}
	return points, faces
}

// ringBody is a band of 925 silver with a head of the given size at +Y (0: none),
// fed at the far side of the shank.
func ringBody(id string, outer, width, head float64) Body {
	p, f := band(outer, width, 1.8, 36)
	if head > 0 {
		p, f = block(p, f, vec{-head / 2, outer/2 - 1, -head / 2}, vec{head / 2, outer/2 + head/2, head / 2})
	}
	volume := math.Pi*(outer-1.8)*1.8*width + head*head*head/2
	return Body{ID: id, Points: p, Faces: f, Weight: measure.CubicMM(volume).Times(10.36), Thickest: 1.8, SectionWidth: measure.MM(width),
		Attach: Attach{Toward: [3]float64{0, -1, 0}}}
}
