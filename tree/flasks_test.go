package tree_test

import (
	"fmt"
	"strings"
	"testing"

	"castweek/tree"
)

// Where flasks run out, the castings that can wait are left over: of several
// alloys and of one.
func TestEarlyJobsGetTheFlasks(t *testing.T) {
	due := func(text, day string) string { return strings.Replace(text, "2026-12-18", day, 1) }
	files := map[string]string{}
	for i, alloy := range []string{"375 yellow", "375 red", "585 yellow", "585 red", "750 yellow"} {
		n := fmt.Sprintf("K-%d", i+1)
		files["jobs/"+n+".yaml"] = due(pieces(n, alloy, "wax", 1, ""), []string{"2026-12-30", "2026-12-10", "2026-12-07", "2026-12-09", "2026-12-08"}[i])
	}
	p := plan(t, folder(t, files), monday)
	if len(p.Cast.LeftOver) != 1 || p.Cast.LeftOver[0].Job != "K-1" || len(p.Cast.Late) != 0 {
		t.Errorf("%+v, late %v", p.Cast.LeftOver, p.Cast.Late)
	}

	files = map[string]string{}
	for i, day := range []string{"2026-12-30", "2026-12-24", "2026-12-29", "2026-12-07", "2026-12-08"} {
		n := fmt.Sprintf("K-%d", i+1)
		text := strings.Replace(pieces(n, "750 yellow", "wax", 1, ""), "volume: 250 mm3, size: 16 x 12 x 3 mm", "volume: 9000 mm3, size: 30 x 26 x 14 mm", 1)
		files["jobs/"+n+".yaml"] = due(text, day)
	}
	p = plan(t, folder(t, files), monday)
	left := map[string]bool{}
	for _, l := range p.Cast.LeftOver {
		left[l.Job] = true
	}
	if len(left) == 0 || len(p.Cast.Late) != 0 {
		t.Errorf("left %v, late %v", p.Cast.LeftOver, p.Cast.Late)
	}
	for job := range left {
		if job == "K-4" || job == "K-5" {
			t.Errorf("%s is left over before those that can wait", job)
		}
	}
}

// Where flasks run out and nothing would be late, they go to the groups with most
// castings to a tree, however many groups with few are due before them.
func TestFlasksGoWhereMostIsCast(t *testing.T) {
	files := map[string]string{"wishes.yaml": "broken_flasks:\n  - {flask: large, count: 2}\n"}
	for i, alloy := range []string{"375 yellow", "375 red", "585 yellow", "585 red", "750 yellow", "750 red"} {
		n, day, count := fmt.Sprintf("K-%d", i+1), fmt.Sprintf("2026-12-%d", 18+i), 1
		if i > 3 {
			count = 3
		}
		files["jobs/"+n+".yaml"] = strings.Replace(pieces(n, alloy, "wax", count, ""), "2026-12-18", day, 1)
	}
	p := plan(t, folder(t, files), monday)
	if n := len(p.Cast.Trees); n != 2 || len(p.Cast.Late) != 0 {
		t.Fatalf("%d trees, late %v", n, p.Cast.Late)
	}
	for _, x := range p.Cast.Trees {
		if len(x.Castings) != 3 {
			t.Errorf("a flask is used for %s, and groups of three are left over", x.Alloy)
		}
	}
}

// A group that finds the roomy flask taken is not told that it needs more trees
// than it would in that flask.
func TestBoundsLookPastFlasksTakenByOthers(t *testing.T) {
	big := func(number, alloy string, n int, shape string) string {
		return strings.Replace(pieces(number, alloy, "wax", n, ""), "volume: 250 mm3, size: 16 x 12 x 3 mm", shape, 1)
	}
	first := strings.Replace(big("K-1", "585 yellow", 1, "volume: 3000 mm3, size: 30 x 26 x 14 mm"), "2026-12-18", "2026-12-10", 1)
	second := big("K-2", "750 yellow", 9, "volume: 1200 mm3, size: 16 x 12 x 8 mm")
	shop := strings.NewReplacer("count: 2, trunk: 9", "count: 1, trunk: 9", "button_cavity: 4 cm3", "button_cavity: 0.8 cm3").Replace(house)
	files := map[string]string{"workshop.yaml": shop, "jobs/K-2.yaml": second}
	alone := plan(t, folder(t, files), monday)
	files["jobs/K-1.yaml"] = first
	both := plan(t, folder(t, files), monday)
	if len(alone.Groups) != 1 || alone.Groups[0].Trees != 1 || len(both.Groups) != 2 || both.Groups[1].Trees != 2 {
		t.Fatalf("alone %+v, both %+v", alone.Groups, both.Groups)
	}
	if g := both.Groups[1]; g.Bound > 1 || g.Proved {
		t.Errorf("%+v, though it takes one tree in the roomy flask", g)
	}
}

func TestFits(t *testing.T) {
	f := folder(t, map[string]string{
		"jobs/K-1.yaml": pieces("K-1", "750 yellow", "wax", 3, ""),
		"jobs/K-2.yaml": strings.Replace(pieces("K-2", "750 yellow", "wax", 2, ""), "state: open", "state: hold\nreason: asked for time", 1),
		"jobs/K-3.yaml": pieces("K-3", "925 silver", "wax", 1, ""),
		"wishes.yaml":   "apart:\n  - [K-1, K-2]\nkeep:\n  - {tree: A, castings: [K-3/1]}\n",
	})
	for _, c := range []struct {
		castings []string
		pours    int
	}{
		{[]string{"K-1/1"}, 1}, {[]string{"K-1/1", "K-1/3", "K-3/1"}, 2}, {[]string{"K-1/1", "K-2/1"}, 2}, {[]string{"K-1/1", "K-2/1", "K-3/1"}, 3}, {nil, 0},
	} {
		got, err := tree.Fits(tree.Input{Folder: f, AsOf: monday}, c.castings)
		if err != nil || got.Pours != c.pours || got.Bound != c.pours || !got.Proved || len(got.Left) > 0 {
			t.Errorf("%v: %d pours, bound %d, %v, %v", c.castings, got.Pours, got.Bound, got.Left, err)
		}
	}
	if _, err := tree.Fits(tree.Input{Folder: f}, []string{"K-9/1"}); err == nil || !strings.Contains(err.Error(), "K-9/1") {
		t.Errorf("a casting that is not there: %v", err)
	}
	// The plan of the castings that are cast now gives the same answer.
	p := plan(t, f, monday)
	var now []string
	for _, x := range p.Cast.Trees {
		for _, h := range x.Castings {
			now = append(now, h.Casting)
		}
	}
	got, err := tree.Fits(tree.Input{Folder: f, AsOf: monday}, now)
	if err != nil || got.Pours != len(p.Cast.Trees) {
		t.Errorf("%d pours, the plan has %d trees, %v", got.Pours, len(p.Cast.Trees), err)
	}
}
