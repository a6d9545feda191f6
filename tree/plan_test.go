package tree_test

import (
	"os"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/fstest"
	"time"

	"castweek/jobs"
	"castweek/metal/measure"
	"castweek/tree"
	"castweek/tree/record"
)

// sample reads the sample workshop once for all tests.
var sample = sync.OnceValues(func() (*jobs.Folder, error) {
	fsys := os.DirFS("../samples/saltmarsh")
	f, _ := jobs.ReadFolder(fsys, jobs.Options{})
	return f, jobs.ReadSkins(fsys, f.Jobs)
})

func plan(t testing.TB, f *jobs.Folder, at time.Time, records ...record.Record[tree.Cast]) *tree.Plan {
	t.Helper()
	p, err := tree.Make(tree.Input{Folder: f, AsOf: at, Records: records})
	if err != nil {
		t.Fatal(err)
	}
	holds(t, f, p)
	return p
}

// holds checks what every plan has to keep, by plain counting.
func holds(t testing.TB, f *jobs.Folder, p *tree.Plan) {
	t.Helper()
	w := f.Workshop
	on := map[string]string{}
	flasks := map[string]int{}
	for _, x := range p.Cast.Trees {
		flasks[x.Flask]++
		var sum measure.Milligram
		for _, h := range x.Castings {
			if on[h.Casting] != "" {
				t.Errorf("%s hangs on %s and on %s", h.Casting, on[h.Casting], x.Name)
			}
			on[h.Casting] = x.Name
			sum += h.Metal
		}
		c := x.Charge
		if sum != c.Patterns || c.Patterns+c.Feeders+c.Trunk+c.Button+c.MeltLoss+c.Rounding != c.Total {
			t.Errorf("%s does not add up: %+v", x.Name, c)
		}
		kept := false
		for _, k := range w.Crucibles {
			kept = kept || (k.Name == x.Crucible && k.Limit.RoundDown(1) >= c.Total)
		}
		if !kept {
			t.Errorf("%s: %v is over the crucible %q", x.Name, c.Total, x.Crucible)
		}
		for _, k := range w.Flasks {
			if k.Name == x.Flask && c.ButtonVolume() > k.ButtonCavity+1 {
				t.Errorf("%s: a button of %v in a cavity of %v", x.Name, c.ButtonVolume(), k.ButtonCavity)
			}
		}
		for _, h := range x.Castings {
			job := find(f, h.Job)
			k := slices.IndexFunc(job.Castings(), func(k jobs.Casting) bool { return k.ID == h.Casting })
			part := job.Parts[job.Castings()[k].Part]
			m, _ := w.Material(part.Pattern.Material)
			if part.Alloy != x.Alloy || job.Owner != x.Owner || m.Resin != x.Resin {
				t.Errorf("%s does not belong on %s", h.Casting, x.Name)
			}
		}
	}
	for _, k := range w.Flasks {
		if flasks[k.Name] > k.Count {
			t.Errorf("%d flasks %s of %d are used", flasks[k.Name], k.Name, k.Count)
		}
	}
	over := map[string]bool{}
	for _, l := range p.Cast.LeftOver {
		for _, id := range l.Castings {
			over[id] = true
		}
	}
	for _, j := range f.Jobs {
		if _, _, waits := j.Waits(); waits || !j.Active() {
			continue
		}
		for _, k := range j.Castings() {
			if (on[k.ID] != "") == over[k.ID] {
				t.Errorf("%s hangs on %q, left over: %v", k.ID, on[k.ID], over[k.ID])
			}
		}
	}
	inBag := map[string]int{}
	for _, b := range p.Cast.Bags {
		for _, c := range b.Castings {
			inBag[c.ID]++
			if c.Tree != on[c.ID] {
				t.Errorf("the bag of %s says tree %s, it hangs on %s", c.ID, c.Tree, on[c.ID])
			}
		}
	}
	for id := range on {
		if inBag[id] != 1 {
			t.Errorf("%s is in %d bags", id, inBag[id])
		}
	}
	for _, g := range p.Groups {
		if g.Bound > g.Trees || g.Proved != (g.Bound == g.Trees) {
			t.Errorf("%+v", g)
		}
	}
}

func find(f *jobs.Folder, number string) *jobs.Job {
	for _, j := range f.Jobs {
		if j.Number == number {
			return j
		}
	}
	return nil
}

func TestSampleWeek(t *testing.T) {
	f, err := sample()
	if err != nil {
		t.Fatal(err)
	}
	p := plan(t, f, f.Workshop.AsOf)
	n := 0
	for _, x := range p.Cast.Trees {
		n += len(x.Castings)
	}
	if p.Cast.Name != "2026-W49" || n < 28 || len(p.Cast.Waiting) != 2 || !p.Cast.Fine() {
		t.Errorf("%s: %d castings, waiting %v, %+v", p.Cast.Name, n, p.Cast.Waiting, p.Cast.LeftOver)
	}
	if again := plan(t, f, f.Workshop.AsOf); !reflect.DeepEqual(p, again) {
		t.Error("the same input gave another plan")
	}
}

const house = `name: Invented house
zone: Europe/London
cast_day: every Thursday 09:00
cut_off: 20 h
bench_time: 2 days
materials:
  - {name: wax, density: 0.96 g/cm3, burnout: wax}
  - {name: resin, density: 1.09 g/cm3, burnout: resin}
trunk_material: wax
flasks:
  - {name: small, inner_diameter: 60 mm, height: 80 mm, count: 2, trunk: 8 x 50 mm, button_cavity: 4 cm3}
  - {name: large, inner_diameter: 90 mm, height: 150 mm, count: 2, trunk: 9 x 110 mm, button_cavity: 12 cm3}
crucibles:
  - {name: clay, alloys: [gold, silver], limit: 250 g}
melts: [gold, silver]
powders:
  - {name: ordinary, bond: gypsum, alloys: [gold, silver]}
button: {rule: 10% added, minimum: 10 g}
`

// pieces writes a job of so many plain pieces.
func pieces(number, alloy, material string, n int, more string) string {
	return `number: ` + number + `
for: M. Invented
design: plain piece
due: 2026-12-18 12:00
kind: pendant
pieces: ` + string(rune('0'+n)) + `
state: open
approved: {on: 2026-11-20, by: M. Invented}
` + more + `
parts:
  - name: piece
    alloy: ` + alloy + `
    pattern: {material: ` + material + `, here: yes, volume: 250 mm3, size: 16 x 12 x 3 mm}
    feeders: 1 x 3 x 8 mm
`
}

func folder(t testing.TB, files map[string]string) *jobs.Folder {
	t.Helper()
	fsys := fstest.MapFS{"workshop.yaml": {Data: []byte(house)}}
	for name, text := range files {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	f, problems := jobs.ReadFolder(fsys, jobs.Options{})
	if f.Refused || len(f.Held) > 0 {
		t.Fatal(problems)
	}
	return f
}

var monday = time.Date(2026, 11, 30, 8, 0, 0, 0, time.UTC)

func treeOf(p *tree.Plan, casting string) string {
	for _, x := range p.Cast.Trees {
		for _, h := range x.Castings {
			if h.Casting == casting {
				return x.Name
			}
		}
	}
	return ""
}

func TestClassesStayApart(t *testing.T) {
	p := plan(t, folder(t, map[string]string{
		"jobs/K-1.yaml": pieces("K-1", "750 yellow", "wax", 2, ""),
		"jobs/K-2.yaml": pieces("K-2", "750 red", "wax", 1, ""),
		"jobs/K-3.yaml": pieces("K-3", "750 yellow", "resin", 1, ""),
		"jobs/K-4.yaml": pieces("K-4", "750 yellow", "wax", 1, "owner: M. Invented"),
	}), monday)
	if len(p.Cast.Trees) != 4 || treeOf(p, "K-1/1") != treeOf(p, "K-1/2") {
		t.Errorf("%d trees", len(p.Cast.Trees))
	}
}

func TestWishes(t *testing.T) {
	files := map[string]string{
		"jobs/K-1.yaml": pieces("K-1", "750 yellow", "wax", 3, ""),
		"jobs/K-2.yaml": pieces("K-2", "750 yellow", "wax", 2, ""),
		"jobs/K-3.yaml": pieces("K-3", "925 silver", "wax", 1, ""),
	}
	with := func(wishes string) *tree.Plan {
		files["wishes.yaml"] = wishes
		return plan(t, folder(t, files), monday)
	}
	p := with("apart:\n  - [K-1, K-2]\n")
	if treeOf(p, "K-1/1") == treeOf(p, "K-2/1") || len(p.Cast.Trees) != 3 {
		t.Errorf("apart: %v", p.Groups)
	}
	p = with("first: [K-3]\n")
	if p.Cast.Trees[0].Alloy != "925 silver" || !p.Cast.Trees[0].First {
		t.Errorf("first: %s", p.Cast.Trees[0].Alloy)
	}
	p = with("broken_flasks:\n  - {flask: small, count: 2}\n")
	for _, x := range p.Cast.Trees {
		if x.Flask == "small" {
			t.Error("a broken flask is used")
		}
	}
	p = with("keep:\n  - {tree: A, flask: large, castings: [K-1/1, K-2/2]}\n")
	if treeOf(p, "K-1/1") != treeOf(p, "K-2/2") || treeOf(p, "K-1/1") == treeOf(p, "K-1/2") {
		t.Errorf("kept tree: %s %s %s", treeOf(p, "K-1/1"), treeOf(p, "K-2/2"), treeOf(p, "K-1/2"))
	}
}

func TestWishesThatNoTreeCanFollow(t *testing.T) {
	files := map[string]string{
		"jobs/K-1.yaml": pieces("K-1", "750 yellow", "wax", 1, ""),
		"jobs/K-2.yaml": pieces("K-2", "750 yellow", "resin", 1, ""),
		"wishes.yaml":   "together:\n  - [K-1, K-2]\n",
	}
	_, err := tree.Make(tree.Input{Folder: folder(t, files), AsOf: monday})
	refusal, ok := err.(tree.Refusal)
	if !ok || len(refusal.Problems) != 1 || !strings.Contains(refusal.Problems[0].Message, "resin") {
		t.Errorf("got %v", err)
	}
}

// Castings wished on one tree that no flask takes are a refusal with the line of
// the wish, not castings left over.
func TestWishesForMoreThanATreeTakes(t *testing.T) {
	files := map[string]string{
		"jobs/K-1.yaml": strings.Replace(pieces("K-1", "750 yellow", "wax", 9, ""), "250 mm3, size: 16 x 12 x 3 mm", "3000 mm3, size: 16 x 20 x 12 mm", 1),
		"jobs/K-2.yaml": pieces("K-2", "750 yellow", "wax", 1, ""),
	}
	for _, wish := range []string{"together:\n  - [K-1, K-2]\n", "keep:\n  - {tree: A, castings: [K-1]}\n"} {
		files["wishes.yaml"] = wish
		_, err := tree.Make(tree.Input{Folder: folder(t, files), AsOf: monday})
		refusal, ok := err.(tree.Refusal)
		if !ok || len(refusal.Problems) != 1 || refusal.Problems[0].Code != "wish-too-much" || refusal.Problems[0].Place.Line != 2 {
			t.Errorf("%q: %v %+v", wish, err, refusal.Problems)
		}
	}
}

// Fewer flasks than trees: the rest is left over, by name, and said to be late
// when its day can not be kept.
func TestFlasksRunOut(t *testing.T) {
	files := map[string]string{}
	for i, alloy := range []string{"375 yellow", "375 red", "585 yellow", "585 red", "750 yellow"} {
		n := "K-" + string(rune('1'+i))
		files["jobs/"+n+".yaml"] = pieces(n, alloy, "wax", 1, "")
	}
	p := plan(t, folder(t, files), monday)
	if len(p.Cast.Trees) != 4 || len(p.Cast.LeftOver) != 1 || !strings.Contains(p.Cast.LeftOver[0].Reason, "no flask is left") {
		t.Errorf("%d trees, %+v", len(p.Cast.Trees), p.Cast.LeftOver)
	}
	if p.Cast.Fine() {
		t.Error("it is called fine")
	}
}

// What no crucible and no base can hold is named with the limit that it breaks,
// and castings in the order of a person.
func TestTheLimitThatIsBrokenIsNamed(t *testing.T) {
	for _, c := range []struct{ old, new, want string }{
		{"limit: 250 g", "limit: 11 g", "alone on a tree, with trunk and button, it needs "},
		{"10% added, minimum: 10 g", "12g, minimum: 200 g", "its button of 200.000 g, by the rule of the house, is more than the button cavity"},
	} {
		f := folder(t, map[string]string{"jobs/K-1.yaml": strings.Replace(pieces("K-1", "750 yellow", "wax", 9, ""), "pieces: 9", "pieces: 11", 1), "workshop.yaml": strings.Replace(house, c.old, c.new, 1)})
		p := plan(t, f, monday)
		if len(p.Cast.Trees) != 0 || len(p.Cast.LeftOver) != 1 {
			t.Fatalf("%s: %d trees, %+v", c.new, len(p.Cast.Trees), p.Cast.LeftOver)
		}
		l := p.Cast.LeftOver[0]
		if !strings.HasPrefix(l.Reason, c.want) || l.Castings[1] != "K-1/2" || l.Castings[10] != "K-1/11" {
			t.Errorf("%s: %v: %s", c.new, l.Castings, l.Reason)
		}
	}
}

func TestThoroughIsNeverWorse(t *testing.T) {
	f := folder(t, map[string]string{"jobs/K-1.yaml": pieces("K-1", "750 yellow", "wax", 9, ""), "jobs/K-2.yaml": pieces("K-2", "750 yellow", "wax", 9, "")})
	quick, err := tree.Make(tree.Input{Folder: f, AsOf: monday})
	if err != nil {
		t.Fatal(err)
	}
	slow, err := tree.Make(tree.Input{Folder: f, AsOf: monday, Thorough: true})
	if err != nil {
		t.Fatal(err)
	}
	if len(slow.Cast.Trees) > len(quick.Cast.Trees) {
		t.Errorf("%d trees instead of %d", len(slow.Cast.Trees), len(quick.Cast.Trees))
	}
}
