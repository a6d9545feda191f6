// Package receipt prints what a customer signs who brings metal of their own:
// what was brought in, what the job takes of it, what is missing or comes back,
// and what was agreed about it. One page, for the counter; two are printed and
// both are signed.
//
// Use first: [PrintCast], or fill a [Receipt] and [Print] it. Nothing is
// computed here: every figure is the caller's, and sums that do not agree are
// refused.
package receipt

import (
	"time"

	"castweek/metal/measure"
	"castweek/sheets/page"
)

// Receipt holds what is printed.
type Receipt struct {
	House    string // name of the workshop
	Number   string // of the receipt
	Customer string
	Job      string
	Design   string
	AsOf     time.Time // the moment of planning
	Proposal bool      // of a cast that is not accepted

	Paper   page.Paper
	Decimal string            // "comma" or "point"
	Step    measure.Milligram // of the scale

	In      []Lot
	Alloy   string // that the job is cast in
	Need    Need
	Missing Short             // nothing when its weight is 0
	Over    measure.Milligram // brought in and not needed
	Back    []Back
	Choices []Choice
}

// Known is how the fineness of a lot is known.
type Known string

const (
	Certificate Known = "certificate"
	Assay       Known = "assay"
	OwnMelt     Known = "own melt"
	StampOnly   Known = "stamp only" // a stamp is not a fineness
	Unknown     Known = "unknown"
)

var knowns = []Known{Certificate, Assay, OwnMelt, StampOnly, Unknown}

// A Lot is one amount of metal as it is brought in.
type Lot struct {
	What     string           // in the customer's words: "two rings, a chain"
	Alloy    string           // "750 yellow"; may be empty
	Fineness measure.PerMille // as certified, assayed or stamped; 0: none
	Known    Known
	Counted  measure.PerMille  // what it is counted as; 0: not counted
	Why      string            // it is not counted; empty: until it is assayed
	Told     measure.Milligram // before it is weighed at the counter; 0: not told
}

// Need is what the job takes, pieces to loss; Total is their sum.
type Need struct{ Pieces, Feeders, Trunk, Button, Loss, Total measure.Milligram }

// Short is what is missing: a weight of a fineness.
type Short struct {
	Weight   measure.Milligram
	Fineness measure.PerMille
}

// A Back is one thing that is expected to come back, such as the button.
type Back struct {
	What     string
	Expected measure.Milligram
}

// Way is how a shortfall may be met.
type Way string

const (
	TopUp         Way = "top up"         // the house adds metal, if that is agreed
	SmallestFlask Way = "smallest flask" // the one with the least trunk and button
	ByHand        Way = "by hand"        // made without casting
)

// A Choice is one way that is offered.
type Choice struct {
	Way      Way
	Weight   measure.Milligram // top up: what is added; smallest flask: what it takes in all
	Fineness measure.PerMille  // top up: of what is added
	Alloy    string            // top up: the metal that is added; may be empty
	Flask    string            // smallest flask: which
	Missing  measure.Milligram // smallest flask: what is missing even then
}
