// Package workshop holds the settings of the house: what it casts in, with and
// from, its limits and its calendar. Everything here is a default that the
// workshop's own file overrides.
package workshop

import (
	"time"

	"castweek/jobs/setting"
	"castweek/metal"
	"castweek/metal/invest"
	"castweek/metal/measure"
	"castweek/metal/problem"
)

// Workshop is the content of workshop.yaml.
type Workshop struct {
	At   problem.Place
	Name string
	Zone *time.Location
	AsOf time.Time // moment of planning that the folder itself states, or zero

	CastDay   string // "every Thursday 09:00" or a cron line; judged by who knows the calendar
	CastDayAt problem.Place
	CutOff    time.Duration // before the pour: what comes later waits for the next cast
	BenchTime time.Duration // from the pour to a finished piece

	Alloys    metal.Alloys
	Materials []Material
	Trunk     string // pattern material of trunks and feeders
	Flasks    []Flask
	Crucibles []Crucible
	Melts     []string // families of alloys that the house can melt
	Powders   []Powder

	Button    metal.ButtonRule
	Gaps      Gaps
	Hang      HangRule
	Sections  SectionRule
	MeltLoss  metal.LossRule
	Firing    Firing
	Stock     Stock
	ScaleStep measure.Milligram

	Limits Limits
	Tools  Tools
	Paper  Paper
}

// Material is what patterns are made of.
type Material struct {
	At        problem.Place
	Name      string
	Density   measure.GramPerCC
	Resin     bool            // burns out by the resin programme
	Shrinkage measure.Percent // linear, pattern to casting
}

// Flask is one size of casting flask.
type Flask struct {
	At            problem.Place
	Name          string
	InnerDiameter measure.MM
	Height        measure.MM
	Count         int // in the house
	TrunkDiameter measure.MM
	TrunkLength   measure.MM
	ButtonCavity  measure.CubicMM // of the base
}

// Crucible is one crucible with what it may hold.
type Crucible struct {
	At     problem.Place
	Name   string
	Alloys []string // families or names
	Limit  measure.Gram
}

// Powder is an investment powder of the house.
type Powder struct {
	At        problem.Place
	Name      string
	Phosphate bool     // phosphate-bonded; otherwise gypsum-bonded
	Alloys    []string // families or names it is used for
	Mixing    invest.Powder
}

// Gaps are the least distances inside a flask.
type Gaps struct {
	Neighbour measure.MM // casting to casting
	Wall      measure.MM // casting to the flask wall
	WallResin measure.MM // the same where resin is on the tree
	Top       measure.MM // tree top to the fill level
}

// Limits are the house limits that patterns and stones are judged by.
type Limits struct {
	Wall         measure.MM      // thinnest wall of a pattern
	Gap          measure.MM      // narrowest gap in a pattern
	GapDepth     float64         // a gap counts when it is deeper than so many times its width
	CleanUp      measure.MM      // metal to leave on a diameter
	CleanInside  measure.MM      // metal taken inside a ring, per side
	FitTolerance measure.MM      // finger size: said when the finished ring is further off
	StoneFits    measure.MM      // a stone within this of its size fits its seat
	StoneReturn  measure.MM      // a stone beyond this goes back to the scheduler
	Culet        measure.MM      // least clearance of the culet from the finger
	ClawWire     measure.MM      // thinnest claw wire of a pattern
	ClawOverlap  measure.Percent // most that a modelled claw overlaps the girdle, of its wire
	BezelWall    measure.MM      // thinnest bezel wall of a pattern
	FlushBelow   measure.MM      // metal under a flush stone
	StoneSpares  measure.Percent
	Recount      measure.Percent // a built tree further off its planned weight: stop and recount
}

// Bench is what the setter has and holds to.
func (w *Workshop) Bench() setting.House {
	h, l := setting.DefaultHouse(), w.Limits
	h.Burs, h.Drills = w.Tools.Burs, w.Tools.Drills
	h.Fits, h.Return, h.Culet = l.StoneFits, l.StoneReturn, l.Culet
	h.ClawWire, h.ClawOverlap, h.BezelWall, h.FlushBelow = l.ClawWire, l.ClawOverlap, l.BezelWall, l.FlushBelow
	return h
}

// Tools are the burs and drills of the setter's bench, rising.
type Tools struct{ Burs, Drills []measure.MM }

// Paper is how sheets are printed.
type Paper struct {
	Series  string // "A" or "letter"
	Decimal string // "point" or "comma"
	Words   string // file of labels in another language, or the tag of one that the build holds
	WordsAt problem.Place
	TwoUp   bool // bags two up on a sheet with cut marks
	Short   bool // the short form of the bags too
}

// Material finds a pattern material by its name.
func (w *Workshop) Material(name string) (Material, bool) {
	for _, m := range w.Materials {
		if m.Name == name {
			return m, true
		}
	}
	return Material{}, false
}
