package bag

import (
	"testing"

	"castweek/jobs/setting"
	"castweek/tree"
)

// A place is named once, with all that it says; what holds for some lines only
// has their marks, and a place that is a source of the whole work says so.
func TestSourcesAreGrouped(t *testing.T) {
	line := func(mark string, sources ...string) tree.BagStone {
		st := tree.BagStone{Mark: mark}
		for _, s := range sources {
			st.Steps = append(st.Steps, setting.Step{Source: s})
		}
		return st
	}
	for _, c := range []struct {
		name  string
		lines []tree.BagStone
		want  string
	}{
		{"one place", []tree.BagStone{line("A", "page: one", "book", "page: two", "page: one")}, "page: one, two; book"},
		{"two places of one step", []tree.BagStone{line("A", "page: one; book: two", "book: three")}, "page: one; book: two, three"},
		{"the whole work too", []tree.BagStone{line("A", "page: one", "page")}, "page, also: one"},
		{"some lines", []tree.BagStone{line("A", "page: one", "book"), line("B", "page: one", "page: two"), line("C")}, "page: one, two (B); book (A)"},
		{"none", []tree.BagStone{line("A")}, ""},
	} {
		b := tree.Bag{Job: "K-1", Stones: c.lines}
		cast := castOf(b)
		s := &sheet{printer: newPrinter(cast, Options{}), b: &b}
		if got := s.sourceText(); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}
