package metal

import (
	"fmt"
	"regexp"
	"strings"

	"castweek/metal/measure"
)

// ButtonKind is how the size of the button is ruled. The names can not be
// misread: ten per cent added to the tree is not ten per cent of the total.
type ButtonKind int

const (
	ButtonAdded   ButtonKind = iota // a share of the tree's metal, added to it
	ButtonOfTotal                   // a share of tree and button together
	ButtonFixed                     // a fixed weight
	ButtonByFlask                   // the base's button cavity, filled
)

// A ButtonRule says how much metal is poured for the button, once a tree.
type ButtonRule struct {
	Kind    ButtonKind
	Share   measure.Percent
	Fixed   measure.Gram
	Minimum measure.Gram // house minimum, whatever the rule gives; 0 for none
}

var (
	buttonShare = regexp.MustCompile(`^(\d+(?:\.\d+)?)\s*%\s+(added|of total)$`)
	buttonGrams = regexp.MustCompile(`^(\d+(?:\.\d+)?)\s*g$`)
)

// maxButtonShare bounds a share of the total: above it the rule says a button
// heavier than four trees.
const maxButtonShare = 80

// ParseButtonRule reads "10% added", "10% of total", "12g" or "by flask".
func ParseButtonRule(text string) (ButtonRule, error) {
	t := strings.Join(strings.Fields(text), " ")
	if t == "by flask" {
		return ButtonRule{Kind: ButtonByFlask}, nil
	}
	if m := buttonShare.FindStringSubmatch(t); m != nil {
		v, err := measure.Number(m[1])
		if err != nil {
			return ButtonRule{}, err
		}
		r := ButtonRule{Kind: ButtonAdded, Share: measure.Percent(v)}
		if m[2] == "of total" {
			r.Kind = ButtonOfTotal
		}
		if v > maxButtonShare {
			return ButtonRule{}, &measure.SyntaxError{Code: "number-range", Message: fmt.Sprintf("a button of %s is not credible", r.Share), Remedy: "write a share below 80 %"}
		}
		return r, nil
	}
	if m := buttonGrams.FindStringSubmatch(t); m != nil {
		v, err := measure.Number(m[1])
		return ButtonRule{Kind: ButtonFixed, Fixed: measure.Gram(v)}, err
	}
	return ButtonRule{}, &measure.SyntaxError{Code: "button-rule", Message: fmt.Sprintf("%q is not a button rule", text),
		Remedy: "write one of: 10% added, 10% of total, 12g, by flask"}
}

// String writes the rule as it is typed.
func (r ButtonRule) String() string {
	switch r.Kind {
	case ButtonOfTotal:
		return number(float64(r.Share)) + "% of total"
	case ButtonFixed:
		return number(float64(r.Fixed)) + "g"
	case ButtonByFlask:
		return "by flask"
	}
	return number(float64(r.Share)) + "% added"
}

func number(v float64) string { return strings.TrimSuffix(measure.Percent(v).String(), " %") }

// weight of the button over a tree of so much metal. cavity is the volume of
// the base's button cavity, at the alloy's density.
func (r ButtonRule) weight(tree measure.Gram, cavity measure.CubicMM, d measure.GramPerCC) measure.Gram {
	var g measure.Gram
	switch r.Kind {
	case ButtonAdded:
		g = tree * measure.Gram(r.Share) / 100
	case ButtonOfTotal:
		g = tree * measure.Gram(r.Share) / measure.Gram(100-r.Share)
	case ButtonFixed:
		g = r.Fixed
	case ButtonByFlask:
		g = cavity.Times(d)
	}
	return max(g, r.Minimum)
}

// LossRule is the metal that melting takes: a share of what is charged.
type LossRule struct {
	Default measure.Percent
	Alloys  map[string]measure.Percent // by alloy or family
}

// Of is the share for an alloy: by its name, else by its family, else the
// default.
func (r LossRule) Of(a Alloy) measure.Percent {
	if p, ok := r.Alloys[a.Name]; ok {
		return p
	}
	if p, ok := r.Alloys[a.Family]; ok {
		return p
	}
	return r.Default
}

// DefaultLoss is half a per cent for every alloy: common practice, no source,
// inside the published 0.1 to 1 %.
const DefaultLoss measure.Percent = 0.5
