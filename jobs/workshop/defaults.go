package workshop

import (
	"castweek/metal/measure"
)

// What the workshop's own file leaves out is one of these. Each is replaced by
// what the house has measured or what the maker's sheet says.
const (
	// DefaultShrinkage is the linear shrinkage from pattern to casting: inside
	// diameter 19.88 mm in wax, 19.63 mm cast, 1.26 % (T. Teague, Santa Fe
	// Symposium, as quoted by J. Binnion).
	DefaultShrinkage measure.Percent = 1.26

	// DefaultNeighbour is the gap between two castings on a tree: common
	// practice, no source; a school's class rule is 12.7 mm.
	DefaultNeighbour measure.MM = 3
	// DefaultWall is the gap to the flask wall: a quarter inch in an
	// investment maker's sheet.
	DefaultWall measure.MM = 6
	// DefaultWallResin is the same for resin, whose burnout strains the
	// investment more: 1 cm in a resin maker's sheet.
	DefaultWallResin measure.MM = 10
	// DefaultTop is the investment above the tree: half an inch in an
	// investment maker's sheet.
	DefaultTop measure.MM = 12.7

	// DefaultScaleStep is the step of a common bench scale, 0.01 g: common
	// practice, no source.
	DefaultScaleStep measure.Milligram = 10

	// DefaultMinWall is the thinnest wall of a pattern: 0.8 mm in the
	// guidelines of two model makers.
	DefaultMinWall measure.MM = 0.8
	// DefaultMinGap is the narrowest gap that does not plug in casting or
	// break the investment: 0.4 mm in a findings maker's model standard.
	DefaultMinGap measure.MM = 0.4
	// DefaultGapDepth says that a narrow gap counts when it is deeper than so
	// many times its width: common practice, no source.
	DefaultGapDepth = 1
	// DefaultCleanUp is the metal to leave on a diameter for cleaning up:
	// common practice, no source (1.2 finished from 1.3 modelled).
	DefaultCleanUp measure.MM = 0.1
	// DefaultCleanInside is the metal taken inside a ring, per side: 19.63 mm
	// cast became 19.82 mm finished, 0.095 mm per side (Teague, as above).
	DefaultCleanInside measure.MM = 0.095
	// DefaultFitTolerance is a quarter step of a ring stick, 0.2 mm of
	// diameter (a gemological institute's bench standard).
	DefaultFitTolerance measure.MM = 0.2
	// DefaultStoneFits and DefaultStoneReturn bound what is cut to the stone:
	// calibrated melee keeps ±0.05 mm (dealers' lists), and a casting and
	// setting house takes ±0.15 mm.
	DefaultStoneFits   measure.MM = 0.05
	DefaultStoneReturn measure.MM = 0.15
	// DefaultCulet is the least clearance of a culet from the finger: 0.5 mm
	// in a findings maker's model standard.
	DefaultCulet measure.MM = 0.5
	// DefaultClawWire is the thinnest claw wire of a pattern: 0.6 mm in a model
	// builder's guideline.
	DefaultClawWire measure.MM = 0.6
	// DefaultClawOverlap is the most that a modelled claw overlaps the girdle, of
	// its wire: a third, common practice, no source.
	DefaultClawOverlap measure.Percent = 100.0 / 3
	// DefaultBezelWall is the thinnest bezel wall of a pattern: 0.4 mm finished
	// and 0.1 mm for each face (an article on structural soundness).
	DefaultBezelWall measure.MM = 0.6
	// DefaultFlushBelow is the metal under a flush stone: 0.2 mm (a bench forum).
	DefaultFlushBelow measure.MM = 0.2
	// DefaultRecount is how far a built tree may be off its planned weight
	// before it is counted again: common practice, no source. One forgotten
	// ring of twenty is further off.
	DefaultRecount measure.Percent = 3
	// DefaultStoneSpares is the share of small stones to have in spare: common
	// practice, no source.
	DefaultStoneSpares measure.Percent = 5
)
