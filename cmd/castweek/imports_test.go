package main

import (
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// floors, the lowest first. A package imports its own floor or one below.
var floors = []string{"metal", "jobs", "tree", "sheets", "cmd"}

// ground may be imported by everything.
var ground = []string{"castweek/metal/measure", "castweek/metal/problem"}

// leafOrder lists which leaf of a floor may stand on which other leaf of it.
// Parents compose their leaves; leaves never import their parent.
var leafOrder = map[string][]string{
	"castweek/jobs/setting":      {"castweek/jobs/stone"},
	"castweek/jobs/workshop":     {"castweek/jobs/setting", "castweek/jobs/source"},
	"castweek/sheets/desk":       {"castweek/sheets/page", "castweek/sheets/words"},
	"castweek/sheets/treemap":    {"castweek/sheets/treeview"},
	"castweek/sheets/pour":       {"castweek/sheets/treeview"},
	"castweek/cmd/castweek":      {"castweek/cmd/castweek/save"},
	"castweek/cmd/castweek/save": {},
}

// sheetsGround is what every sheet may stand on.
var sheetsGround = []string{"castweek/sheets/page", "castweek/sheets/words", "castweek/sheets/desk"}

// walled lists outside packages that only these may import.
var walled = map[string][]string{
	"github.com/jung-kurt/gofpdf": {"castweek/sheets/page"},
	"github.com/xuri/excelize/v2": {"castweek/sheets/workbook"},
	"github.com/robfig/cron/v3":   {"castweek/tree/clock"},
	"go.yaml.in/yaml/v4":          {"castweek/jobs/source", "castweek/tree/record"},
	"github.com/spf13/cobra":      {"castweek/cmd/castweek"},
}

type listed struct {
	ImportPath string
	Imports    []string
}

func goList(t *testing.T) []listed {
	t.Helper()
	cmd := exec.Command("go", "list", "-json=ImportPath,Imports", "castweek/...")
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	var all []listed
	d := json.NewDecoder(strings.NewReader(string(out)))
	for {
		var p listed
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			t.Fatal(err)
		}
		all = append(all, p)
	}
	if len(all) < 10 {
		t.Fatalf("only %d packages were listed", len(all))
	}
	return all
}

func floorOf(path string) (floor int, leaf bool) {
	parts := strings.Split(strings.TrimPrefix(path, "castweek/"), "/")
	return slices.Index(floors, parts[0]), len(parts) > 1
}

// fault says what is wrong with one import, or "".
func fault(from, to string) string {
	if !strings.HasPrefix(to, "castweek/") {
		if may, ok := walled[to]; ok && !slices.Contains(may, from) {
			return "is walled in " + strings.Join(may, ", ")
		}
		return ""
	}
	if slices.Contains(ground, to) {
		return ""
	}
	fromFloor, fromLeaf := floorOf(from)
	toFloor, toLeaf := floorOf(to)
	switch {
	case fromFloor < 0:
		return "nothing of the samples imports the project"
	case toFloor > fromFloor:
		return "is on a higher floor"
	case toFloor < fromFloor:
		return ""
	case !toLeaf:
		return "a leaf imports its parent"
	case !fromLeaf || slices.Contains(leafOrder[from], to):
		return ""
	case strings.HasPrefix(from, "castweek/sheets/") && slices.Contains(sheetsGround, to) && !slices.Contains(sheetsGround, from):
		return ""
	}
	return "is a sister leaf, and the order of the two is not written down"
}

func TestImportsGoDownwards(t *testing.T) {
	for _, p := range goList(t) {
		for _, to := range p.Imports {
			if why := fault(p.ImportPath, to); why != "" {
				t.Errorf("%s imports %s: %s", p.ImportPath, to, why)
			}
		}
	}
}

// The test itself must find faults.
func TestFaultsAreFound(t *testing.T) {
	for _, c := range [][2]string{
		{"castweek/metal", "castweek/jobs"}, {"castweek/tree/pack", "castweek/tree"}, {"castweek/jobs/stone", "castweek/jobs/setting"},
		{"castweek/sheets/bag", "github.com/jung-kurt/gofpdf"}, {"castweek/jobs", "castweek/sheets/page"}, {"castweek/sheets/page", "castweek/sheets/words"},
		{"castweek/samples/patterns", "castweek/jobs"}, {"castweek/sheets/bag", "castweek/sheets/pour"},
	} {
		if fault(c[0], c[1]) == "" {
			t.Errorf("%s may import %s", c[0], c[1])
		}
	}
	for _, c := range [][2]string{{"castweek/tree", "castweek/tree/pack"}, {"castweek/sheets/bag", "castweek/sheets/page"}, {"castweek/jobs/stone", "castweek/metal/measure"}, {"castweek/cmd/castweek", "castweek/tree"}} {
		if why := fault(c[0], c[1]); why != "" {
			t.Errorf("%s may not import %s: %s", c[0], c[1], why)
		}
	}
}
