package tree_test

import (
	"errors"
	"strings"
	"testing"

	"castweek/metal/measure"
	"castweek/tree"
)

func remarks(p *tree.Plan, code string) (out []tree.Remark) {
	for _, r := range p.Cast.Remarks {
		if r.Code == code {
			out = append(out, r)
		}
	}
	return out
}

// What a rule costs is what a plan without it saves: following the advice gives
// the pours that were promised.
func TestPriceOfSections(t *testing.T) {
	files := map[string]string{
		"jobs/K-1.yaml": pieces("K-1", "750 yellow", "wax", 2, ""),
		"jobs/K-2.yaml": strings.Replace(pieces("K-2", "750 yellow", "wax", 2, ""), "16 x 12 x 3 mm", "16 x 12 x 8 mm", 1),
	}
	before := plan(t, folder(t, files), monday)
	told := remarks(before, "price-sections")
	if len(before.Cast.Trees) != 2 || len(told) != 1 || !strings.Contains(told[0].Text, "1 pour could be saved") || !strings.Contains(told[0].Remedy, "K-2") {
		t.Fatalf("%d trees, told %+v", len(before.Cast.Trees), told)
	}
	files["wishes.yaml"] = "mixed: [K-2]\n"
	after := plan(t, folder(t, files), monday)
	if len(after.Cast.Trees) != 1 || after.Cast.Trees[0].Section != "medium" || len(remarks(after, "price-sections")) != 0 {
		t.Errorf("%d trees, told %+v", len(after.Cast.Trees), remarks(after, "price-sections"))
	}
	said := func(p *tree.Plan) bool {
		n := p.Cast.Trees[0].Build
		return len(n) > 0 && n[0].Text == "Sections are mixed, and all are poured at the temperature of the medium ones: K-2/1, K-2/2 (heavy)"
	}
	if !said(after) || said(before) {
		t.Errorf("the sheet says %+v", after.Cast.Trees[0].Build)
	}
	files["workshop.yaml"] = house + "sections: {mixing: never}\n"
	_, err := tree.Make(tree.Input{Folder: folder(t, files), AsOf: monday})
	var no tree.Refusal
	if !errors.As(err, &no) || len(no.Problems) != 1 || no.Problems[0].Code != "wish-mixed" || no.Problems[0].Place.Line != 1 {
		t.Errorf("a wish to mix in a house that never does: %v %+v", err, no.Problems)
	}
	for _, mixing := range []string{"never", "allow"} {
		delete(files, "wishes.yaml")
		files["workshop.yaml"] = house + "sections: {mixing: " + mixing + "}\n"
		p := plan(t, folder(t, files), monday)
		if want := map[string]int{"never": 2, "allow": 1}[mixing]; len(p.Cast.Trees) != want || len(remarks(p, "price-sections")) != 0 {
			t.Errorf("%s: %d trees, told %+v", mixing, len(p.Cast.Trees), remarks(p, "price-sections"))
		}
	}
}

// Waiting saves the tree's button and trunk; the feeders are needed in any week,
// and the line says whether company is in sight.
func TestPriceOfHaste(t *testing.T) {
	files := map[string]string{
		"jobs/K-1.yaml": pieces("K-1", "750 yellow", "wax", 2, ""),
		"jobs/K-2.yaml": strings.Replace(pieces("K-2", "925 silver", "wax", 2, ""), "approved: {on: 2026-11-20, by: M. Invented}\n", "", 1),
	}
	told := func(p *tree.Plan) string {
		r := remarks(p, "price-haste")
		if len(r) != 1 || r[0].Job != "K-1" {
			t.Fatalf("told %+v", r)
		}
		return r[0].Text
	}
	p := plan(t, folder(t, files), monday)
	c := p.Cast.Trees[0].Charge
	saved := (c.Button + c.Trunk).Gram().Round(p.Cast.House.ScaleStep)
	text := told(p)
	if !strings.Contains(text, "nothing else for such a tree is waiting") {
		t.Errorf("%s", text)
	}
	near := false
	for d := -2; d <= 2; d++ { // two roundings to the scale's step
		near = near || strings.Contains(text, (saved+measure.Milligram(d)*p.Cast.House.ScaleStep).String())
	}
	if !near || c.Feeders == 0 {
		t.Errorf("%s, though button and trunk are %s", text, saved)
	}
	files["jobs/K-2.yaml"] = strings.Replace(files["jobs/K-2.yaml"], "925 silver", "750 yellow", 1)
	if text := told(plan(t, folder(t, files), monday)); !strings.Contains(text, "waits K-2") {
		t.Errorf("%s", text)
	}
	files["jobs/K-1.yaml"] = strings.Replace(files["jobs/K-1.yaml"], "2026-12-18", "2026-12-06", 1)
	if r := remarks(plan(t, folder(t, files), monday), "price-haste"); len(r) != 0 {
		t.Errorf("a job that can not wait: %+v", r)
	}
}
