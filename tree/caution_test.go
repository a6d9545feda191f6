package tree

import (
	"slices"
	"strings"
	"testing"

	"castweek/jobs"
	"castweek/jobs/stone"
	"castweek/jobs/workshop"
	"castweek/metal"
)

func stands(mark, kind string) BagStone {
	care, _ := stone.CareOf(stone.Find(kind), "")
	return BagStone{Mark: mark, Kind: kind, Stands: care.Cells()}
}

// TestCautions: each bag has the cautions that its job asks for, and no other.
func TestCautions(t *testing.T) {
	w := &workshop.Workshop{Alloys: metal.StartList()}
	nickel, _ := metal.ElementNamed("nickel")
	w.Alloys = append(w.Alloys, metal.Alloy{Name: "585 white, sprung", Family: "gold", Composition: metal.Composition{{Element: nickel, Parts: 100}}})
	two := []jobs.Part{{Name: "shank"}, {Name: "head"}}
	casting := func(alloys ...string) (out []BagCasting) {
		for _, a := range alloys {
			out = append(out, BagCasting{Alloy: a})
		}
		return out
	}
	for name, c := range map[string]struct {
		job  jobs.Job
		bag  Bag
		want []string // beginnings
	}{
		"plain":                {jobs.Job{}, Bag{Castings: casting("750 yellow"), Owner: jobs.House}, nil},
		"customer's metal":     {jobs.Job{}, Bag{Castings: casting("750 yellow"), Owner: "M. Thorne"}, []string{"NOTICE - Metal of M. Thorne"}},
		"nickel":               {jobs.Job{}, Bag{Castings: casting("585 white, sprung")}, []string{"CAUTION - 585 white, sprung holds nickel"}},
		"two alloys":           {jobs.Job{Parts: two}, Bag{Castings: casting("750 yellow", "750 red", "750 red")}, []string{"NOTICE - 750 yellow and 750 red in one bag"}},
		"joined platinum":      {jobs.Job{Parts: two, Assembly: []string{"Weld the head to the shank."}}, Bag{Castings: casting("950 platinum")}, []string{"WARNING - 950 platinum is joined"}},
		"platinum, not joined": {jobs.Job{Parts: two, Assembly: []string{"Nothing is joined."}}, Bag{Castings: casting("950 platinum")}, nil},
		"masked":               {jobs.Job{}, Bag{Castings: casting("750 yellow"), Masked: "the gallery"}, []string{"NOTICE - Keep free: the gallery"}},
		"masked: none":         {jobs.Job{}, Bag{Castings: casting("750 yellow"), Masked: "none", Plated: "none; the red stays bare"}, nil},
		"delicate":             {jobs.Job{}, Bag{Castings: casting("750 yellow"), Stones: []BagStone{stands("A", "opal"), stands("B", "pearl")}}, []string{"NOTICE - opal (A), pearl (B): spoiled by torch, ultrasonic, steam, acid. Solder, pickle, plate, clean before setting."}},
		"heat alone":           {jobs.Job{}, Bag{Castings: casting("750 yellow"), Stones: []BagStone{stands("A", "garnet")}}, []string{"NOTICE - garnet (A): spoiled by torch. Solder before setting."}},
		"diamond with ruby":    {jobs.Job{}, Bag{Castings: casting("750 yellow"), Stones: []BagStone{stands("A", "diamond"), stands("B", "ruby")}}, []string{"NOTICE - diamond (A) beside ruby (B)"}},
		"diamond":              {jobs.Job{}, Bag{Castings: casting("750 yellow"), Stones: []BagStone{stands("A", "diamond")}, Plated: "claws, rhodium"}, nil},
		"plated with sapphire": {jobs.Job{}, Bag{Castings: casting("750 yellow"), Stones: []BagStone{stands("A", "sapphire")}, Plated: "claws, rhodium"}, []string{"NOTICE - Plating: sapphire (A)"}},
		"in the wax":           {jobs.Job{}, Bag{Castings: casting("750 yellow"), Stones: []BagStone{{Mark: "A", Kind: "diamond", InWax: true}}}, []string{"NOTICE - Cast in place: diamond (A)"}},
	} {
		got := cautions(w, &c.job, &c.bag)
		if !slices.EqualFunc(got, c.want, strings.HasPrefix) {
			t.Errorf("%s: %q", name, got)
		}
		for _, text := range got {
			if n := len(strings.Fields(text)); n > 22 { // with the signal word and its dash
				t.Errorf("%s: %d words: %s", name, n, text)
			}
		}
	}
}

// TestWeightsAddUp: a sum is there only when all of it is known.
func TestWeightsAddUp(t *testing.T) {
	known := BagStone{Count: 2, Estimate: Estimate{Low: 0.3, High: 0.4}} // 1 ct is 200 mg (4th General Conference, 1907)
	w := Weights{Finished: 1362, Findings: 560}
	w.sum([]BagStone{known}, true)
	if w.Metal != 1922 || w.Stones != 160 || w.Whole != 2082 {
		t.Errorf("%+v", w)
	}
	w = Weights{Finished: 1362}
	w.sum([]BagStone{known, {Count: 1}}, true)
	if w.Metal != 1362 || w.Stones != 0 || w.Whole != 0 {
		t.Errorf("a stone without an estimate: %+v", w)
	}
	w = Weights{}
	w.sum([]BagStone{known}, false)
	if w.Metal != 0 || w.Stones != 160 || w.Whole != 0 {
		t.Errorf("a casting of unknown weight: %+v", w)
	}
}
