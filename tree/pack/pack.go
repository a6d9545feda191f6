// Package pack groups castings onto trees. It sees numbers only: items with
// sizes, kinds of bin with limits, and wishes; it answers with groups, with a
// lower bound on their number, and with whether the two meet.
//
// The order of what is wanted, the first first:
//
//  1. fewest bins (pours);
//  2. least metal tied up (trunks and buttons, by kind of bin);
//  3. fewest job splits: the bins a job touches less one, over all jobs;
//  4. even bins: the fullest as empty as can be;
//  5. the order of the items, so that the answer is the only one.
//
// The work is counted in steps, never in seconds, and nothing depends on the
// order of a map: a question has one answer on every machine.
package pack

// A Bin is a kind of bin: a flask size together with its crucible.
type Bin struct {
	Name     string
	Capacity []int64 // by dimension
	// Metal is tied up by one such bin whatever hangs in it (trunk, button), mg.
	Metal int64
	// Available is how many there are: 0 says as many as are wanted, a negative
	// number says none (out of use).
	Available int
}

// An Item is one thing to be packed. Sizes are whole numbers, 0 or more,
// rounded up once by the caller; capacities are rounded down.
type Item struct {
	ID   string
	Job  string  // items of one job should share a bin; "" belongs to no job
	Size []int64 // by dimension, the same in every kind of bin
	// SizeIn, where it is set, stands in place of Size: by kind of bin, then by
	// dimension. A nil row says that the item never goes into that kind.
	SizeIn [][]int64
}

// Apart keeps each item of A out of the bins of each item of B.
type Apart struct{ A, B []int }

// A Verdict is what the mounting search says of a complete set.
type Verdict int

const (
	Hangs  Verdict = iota // a mounting was found
	Cannot                // proved: neither this set nor one that contains it can hang
	GaveUp                // no mounting was found, and nothing was proved
)

// A Question is everything Solve looks at. Items are named by their index.
type Question struct {
	Bins     []Bin
	Items    []Item
	Together [][]int
	Apart    []Apart
	// Fixed are bins as they were: they keep exactly these items, and use up
	// one bin of their kind each. CanHang is not asked about them.
	Fixed []Group
	// CanHang, where it is set, is asked whether a set (rising indices) hangs in
	// a kind of bin; every group of an answer but the fixed ones was asked and
	// hangs. It must give one answer to one set, and if a set hangs, so must
	// each part of it.
	CanHang func(bin int, items []int) Verdict
	// Tied, where it is set, is the metal tied up by a bin with that load, mg (a
	// light tree wants a larger button); less than the kind's Metal counts as that.
	Tied func(bin int, load []int64) int64
	// Limit is how many units of work may be spent, one or two nanoseconds each; 0
	// stands for DefaultLimit.
	Limit int64
	// Asks is how often CanHang may be asked; 0 stands for DefaultAsks.
	Asks int
	// Thorough spends ThoroughFactor times the limits, and keeps the better of
	// both answers.
	Thorough bool
	// Rough leaves out what takes long: columns and the searches that stand on
	// them. It is for a caller who asks many questions, of which few matter.
	Rough bool
}

// Limits that stand where a question names none.
const (
	DefaultLimit   = 500_000_000
	DefaultAsks    = 2_000
	ThoroughFactor = 10
)

// A Group is a bin that is used.
type Group struct {
	Bin   int
	Items []int   // rising
	Load  []int64 // by dimension; of no account in Question.Fixed
	Fixed bool
}

// A Reason says why an item is left out.
type Reason int

const (
	TooBig     Reason = iota // larger than every kind of bin that is in use
	CannotHang               // proved not to hang, even alone
	NotHung                  // the mounting search gave it up even alone
	RanOut                   // the bins there are do not hold it
)

func (r Reason) String() string {
	return [...]string{"too big", "cannot hang", "not hung", "bins ran out"}[r]
}

// Left is an item that no group holds.
type Left struct {
	Item   int
	Reason Reason
	Dim    int // TooBig: the dimension in which the largest bin is too small; else -1
}

// An Answer holds every item of the question once: in a group or left out.
type Answer struct {
	Groups []Group // by least item
	Left   []Left  // by item
	// Bound: the items of the groups need at least so many bins. It respects
	// the wishes, counts refusals only where they were proved, and includes the
	// fixed bins.
	Bound  int
	Proved bool // as many groups as the bound
	// Metal is tied up in all; with this number of bins it cannot be less
	// than MetalBound.
	Metal, MetalBound int64
	// Splits counts, over all jobs, the bins touched less one; it cannot be less
	// than SplitsBound.
	Splits, SplitsBound int
	// Fullest is the largest load of any bin in any dimension, millionths of
	// its limit, rounded up.
	Fullest int64
	Step    string // what found the grouping
	Work    int64  // units spent
	Asked   int    // sets asked of CanHang
	GaveUp  int    // of them, those that it gave up
}
