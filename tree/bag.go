package tree

import (
	"strconv"
	"time"

	"castweek/jobs/setting"
	"castweek/jobs/stone"
	"castweek/metal/measure"
)

// A Bag is what goes with one piece from the pour to the counter: one page of
// paper around the castings of the piece.
type Bag struct {
	Job    string
	Design string
	For    string
	Due    time.Time
	Kind   string
	Piece  int    // from 1; 0 for a bag of spares or of all pieces together
	Of     int    // pieces of the job
	Title  string // "piece 2 of 3", "spares", "24 pieces together"

	Castings []BagCasting
	Missing  []string // castings of the piece that are on no tree, with the reason

	Size     *Finger
	Finish   string
	Masked   string
	Plated   string
	LastStep string
	Hallmark string
	Law      *Law // nil: not judged
	Owner    string
	Notes    string
	Findings []BagFinding
	Assembly []string
	Stones   []BagStone
	Remarks  []string
	Cautions []string
	Shank    []ShankLine
	Weights  Weights
	Pictures []Picture // the pattern from several sides, true to scale
}

// Key tells a bag from the others of its cast, whatever is in it.
func (b *Bag) Key() string {
	which := strconv.Itoa(b.Piece)
	switch {
	case b.Piece > 0:
	case len(b.Castings) > 0 && b.Castings[0].Spare:
		which = "spares"
	default:
		which = "all"
	}
	return b.Job + "/" + which
}

// BagCasting is one casting of a bag.
type BagCasting struct {
	ID       string
	Part     string
	Alloy    string
	Tree     string
	Flask    string
	Material string
	Spare    bool
	Rod      bool              // kept for a later sizing: no part of the article
	Cast     measure.Milligram // expected weight as cast
	Finished measure.Milligram // expected weight when cleaned up, 0 unknown
	Band     measure.Percent   // either way, of Finished
}

// Finger is the size of a ring.
type Finger struct {
	AsTyped   string
	Inside    measure.MM
	Other     string // the same size in the other systems
	Gauge     string
	Resizable string
	Finishes  measure.MM // what the pattern will finish at, 0 unknown
}

// BagFinding is a bought-in component.
type BagFinding struct {
	Name   string
	Count  int
	Alloy  string
	Weight measure.Milligram
	Marked bool
	Here   bool
	From   string
}

// BagStone is one line of stones.
type BagStone struct {
	Mark      string // letter that the drawing and the steps use
	Place     string
	Kind      string
	Cut       string
	Origin    string
	Treatment string
	Length    measure.MM
	Width     measure.MM
	Depth     measure.MM
	Assumed   bool
	Count     int // in this bag
	Each      int // in one piece; 0: not told apart from Count
	Spares    int
	Style     string
	InWax     bool
	Part      string
	Owner     string
	Risk      string
	Parcel    string
	Here      bool
	Ordered   string
	Estimate  Estimate
	Stands    []stone.Cell // torch, ultrasonic, steam, acid, in this order
	Care      []string     // notes on care in words, the strictest first
	Steps     []setting.Step
	Stops     []setting.Stop
	Drawn     bool // every stone of a piece has its spot in a picture
}

// Estimate is the estimated weight of one stone, with its formula.
type Estimate struct {
	Low, High measure.Carat // equal where sources agree; 0 when no figure is known
	Formula   string        // all that were used, with "or" between them
}

// ShankLine compares a section before and after clean-up.
type ShankLine struct {
	Part               string
	Modelled, Finished string
}

// Weights are the expected weights of a bag by stage; 0 is not known, or
// nothing of the kind.
type Weights struct {
	Cast     measure.Milligram // all castings of the bag
	Finished measure.Milligram // all castings, cleaned up
	Stones   measure.Milligram // all that are to be set
	Findings measure.Milligram
	Metal    measure.Milligram // finished metal with findings, without stones
	Whole    measure.Milligram // finished metal with findings and stones
}

// Picture is one view of a pattern as lines in millimetres, y upwards.
type Picture struct {
	Part, View    string
	Width, Height measure.MM
	Lines         Strokes
	Spots         []Spot // where stones sit in this view, where it is known
}

// Spot is the place of one stone in a picture, in its millimetres, as the job
// tells it. Mark is that of its line, with a number behind it where the line has
// several stones a piece.
type Spot struct {
	Mark string
	X, Y measure.MM
}
