package book

import (
	"fmt"
	"time"

	"castweek/metal/measure"
)

// heaviest is the most that one movement may weigh: a workshop's whole stock is
// less than 100 kg.
const heaviest measure.Milligram = 100_000_000

// fault is what is wrong with one field of a movement.
type fault struct{ column, code, remedy, message string }

// judge looks at one movement by itself; whether the lot has so much and the
// tree was charged is the book's to say.
func judge(m Movement) (out []fault) {
	add := func(column, code, remedy, format string, args ...any) {
		out = append(out, fault{column, code, remedy, fmt.Sprintf(format, args...)})
	}
	if m.ID < 1 {
		add("id", "book-id", "ids count from 1 without a gap", "the id is missing")
	}
	if m.Who == "" {
		add("who", "book-who", "write the name or initials of who weighed", "nobody is named")
	}
	if y := m.At.Year(); !m.At.IsZero() && (y < 2000 || y > 2199) {
		add("at", "book-time", "check the year", "%s is not a moment of this book", m.At.Format(time.RFC3339))
	}
	if m.Grams <= 0 || m.Grams > heaviest {
		add("grams", "book-weight", "write what was weighed; the movement says which way it went", "%v can not have been weighed", m.Grams)
	}
	if m.Alloy == "" {
		add("alloy", "book-alloy", "name the alloy", "no alloy is named")
	}
	if m.Kind == "" {
		add("movement", "book-word", "write one of: "+list(kinds), "no movement is named")
		return out
	}
	if m.Kind == Reversal {
		if m.Reverses < 1 || m.Reverses >= m.ID {
			add("reverses", "book-reverses", "give the id of an earlier line", "it does not say which line it takes back")
		}
		return out
	}
	r := rules[m.Kind]
	demand := func(column, value string, n need) {
		switch {
		case n == must && value == "":
			add(column, "book-missing", "fill in "+column, "%q needs %s", string(m.Kind), column)
		case n == never && value != "":
			add(column, "book-surplus", "leave "+column+" empty, or check the movement", "%q has no %s", string(m.Kind), column)
		}
	}
	lot := must
	if r.lot == 0 {
		lot = never
	}
	demand("lot", m.Lot, lot)
	demand("fineness", m.Fineness.text(), lot)
	demand("from", string(m.From), lot)
	demand("form", string(m.Form), lot)
	demand("tree", m.Tree, r.tree)
	demand("into", m.Into, r.into)
	demand("owner", m.Owner, r.owner)
	demand("job", m.Job, r.job)
	if m.Fineness < 0 || m.Fineness > Whole {
		add("fineness", "book-fineness", "write parts per thousand", "%v is finer than pure", m.Fineness)
	}
	if r.form != "" && m.Form != "" && m.Form != r.form {
		add("form", "book-form", "write "+string(r.form), "%q is always in the form %s", string(m.Kind), r.form)
	}
	used := m.Form == Button || m.Form == Scrap || m.Form == Powder
	switch {
	case m.HasMelts && !r.mayMelted:
		add("melts", "book-surplus", "leave melts empty: the book counts them", "%q has no count of melts", string(m.Kind))
	case !m.HasMelts && r.mayMelted && used:
		add("melts", "book-missing", "say how often it was melted, as far as known", "%s that comes in was melted before", m.Form)
	}
	if m.Reverses != 0 {
		add("reverses", "book-surplus", "leave it empty", "only a reversal takes a line back")
	}
	return out
}

func (p Parts) text() string {
	if p == 0 {
		return ""
	}
	return p.String()
}
