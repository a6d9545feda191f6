package pattern

import (
	"castweek/metal/measure"
)

// Unit names the length that one step of a mesh file's numbers stands for.
type Unit string

const (
	Millimetre Unit = "mm"
	Inch       Unit = "inch"
	Centimetre Unit = "cm"
	Metre      Unit = "m"
	Micron     Unit = "micron"
	Foot       Unit = "foot"
)

// units in the order in which they are offered to a person.
var units = []Unit{Millimetre, Inch, Centimetre, Metre, Micron, Foot}

// MM is the length of the unit; 0 when the unit is not known. An inch is
// 25.4 mm and a foot 304.8 mm exactly (international yard and pound agreement,
// 1959).
func (u Unit) MM() float64 {
	switch u {
	case Millimetre:
		return 1
	case Inch:
		return 25.4
	case Centimetre:
		return 10
	case Metre:
		return 1000
	case Micron:
		return 0.001
	case Foot:
		return 304.8
	}
	return 0
}

// Kind is the kind of piece, as far as it decides what size is plausible.
type Kind string

const (
	Ring     Kind = "ring"
	Pendant  Kind = "pendant"
	Earrings Kind = "earrings"
	Brooch   Kind = "brooch"
	Links    Kind = "cufflinks"
	Chain    Kind = "chain part"
	Head     Kind = "loose head"
	Stock    Kind = "stock"
	Other    Kind = "other"
)

// Options says how to read and judge a mesh. Take [Defaults] and change it.
type Options struct {
	// Unit of an STL or OBJ file, which state none. 3MF states its own.
	Unit Unit
	// Kind decides the plausible size, and whether a finger hole is looked for.
	Kind Kind
	// Wall is the thinnest wall that the house casts; a wall below it is
	// reported.
	Wall measure.MM
	// Gap is the narrowest slit that the house invests; a narrower one that is
	// also deeper than GapDepth times its width is reported.
	Gap      measure.MM
	GapDepth float64
	// MostFaces refuses larger files; it bounds the memory.
	MostFaces int
	// Grid is how many columns span the longest side.
	Grid int
}

// Defaults are the settings of a house that states none: walls 0.8 mm (model
// guides of casting houses), gaps 0.4 mm (model guides; a narrower opening
// plugs in casting or breaks the investment). That a gap does harm only when
// it is deeper than it is wide is common practice, no source.
func Defaults() Options {
	return Options{Unit: Millimetre, Kind: Other, Wall: 0.8, Gap: 0.4, GapDepth: 1, MostFaces: 20_000_000, Grid: 512}
}

// filled replaces what is not set by the default.
func (o Options) filled() Options {
	d := Defaults()
	if o.Unit == "" {
		o.Unit = d.Unit
	}
	if o.Kind == "" {
		o.Kind = d.Kind
	}
	if o.Wall <= 0 {
		o.Wall = d.Wall
	}
	if o.Gap <= 0 {
		o.Gap = d.Gap
	}
	if o.GapDepth <= 0 {
		o.GapDepth = d.GapDepth
	}
	if o.MostFaces <= 0 {
		o.MostFaces = d.MostFaces
	}
	if o.Grid < 16 || o.Grid > 4096 {
		o.Grid = d.Grid
	}
	return o
}

// MethodVersion changes whenever the same mesh may give another report. A kept
// report of another version is worth nothing.
const MethodVersion = "8"
