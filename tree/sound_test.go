package tree_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"castweek/jobs"
	"castweek/tree"
)

// A pendant that the small flask takes only square to its trunk goes into the
// large one, though that ties up more metal. In a house without the large one
// it is hung so all the same, and the tree says it with what to do. A house
// that allows it itself keeps the small flask and hears nothing.
func TestPoorHangsOnlyWhereNothingElseSavesThePour(t *testing.T) {
	pendant := strings.Replace(pieces("K-1", "750 yellow", "wax", 1, ""), "volume: 250 mm3, size: 16 x 12 x 3 mm", "volume: 900 mm3, size: 28 x 20 x 8 mm", 1)
	flasks := strings.Split(house, "  - {name: large")
	onlySmall := flasks[0] + "crucibles" + strings.SplitN(flasks[1], "crucibles", 2)[1]
	for _, c := range []struct{ house, flask, note string }{
		{house, "large", ""},
		{onlySmall, "small", "as nothing better saves the pour: K-1/1 (90°); use a wider flask"},
		{house + "hang: {most_tilt: 90°}\n", "small", ""},
	} {
		fsys := fstest.MapFS{"workshop.yaml": {Data: []byte(c.house)}, "jobs/K-1.yaml": {Data: []byte(pendant)}}
		f, problems := jobs.ReadFolder(fsys, jobs.Options{})
		if f.Refused {
			t.Fatal(problems)
		}
		p := plan(t, f, monday)
		if len(p.Cast.Trees) != 1 {
			t.Fatalf("%d trees, left %+v", len(p.Cast.Trees), p.Cast.LeftOver)
		}
		x := p.Cast.Trees[0]
		poor := strings.Contains(notes(x), "saves the pour")
		if x.Flask != c.flask || !strings.Contains(notes(x), c.note) || poor != (c.note != "") {
			t.Errorf("flask %s, hung %+v, notes %s; want flask %s and %q", x.Flask, x.Castings[0], notes(x), c.flask, c.note)
		}
	}
}

func notes(x tree.Tree) (out string) {
	for _, n := range x.Build {
		out += n.Text + "; " + n.Remedy + "\n"
	}
	return out
}
