// Package tree plans casts: which castings share a tree, on which cast day,
// from how much metal. Its values are complete: a sheet prints what it finds
// here and computes nothing, and an accepted cast is kept with all of it, so
// that its sheets can be printed again when the job files have long changed.
package tree

import (
	"slices"
	"time"

	"castweek/metal"
	"castweek/metal/measure"
)

// A Cast is the pours of one cast day: a proposal until it is accepted, then a
// record.
type Cast struct {
	Name     string // ISO week of its day, such as 2026-W49
	Pour     time.Time
	CutOff   time.Time
	AsOf     time.Time // moment of planning
	Proposal bool
	House    House
	Trees    []Tree
	Bags     []Bag
	Waiting  []Waiting
	Held     []Waiting // jobs whose file has an error
	LeftOver []LeftOver
	Late     []Late
	Remarks  []Remark

	Loads     []Load
	OutOfKiln float64    // of a record in which no tree says its own; see [Cast.Out]
	Buy       []Purchase // metal that no lot on hand can give
	LotsLeft  []LotLeft  // every lot on hand, by name
	OwnMetal  []OwnMetal // customers' own, one receipt each
	Powders   []PowderNeed
	Yield     Yield
}

// House is what sheets say and need to know of the workshop.
type House struct {
	Name      string
	Series    string            // paper: "A" or "letter"
	Decimal   string            // "point" or "comma"
	Lang      string            // language tag of the labels; empty: English
	Words     map[string]string // the labels, by key; empty: those of the build
	TwoUp     bool              // bags two up on a sheet
	Short     bool              // the short form of the bags too
	ScaleStep measure.Milligram
	Stone     StoneLimits
	BenchTime time.Duration
	Recount   measure.Percent // built tree further off its planned weight than this: stop and recount
}

// DefaultRecount is where a house that says nothing stops: common practice, no
// source. One forgotten ring of twenty is further off.
const DefaultRecount measure.Percent = 3

// RecountBeyond is the house's own limit, else the default.
func (h House) RecountBeyond() measure.Percent {
	if h.Recount > 0 {
		return h.Recount
	}
	return DefaultRecount
}

// StoneLimits decide what happens to a stone that measures differently from
// its job.
type StoneLimits struct {
	Fits   measure.MM // within: it fits
	Return measure.MM // beyond: back to the scheduler
}

// A Tree is castings on one trunk: one alloy, one flask, one pour.
type Tree struct {
	Name     string // 2026-W49-A
	Alloy    string
	Fineness measure.PerMille
	Owner    string // of the metal: "house" or a name
	Flask    string
	FlaskMM  FlaskSize
	Crucible string
	Powder   string
	Bond     string // "gypsum" or "phosphate"
	Resin    bool
	InWax    bool            // stones set in the wax
	Section  string          // thin, medium or heavy
	Order    int             // place in the order of pouring, from 1; 0 when it is not settled
	FlaskAt  measure.Celsius // flask temperature at the pour, 0 unknown
	MetalAt  measure.Celsius // metal temperature at the pour, 0 unknown

	PourAt    time.Time // when it is its turn; zero when it is not settled
	Kiln      int       // number of its kiln load, 0 none
	OutOfKiln float64   // minutes that the flask may stand out of the kiln before its pour
	HeatSheet string    // where the temperatures are from
	Quench    Quench
	Invest    Investing
	Yield     Yield
	Lots      Lots

	Castings []Hanging
	Patterns measure.CubicMM // patterns only
	Feeders  measure.CubicMM
	Trunk    measure.CubicMM
	Before   []MaterialWeight // the built tree before investing, without the base
	Charge   metal.Charge
	Button   string           // the button rule as it is typed
	Rule     metal.ButtonRule // the same rule as figures
	Cavity   measure.CubicMM  // of the base's button cavity, 0 unknown
	Loss     measure.Percent

	Drawing Drawing
	First   bool // a person wishes it poured first

	Build   []BuildNote // what the builder has to look at before the tree is built
	Refused []string    // why there is no pour sheet for it; empty when it can be poured
	Notes   []string
}

// BuildNote is what is to be seen to before a tree is built, with the castings
// that it is true of, and what to do about it.
type BuildNote struct{ Text, Remedy string }

// FlaskSize is the inside of a flask.
type FlaskSize struct{ Diameter, Height measure.MM }

// Hanging is one casting on a tree.
type Hanging struct {
	Casting  string // its id
	Job      string
	Design   string
	Part     string
	Material string
	Volume   measure.CubicMM
	Metal    measure.Milligram
	Outer    measure.Size
	Thickest measure.MM
	Feeders  string // in words: "2 x 3.2 x 9.5 mm"

	Level int     // from 1, next to the button
	Hour  float64 // hour mark round the trunk, seen from the top
	Tilt  float64 // degrees between the feeder and the trunk, away from the button
}

// MaterialWeight is how much of one pattern material a built tree holds.
type MaterialWeight struct {
	Material string
	Density  measure.GramPerCC // of the material
	Volume   measure.CubicMM
	Weight   measure.Milligram
}

// Waiting is a job that is not cast now, with the reason and whom to ask.
type Waiting struct {
	Job, Design, For string
	Due              time.Time
	Reason           string
	Ask              string
}

// LeftOver is what could not be placed in this cast.
type LeftOver struct {
	Job      string
	Castings []string
	Reason   string
}

// Late is a job that will not be ready by its due day.
type Late struct {
	Job        string
	Due, Ready time.Time
}

// Remark is something a person should look at. Job may be empty.
type Remark struct {
	Job, Code, Text, Remedy string
}

// Fine tells whether everything that was to be cast is on a tree in time, and
// every tree can be poured.
func (c *Cast) Fine() bool {
	for i := range c.Trees {
		if !c.Trees[i].Pourable() {
			return false
		}
	}
	return len(c.Held) == 0 && len(c.LeftOver) == 0 && len(c.Late) == 0
}

// AllRemarks are those of the cast and then those of its bags, each once.
func (c *Cast) AllRemarks() []Remark {
	list := slices.Clone(c.Remarks)
	for i := range c.Bags {
		for _, text := range c.Bags[i].Remarks {
			if r := (Remark{Job: c.Bags[i].Job, Text: text}); !slices.Contains(list, r) {
				list = append(list, r)
			}
		}
	}
	return list
}
