// Package jobs holds the orders of a workshop as its job folder tells them:
// jobs, their pieces, the cast parts of a piece and the castings to be made.
// It reads and judges the folder; grouping onto trees and weighing metal are
// for the floors above and below.
package jobs

import (
	"time"

	"castweek/jobs/ringsize"
	"castweek/metal/measure"
	"castweek/metal/problem"
)

// State is where a job stands by the workshop's own word. That a job is in a
// cast is not a state: the cast records say so.
type State string

const (
	Open      State = "open"
	Hold      State = "hold"
	Done      State = "done"
	Cancelled State = "cancelled"
)

// Kind is what sort of article a job is.
type Kind string

const (
	Ring      Kind = "ring"
	Pendant   Kind = "pendant"
	Earrings  Kind = "earrings"
	Brooch    Kind = "brooch"
	Cufflinks Kind = "cufflinks"
	ChainPart Kind = "chain part"
	LooseHead Kind = "loose head"
	Stock     Kind = "stock"
)

// House is the owner of metal and stones that are the workshop's own.
const House = "house"

// A Job is an order: one design, one customer, so many pieces.
type Job struct {
	At     problem.Place // where the file begins
	Number string
	// NumberAt is where the file gives it.
	NumberAt problem.Place
	For      string // free text for whom
	Design   string // the piece in words
	Due      time.Time
	Kind     Kind
	Pieces   int
	State    State
	Reason   string // why the job is on hold
	Ask      string // whom to ask about it

	Approved *Approval // nil: not approved yet

	Size      *ringsize.Size // rings only
	SizeText  string         // as typed
	Gauge     string         // narrow, wide or stick
	GaugeOf   string         // whose gauge or stick
	Resizable string         // "up", "down", "up and down", "no" or ""

	Finish   string
	Masked   string // areas kept free of plating or polish
	Plated   string // areas to be plated
	LastStep string
	Hallmark string // "wanted", "not wanted", "ask" or ""
	Owner    string // of the metal: House or a name
	OwnerAt  problem.Place
	Bag      string // "each" or "together"
	Notes    string

	Parts    []Part
	Findings []Finding
	Assembly []string
	Stones   []Stone

	Remarks problem.List // all that was remarked on the job and its patterns
}

// Approval says when and by whom a design was agreed.
type Approval struct {
	On time.Time
	By string
}

// A Part is a component of a piece that is cast, with its own alloy and
// pattern.
type Part struct {
	At      problem.Place
	Name    string
	Alloy   string
	Spares  int
	Pattern Pattern
	Feeders Feeders
	Shank   *Allowance // finished and modelled section of a shank
	Section string     // "thin", "medium", "heavy", or "" to be measured
}

// Allowance compares what a piece shall have with what its pattern has.
type Allowance struct {
	At                           problem.Place
	Finished, Modelled           measure.MM // thickness or wire diameter
	FinishedWidth, ModelledWidth measure.MM // width, 0 when not said
}

// Feeders are the wax or resin wires between a pattern and the trunk.
type Feeders struct {
	InMesh           bool
	Count            int
	Diameter, Length measure.MM
}

// A Finding is a bought-in component, counted per piece.
type Finding struct {
	At     problem.Place
	Name   string
	Count  int
	Alloy  string
	Weight measure.Gram // of one
	Marked bool         // carries its own fineness mark
	Here   bool
	From   string // where it comes from, free text
}
