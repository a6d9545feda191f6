package tree

import (
	"reflect"
	"testing"

	"castweek/jobs"
	"castweek/jobs/ringsize"
	"castweek/metal/measure"
	"castweek/metal/problem"
)

// A bag speaks of parts instead of files, leaves the sources to its steps, says
// everything once and nothing that the planner has settled itself.
func TestBenchRemarks(t *testing.T) {
	one := &jobs.Job{Parts: []jobs.Part{{Pattern: jobs.Pattern{Mesh: "patterns/a.stl"}}}}
	one.Remarks = problem.List{
		{Code: "pattern-overlap", Message: "patterns/a.stl: the solids add up to 12 mm³"},
		{Code: "pattern-thin", Message: "patterns/a.stl: a wall of 0.60 mm, limit 0.80 mm, over 3.0 mm², at the centre"},
		{Code: "finger-size-off", Message: "patterns/a.stl will finish at 17.46 mm inside; UK P½ is 18.10 mm: 0.64 mm small"},
		{Code: "claw-bite", Message: "claw over girdle, as modelled 0.50 mm, 38 %; wanted at most 0.33 mm (ideally a quarter); wanted 0.39 mm to 0.65 mm (a maker's notes: 30 to 50 %)"},
	}
	want := []string{
		"a wall of 0.60 mm, limit 0.80 mm, over 3.0 mm², at the centre",
		"the pattern will finish at 17.46 mm inside; UK P½ is 18.10 mm: 0.64 mm small",
		"claw over girdle, as modelled 0.50 mm, 38 %; wanted at most 0.33 mm; wanted 0.39 mm to 0.65 mm",
	}
	if got := benchRemarks(one); !reflect.DeepEqual(got, want) {
		t.Errorf("%q", got)
	}
	pair := &jobs.Job{Parts: []jobs.Part{{Name: "left", Pattern: jobs.Pattern{Mesh: "d.stl"}}, {Name: "right", Pattern: jobs.Pattern{Mesh: "d.stl", Mirrored: true}}}}
	for range 2 {
		pair.Remarks = append(pair.Remarks, problem.Problem{Code: "pattern-gap", Message: "d.stl: a gap of 0.20 mm"})
	}
	if got := benchRemarks(pair); len(got) != 1 || got[0] != "left, right (mirrored): a gap of 0.20 mm" {
		t.Errorf("%q", got)
	}
}

// The bag says what the pattern of a ring will finish at.
func TestBagTellsWhatTheRingFinishesAt(t *testing.T) {
	f := &jobs.Job{Parts: []jobs.Part{{}, {Pattern: jobs.Pattern{Finishes: 17.46}}}}
	if finger(f) != nil {
		t.Error("no size, and a finger")
	}
	size, err := ringsize.Parse("UK P½")
	if err != nil {
		t.Fatal(err)
	}
	f.Size = &size
	if got := finger(f).Finishes; got != measure.MM(17.46) {
		t.Error(got)
	}
}
