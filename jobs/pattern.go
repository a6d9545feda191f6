package jobs

import (
	"math"

	"castweek/jobs/pattern"
	"castweek/metal/measure"
	"castweek/metal/problem"
)

// A Pattern is what a part is cast from: a mesh file, a volume, a weight with
// its material, or a plain rod.
type Pattern struct {
	At       problem.Place
	Material string // name of a pattern material of the workshop
	Here     bool   // the pattern is in the house
	Mirrored bool   // the mesh is to be made as its mirror image

	Mesh   string // file below the job folder, "" when there is none
	Unit   string // unit of the mesh file's numbers
	Volume measure.CubicMM
	Weight measure.Gram
	Rod    *Rod
	Outer  measure.Size // outer size, given where there is no mesh

	Measured *pattern.Report // what the mesh told, nil without one
}

// A Rod is a plain cylinder cast from the same melt, for later sizing.
type Rod struct{ Diameter, Length measure.MM }

// Volume of the cylinder: π/4 · d² · l.
func (r Rod) Volume() measure.CubicMM {
	return measure.CubicMM(math.Pi / 4 * float64(r.Diameter*r.Diameter*r.Length))
}
