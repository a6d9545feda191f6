package tree_test

import (
	"fmt"
	"os"
	"testing"

	"castweek/jobs"
	"castweek/tree"
)

func sample(t testing.TB) *jobs.Folder {
	t.Helper()
	fsys := os.DirFS("../samples/saltmarsh")
	f, problems := jobs.ReadFolder(fsys, jobs.Options{})
	for _, p := range problems {
		t.Log(p)
	}
	if f.Refused {
		t.Fatal("refused")
	}
	if err := jobs.ReadSkins(fsys, f.Jobs); err != nil {
		t.Fatal(err)
	}
	return f
}

func TestSample(t *testing.T) {
	f := sample(t)
	p, err := tree.Make(tree.Input{Folder: f, AsOf: f.Workshop.AsOf})
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range p.Cast.Trees {
		fmt.Println(x.Name, x.Alloy, x.Owner, x.Flask, x.Resin, len(x.Castings), x.Charge.Total, x.Before)
		for _, h := range x.Castings {
			fmt.Println("   ", h.Casting, h.Metal, h.Level, h.Hour, h.Tilt, h.Thickest, h.Feeders)
		}
	}
	fmt.Printf("%+v\n%+v\n%+v\n%+v\n%+v\n%+v\n", p.Groups, p.Cast.LeftOver, p.Cast.Late, p.Cast.Held, p.Cast.Waiting, p.Cast.Remarks)
	for _, b := range p.Cast.Bags {
		fmt.Println(b.Job, b.Title, len(b.Castings), b.Weights)
	}
}
