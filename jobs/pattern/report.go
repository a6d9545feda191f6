package pattern

import (
	"castweek/metal/measure"
	"castweek/metal/problem"
)

// State is how far the numbers of a pattern may be trusted; see the package
// comment.
type State string

const (
	Exact     State = "exact"
	Patched   State = "patched"
	Untrusted State = "untrusted"
)

// A Report is everything that is known of one pattern. All lengths are in mm
// as modelled, before shrinkage; places are in the axes of the file.
type Report struct {
	File  string
	Unit  Unit
	State State
	// UnitWouldFit is the unit that would give a plausible size, or "".
	UnitWouldFit Unit

	Faces  int
	Points int
	Box    Box

	// Volume is that of the union, within ± Bound. PlainSum adds up the solids,
	// so that PlainSum - Volume is what overlaps would have cost.
	Volume   measure.CubicMM
	Bound    measure.CubicMM
	PlainSum measure.CubicMM
	// Area is the skin of the union.
	Area measure.SquareMM
	// Thickest is the thickest section: the diameter of the largest ball that
	// fits into the metal.
	Thickest measure.MM
	// SectionWidth is the width of that section, where a plane cuts it
	// smallest: see sectionWidth.
	SectionWidth measure.MM

	Solids          int
	InsideOutSolids int
	BuriedSolids    int // wholly inside another solid
	Cavities        []Cavity

	OpenEdges        int
	NonManifoldEdges int
	DegenerateFaces  int
	DuplicateFaces   int
	FlippedFaces     int
	JoinedPoints     int // joined though not equal, within JoinLimit
	Junctions        int // corners on an edge of another face, which was cut there
	Holes            int
	PatchedArea      measure.SquareMM
	Spots            []Spot // where the faults are

	Finger *Hole // nil: none found, or not a ring
	Frame  Frame // how a person holds it; the words of all places speak of it

	Thinnest   *Thin // the worst of Walls, nil when none is below the limit
	Walls      []Thin
	KnifeEdges []Thin // places that run out to an edge; not thin walls
	NarrowGaps []Gap

	// Problems hold remarks, and errors that must hold the job back.
	Problems problem.List
}

// Overlap is what adding up the solids would have counted too much.
func (r Report) Overlap() measure.CubicMM { return max(0, r.PlainSum-r.Volume) }

// Point is a place or a direction in the axes of the file, in mm.
type Point [3]float64

// Box is the outer box.
type Box struct{ Min, Max Point }

// Size is the outer size along x, y and z.
func (b Box) Size() measure.Size {
	return measure.Size{Length: measure.MM(b.Max[0] - b.Min[0]), Width: measure.MM(b.Max[1] - b.Min[1]), Height: measure.MM(b.Max[2] - b.Min[2])}
}

func (b Box) longest() float64 {
	return max(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1], b.Max[2]-b.Min[2])
}

func (b Box) centre() Point { return b.Min.add(b.Max).scale(0.5) }

// A Cavity is a closed hollow, which cannot be invested.
type Cavity struct {
	Volume measure.CubicMM
	At     Point
	Where  string
}

// A Spot is a group of faults of one sort near each other.
type Spot struct {
	What  string // "open edges", "flipped faces", …
	Count int
	At    Point
	Where string
}

// A Hole is the largest cylinder that passes through the pattern.
type Hole struct {
	Diameter measure.MM
	Axis     Point // of length 1
	Centre   Point
}

// A Thin is a cluster of places where the wall is below the limit.
type Thin struct {
	MM    measure.MM // the 5th percentile, not the single smallest sample
	At    Point
	Area  measure.SquareMM
	Where string
}

// A Gap is a slit or hole that is narrower than the limit and deeper than it is
// wide. Depth is the shortest way across its narrow part, from rim to rim or
// from rim to bottom: how far a slit reaches in, how long a hole is. It errs by
// up to 4 %, or three columns, the area by up to 3 %; of a round hole, or between round strands,
// only the part is counted where the skins face each other.
type Gap struct {
	MM    measure.MM
	At    Point
	Depth measure.MM
	Area  measure.SquareMM
	Where string
}
