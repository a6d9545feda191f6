// Package book is the metal's book: an append-only list of movements of metal.
// What is on hand is always their sum. A line is never changed; a mistake is
// taken back by a reversing line.
//
// It is a leaf: names of lots, alloys, trees, jobs and customers mean nothing to
// it beyond being equal or not. It reads and makes bytes; writing them is the
// caller's.
package book

import (
	"strconv"
	"strings"
	"time"

	"castweek/metal/measure"
	"castweek/metal/problem"
)

// Parts is a fineness in parts per million by mass, so that thousandths with up
// to three decimals are exact.
type Parts int64

// Whole is pure metal.
const Whole Parts = 1_000_000

// String writes thousandths: "999.9 ‰".
func (p Parts) String() string { return p.number() + " ‰" }

func (p Parts) number() string {
	s := strconv.FormatInt(int64(p/1000), 10)
	if f := p % 1000; f != 0 {
		s += "." + strings.TrimRight(strconv.FormatInt(int64(1000+f), 10)[1:], "0")
	}
	return s
}

// Fine is an amount of pure metal in millionths of a milligram: Milligram ×
// Parts, exact.
type Fine int64

// Of is the pure metal in g at the fineness.
func Of(g measure.Milligram, p Parts) Fine { return Fine(int64(g) * int64(p)) }

// Milligram rounds down to whole milligrams.
func (f Fine) Milligram() measure.Milligram {
	m := measure.Milligram(int64(f) / int64(Whole))
	if f < 0 && int64(f)%int64(Whole) != 0 {
		m--
	}
	return m
}

// Kind is what a movement does, in the words of the file.
type Kind string

const (
	Opening     Kind = "opening"      // on hand when the book begins
	Bought      Kind = "bought"       // from a supplier or the refiner
	CustomerIn  Kind = "customer in"  // a customer's own metal
	ToTree      Kind = "to tree"      // weighed into the crucible for a tree
	ButtonBack  Kind = "button back"  // button, trunk and feeders of a tree
	CastingsOut Kind = "castings out" // castings cut from a tree
	Filings     Kind = "filings"      // filings and sweeps taken in
	ToMelt      Kind = "to melt"      // into a melt that makes a new lot
	FromMelt    Kind = "from melt"    // what that melt gave
	ToRefiner   Kind = "to refiner"   // sent away
	GivenBack   Kind = "given back"   // to the customer who owns it
	Reversal    Kind = "reversal"     // takes back another line, whole
)

// Origin is where a fineness is from.
type Origin string

const (
	Certificate Origin = "certificate"
	OwnMelt     Origin = "own melt"
	Assay       Origin = "assay"
	StampOnly   Origin = "stamp only" // a stamp is not a fineness
)

// Form is what the metal looks like in the box.
type Form string

const (
	Grain  Form = "grain"
	Bar    Form = "bar"
	Sheet  Form = "sheet"
	Wire   Form = "wire"
	Button Form = "button"
	Scrap  Form = "scrap"
	Powder Form = "filings"
)

// rule is what a kind of movement asks for.
type rule struct {
	lot       int  // +1 adds to the lot, −1 takes from it, 0 has no lot
	tree      need // names a tree
	into      need // names the lot that a melt makes
	owner     need // of the metal
	job       need
	form      Form // the only form it may have; "" for any
	mayMelted bool // may say how often the metal was melted before
}

type need int

const (
	never need = iota
	maybe
	must
)

var kinds = []Kind{Opening, Bought, CustomerIn, ToTree, ButtonBack, CastingsOut, Filings, ToMelt, FromMelt, ToRefiner, GivenBack, Reversal}

var rules = map[Kind]rule{
	Opening:     {lot: 1, owner: maybe, mayMelted: true},
	Bought:      {lot: 1},
	CustomerIn:  {lot: 1, owner: must, job: maybe, mayMelted: true},
	ToTree:      {lot: -1, tree: must, owner: maybe},
	ButtonBack:  {lot: 1, tree: must, owner: maybe, form: Button},
	CastingsOut: {tree: must, owner: maybe, job: maybe},
	Filings:     {lot: 1, tree: maybe, owner: maybe, job: maybe, form: Powder},
	ToMelt:      {lot: -1, into: must, owner: maybe},
	FromMelt:    {lot: 1, owner: maybe},
	ToRefiner:   {lot: -1, owner: maybe},
	GivenBack:   {lot: -1, owner: must, job: maybe},
}

var origins = []Origin{Certificate, OwnMelt, Assay, StampOnly}
var forms = []Form{Grain, Bar, Sheet, Wire, Button, Scrap, Powder}

// Kinds, Origins and Forms list the words of the file, in the order to ask.
func Kinds() []Kind     { return append([]Kind(nil), kinds...) }
func Origins() []Origin { return append([]Origin(nil), origins...) }
func Forms() []Form     { return append([]Form(nil), forms...) }

// A Movement is one line of the book. Grams is always positive; the kind says
// which way it goes.
type Movement struct {
	ID       int // counts from 1 without a gap; given by [AppendLine]
	At       time.Time
	Who      string
	Kind     Kind
	Lot      string // "" for castings out
	Alloy    string
	Fineness Parts
	From     Origin
	Grams    measure.Milligram
	Owner    string // customer, "" for the house
	Form     Form   // "" for castings out
	Melts    int    // how often melted before it came in
	HasMelts bool   // Melts is stated
	Tree     string
	Into     string // the lot that a melt makes
	Job      string
	Note     string
	Reverses int // the ID that a reversal takes back

	Place problem.Place // of the line that was read
}
