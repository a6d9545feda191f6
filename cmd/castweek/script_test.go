package main

import (
	"flag"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

// update rewrites the answers that scripts expect; read the diff.
var update = flag.Bool("update", false, "write what scripts expect anew")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"castweek": func() {
			// a day on which nothing happens: whatever depends on the clock shows
			os.Exit(run(os.Args[1:], &streams{os.Stdin, os.Stdout, os.Stderr, func() time.Time { return time.Date(2031, 7, 9, 10, 0, 0, 0, time.UTC) }, false}))
		},
	})
}

func script(t *testing.T, dir string) {
	samples, err := filepath.Abs("../../samples")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Cmds: map[string]func(ts *testscript.TestScript, neg bool, args []string){
			// typeweight FILE GRAMS types into a workbook, as a person does.
			"typeweight": func(ts *testscript.TestScript, _ bool, args []string) {
				path := ts.MkAbs(args[0])
				book, err := os.ReadFile(path)
				ts.Check(err)
				book, err = typeWeight(book, args[1])
				ts.Check(err)
				ts.Check(os.WriteFile(path, book, 0o644))
			},
		},
		Dir: dir, UpdateScripts: *update, RequireUniqueNames: true, RequireExplicitExec: true,
		Setup: func(e *testscript.Env) error {
			e.Setenv("SAMPLES", samples)
			return nil
		},
	})
}

func TestScripts(t *testing.T) { script(t, "testdata/script") }

// The gallery of wrong folders lies beside what judges them.
func TestGallery(t *testing.T) { script(t, "../../jobs/testdata/gallery") }
