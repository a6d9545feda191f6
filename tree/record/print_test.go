package record

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"
)

var printed = time.Date(2026, 11, 30, 8, 0, 0, 0, time.UTC)

// share is the part of the words that two lines have at the same places.
func share(a, b string) float64 {
	x, y := strings.Fields(a), strings.Fields(b)
	n := 0
	for i := range min(len(x), len(y)) {
		if x[i] == y[i] {
			n++
		}
	}
	return float64(n) / float64(max(len(x), len(y)))
}

func TestNextPrint(t *testing.T) {
	old := First("bag K-1/1", printed, true)
	old.Lines = []string{"head", "due Mon", "stone A ruby 2", "stone B ruby 3", "finish satin", "notes", "end"}
	for _, c := range []struct {
		name    string
		lines   []string
		changes []Change
		removed []string
	}{
		{"one word", []string{"head", "due Tue", "stone A ruby 2", "stone B ruby 3", "finish satin", "notes", "end"}, []Change{{1, "due Mon"}}, nil},
		{"one more", []string{"head", "due Mon", "stone A ruby 2", "stone B ruby 3", "stone C opal 1", "finish satin", "notes", "end"}, []Change{{4, ""}}, nil},
		{"one less", []string{"head", "due Mon", "stone B ruby 3", "finish satin", "notes", "end"}, nil, []string{"stone A ruby 2"}},
		{"the like of two", []string{"head", "due Mon", "stone B ruby 4", "finish satin", "notes", "end"}, []Change{{2, "stone B ruby 3"}}, []string{"stone A ruby 2"}},
		{"nothing alike", []string{"head", "due Mon", "stone A ruby 2", "stone B ruby 3", "polish", "notes", "end"}, []Change{{4, "finish satin"}}, nil},
		{"moved and changed", []string{"head", "stone A ruby 2", "stone B ruby 3", "finish satin", "due Tue", "notes", "end"}, []Change{{4, "due Mon"}}, nil},
		{"the same", old.Lines, nil, nil},
	} {
		n := old.Next(c.lines, printed, true, share)
		if n.Number != 2 || n.Replaces != 1 || n.AllNew || !reflect.DeepEqual(n.Changes, c.changes) || !reflect.DeepEqual(n.Removed, c.removed) {
			t.Errorf("%s: %+v", c.name, n)
		}
	}
	if n := old.Next([]string{"a", "b", "c"}, printed, false, share); !n.AllNew || len(n.Changes)+len(n.Removed) > 0 {
		t.Errorf("nothing is left of it: %+v", n)
	}
}

// Whatever the two prints say: taking from the new lines those that are
// changed, and from the old ones those that were something else or are gone,
// leaves the same on both sides, in the same order.
func TestNextPrintLeavesTheCommon(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	lines := func() (out []string) {
		for range r.IntN(30) {
			out = append(out, fmt.Sprintf("%c %d", 'a'+rune(r.IntN(4)), r.IntN(3)))
		}
		return out
	}
	marked := 0
	for range 5000 {
		old := Print{Number: 1, Lines: lines()}
		now := lines()
		n := old.Next(now, printed, true, share)
		if n.AllNew {
			continue
		}
		var same, gone []string
		for i, l := range now {
			k := slices.IndexFunc(n.Changes, func(c Change) bool { return c.Line == i })
			if k < 0 {
				same = append(same, l)
			} else if w := n.Changes[k].Was; w != "" {
				gone = append(gone, w)
			}
		}
		marked += len(n.Changes)
		gone = append(gone, n.Removed...)
		rest := slices.Clone(old.Lines)
		for _, g := range gone {
			k := slices.Index(rest, g)
			if k < 0 {
				t.Fatalf("%q was not there\n%q\n%q\n%+v", g, old.Lines, now, n)
			}
			rest = slices.Delete(rest, k, k+1)
		}
		a, b := slices.Clone(rest), slices.Clone(same)
		slices.Sort(a)
		slices.Sort(b)
		if !slices.Equal(a, b) {
			t.Fatalf("%q is left of the old and %q of the new\n%q\n%q\n%+v", rest, same, old.Lines, now, n)
		}
	}
	if marked < 1000 {
		t.Errorf("only %d lines were marked", marked)
	}
}

func TestPrintsComeBack(t *testing.T) {
	p := &Prints{Cast: "2026-W49"}
	for _, key := range []string{"week", "bag K-2/1", "bag K-1/1", "week"} {
		p.Keep(Print{Key: key, Number: len(p.List) + 1, At: printed, Lines: []string{"a\tb", "= - :"}, Changes: []Change{{0, "x: y"}}, Removed: []string{"'"}})
	}
	if len(p.List) != 3 || p.List[0].Key != "bag K-1/1" || p.List[2].Number != 4 {
		t.Errorf("%+v", p.List)
	}
	data, err := EncodePlain(p)
	if err != nil {
		t.Fatal(err)
	}
	var back Prints
	if err := DecodePlain(data, &back); err != nil || !reflect.DeepEqual(&back, p) {
		t.Errorf("%v\n%+v\n%+v", err, back, p)
	}
	if _, known := back.Last("bag K-3/1"); known {
		t.Error("a bag that was never printed is known")
	}
}
