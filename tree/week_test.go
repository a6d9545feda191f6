package tree_test

import (
	"encoding/json"
	"math"
	"os"
	"reflect"
	"runtime"
	"testing"
	"testing/fstest"
	"time"

	"castweek/jobs"
	"castweek/jobs/pattern"
	"castweek/metal/measure"
	"castweek/tree"
)

// weekHouse is a house that can pour the invented weeks: three sizes of flask,
// and as many of each as a burnout of such a week takes.
const weekHouse = `name: Invented house
zone: Europe/London
cast_day: every Thursday 09:00
cut_off: 20 h
bench_time: 2 days
materials:
  - {name: wax, density: 0.96 g/cm3, burnout: wax}
  - {name: resin, density: 1.09 g/cm3, burnout: resin}
trunk_material: wax
flasks:
  - {name: 65 x 90, inner_diameter: 65 mm, height: 90 mm, count: 100, trunk: 8 x 60 mm, button_cavity: 4 cm3}
  - {name: 80 x 130, inner_diameter: 80 mm, height: 130 mm, count: 100, trunk: 9 x 95 mm, button_cavity: 6 cm3}
  - {name: 102 x 152, inner_diameter: 102 mm, height: 152 mm, count: 100, trunk: 10 x 115 mm, button_cavity: 9 cm3}
crucibles:
  - {name: clay, alloys: [gold, silver], limit: 400 g}
  - {name: hard, alloys: [platinum], limit: 250 g}
melts: [gold, silver, platinum]
powders:
  - {name: ordinary, bond: gypsum, alloys: [gold, silver]}
  - {name: hot, bond: phosphate, alloys: [platinum]}
button: {rule: 10% added, minimum: 10 g}
`

var weekAlloys = map[string]string{"ag925": "925 silver", "au750y": "750 yellow", "au750w": "750 white", "au585y": "585 yellow", "pt950": "950 platinum"}

// week reads an invented week (pack/testdata/README.md) as jobs of ring bands of
// its outer diameters and widths.
func week(t testing.TB, name string) *jobs.Folder {
	t.Helper()
	raw, err := os.ReadFile("pack/testdata/weeks/" + name)
	if err != nil {
		t.Fatal(err)
	}
	var w struct {
		Patterns []struct {
			Job, Alloy, Section string
			Material            string  `json:"pattern_material"`
			Volume              float64 `json:"volume_ul"`
			Outer               float64 `json:"outer_diameter_um"`
			Width               float64 `json:"shank_width_um"`
		}
	}
	if err := json.Unmarshal(raw, &w); err != nil {
		t.Fatal(err)
	}
	f, problems := jobs.ReadFolder(fstest.MapFS{"workshop.yaml": {Data: []byte(weekHouse)}, "jobs/none.txt": {}}, jobs.Options{})
	if f.Refused {
		t.Fatal(problems)
	}
	by := map[string]*jobs.Job{}
	skins := map[[2]float64]*jobs.Skin{}
	for _, p := range w.Patterns {
		j := by[p.Job]
		if j == nil {
			j = &jobs.Job{Number: p.Job, For: "stock", Design: "band", Due: monday.Add(11 * 24 * time.Hour), Kind: jobs.Ring, Pieces: 1, State: jobs.Open,
				Owner: jobs.House, Bag: "together", Approved: &jobs.Approval{On: monday, By: "M. Invented"}}
			by[p.Job] = j
			f.Jobs = append(f.Jobs, j)
		}
		size := [2]float64{p.Outer / 1000, p.Width / 1000}
		if skins[size] == nil {
			skins[size] = bandSkin(size[0], size[1])
		}
		outer := measure.MM(size[0])
		j.Parts = append(j.Parts, jobs.Part{Name: "band", Alloy: weekAlloys[p.Alloy], Section: p.Section, Pattern: jobs.Pattern{
			Material: p.Material, Here: true, Volume: measure.CubicMM(p.Volume), Outer: measure.Size{Length: outer, Width: outer, Height: measure.MM(size[1])},
			Skin: skins[size], Measured: &pattern.Report{Thickest: bandThick, Finger: &pattern.Hole{Axis: [3]float64{0, 0, 1}}},
		}})
	}
	return f
}

const bandThick = 1.8 // mm

// bandSkin is the surface of a plain band round Z.
func bandSkin(outer, width float64) *jobs.Skin {
	const n = 36
	s := &jobs.Skin{}
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / n)
		for _, r := range [2]float64{outer / 2, outer/2 - bandThick} {
			for _, z := range [2]float64{-width / 2, width / 2} {
				s.Points = append(s.Points, [3]float64{r * sin, r * cos, z})
			}
		}
	}
	quad := func(a, b, c, d int32) { s.Faces = append(s.Faces, [3]int32{a, b, c}, [3]int32{a, c, d}) }
	for i := range int32(n) {
		a, b := 4*i, 4*((i+1)%n)
		quad(a, a+1, b+1, b)
		quad(a+2, b+2, b+3, a+3)
		quad(a, b, b+2, a+2)
		quad(a+1, a+3, b+3, b+1)
	}
	return s
}

// A plan is the same whatever number of processors work at it.
func TestPlanOnAnyNumberOfProcessors(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	var plans [2]*tree.Plan
	for k, n := range []int{1, 4} {
		runtime.GOMAXPROCS(n)
		var err error
		if plans[k], err = tree.Make(tree.Input{Folder: week(t, "week-0200.json"), AsOf: monday}); err != nil {
			t.Fatal(err)
		}
	}
	if len(plans[0].Cast.Trees) != 21 || !reflect.DeepEqual(plans[0].Cast.Trees, plans[1].Cast.Trees) || !reflect.DeepEqual(plans[0].Cast.Remarks, plans[1].Cast.Remarks) {
		t.Error("the plans of one and of four processors differ")
	}
}

// BenchmarkPlan plans whole weeks: classes, grouping, mounting, dates and what
// the house's own rules cost.
func BenchmarkPlan(b *testing.B) {
	benchWeeks(b, func(f *jobs.Folder) ([]tree.Bound, error) {
		p, err := tree.Make(tree.Input{Folder: f, AsOf: monday})
		if err != nil {
			return nil, err
		}
		return p.Groups, nil
	})
}

// BenchmarkFits groups and mounts them only.
func BenchmarkFits(b *testing.B) {
	benchWeeks(b, func(f *jobs.Folder) ([]tree.Bound, error) {
		var castings []string
		for _, j := range f.Jobs {
			for _, k := range j.Castings() {
				castings = append(castings, k.ID)
			}
		}
		fit, err := tree.Fits(tree.Input{Folder: f, AsOf: monday}, castings)
		return fit.Groups, err
	})
}

func benchWeeks(b *testing.B, plan func(*jobs.Folder) ([]tree.Bound, error)) {
	for _, name := range []string{"week-0050.json", "week-0200.json", "week-1000.json"} {
		b.Run(name[:len(name)-len(".json")], func(b *testing.B) {
			f := week(b, name)
			var groups []tree.Bound
			for b.Loop() {
				var err error
				if groups, err = plan(f); err != nil {
					b.Fatal(err)
				}
			}
			trees, bound, proved := 0, 0, 0
			for _, g := range groups {
				trees, bound = trees+g.Trees, bound+g.Bound
				if g.Proved {
					proved++
				}
			}
			b.ReportMetric(float64(trees), "trees")
			b.ReportMetric(float64(bound), "bound")
			b.ReportMetric(100*float64(proved)/float64(len(groups)), "%proved")
		})
	}
}

// BenchmarkAlike plans one job of many equal pieces: 1,000 of a pendant of
// 24 x 18 x 4 mm.
func BenchmarkAlike(b *testing.B) {
	f := week(b, "week-0050.json")
	j := *f.Jobs[0]
	p := j.Parts[0]
	p.Pattern.Skin, p.Pattern.Volume, p.Pattern.Outer = nil, 600, measure.Size{Length: 24, Width: 18, Height: 4}
	p.Pattern.Measured = &pattern.Report{Thickest: 2}
	j.Kind, j.Pieces, j.Parts = jobs.Pendant, 1000, []jobs.Part{p}
	f.Jobs = []*jobs.Job{&j}
	for b.Loop() {
		plan, err := tree.Make(tree.Input{Folder: f, AsOf: monday})
		if err != nil || len(plan.Cast.LeftOver) > 0 {
			b.Fatal(err, plan.Cast.LeftOver)
		}
		b.ReportMetric(float64(len(plan.Cast.Trees)), "trees")
	}
}
