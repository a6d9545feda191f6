package mark

import (
	"fmt"

	"castweek/metal/problem"
)

// State is what can be said of a fineness.
type State int

const (
	NotKnown State = iota // no list is on file, or the sources disagree
	Legally               // Fineness may be struck
	TooLow                // under the lowest legal fineness: no mark
	NoLaw                 // the law of the country does not speak of the metal
)

// A Mark is the figure that may be struck on metal of a true fineness.
type Mark struct {
	State    State
	Country  string
	Metal    Element
	Fineness Parts // to be struck; 0 unless State is Legally
	// Sure tells that the true fineness reaches at least the lowest legal one,
	// though the figure itself may not be known.
	Sure      bool
	Reason    string
	Tolerance Tolerance
	Sources   []string
	Checked   string
}

// String is the figure, or why there is none.
func (m Mark) String() string {
	if m.State == Legally {
		return m.Fineness.Number()
	}
	return "no figure: " + m.Reason
}

// MarkFor gives the highest legal mark that is not above the true fineness. A
// tolerance is never used: 584 ‰ is not 585. A country that is not on file, a
// metal without hallmark law and an impossible fineness are errors of type
// [problem.Problem].
//
// The rule "never above" is that of ISO 9202 (no minus tolerance, by its
// catalogue summary); 588 to 585 and 584 to 375 are the examples of the Finnish
// authority.
func MarkFor(country string, metal Element, fineness Parts) (Mark, error) {
	c, ok := Find(country)
	if !ok {
		return Mark{}, unknownCountry(country)
	}
	if p, bad := badMetal(metal, fineness); bad {
		return Mark{}, p
	}
	return c.mark(metal, fineness), nil
}

// badMetal judges what MarkFor cannot answer.
func badMetal(metal Element, fineness Parts) (problem.Problem, bool) {
	switch {
	case !metal.Precious():
		return problem.Problem{Code: "mark-metal", Message: fmt.Sprintf("%q is not a metal that is hallmarked", string(metal)), Remedy: "use Au, Ag, Pt or Pd"}, true
	case fineness < 1 || fineness > Whole:
		return problem.Problem{Code: "mark-fineness", Message: fmt.Sprintf("%s cannot have a fineness of %s", metal.Name(), fineness), Remedy: "give more than 0 and at most 1000 ‰"}, true
	}
	return problem.Problem{}, false
}

func unknownCountry(text string) problem.Problem {
	return problem.Problem{Code: "mark-country", Message: fmt.Sprintf("no hallmark law is on file for %q", text), Remedy: "use one of: " + known() + "; or ask an assay office"}
}

// mark is MarkFor of sound input.
func (c Country) mark(metal Element, fineness Parts) Mark {
	r := c.Rule(metal)
	m := Mark{Country: c.Name, Metal: metal, Tolerance: r.Tolerance, Sources: c.Sources, Checked: c.Checked}
	l := r.Legal
	least := l.least()
	switch {
	case l.Kind == NotCovered:
		m.State, m.Reason = NoLaw, fmt.Sprintf("the law of %s does not speak of %s", c.Name, metal.Name())
	case l.Kind == NotSeen:
		m.Reason = fmt.Sprintf("the legal finenesses of %s in %s are not on file", metal.Name(), c.Name)
	case fineness < least && l.Disputed > 0 && fineness >= l.Disputed:
		m.Reason = fmt.Sprintf("the sources disagree about %s under %s", metal.Name(), least)
	case fineness < least:
		m.State, m.Reason = TooLow, fmt.Sprintf("%s is under %s, the lowest legal fineness of %s in %s", fineness, least, metal.Name(), c.Name)
	case l.Kind == AtLeast:
		m.Sure, m.Reason = true, fmt.Sprintf("at least %s is asked of %s; the steps above it are not on file", least, metal.Name())
	default:
		m.State, m.Sure, m.Fineness = Legally, true, l.highest(fineness)
		m.Reason = fmt.Sprintf("the highest legal fineness of %s that is not above %s", metal.Name(), fineness)
	}
	return m
}

// highest is the highest legal figure not above f, which is at least the least.
func (l Legal) highest(f Parts) Parts {
	best := Parts(0)
	for _, p := range l.List {
		if p <= f {
			best = max(best, p)
		}
	}
	if l.AnyFrom > 0 && f >= l.AnyFrom {
		// A whole thousandth may lie under AnyFrom itself (416 under 416.667).
		if whole := f / perMille * perMille; whole > best {
			best = whole
		}
	}
	return best
}
