package tree

import (
	"testing"

	"castweek/jobs"
	"castweek/jobs/workshop"
	"castweek/metal"
	"castweek/metal/mark"
	"castweek/metal/measure"
)

// The limits of the Hallmarking Act 1973, schedule 1 part II: gold of less than
// 1 g, silver of less than 7.78 g. A predicted weight around the limit is
// weighed first, never exempt.
func TestLaw(t *testing.T) {
	w := &workshop.Workshop{Alloys: metal.StartList(), Stock: workshop.Stock{Country: workshop.DefaultCountry}}
	for _, x := range []struct {
		alloy string
		cast  measure.Milligram
		kind  jobs.Kind
		want  mark.Kind
	}{
		{"750 yellow", 5000, jobs.Ring, mark.Needed},
		{"750 yellow", 1100, jobs.Ring, mark.WeighFirst},
		{"750 yellow", 1000, jobs.Ring, mark.WeighFirst},
		{"750 yellow", 900, jobs.Ring, mark.Exempt},
		{"925 silver", 7700, jobs.Ring, mark.Exempt},
		{"925 silver", 7780, jobs.Ring, mark.WeighFirst},
		{"925 silver", 10000, jobs.Ring, mark.Needed},
		{"750 yellow", 900, jobs.Earrings, mark.AskOffice},
	} {
		j := &jobs.Job{Number: "K-1", Kind: x.kind, Hallmark: "not wanted"}
		c := &Cast{Bags: []Bag{{Job: "K-1", Piece: 1, Castings: []BagCasting{{ID: "K-1/1", Alloy: x.alloy, Cast: x.cast}}}}}
		tellLaw(w, c, []*jobs.Job{j})
		l := c.Bags[0].Law
		if l == nil || l.Verdict != x.want.String() || l.Decides == "" {
			t.Errorf("%s %v %s: %+v, want %s", x.alloy, x.cast, x.kind, l, x.want)
		}
		if said := len(c.Remarks) > 0; said != (x.want == mark.Needed) {
			t.Errorf("%s %v: remarks %+v", x.alloy, x.cast, c.Remarks)
		}
	}
}
