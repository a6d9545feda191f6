package pull

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"castweek/sheets/desk"
	"castweek/sheets/internal/reading"
	"castweek/sheets/internal/trial"
	"castweek/tree"
)

func printed(t *testing.T, c *tree.Cast) []byte {
	t.Helper()
	pdf, remarks, err := Print(c, Options{})
	if err != nil || len(remarks) > 0 {
		t.Fatal(remarks, err)
	}
	return pdf
}

func TestSound(t *testing.T) {
	for _, series := range []string{"A", "letter"} {
		c := trial.Cast()
		c.House.Series = series
		pdf := printed(t, c)
		if !bytes.Equal(pdf, printed(t, c)) {
			t.Error("the same cast gave other bytes")
		}
		reading.Sound(t, pdf)
		labels, _, err := Labels(c, Options{})
		if err != nil {
			t.Fatal(err)
		}
		reading.Sound(t, labels)
	}
}

// rows are the lines of the list as they are read back: size, take, to set,
// spares.
var rows = regexp.MustCompile(`(?m)^.*?\s{2,}(\d[\d.]*(?: ?x ?[\d.]+)?)\s+(\d+)\s+(\d+)\s+(\d+)\s+(?:P-\d+|stone of)`)

func read(t *testing.T, c *tree.Cast) (out [][4]string, text string) {
	t.Helper()
	text = strings.Join(reading.Pages(t, printed(t, c)), "")
	for _, m := range rows.FindAllStringSubmatch(text, -1) {
		out = append(out, [4]string{strings.ReplaceAll(m[1], " ", ""), m[2], m[3], m[4]})
	}
	return out, text
}

// The list adds up what is in the bags: every column, and the control total of
// what is here.
func TestSumsOfTheBags(t *testing.T) {
	c := trial.Cast()
	got, text := read(t, c)
	want := [][4]string{{"1.5", "24", "21", "3"}, {"6x4", "1", "1", "0"}, {"2", "4", "2", "2"}, {"1.5", "2", "2", "0"}}
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("the list reads %v, want %v", got, want)
	}
	set, spares := 0, 0
	for _, b := range c.Bags {
		for _, s := range b.Stones {
			set, spares = set+s.Count, spares+s.Spares
		}
	}
	for _, r := range got {
		n := [3]int{}
		for i := range n {
			n[i], _ = strconv.Atoi(r[i+1])
		}
		if n[0] != n[1]+n[2] {
			t.Errorf("take %d is not %d + %d", n[0], n[1], n[2])
		}
		set, spares = set-n[1], spares-n[2]
	}
	if set != 0 || spares != 0 {
		t.Errorf("the bags hold %d stones and %d spares more than the list", set, spares)
	}
	if !regexp.MustCompile(`Control total\s+29\b`).MatchString(text) {
		t.Errorf("control total is not 24 + 1 + 4:\n%s", text)
	}
}

// Stones that look alike but are another kind, size, owner, or not here stay
// apart; what is alike is one line whatever the job.
func TestLinesApart(t *testing.T) {
	one := tree.BagStone{Kind: "sapphire", Cut: "round", Length: 2, Width: 2, Count: 1, Here: true, Parcel: "P-1", Owner: "house"}
	c := &tree.Cast{}
	for i, change := range []func(s *tree.BagStone){
		func(s *tree.BagStone) {}, func(s *tree.BagStone) {}, func(s *tree.BagStone) { s.Kind = "spinel" }, func(s *tree.BagStone) { s.Length = 2.1 },
		func(s *tree.BagStone) { s.Owner = "Ines" }, func(s *tree.BagStone) { s.Here = false }, func(s *tree.BagStone) { s.Origin = "lab-grown" },
		func(s *tree.BagStone) { s.Parcel = "P-2" }} {
		s := one
		change(&s)
		c.Bags = append(c.Bags, tree.Bag{Job: fmt.Sprintf("K-%d", i), Stones: []tree.BagStone{s}})
	}
	all := lines(bagsOf(c))
	if len(all) != 7 {
		t.Errorf("%d lines, want 7", len(all))
	}
	for i := 1; i < len(all); i++ {
		a, b := all[i-1].stone, all[i].stone
		if drawer(a) > drawer(b) || drawer(a) == drawer(b) && a.Length > b.Length {
			t.Errorf("line %d is out of the order of the drawers", i)
		}
	}
	for _, l := range all {
		if l.count == 2 && strings.Join(l.jobs, " ") != "K-0 K-1" {
			t.Errorf("the line of two is for %v", l.jobs)
		}
	}
}

func TestNotHereComesLast(t *testing.T) {
	_, text := read(t, trial.Cast())
	here, there, ok := strings.Cut(text, "not here")
	if !ok || strings.Contains(here, "P-131") || !strings.Contains(there, "P-131") {
		t.Errorf("what is not here does not stand apart:\n%s", text)
	}
	if !strings.Contains(there, "stone of J. and R.") || !strings.Contains(there, "ordered:") {
		t.Errorf("owner or order is missing:\n%s", there)
	}
}

func TestManyStonesFlow(t *testing.T) {
	c := trial.Cast()
	for i := range 60 {
		c.Bags[0].Stones = append(c.Bags[0].Stones, tree.BagStone{Mark: "B", Kind: fmt.Sprintf("kind %02d", i), Cut: "a cut with a long name", Length: 3, Width: 3, Count: 120 + i, Here: true, Parcel: "P-7"})
	}
	pages := reading.Pages(t, printed(t, c))
	text := strings.Join(pages, "")
	for i := range 60 {
		if !strings.Contains(text, fmt.Sprintf("kind %02d", i)) {
			t.Errorf("line %d is missing", i)
		}
	}
	for i, page := range pages {
		if !strings.Contains(page, fmt.Sprintf("page %d of %d", i+1, len(pages))) || strings.Count(page, c.Name) != 2 {
			t.Errorf("page %d does not say what it is", i+1)
		}
	}
}

// One label for each line of each bag, its count as the bag says.
func TestLabels(t *testing.T) {
	c := trial.Cast()
	pdf, remarks, err := Labels(c, Options{})
	if err != nil || len(remarks) > 0 {
		t.Fatal(remarks, err)
	}
	text := strings.Join(reading.Pages(t, pdf), "")
	for word, n := range map[string]int{"set 7, spare 1": 3, "parcel P-096": 3, "set 1, spare 1": 2, "K-206": 2, "not here": 2, "K-202": 1, "6 x 4 mm": 1} {
		if got := strings.Count(text, word); got != n {
			t.Errorf("%q stands on %d labels, want %d", word, got, n)
		}
	}
}

func TestNoStones(t *testing.T) {
	c := &tree.Cast{Name: "2026-W50", AsOf: trial.Cast().AsOf}
	if text := strings.Join(reading.Pages(t, printed(t, c)), ""); !strings.Contains(text, "No stones in this cast.") {
		t.Error(text)
	}
	if _, _, err := Labels(c, Options{}); err == nil {
		t.Error("labels without stones")
	}
}

func TestNoWordIsMissing(t *testing.T) {
	_, text := read(t, trial.Cast())
	if m := regexp.MustCompile(`\[(pull|sheet)\.`).FindString(text); m != "" {
		t.Errorf("a word is missing from the catalogue: %s", m)
	}
}

// Names that no font has, that never end or that hold nothing give a list with
// remarks, never an error.
func TestHostileNames(t *testing.T) {
	for _, s := range []string{"", "💍 שלום", strings.Repeat("endless", 60), strings.Repeat("word ", 200), "a\x00b\nc", "\xff"} {
		c := trial.Cast()
		for i := range c.Bags {
			for k := range c.Bags[i].Stones {
				st := &c.Bags[i].Stones[k]
				st.Kind, st.Cut, st.Owner, st.Parcel, st.Treatment, st.Ordered, st.Here = s, s, s, s, s, s, k%2 == 0
			}
			c.Bags[i].Title = s
		}
		pdf, _, err := Print(c, Options{})
		if err != nil {
			t.Fatalf("%.20q: %v", s, err)
		}
		if text := strings.Join(reading.Pages(t, pdf), ""); !strings.Contains(text, "K-203") {
			t.Errorf("%.20q: a job is missing", s)
		}
		if _, _, err := Labels(c, Options{}); err != nil {
			t.Errorf("%.20q: %v", s, err)
		}
	}
}

func bagsOf(c *tree.Cast) []*tree.Bag { d := desk.Open(c, Options{}, "pull.title"); return d.Bags() }
