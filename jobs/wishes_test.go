package jobs

import (
	"strings"
	"testing"
)

// two jobs of one alloy, one of another.
func wishFolder(t *testing.T, wishes string) (*Folder, string) {
	t.Helper()
	other := strings.Replace(strings.Replace(plain, "K-204", "K-206", 1), "925 silver", "750 yellow", 1)
	broken := strings.Replace(strings.Replace(plain, "K-204", "K-207", 1), "pieces: 2", "pieces: two", 1)
	theirs := strings.Replace(plain, "number: K-204", "number: K-208\nowner: N. Client", 1)
	f, problems := ReadFolder(sample(t, map[string]string{
		"jobs/K-204.yaml": plain, "jobs/K-205.yaml": strings.Replace(plain, "K-204", "K-205", 1),
		"jobs/K-206.yaml": other, "jobs/K-207.yaml": broken, "jobs/K-208.yaml": theirs, WishesFile: wishes,
	}), Options{})
	var codes []string
	for _, p := range problems {
		if p.Place.File == WishesFile {
			codes = append(codes, p.Code)
		}
	}
	return f, strings.Join(codes, " ")
}

func TestWishes(t *testing.T) {
	for _, c := range []struct{ wishes, codes string }{
		{"together: [[K-204, K-205/1]]\n", ""},
		{"together: [[K-204/1, K-205/1], [K-205/1, K-204/2]]\napart: [[K-204/1, K-206]]\n", ""},
		{"apart: [[K-204, K-205]]\n", ""},
		{"first: [K-206]\nmixed: [K-204]\nbroken_flasks: [{flask: 90 x 150, count: 4}]\n", ""},
		{"keep: [{tree: A, castings: [K-204, K-205]}, {tree: B, flask: 100 x 120, castings: [K-206]}]\n", ""},
		{"together: [[K-204, K-207]]\nfirst: [K-207]\n", ""}, // held: its own file says why
		{"together: [[K-204, K-205]]\napart: [[K-204/1, K-205/2]]\n", "wish-contradiction"},
		{"together: [[K-204/1, K-205/1], [K-205/1, K-204/2]]\napart: [[K-204/1, K-204/2]]\n", "wish-contradiction"},
		{"keep: [{tree: A, castings: [K-204/1]}]\ntogether: [[K-204/1, K-205/1]]\n", "wish-contradiction"},
		{"keep: [{tree: A, castings: [K-204]}]\napart: [[K-204/1, K-204/2]]\n", "wish-contradiction"},
		{"keep: [{tree: A, castings: [K-204]}, {tree: B, castings: [K-204/2]}]\n", "wish-contradiction"},
		{"keep: [{tree: A, castings: [K-204]}, {tree: A, castings: [K-205]}]\n", "wish-contradiction"},
		{"keep: [{tree: A, castings: [K-204/1, K-204/1]}]\n", "wish-double"},
		{"keep: [{tree: a, castings: [K-204/1]}]\n", "tree-form"},
		{"keep: [{tree: A}]\n", "key-missing"},
		{"together: [[K-204, K-204/1]]\n", "wish-double"},
		{"together: [[K-204]]\n", "wish-single"},
		{"together: [K-204, K-205]\n", "value-shape value-shape"},
		{"together: [[K-204, K-206]]\n", "wish-alloy"},
		{"keep: [{tree: A, castings: [K-204, K-206]}]\n", "wish-alloy"},
		{"together: [[K-204, K-208]]\n", "wish-owner"},
		{"first: [K-209]\n", "wish-unknown"},
		{"apart: [[K-204/3, K-205]]\n", "wish-unknown"},
		{"broken_flasks: [{flask: 90 x 150, count: 5}]\n", "flask-count"},
		{"broken_flasks: [{flask: 90, count: 1}]\n", "unknown-flask"},
		{"broken_flasks: [{flask: 90 x 150, count: 3}, {flask: 90 x 150, count: 1}]\nkeep: [{tree: A, castings: [K-204]}]\n", ""},
		{"broken_flasks: [{flask: 90 x 150, count: 3}, {flask: 90 x 150, count: 2}]\n", "wish-contradiction"},
		{"broken_flasks: [{flask: 90 x 150, count: 4}]\nkeep: [{tree: A, flask: 90 x 150, castings: [K-204]}]\n", "wish-contradiction"},
		{"broken_flasks: [{flask: 90 x 150, count: 3}]\nkeep: [{tree: A, flask: 90 x 150, castings: [K-204]}, {tree: B, flask: 90 x 150, castings: [K-205]}]\n", "wish-contradiction"},
		{"togehter: [[K-204, K-205]]\n", "key-unknown"},
		{"together:\n", "value-empty"},
		{"- x\n", "value-shape"},
	} {
		f, codes := wishFolder(t, c.wishes)
		if codes != c.codes || f.Refused != (c.codes != "") {
			t.Errorf("%q: got %q (refused %v), want %q", c.wishes, codes, f.Refused, c.codes)
		}
		if len(f.Held) != 1 || len(f.Jobs) != 4 {
			t.Fatalf("%d jobs, %d held", len(f.Jobs), len(f.Held))
		}
	}
	f, _ := wishFolder(t, "together: [[K-204, K-205/1]]\nfirst: [K-206]\n")
	if got := strings.Join(f.Wishes.Together[0].Castings(), " "); got != "K-204/1 K-204/2 K-205/1" {
		t.Error(got)
	}
	if w := f.Wishes.First[0]; w.Job != "K-206" || w.At.Line != 2 || w.At.Column != 9 {
		t.Errorf("%+v", w)
	}
}
