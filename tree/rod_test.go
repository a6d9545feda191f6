package tree

import (
	"math"
	"slices"
	"testing"

	"castweek/jobs"
	"castweek/metal/measure"
)

// A rod without feeders stands on the trunk by its own end, keeps its gap from
// there on, and brings no metal but its own.
func TestRodFeedsItself(t *testing.T) {
	w := *sampleFolder(t).Workshop
	rod := jobs.Rod{Diameter: 2.5, Length: 30}
	f := sampleFolder(t)
	job := *f.Jobs[slices.IndexFunc(f.Jobs, func(j *jobs.Job) bool { return j.Number == "K-201" })]
	part := job.Parts[slices.IndexFunc(job.Parts, func(p jobs.Part) bool { return p.Pattern.Rod != nil })]
	part.Pattern.Rod, part.Pattern.Volume = &rod, rod.Volume()
	job.Pieces, job.Parts = 3, []jobs.Part{part}
	for _, gap := range []measure.MM{1, 3, 8} {
		w.Gaps.Neighbour = gap
		fit := hangAll(t, &jobs.Folder{Workshop: &w, Jobs: []*jobs.Job{&job}}, false)
		if len(fit.hung) != 1 || len(fit.hung[0].items) != 3 {
			t.Fatalf("gap %v: %d trees, %d left", gap, len(fit.hung), len(fit.left))
		}
		h := fit.hung[0]
		if err := judge(&w, h); err != nil {
			t.Errorf("gap %v: %v", gap, err)
		}
		for _, p := range h.mount.Placements {
			x, y := p.Transform[0][3], p.Transform[1][3]
			if r := math.Hypot(x, y); math.Abs(r-float64(h.flask.TrunkDiameter)/2) > 1e-6 || !p.FeederInMesh || p.FeederVolume != 0 || p.FeederTooThin {
				t.Errorf("gap %v: its end is %.2f mm from the axis, %+v", gap, r, p)
			}
		}
		if x := buildTree(&w, "T", h).Castings[0]; x.Feeders != "none" {
			t.Errorf("it is said to have feeders: %q", x.Feeders)
		}
	}
}
