package treemap

import (
	"encoding/json"
	"os"
	"sync"
	"testing"

	"castweek/jobs"
	"castweek/tree"
)

// planned is the cast of the sample workshop as this program plans it now, so
// that the maps are tried with what people will see.
var planned = sync.OnceValues(func() ([]byte, error) {
	fsys := os.DirFS("../../samples/saltmarsh")
	f, _ := jobs.ReadFolder(fsys, jobs.Options{})
	if err := jobs.ReadSkins(fsys, f.Jobs); err != nil {
		return nil, err
	}
	p, err := tree.Make(tree.Input{Folder: f, AsOf: f.Workshop.AsOf})
	if err != nil {
		return nil, err
	}
	return json.Marshal(p.Cast)
})

// sample is a copy of it that a test may change.
func sample(t *testing.T) *tree.Cast {
	t.Helper()
	data, err := planned()
	if err != nil {
		t.Fatal(err)
	}
	c := new(tree.Cast)
	if err := json.Unmarshal(data, c); err != nil {
		t.Fatal(err)
	}
	return c
}
