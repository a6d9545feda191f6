package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"sort"
	"strings"
	"testing"
	"time"
)

const saltmarsh = "../../samples/saltmarsh"

// reader finds a program that reads what was printed, independent of what
// printed it. Without it the test is skipped, or fails where all are required.
func reader(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		if os.Getenv("CASTWEEK_READERS") == "required" {
			t.Fatalf("%s is required and not installed", name)
		}
		t.Skipf("%s is not installed", name)
	}
	return path
}

func output(t *testing.T, name string, args ...string) string {
	t.Helper()
	cmd := exec.Command(reader(t, name), args...)
	var talk bytes.Buffer
	cmd.Stderr = &talk
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%s %v: %v\n%s%s", name, args, err, out, talk.Bytes())
	}
	return string(out)
}

// planned runs the sample once into a folder and gives its JSON answer.
func planned(t *testing.T, folder, dir string) planAnswer {
	t.Helper()
	var out, talk bytes.Buffer
	s := &streams{strings.NewReader(""), &out, &talk, func() time.Time { return time.Date(2040, 2, 29, 23, 59, 0, 0, time.UTC) }, false}
	if code := run([]string{"plan", folder, "--out", dir, "--json"}, s); code != exitDone {
		t.Fatalf("exit %d\n%s", code, talk.String())
	}
	var a planAnswer
	if err := json.Unmarshal(out.Bytes(), &a); err != nil {
		t.Fatal(err)
	}
	return a
}

var castingID = regexp.MustCompile(`\bK-\d+/(?:s?\d+)[a-z]*\b`)

// pagesOf gives the text of each page of a PDF.
func pagesOf(t *testing.T, file string) []string {
	t.Helper()
	return strings.Split(strings.TrimSuffix(output(t, "pdftotext", "-layout", file, "-"), "\f"), "\f")
}

// TestSample plans the sample once and reads everything back.
func TestSample(t *testing.T) {
	folder, dir := t.TempDir(), t.TempDir()
	if err := os.CopyFS(folder, os.DirFS(saltmarsh)); err != nil {
		t.Fatal(err)
	}
	if err := os.RemoveAll(filepath.Join(folder, cacheDir)); err != nil {
		t.Fatal(err)
	}
	a := planned(t, folder, dir)
	var all []string
	alloys := map[string]bool{}
	for _, x := range a.Trees {
		all = append(all, x.Castings...)
		alloys[x.Alloy] = true
		sum := x.Metal.Patterns + x.Metal.Feeders + x.Metal.Trunk + x.Metal.Button + x.Metal.MeltLoss + x.Metal.Rounding
		if d := sum - x.Metal.Total; d > 1e-9 || d < -1e-9 {
			t.Errorf("%s: the addends make %v, the total is %v", x.Name, sum, x.Metal.Total)
		}
	}
	sort.Strings(all)
	if len(slices.Compact(slices.Clone(all))) != len(all) || len(all) < 28 || len(alloys) < 4 || len(a.Waiting) < 2 {
		t.Errorf("%d castings of %d alloys, %d waiting", len(all), len(alloys), len(a.Waiting))
	}
	if len(a.Held)+len(a.LeftOver)+len(a.Late) > 0 {
		t.Errorf("held %v, left over %v, late %v", a.Held, a.LeftOver, a.Late)
	}
	t.Run("same bytes", func(t *testing.T) { sameBytes(t, folder, dir) })
	t.Run("bags", func(t *testing.T) { everyCastingInOneBag(t, filepath.Join(dir, "bags.pdf"), all) })
	t.Run("sums of bags", func(t *testing.T) { sumsOfBags(t, filepath.Join(dir, "bags.pdf")) })
	t.Run("pour", func(t *testing.T) { everyCastingOnItsTree(t, filepath.Join(dir, "pour.pdf"), a) })
	t.Run("workbook", func(t *testing.T) { workbookSaysTheSame(t, filepath.Join(dir, "week.xlsx"), a) })
	for _, name := range []string{"bags.pdf", "pour.pdf", "trees.pdf"} {
		t.Run(name, func(t *testing.T) { soundPDF(t, filepath.Join(dir, name)) })
	}
	t.Run("codes", func(t *testing.T) { codes(t, filepath.Join(dir, "bags.pdf")) })
}

// sameBytes plans again, this time with the patterns measured before.
func sameBytes(t *testing.T, folder, dir string) {
	other := t.TempDir()
	planned(t, folder, other)
	for _, name := range []string{"bags.pdf", "pour.pdf", "trees.pdf", "week.xlsx"} {
		one, _ := os.ReadFile(filepath.Join(dir, name))
		two, err := os.ReadFile(filepath.Join(other, name))
		if err != nil || !bytes.Equal(one, two) {
			t.Errorf("%s differs from run to run (%v)", name, err)
		}
	}
}

// everyCastingInOneBag parts the pages at "page 1 of" and looks on which bag
// each casting stands.
func everyCastingInOneBag(t *testing.T, file string, all []string) {
	first := regexp.MustCompile(`page 1 of \d+`)
	bags := map[string][]int{}
	bag := 0
	for _, p := range pagesOf(t, file) {
		if first.MatchString(p) {
			bag++
		}
		for _, id := range castingID.FindAllString(p, -1) {
			if !slices.Contains(bags[id], bag) {
				bags[id] = append(bags[id], bag)
			}
		}
	}
	for _, id := range all {
		if len(bags[id]) != 1 {
			t.Errorf("%s is in the bags %v", id, bags[id])
		}
	}
	if len(bags) != len(all) {
		t.Errorf("the bags name %d castings, the plan has %d", len(bags), len(all))
	}
}

var treeID = regexp.MustCompile(`\b2026-W49-[A-Z]+\b`)

func everyCastingOnItsTree(t *testing.T, file string, a planAnswer) {
	on := map[string]map[string]bool{}
	for _, p := range pagesOf(t, file) {
		trees := treeID.FindAllString(p, -1)
		for _, id := range castingID.FindAllString(p, -1) {
			if len(trees) == 0 {
				t.Fatalf("a page with %s names no tree", id)
			}
			if on[id] == nil {
				on[id] = map[string]bool{}
			}
			on[id][trees[0]] = true
		}
	}
	n := 0
	for _, x := range a.Trees {
		for _, id := range x.Castings {
			n++
			if len(on[id]) != 1 || !on[id][x.Name] {
				t.Errorf("%s hangs on %s and is printed on %v", id, x.Name, on[id])
			}
		}
	}
	if len(on) != n {
		t.Errorf("the pour sheets name %d castings, the plan has %d", len(on), n)
	}
}

// workbookSaysTheSame lets LibreOffice open the workbook and looks for each
// casting's tree and each charge.
func workbookSaysTheSame(t *testing.T, file string, a planAnswer) {
	program, dir := reader(t, "soffice"), t.TempDir()
	cmd := exec.Command(program, "-env:UserInstallation=file://"+filepath.Join(dir, "profile"), "--headless", "--convert-to",
		"csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true,false,false,false,-1", "--outdir", dir, file)
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	rows := func(sheet string) [][]string {
		f, err := os.Open(filepath.Join(dir, "week-"+sheet+".csv"))
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		r, err := csv.NewReader(f).ReadAll()
		if err != nil && err != io.EOF {
			t.Fatal(err)
		}
		return r
	}
	on := map[string][]string{}
	for _, r := range rows("Trees") {
		line := strings.Join(r, " ")
		id, tree := castingID.FindString(line), treeID.FindString(line)
		if id != "" {
			on[id] = append(on[id], tree)
		}
	}
	charge := map[string]string{}
	for _, r := range rows("Charge") {
		if name := treeID.FindString(strings.Join(r, " ")); name != "" {
			charge[name] += " " + strings.Join(r, " ")
		}
	}
	for _, x := range a.Trees {
		for _, id := range x.Castings {
			if !slices.Equal(on[id], []string{x.Name}) {
				t.Errorf("%s hangs on %s; the workbook says %v", id, x.Name, on[id])
			}
		}
		for _, g := range []float64{x.Metal.Total, x.Metal.Button} {
			want := strings.TrimRight(strings.TrimRight(jsonNumber(g), "0"), ".")
			if !strings.Contains(charge[x.Name], want) {
				t.Errorf("%s: %s g is not in the charge row %q", x.Name, want, charge[x.Name])
			}
		}
	}
	for _, r := range rows("Check") {
		if strings.Contains(strings.Join(r, " "), "does not agree") {
			t.Errorf("the check sheet says: %v", r)
		}
	}
}

func jsonNumber(v float64) string {
	b, _ := json.Marshal(v)
	return string(b) + func() string {
		if strings.Contains(string(b), ".") {
			return ""
		}
		return "."
	}()
}

func soundPDF(t *testing.T, file string) {
	if out := output(t, "qpdf", "--check", file); !strings.Contains(out, "No syntax or stream encoding errors") {
		t.Error(out)
	}
	fonts := strings.Split(strings.TrimSpace(output(t, "pdffonts", file)), "\n")
	if len(fonts) < 3 {
		t.Fatalf("no fonts: %v", fonts)
	}
	for _, f := range fonts[2:] {
		// columns from the right: object (2), unicode, subset, embedded
		c := strings.Fields(f)
		if c[len(c)-5] != "yes" {
			t.Errorf("a font is not embedded: %s", f)
		}
	}
}

// codes reads the QR of the first page at the resolution of a poor scan.
func codes(t *testing.T, file string) {
	dir := t.TempDir()
	output(t, "pdftoppm", "-r", "200", "-png", "-f", "1", "-l", "1", file, filepath.Join(dir, "p"))
	pictures, _ := filepath.Glob(filepath.Join(dir, "p*.png"))
	if len(pictures) != 1 {
		t.Fatal(pictures)
	}
	if got := strings.TrimSpace(output(t, "zbarimg", "--quiet", "--raw", pictures[0])); got != "K-201" {
		t.Errorf("the code says %q", got)
	}
}
