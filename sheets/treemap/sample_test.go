package treemap

import (
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"testing"

	"castweek/jobs"
	"castweek/tree"
)

var update = flag.Bool("update", false, "plan the sample workshop again and keep its cast as test data")

var kept = filepath.Join("testdata", "saltmarsh.json")

// sample is the cast of the sample workshop as it was planned once: planning
// takes seconds, and the maps are to show whatever the plan says.
func sample(t *testing.T) *tree.Cast {
	t.Helper()
	if *update {
		replan(t)
		*update = false
	}
	data, err := os.ReadFile(kept)
	if err != nil {
		t.Fatal(err)
	}
	c := new(tree.Cast)
	if err := json.Unmarshal(data, c); err != nil {
		t.Fatal(err)
	}
	return c
}

func replan(t *testing.T) {
	t.Helper()
	fsys := os.DirFS("../../samples/saltmarsh")
	f, _ := jobs.ReadFolder(fsys, jobs.Options{})
	if err := jobs.ReadSkins(fsys, f.Jobs); err != nil {
		t.Fatal(err)
	}
	p, err := tree.Make(tree.Input{Folder: f, AsOf: f.Workshop.AsOf})
	if err != nil {
		t.Fatal(err)
	}
	p.Cast.Bags, p.Cast.Remarks, p.Cast.Loads, p.Cast.Waiting = nil, nil, nil, nil
	data, err := json.MarshalIndent(p.Cast, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(kept, append(data, '\n'), 0o644); err != nil {
		t.Fatal(err)
	}
}
