package tree

import (
	"slices"
	"strings"
	"testing"

	"castweek/jobs"
	"castweek/jobs/workshop"
	"castweek/metal"
	"castweek/metal/mark"
	"castweek/metal/measure"
)

func lawShop() *workshop.Workshop {
	return &workshop.Workshop{Alloys: metal.StartList(), Stock: workshop.Stock{Country: workshop.DefaultCountry}}
}

// The limits of the Hallmarking Act 1973, schedule 1 part II: gold of less than
// 1 g, silver of less than 7.78 g. A predicted weight around the limit is
// weighed first, never exempt.
func TestLaw(t *testing.T) {
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
		tellLaw(lawShop(), c, []*jobs.Job{j})
		l := c.Bags[0].Law
		if l == nil || l.Verdict != x.want.String() || l.Decides == "" {
			t.Errorf("%s %v %s: %+v, want %s", x.alloy, x.cast, x.kind, l, x.want)
		}
		if said := len(c.Remarks) > 0; said != (x.want == mark.Needed) {
			t.Errorf("%s %v: remarks %+v", x.alloy, x.cast, c.Remarks)
		}
	}
}

// What is weighed is the finished article: the least that cleaning up leaves of
// a measured casting decides, and neither a sizing rod, nor a spare, nor the
// other pieces of a bag weigh with it. Findings do, and another metal or a part
// for somebody else's article changes the answer.
func TestLawWeighsTheArticle(t *testing.T) {
	ring := BagCasting{ID: "K-1/1a", Alloy: "750 yellow", Cast: 900}
	rod := BagCasting{ID: "K-1/1b", Alloy: "750 yellow", Cast: 2300, Rod: true}
	spare := BagCasting{ID: "K-1/s1", Alloy: "750 yellow", Cast: 900, Spare: true}
	with := func(of BagCasting, cast, finished measure.Milligram, band measure.Percent) BagCasting {
		of.Cast, of.Finished, of.Band = cast, finished, band
		return of
	}
	silver := ring
	silver.Alloy = "925 silver"
	chain := func(g measure.Gram) []jobs.Finding {
		return []jobs.Finding{{Name: "chain", Count: 1, Alloy: "750 yellow", Weight: g, Marked: true}}
	}
	for name, x := range map[string]struct {
		castings []BagCasting
		findings []jobs.Finding
		kind     jobs.Kind
		pieces   int
		want     string
		on       string // the weight that the reason names
	}{
		"with a sizing rod":            {[]BagCasting{ring, rod}, nil, jobs.Ring, 1, "exempt by weight", "0.810 g ± 0.090 g"},
		"with a spare":                 {[]BagCasting{ring, spare}, nil, jobs.Ring, 1, "exempt by weight", "0.810 g ± 0.090 g"},
		"two pieces in a bag":          {[]BagCasting{ring, ring, spare}, nil, jobs.Ring, 2, "exempt by weight", "0.810 g ± 0.090 g"},
		"measured, surely above":       {[]BagCasting{with(ring, 1150, 1080, 5)}, nil, jobs.Ring, 1, "needed", "1.088 g ± 0.062 g"},
		"measured, around the limit":   {[]BagCasting{with(ring, 1050, 980, 5)}, nil, jobs.Ring, 1, "weigh before deciding", "0.990 g ± 0.060 g"},
		"a marked chain weighs too":    {[]BagCasting{ring}, chain(0.3), jobs.Pendant, 1, "needed", ""},
		"around the limit with it":     {[]BagCasting{ring}, chain(0.1), jobs.Pendant, 1, "weigh before deciding", ""},
		"gold and silver":              {[]BagCasting{ring, silver}, nil, jobs.Ring, 1, "ask the assay office", ""},
		"cufflinks are a pair":         {[]BagCasting{ring}, nil, jobs.Cufflinks, 1, "ask the assay office", ""},
		"a loose head goes into other": {[]BagCasting{with(ring, 5000, 0, 0)}, nil, jobs.LooseHead, 1, "", ""},
	} {
		b := &Bag{Job: "K-1", Piece: 1, Castings: x.castings}
		l := lawOf(lawShop(), &jobs.Job{Number: "K-1", Kind: x.kind, Findings: x.findings}, b, x.pieces)
		switch {
		case x.want == "" && l != nil:
			t.Errorf("%s: %+v", name, l)
		case x.want != "" && (l == nil || l.Verdict != x.want || !strings.Contains(l.Reason, x.on)):
			t.Errorf("%s: %+v, want %s, %s", name, l, x.want, x.on)
		}
	}
}

// Nickel by the stricter limit for what goes through an ear, lead and cadmium
// in each part, findings too (REACH, annex XVII, entries 27, 63 and 23).
func TestMetalRemarks(t *testing.T) {
	w := lawShop()
	own := func(name, family string, shares ...any) {
		a := metal.Alloy{Name: name, Family: family}
		for i := 0; i < len(shares); i += 2 {
			a.Composition = append(a.Composition, metal.Share{Element: metal.Element(shares[i].(string)), Parts: metal.Parts(shares[i+1].(int))})
		}
		w.Alloys = w.Alloys.With(a)
	}
	own("750 nickel white", "gold", "Au", 750_000, "Cu", 55_000, "Ni", 145_000, "Zn", 50_000)
	own("750 old yellow", "gold", "Au", 750_000, "Ag", 150_000, "Cd", 100_000)
	own("900 leaded silver", "silver", "Ag", 900_000, "Cu", 99_500, "Pb", 500)
	for _, x := range []struct {
		kind    jobs.Kind
		casting string
		finding string
		want    []string
	}{
		{jobs.Ring, "750 yellow", "", nil},
		{jobs.Ring, "750 nickel white", "", []string{"nickel-skin"}},
		{jobs.Earrings, "750 nickel white", "", []string{"nickel-post"}},
		{jobs.Earrings, "750 yellow", "750 nickel white", []string{"nickel-post"}},
		{jobs.Ring, "750 old yellow", "", []string{"cadmium"}},
		{jobs.Pendant, "925 silver", "900 leaded silver", []string{"lead"}},
		{jobs.Ring, "750 nickel white", "750 nickel white", []string{"nickel-skin"}}, // said once
	} {
		j := &jobs.Job{Number: "K-1", Kind: x.kind}
		if x.finding != "" {
			j.Findings = []jobs.Finding{{Name: "post", Count: 1, Alloy: x.finding, Weight: 0.1}}
		}
		c := &Cast{Bags: []Bag{{Job: "K-1", Piece: 1, Castings: []BagCasting{{ID: "K-1/1", Alloy: x.casting, Cast: 5000}}}}}
		tellLaw(w, c, []*jobs.Job{j})
		var got []string
		for _, r := range c.Remarks {
			got = append(got, r.Code)
		}
		if !slices.Equal(got, x.want) {
			t.Errorf("%s of %s with %q: %v, want %v", x.kind, x.casting, x.finding, got, x.want)
		}
	}
}
