package metal

import (
	"fmt"
	"math"
	"strings"

	"castweek/metal/measure"
)

// An Alloy is a metal of the house, with its recipe and where that is from.
type Alloy struct {
	Name        string
	Family      string // gold, silver, platinum, palladium, copper, or master
	Composition Composition
	Measured    measure.GramPerCC // measured by the workshop or its maker; 0 when it is not
	Source      string
	// Solidus and Liquidus bound the melting range; 0 when no figure is at hand.
	Solidus, Liquidus measure.Celsius
}

// Noble is the metal that gives the family its name.
func (a Alloy) Noble() Element {
	if e, ok := ElementNamed(a.Family); ok {
		return e
	}
	return ""
}

// Fineness is the share of the family's metal; 0 for a master alloy.
func (a Alloy) Fineness() Parts { return a.Composition.Of(a.Noble()) }

// Density is the measured one where there is one, else the rule of mixtures
// over the house table.
func (a Alloy) Density() measure.GramPerCC {
	if a.Measured > 0 {
		return a.Measured
	}
	d, err := a.Composition.Density(ElementDensities())
	if err != nil {
		return 0
	}
	return d
}

// A Fault is what is wrong with an alloy's figures. Code is stable; Refused
// tells a refusal from a remark.
type Fault struct {
	Code, Message, Remedy string
	Refused               bool
}

const (
	// impossibleBeyond is how far outside the densities of its elements a
	// density is refused: no alloy listed contracts or swells by more than 1 %
	// against its own elements (a printed 23.6 g/cm³ for 950 platinum, above
	// pure platinum, is the classic misprint).
	impossibleBeyond = 0.01
	// doubtfulBeyond is the band of the rule of mixtures against 20 published
	// alloy sheets; only cobalt platinum and gallium palladium lie outside.
	doubtfulBeyond = 0.025
)

// Check judges the recipe and the measured density.
func (a Alloy) Check() []Fault {
	var out []Fault
	refuse := func(code, remedy, format string, args ...any) {
		out = append(out, Fault{code, fmt.Sprintf(format, args...), remedy, true})
	}
	if len(a.Composition) == 0 {
		refuse("composition-missing", "write the composition in thousandths, such as gold 750", "%s has no composition", a.Name)
		return out
	}
	if !a.Composition.AddsUp() {
		refuse("composition-sum", "check the recipe against the maker's sheet: the shares must make 1000 ‰, 1 ‰ either way",
			"the composition of %s adds up to %s", a.Name, a.Composition.Sum().PerMille())
	}
	rule, err := a.Composition.Density(ElementDensities())
	if err != nil {
		refuse("density-unknown", "give the alloy a measured density", "%s: %v", a.Name, err)
		return out
	}
	if a.Measured == 0 {
		return out
	}
	low, high := math.Inf(1), 0.0
	table := ElementDensities()
	for _, s := range a.Composition {
		low, high = min(low, float64(table[s.Element])), max(high, float64(table[s.Element]))
	}
	m := float64(a.Measured)
	switch {
	case m < low*(1-impossibleBeyond) || m > high*(1+impossibleBeyond):
		refuse("density-impossible", "check the figure: an alloy is neither lighter nor heavier than everything in it",
			"%s cannot have a density of %s: its elements lie between %s and %s", a.Name, a.Measured, measure.GramPerCC(low), measure.GramPerCC(high))
	case math.Abs(m/float64(rule)-1) > doubtfulBeyond:
		out = append(out, Fault{"density-doubtful", fmt.Sprintf("the density of %s is given as %s; the rule of mixtures makes it %s", a.Name, a.Measured, rule),
			"weigh a clean piece dry and in water to be sure", false})
	}
	return out
}

// Alloys is the list of alloys that a workshop knows.
type Alloys []Alloy

// Find an alloy by its name.
func (l Alloys) Find(name string) (Alloy, bool) {
	for _, a := range l {
		if a.Name == name {
			return a, true
		}
	}
	return Alloy{}, false
}

// Names in their order.
func (l Alloys) Names() []string {
	var out []string
	for _, a := range l {
		out = append(out, a.Name)
	}
	return out
}

// With returns the list with a added, in the place of an alloy of that name.
// An own gold alloy brings its own master.
func (l Alloys) With(a Alloy) Alloys {
	out := append(Alloys(nil), l...)
	out = out.put(a)
	if m, ok := a.master(); ok {
		out = out.put(m)
	}
	return out
}

func (l Alloys) put(a Alloy) Alloys {
	for i := range l {
		if l[i].Name == a.Name {
			l[i] = a
			return l
		}
	}
	return append(l, a)
}

// Families lists the families in the list's order, masters left out.
func (l Alloys) Families() []string {
	var out []string
	for _, a := range l {
		if a.Family != masterFamily && !contains(out, a.Family) {
			out = append(out, a.Family)
		}
	}
	return out
}

// Covers tells whether one of the names is the alloy's own or its family's.
func Covers(names []string, a Alloy) bool {
	return contains(names, a.Name) || contains(names, a.Family)
}

func contains(list []string, s string) bool {
	for _, x := range list {
		if strings.EqualFold(x, s) {
			return true
		}
	}
	return false
}
