package tree_test

import (
	"errors"
	"maps"
	"slices"
	"strings"
	"testing"
	"time"

	"castweek/tree"
	"castweek/tree/record"
)

// accepted makes the record of a plan as accept does.
func accepted(p *tree.Plan) record.Record[tree.Cast] {
	r := record.Record[tree.Cast]{Cast: p.Cast.Name, Pour: p.Cast.Pour, Paper: p.Cast}
	for _, t := range p.Cast.Trees {
		k := record.Tree{Name: t.Name, Alloy: t.Alloy, Owner: t.Owner}
		for _, h := range t.Castings {
			k.Castings = append(k.Castings, h.Casting)
		}
		r.Trees = append(r.Trees, k)
	}
	return r
}

// A job that changes after its cast was accepted is cast no second time, and
// what no longer agrees is said.
func TestWhatDisagreesWithAnAcceptedCast(t *testing.T) {
	before := pieces("K-1", "750 yellow", "wax", 2, "")
	final := accepted(plan(t, folder(t, map[string]string{"jobs/K-1.yaml": before}), monday))
	change := func(old, new string) map[string]string {
		after := strings.Replace(before, old, new, 1)
		if after == before {
			t.Fatalf("%q is not in the job", old)
		}
		return map[string]string{"jobs/K-1.yaml": after}
	}
	poured := final.Pour.Add(time.Hour)
	for name, c := range map[string]struct {
		files      map[string]string
		at         time.Time
		code, says string // no remark when code is empty
		castings   int
	}{
		"as it was":           {map[string]string{"jobs/K-1.yaml": before}, monday, "", "", 0},
		"other case":          {change("number: K-1", "number: k-1"), monday, "", "", 0},
		"more pieces":         {change("pieces: 2", "pieces: 3"), monday, "", "", 1},
		"fewer pieces":        {change("pieces: 2", "pieces: 1"), monday, "job-gone", "K-1/2 on 2026-W49-A", 0},
		"cancelled":           {change("state: open", "state: cancelled"), monday, "state-contradiction", "take the pattern off", 0},
		"cancelled afterward": {change("state: open", "state: cancelled"), poured, "state-contradiction", "settle what becomes", 0},
		"done too early":      {change("state: open", "state: done"), monday, "state-contradiction", "written down as done", 0},
		"done":                {change("state: open", "state: done"), poured, "", "", 0},
		"other alloy":         {change("750 yellow", "585 yellow"), monday, "metal-contradiction", "K-1/1 on 2026-W49-A is 750 yellow of house", 0},
		"no file":             {map[string]string{"jobs/K-2.yaml": strings.Replace(before, "K-1", "K-2", 1)}, monday, "job-gone", "K-1/1 on 2026-W49-A, K-1/2 on 2026-W49-A", 2},
		"no file afterward":   {map[string]string{"jobs/K-2.yaml": strings.Replace(before, "K-1", "K-2", 1)}, poured, "", "", 2},
	} {
		p, err := tree.Make(tree.Input{Folder: folder(t, c.files), AsOf: c.at, Records: []record.Record[tree.Cast]{final}})
		if err != nil {
			t.Fatal(err)
		}
		on := 0
		for _, x := range p.Cast.Trees {
			on += len(x.Castings)
		}
		if on != c.castings {
			t.Errorf("%s: %d castings on trees, want %d", name, on, c.castings)
		}
		said := ""
		for _, r := range p.Cast.Remarks {
			if r.Code == "state-contradiction" || r.Code == "metal-contradiction" || r.Code == "job-gone" {
				said += r.Code + ": " + r.Text + "; " + r.Remedy + "\n"
			}
		}
		if c.code == "" && said != "" || !strings.HasPrefix(said, c.code) || !strings.Contains(said, c.says) {
			t.Errorf("%s: said %q, want %s with %q", name, said, c.code, c.says)
		}
	}
}

// A wish to keep a tree as it was is met when the tree's cast is accepted; one
// with a casting that is neither cast nor to be cast now is refused.
func TestAWishToKeepATreeThatIsCast(t *testing.T) {
	job := pieces("K-1", "750 yellow", "wax", 2, "")
	files := map[string]string{"jobs/K-1.yaml": job, "jobs/K-2.yaml": pieces("K-2", "750 yellow", "wax", 1, ""),
		"wishes.yaml": "keep:\n  - {tree: C, castings: [K-1]}\n"}
	final := accepted(plan(t, folder(t, map[string]string{"jobs/K-1.yaml": job}), monday))
	p, err := tree.Make(tree.Input{Folder: folder(t, files), AsOf: monday, Records: []record.Record[tree.Cast]{final}})
	if err != nil {
		t.Fatal(err)
	}
	met := 0
	for _, r := range p.Cast.Remarks {
		if r.Code == "wish-met" && strings.Contains(r.Text, "tree C") && strings.Contains(r.Text, "2026-W49-A") {
			met++
		}
	}
	if met != 1 || len(p.Cast.Trees) != 1 || len(p.Cast.Trees[0].Castings) != 1 {
		t.Errorf("%d remarks, %+v, trees %+v", met, p.Cast.Remarks, p.Cast.Trees)
	}

	files["wishes.yaml"] = "keep:\n  - {tree: C, castings: [K-1, K-2]}\n"
	_, err = tree.Make(tree.Input{Folder: folder(t, files), AsOf: monday, Records: []record.Record[tree.Cast]{final}})
	var no tree.Refusal
	if !errors.As(err, &no) || len(no.Problems) != 1 || no.Problems[0].Code != "wish-gone" || !strings.Contains(no.Problems[0].Message, "K-1/1, K-1/2 are not to be cast now") {
		t.Errorf("%v %+v", err, no.Problems)
	}
}

// A tree that is kept has its letter of the plan before; the others take the
// letters that are free, in turn.
func TestAKeptTreeKeepsItsLetter(t *testing.T) {
	files := map[string]string{"jobs/K-1.yaml": pieces("K-1", "750 yellow", "wax", 2, ""), "jobs/K-2.yaml": pieces("K-2", "925 silver", "wax", 1, ""),
		"jobs/K-3.yaml": pieces("K-3", "925 silver", "wax", 1, ""), "wishes.yaml": "keep:\n  - {tree: B, castings: [K-1]}\n  - {tree: D, castings: [K-2]}\n"}
	p := plan(t, folder(t, files), monday)
	got := map[string]string{}
	var order []string
	for _, tr := range p.Cast.Trees {
		got[tr.Castings[0].Job] = tr.Name
		order = append(order, tr.Letter())
	}
	want := map[string]string{"K-1": "2026-W49-B", "K-2": "2026-W49-D", "K-3": "2026-W49-A"}
	if !maps.Equal(got, want) || !slices.IsSorted(order) {
		t.Errorf("%v in the order %v, want %v", got, order, want)
	}
}
