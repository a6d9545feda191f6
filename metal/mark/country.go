package mark

import (
	"strings"

	"castweek/metal/measure"
)

// System is who has to mark an article of precious metal.
type System int

const (
	SystemUnknown  System = iota
	Independent           // an independent office must strike a hallmark
	Responsibility        // the maker or seller must strike his own mark and the fineness
	Voluntary             // nobody must
)

// Wanted says in words what has to be struck.
func (s System) Wanted() string {
	switch s {
	case Independent:
		return "a hallmark of an independent office"
	case Responsibility:
		return "the responsibility mark and the fineness mark"
	}
	return "a mark"
}

// Basis is what is put on the scale when a weight is held against the limit.
type Basis int

const (
	BasisUnknown   Basis = iota
	AllMetal             // all metal of the article with its findings, without stones
	MetalConcerned       // only the metal that the limit is for
)

func (b Basis) String() string {
	switch b {
	case AllMetal:
		return "all metal with findings, without stones"
	case MetalConcerned:
		return "only the metal concerned, with findings of it, without stones"
	}
	return "not known"
}

// ListKind is how a law names the finenesses of a metal. What was not seen is
// the zero value.
type ListKind int

const (
	NotSeen    ListKind = iota // no list is on file
	Listed                     // the finenesses of List, and every one from AnyFrom
	AtLeast                    // a least fineness; the steps above it were not seen
	NotCovered                 // the law does not speak of the metal
)

// Legal is which finenesses may be struck.
type Legal struct {
	Kind ListKind
	List []Parts // rising; with AtLeast the least one alone
	// AnyFrom is the fineness from which every whole thousandth may be struck;
	// 0 when only the list counts.
	AnyFrom Parts
	// Disputed: from here up to the least legal fineness the sources disagree.
	Disputed Parts
}

// least is the lowest fineness of which it is sure that it is legal; 0 when
// none is known.
func (l Legal) least() Parts {
	if len(l.List) > 0 {
		return l.List[0]
	}
	return l.AnyFrom
}

// LimitKind is how an exemption by weight is worded.
type LimitKind int

const (
	LimitUnknown    LimitKind = iota
	LessThan                  // exempt under the weight, not at it
	NotOver                   // exempt up to and at the weight
	EveryWeight               // no exemption by weight
	NeverCompulsory           // this metal need not be marked at all
)

// Limit is the exemption by weight of one metal.
type Limit struct {
	Kind   LimitKind
	Weight measure.Milligram
}

func (l Limit) String() string {
	switch l.Kind {
	case LessThan:
		return "less than " + l.Weight.String()
	case NotOver:
		return "not over " + l.Weight.String()
	case EveryWeight:
		return "none: every weight is marked"
	case NeverCompulsory:
		return "never compulsory"
	}
	return "not known"
}

// exempts tells whether an exact weight lies on the exempt side.
func (l Limit) exempts(w measure.Milligram) bool {
	return w < l.Weight || l.Kind == NotOver && w == l.Weight
}

// ToleranceKind tells whether a shortfall of fineness is forgiven.
type ToleranceKind int

const (
	ToleranceUnknown ToleranceKind = iota
	NoTolerance
	Tolerated
)

// Tolerance is the shortfall of fineness that a law forgives. It is told and
// never used: no mark is chosen by it.
type Tolerance struct {
	Kind  ToleranceKind
	Parts Parts
}

func (t Tolerance) String() string {
	switch t.Kind {
	case NoTolerance:
		return "none"
	case Tolerated:
		return t.Parts.String()
	}
	return "not known"
}

// Rule is what a country says of one metal.
type Rule struct {
	Legal     Legal
	Limit     Limit
	Tolerance Tolerance
}

// Country is what is on file of one country. It is data and never changed.
type Country struct {
	Code    string // ISO 3166-1 alpha-2, or CCM for the common control mark
	Name    string
	System  System
	Basis   Basis
	Rules   map[Element]Rule
	Still   string // what is due of an exempt article all the same, when it is more than a legal fineness
	Notes   []string
	Sources []string
	Checked string // year and month in which the sources were read
}

// Rule is that of one metal; the zero Rule, nothing known, for one that the
// country's data does not name.
func (c Country) Rule(e Element) Rule { return c.Rules[e] }

// Countries lists all that are on file, the United Kingdom first.
func Countries() []Country { return append([]Country(nil), countries...) }

// Find a country by its name or code, in any case.
func Find(text string) (Country, bool) {
	t := strings.TrimSpace(text)
	for _, c := range countries {
		if strings.EqualFold(c.Name, t) || strings.EqualFold(c.Code, t) {
			return c, true
		}
	}
	return Country{}, false
}

// known lists the names for a remedy.
func known() string {
	var out []string
	for _, c := range countries {
		out = append(out, c.Name)
	}
	return strings.Join(out, ", ")
}
