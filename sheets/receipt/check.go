package receipt

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"castweek/metal/measure"
	"castweek/metal/problem"
)

const (
	longest  = 40                             // characters of a number: half a head
	heaviest = measure.Milligram(100_000_000) // 100 kg: what the boxes have room for
)

// check collects what must not be printed for a signature.
func (r *Receipt) check() problem.List {
	var l problem.List
	at := problem.Place{File: r.Number}
	add := func(code, remedy, format string, args ...any) { l.Add(at, code, remedy, format, args...) }
	for _, f := range []struct{ what, text string }{{"number", r.Number}, {"customer", r.Customer}, {"workshop", r.House}} {
		if strings.TrimSpace(f.text) == "" {
			add("receipt-empty", "say it", "the receipt names no %s", f.what)
		}
	}
	if len([]rune(r.Number)) > longest || strings.ContainsFunc(r.Number, unicode.IsControl) {
		add("receipt-number", "use a shorter number, on one line", "the number is longer than %d characters or holds signs that cannot be printed", longest)
	}
	if len(r.In) == 0 {
		add("receipt-nothing", "list the metal that is brought in", "nothing is brought in")
	}
	if r.Step < 1 {
		add("receipt-step", "give the step of the scale", "the scale has no step")
	}
	if r.Paper.W < 100 || r.Paper.H < 140 {
		add("receipt-paper", "use A5, half Letter or larger", "the paper %q is too small", r.Paper.Name)
	}
	for _, w := range r.weights() {
		if w.w < 0 || w.w > heaviest {
			add("receipt-weight", "give 0 g or more, and less than the weight of a person", "%s cannot weigh %s", w.what, w.w)
		}
	}
	n := r.Need
	if sum := n.Pieces + n.Feeders + n.Trunk + n.Button + n.Loss; sum != n.Total {
		add("receipt-sum", "add it up again", "what the job takes adds up to %s, not %s", sum, n.Total)
	}
	if r.Missing.Weight > 0 && r.Over > 0 {
		add("receipt-sum", "metal is missing or over", "%s is missing and %s is over", r.Missing.Weight, r.Over)
	}
	for i, m := range r.In {
		what := fmt.Sprintf("metal %d (%s)", i+1, m.What)
		fine(&l, at, what, m.Fineness)
		fine(&l, at, what+", as counted,", m.Counted)
		if !slices.Contains(knowns, m.Known) {
			add("receipt-known", "use certificate, assay, own melt, stamp only or unknown", "%s does not say how its fineness is known", what)
		}
		if m.Known == Unknown && m.Counted > 0 {
			add("receipt-known", "have it assayed first", "%s is counted as %s and nothing is known of it", what, m.Counted)
		}
		if m.Counted > m.Fineness {
			add("receipt-known", "count it as what it is at most", "%s is counted as %s and is %s", what, m.Counted, m.Fineness)
		}
	}
	fine(&l, at, "what is missing", r.Missing.Fineness)
	if r.Missing.Weight > 0 && r.Missing.Fineness == 0 {
		add("receipt-fineness", "say of which fineness", "%s is missing, but of no fineness", r.Missing.Weight)
	}
	for _, c := range r.Choices {
		fine(&l, at, "a choice", c.Fineness)
		switch {
		case c.Way == TopUp && (c.Weight == 0 || c.Fineness == 0):
			add("receipt-choice", "say how many grams of which fineness", "topping up has no weight or no fineness")
		case c.Way == SmallestFlask && (c.Weight == 0 || c.Flask == ""):
			add("receipt-choice", "name the flask and what it takes", "the smallest flask has no name or no weight")
		case c.Way != TopUp && c.Way != SmallestFlask && c.Way != ByHand:
			add("receipt-choice", "use top up, smallest flask or by hand", "there is no choice %q", string(c.Way))
		}
	}
	return l
}

func fine(l *problem.List, at problem.Place, what string, p measure.PerMille) {
	if !(p >= 0 && p <= 1000) {
		l.Add(at, "receipt-fineness", "give 0 to 1000 ‰", "%s cannot have a fineness of %s", what, p)
	}
}

// A named weight.
type named struct {
	what string
	w    measure.Milligram
}

// weights are all that are printed.
func (r *Receipt) weights() []named {
	n := r.Need
	out := []named{{"the pieces", n.Pieces}, {"the feeders", n.Feeders}, {"the trunk", n.Trunk}, {"the button", n.Button}, {"the loss", n.Loss},
		{"the sum", n.Total}, {"what is missing", r.Missing.Weight}, {"what is over", r.Over}}
	for _, m := range r.In {
		out = append(out, named{m.What, m.Told})
	}
	for _, b := range r.Back {
		out = append(out, named{b.What, b.Expected})
	}
	for _, c := range r.Choices {
		out = append(out, named{string(c.Way), c.Weight}, named{string(c.Way), c.Missing})
	}
	return out
}
