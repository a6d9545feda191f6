package tree

import (
	"reflect"
	"testing"
	"time"

	"castweek/tree/record"
)

func bagOf(due int, stones ...BagStone) Bag {
	return Bag{Job: "K-1", Piece: 1, Of: 1, Design: "ring", For: "M. Invented", Due: time.Date(2026, 12, due, 12, 0, 0, 0, time.UTC), Owner: "house", Finish: "polished",
		Castings: []BagCasting{{ID: "K-1/1", Alloy: "750 yellow", Tree: "2026-W49-A", Cast: 5000}}, Weights: Weights{Cast: 5000}, Stones: stones}
}

func TestReprints(t *testing.T) {
	at := time.Date(2026, 11, 30, 8, 0, 0, 0, time.UTC)
	cast := func(b Bag) *Cast { return &Cast{Name: "2026-W49", Bags: []Bag{b}} }
	ruby := BagStone{Mark: "A", Kind: "ruby", Cut: "round", Length: 2, Width: 2, Depth: 1.2, Count: 1, Style: "flush", Place: "top"}

	first := cast(bagOf(18, ruby))
	kept := Printed{}.Number(first, at)
	if first.Bags[0].Print != nil {
		t.Errorf("a first print is numbered %+v", first.Bags[0].Print)
	}
	again := cast(bagOf(18, ruby))
	kept = kept.Number(again, at.Add(time.Hour))
	if again.Bags[0].Print != nil {
		t.Error("an unchanged bag is another print")
	}
	later := cast(bagOf(19, ruby))
	kept = kept.Number(later, at.Add(time.Hour))
	p := later.Bags[0].Print
	if p == nil || p.Number != 2 || p.Replaces != 1 || p.AllNew || !reflect.DeepEqual(p.Changes, []Change{{"due", "Fri 18 Dec 2026 12:00"}}) {
		t.Fatalf("%+v", p)
	}
	gone := cast(bagOf(19))
	kept = kept.Number(gone, at.Add(2*time.Hour))
	p = gone.Bags[0].Print
	if p == nil || p.Number != 3 || p.Replaces != 2 || len(p.Changes) != 0 || len(p.Removed) != 1 {
		t.Fatalf("%+v", p)
	}
	other := &Cast{Name: "2026-W50", Bags: []Bag{bagOf(19)}}
	kept.Number(other, at)
	if other.Bags[0].Print != nil {
		t.Error("another cast goes on with the numbers of this one")
	}
}

// What is kept goes through a file and comes back as it was.
func TestPrintedComesBack(t *testing.T) {
	b := bagOf(18, BagStone{Mark: "A", Kind: "ruby", Count: 2})
	was := Printed{"2026-W49", []PrintedBag{{b.key(), &Print{Number: 2, At: time.Date(2026, 11, 30, 8, 0, 0, 0, time.UTC), Replaces: 1, Changes: []Change{{"due", "x"}}}, b.facts()}}}
	data, err := record.EncodePlain(was)
	if err != nil {
		t.Fatal(err)
	}
	var back Printed
	if err := record.DecodePlain(data, &back); err != nil {
		t.Fatal(err)
	}
	c := &Cast{Name: "2026-W49", Bags: []Bag{b}}
	back.Number(c, time.Now())
	if p := c.Bags[0].Print; p == nil || p.Number != 2 || p.Replaces != 1 || len(p.Changes) != 1 {
		t.Errorf("%+v", p)
	}
}
