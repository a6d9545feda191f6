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

	Mesh   string          // file below the job folder, "" when there is none
	Unit   string          // unit of the mesh file's numbers
	Volume measure.CubicMM // typed, or that of the weight, the rod or the measured mesh
	Weight measure.Gram
	Rod    *Rod
	Outer  measure.Size // outer size, typed where there is no mesh

	Measured *pattern.Report // what the mesh told, nil without one
	Finishes measure.MM      // what its finger hole will be when finished, 0 unknown
	Skin     *Skin           // the mesh itself, nil without one
}

// A Skin is the joined surface of a mesh, in millimetres, mirrored when the
// pattern is.
type Skin struct {
	Points [][3]float64
	Faces  [][3]int32
	Views  [3]pattern.View // front, side and top, as the file has it
}

// OuterSize is the outer size of the pattern.
func (p Pattern) OuterSize() measure.Size {
	if p.Rod != nil {
		return measure.Size{Length: p.Rod.Length, Width: p.Rod.Diameter, Height: p.Rod.Diameter}
	}
	return p.Outer
}

// ThickestSection is the thickest section of the pattern: as measured, a rod's
// diameter, or else the smallest outer size, which it can not exceed.
func (p Pattern) ThickestSection() measure.MM {
	switch {
	case p.Measured != nil:
		return p.Measured.Thickest
	case p.Rod != nil:
		return p.Rod.Diameter
	}
	return min(p.Outer.Length, p.Outer.Width, p.Outer.Height)
}

// A Rod is a plain cylinder cast from the same melt, for later sizing.
type Rod struct{ Diameter, Length measure.MM }

// Volume of the cylinder: π/4 · d² · l.
func (r Rod) Volume() measure.CubicMM {
	return measure.CubicMM(math.Pi / 4 * float64(r.Diameter*r.Diameter*r.Length))
}
