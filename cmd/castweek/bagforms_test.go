package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

var sheetSize = regexp.MustCompile(`<page width="([\d.]+)" height="([\d.]+)"`)

// sizesOf counts the sheets of a PDF by their size in points, as an outside
// reader finds them.
func sizesOf(t *testing.T, file string) map[string]int {
	t.Helper()
	sizes := map[string]int{}
	for _, m := range sheetSize.FindAllStringSubmatch(output(t, "pdftotext", "-bbox", file, "-"), -1) {
		var w, h float64
		fmt.Sscan(m[1], &w)
		fmt.Sscan(m[2], &h)
		sizes[fmt.Sprintf("%.0f x %.0f", w, h)]++
	}
	return sizes
}

// Sizes of sheets in points: ISO 216 and 8.5 by 11 inches at 72 to the inch.
const (
	a5Points, a4Points         = "420 x 595", "842 x 595"
	halfPoints, letterPoints   = "396 x 612", "792 x 612"
	a4Upright, letterUpright   = "595 x 842", "612 x 792"
	whole, shortFile           = "bags.pdf", "bags-short.pdf"
	series, two, short, letter = "paper: {decimal: point}", "paper: {two_up: yes}", "paper: {short_bags: yes}", "paper: {series: letter}"
)

// TestBagForms: the house's paper and the flags of one print choose how bags
// are laid; the sheets are read back.
func TestBagForms(t *testing.T) {
	if underRace {
		t.Skip("one goroutine, and slow under the race detector")
	}
	folder := t.TempDir()
	if err := os.CopyFS(folder, os.DirFS(saltmarsh)); err != nil {
		t.Fatal(err)
	}
	shop := filepath.Join(folder, "workshop.yaml")
	plain, err := os.ReadFile(shop)
	if err != nil {
		t.Fatal(err)
	}
	leaves := 0
	for _, c := range []struct {
		paper string
		flags []string
		want  map[string]string // file: size of its sheets
	}{
		{series, nil, map[string]string{whole: a5Points}},
		{series, []string{"--two-up"}, map[string]string{whole: a4Points}},
		{two, nil, map[string]string{whole: a4Points}},
		{two, []string{"--two-up=false"}, map[string]string{whole: a5Points}},
		{letter, nil, map[string]string{whole: halfPoints}},
		{letter, []string{"--two-up", "--short-bags"}, map[string]string{whole: letterPoints, shortFile: letterUpright}},
		{short, nil, map[string]string{whole: a5Points, shortFile: a4Upright}},
		{short, []string{"--short-bags=false"}, map[string]string{whole: a5Points}},
	} {
		name := c.paper + " " + strings.Join(c.flags, " ")
		if err := os.WriteFile(shop, append(bytes.Clone(plain), "\n"+c.paper+"\n"...), 0o644); err != nil {
			t.Fatal(err)
		}
		dir := t.TempDir()
		var out, talk bytes.Buffer
		s := &streams{strings.NewReader(""), &out, &talk, time.Now, false}
		if code := run(append([]string{"plan", folder, "--out", dir, "--only", "bags", "--jobs", "K-207,K-208"}, c.flags...), s); code != exitDone {
			t.Fatalf("%s: exit %d\n%s", name, code, talk.String())
		}
		made, _ := filepath.Glob(filepath.Join(dir, "*.pdf"))
		if len(made) != len(c.want) {
			t.Errorf("%s: %v", name, made)
		}
		for file, size := range c.want {
			got := sizesOf(t, filepath.Join(dir, file))
			n := got[size]
			if len(got) != 1 || n == 0 {
				t.Errorf("%s: %s has sheets of %v, not %s", name, file, got, size)
			}
			switch size {
			case a5Points:
				leaves = n
			case a4Points:
				if n != (leaves+1)/2 {
					t.Errorf("%s: %d leaves are on %d sheets", name, leaves, n)
				}
			case a4Upright, letterUpright:
				text := output(t, "pdftotext", "-layout", filepath.Join(dir, file), "-")
				if !strings.Contains(text, "short form") || strings.Contains(text, "Count out") {
					t.Errorf("%s: %s is not the short form", name, file)
				}
			}
		}
	}
}

// TestShortBagsLeave: a short form of another plan does not stay in the folder.
func TestShortBagsLeave(t *testing.T) {
	if underRace {
		t.Skip("one goroutine, and slow under the race detector")
	}
	dir := t.TempDir()
	for _, flags := range [][]string{{"--short-bags"}, nil} {
		var out, talk bytes.Buffer
		s := &streams{strings.NewReader(""), &out, &talk, time.Now, false}
		if code := run(append([]string{"plan", saltmarsh, "--out", dir, "--only", "bags"}, flags...), s); code != exitDone {
			t.Fatalf("exit %d\n%s", code, talk.String())
		}
		_, err := os.Stat(filepath.Join(dir, shortFile))
		if (err == nil) != (flags != nil) {
			t.Errorf("%v: %v", flags, err)
		}
	}
}
