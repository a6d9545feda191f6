package bag

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"castweek/jobs/setting"
	"castweek/sheets/desk"
	"castweek/sheets/internal/reading"
	"castweek/sheets/page"
	"castweek/tree"
	"castweek/tree/record"
)

// reader runs a program that reads PDF; without it the test is skipped, or
// fails where readers are required.
func reader(t *testing.T, name string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		if os.Getenv("CASTWEEK_READERS") == "required" {
			t.Fatalf("%s is required and not installed", name)
		}
		t.Skipf("%s is not installed", name)
	}
	out, err := exec.Command(name, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s %s: %v\n%s", name, strings.Join(args, " "), err, out)
	}
	return string(out)
}

func save(t *testing.T, data []byte) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "bags.pdf")
	if err := os.WriteFile(file, data, 0o644); err != nil {
		t.Fatal(err)
	}
	return file
}

// squeeze leaves what the fonts can show, without spaces: a line may break
// anywhere a space was, and between the parts of a code.
func squeeze(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) || !page.Regular.Has(r) || r == '\u00a0' {
			return -1
		}
		return r
	}, norm.NFC.String(s))
}

// said lists every string of a bag that must stand on its paper.
func said(b *tree.Bag) []string {
	out := []string{b.Job, b.Design, b.For, b.Kind, b.Title, b.Finish, b.Masked, b.Plated, b.LastStep, b.Hallmark, b.Owner}
	out = append(out, strings.Fields(b.Notes)...)
	out = append(append(append(append(out, b.Missing...), b.Assembly...), b.Remarks...), strings.TrimPrefix(strings.Join(b.Cautions, ""), "WARNING - "))
	for _, c := range b.Castings {
		out = append(out, c.ID, c.Part, c.Alloy, c.Tree, c.Flask, c.Material)
	}
	if z := b.Size; z != nil {
		out = append(out, z.AsTyped, z.Other, z.Gauge, z.Resizable, "17.32 mm")
	}
	for _, f := range b.Findings {
		out = append(out, f.Name, f.Alloy, f.From)
	}
	for _, s := range b.Stones {
		out = append(out, s.Mark, s.Place, s.Kind, s.Cut, s.Origin, s.Treatment, s.Style, s.Part, s.Owner, s.Risk, s.Parcel, s.Ordered, s.Estimate.Formula)
		out = append(out, s.Care...)
		for _, c := range s.Stands {
			out = append(out, c.Word)
		}
		for _, k := range s.Steps {
			out = append(append(append(out, told(k.Text, k.Numbers)...), k.Tool, k.Caution), sourced(k.Source)...)
		}
		for _, k := range s.Stops {
			out = append(out, sourced(k.Source)...)
			if !strings.HasPrefix(k.Code, "size-") {
				out = append(out, told(k.Text, k.Numbers)...)
				continue
			}
			for _, n := range k.Numbers { // in the table of limits, its unit in the head
				out = append(out, strings.TrimSuffix(n.String(), " mm"))
			}
		}
	}
	for _, k := range b.Shank {
		out = append(out, k.Part, k.Modelled, k.Finished)
	}
	for _, p := range b.Pictures {
		out = append(out, p.Part, p.View)
	}
	return out
}

// sourced is what a source says: places and what they say. A place is named once
// on a bag, with all that it says.
func sourced(source string) []string {
	var out []string
	for _, one := range strings.Split(source, "; ") {
		where, what, _ := strings.Cut(one, ": ")
		out = append(out, where, what)
	}
	return out
}

// told is what a sentence says: its words and its numbers. Lines of stones that
// share a sentence have their numbers side by side in it.
func told(text string, numbers []setting.Number) []string {
	var out []string
	for _, n := range numbers {
		before, after, found := strings.Cut(text, n.String())
		if !found {
			before, after = "", text
		}
		out = append(out, before, n.String())
		text = after
	}
	return append(out, text)
}

// TestEveryStringIsThere: what the job says stands on its bag, whole. Strings
// that a page break parts are looked for in halves.
func TestEveryStringIsThere(t *testing.T) {
	for _, b := range []tree.Bag{full(), studs(), bare(), changed(), heavy(), crowd(), foreign()} {
		data, _, err := Print(castOf(b), reprint(t, Single, "A"))
		if err != nil {
			t.Fatal(err)
		}
		file := save(t, data)
		got := squeeze(reader(t, "pdftotext", "-raw", file, "-"))
		for _, want := range said(&b) {
			if w := squeeze(want); !strings.Contains(got, w) && !inPieces(got, w) {
				t.Errorf("%s: %q is not on the paper", b.Job, want)
			}
		}
	}
}

// inPieces looks for a long text that a page parts: every run of 12 signs of it
// but at most a few must be there.
func inPieces(got, want string) bool {
	const n = 12
	lost := 0
	for i := 0; i+n <= len(want); i++ {
		if !strings.Contains(got, want[i:i+n]) {
			lost++
		}
	}
	return len(want) > 4*n && lost <= 6*n
}

// TestLackingSigns: each sign that the fonts lack is told with its job and its
// field, and no other; text extraction alone would not notice.
func TestLackingSigns(t *testing.T) {
	_, problems, err := Print(castOf(heavy()), Options{Form: Single})
	if err != nil {
		t.Fatal(err)
	}
	found := map[rune]bool{}
	for _, p := range problems {
		if p.Code == "outside-paper" {
			t.Errorf("%s", p)
		}
		if p.Place.File != "WORKSHOP-2026-0412-0003" || !strings.HasPrefix(p.Message, "notes: ") {
			t.Errorf("job or field is missing: %s", p)
		}
		for _, m := range regexp.MustCompile(`U\+([0-9A-F]+)`).FindAllStringSubmatch(p.Message, -1) {
			v, _ := strconv.ParseInt(m[1], 16, 32)
			found[rune(v)] = true
		}
	}
	for _, r := range heavy().Notes {
		if r > ' ' && !page.Regular.Has(r) && r != '⌀' && !found[r] {
			t.Errorf("no remark about %q", r)
		}
	}
	if !found[0x1f48d] {
		t.Error("no remark about the emoji")
	}
}

// TestEveryFieldTellsItsSigns: a sign that the fonts lack is told with its job,
// in whatever field it stands, and each stands on the page for screens.
func TestEveryFieldTellsItsSigns(t *testing.T) {
	b := foreign()
	_, problems, err := Print(castOf(b), Options{Form: Single})
	if err != nil {
		t.Fatal(err)
	}
	told := fmt.Sprint(problems)
	page, err := Page(castOf(b), &b, Options{})
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for r := rune(0x1F400); strings.Contains(fmt.Sprint(said(&b)), string(r)); r++ {
		n++
		if !strings.Contains(told, fmt.Sprintf("U+%X", r)) {
			t.Errorf("nothing is told of U+%X", r)
		}
		if !strings.Contains(string(page), string(r)) {
			t.Errorf("U+%X is not on the page for screens", r)
		}
	}
	if n < 20 {
		t.Errorf("%d fields", n)
	}
}

// forms are the ways to print, with the papers they are for.
func forms() map[string]*tree.Cast {
	out := map[string]*tree.Cast{}
	for _, form := range []Form{Single, TwoUp, Short} {
		for _, series := range []string{"A", "letter"} {
			c := castOf(full(), studs(), bare(), changed())
			if form == Short || form == Single && series == "A" {
				c.Bags = append(c.Bags, heavy())
			}
			if form == Single && series == "letter" {
				c.Bags = append(c.Bags, crowd(), foreign())
			}
			c.House.Series = series
			out[string(form)+"/"+series] = c
		}
	}
	return out
}

func formOf(name string) Form { form, _, _ := strings.Cut(name, "/"); return Form(form) }

// TestPaper: every form is sound by an outside reader, with all fonts embedded,
// no type under 9 pt, nothing outside the paper, and no words on each other.
func TestPaper(t *testing.T) {
	for name, c := range forms() {
		data, problems, err := Print(c, reprint(t, formOf(name), c.House.Series))
		if err != nil {
			t.Fatal(name, err)
		}
		for _, p := range problems {
			if p.Code != "sign-not-in-fonts" {
				t.Errorf("%s: %s", name, p)
			}
		}
		reading.Sound(t, data)
		reading.Tidy(t, name, data)
	}
}

// TestCodes: the QR code of each bag is read at 200 dots to the inch, as a
// printer makes it and as two up on a sheet.
func TestCodes(t *testing.T) {
	for _, form := range []Form{Single, TwoUp, Short} {
		b := full()
		data, _, err := Print(castOf(b, bare()), Options{Form: form})
		if err != nil {
			t.Fatal(err)
		}
		file := save(t, data)
		picture := filepath.Join(filepath.Dir(file), "page")
		reader(t, "pdftoppm", "-r", "200", "-f", "1", "-l", "1", "-png", "-gray", file, picture)
		made, _ := filepath.Glob(picture + "*.png")
		if len(made) != 1 {
			t.Fatalf("%d pictures", len(made))
		}
		if got := reader(t, "zbarimg", "-q", "--raw", made[0]); !strings.Contains(got, b.Job) {
			t.Errorf("%s: read %q, not %s", form, got, b.Job)
		}
	}
}

func TestSameBytes(t *testing.T) {
	for name, c := range map[string]*tree.Cast{"single/": castOf(full(), heavy()), "two up/": castOf(full(), studs()), "short/": castOf(full(), changed())} {
		a, _, err := Print(c, Options{Form: formOf(name)})
		b, _, again := Print(c, Options{Form: formOf(name)})
		if err != nil || again != nil || !bytes.Equal(a, b) {
			t.Errorf("%s: two prints differ", name)
		}
	}
}

// TestProposal: the word stands on every page of a proposal and on none of an
// accepted cast.
func TestProposal(t *testing.T) {
	for _, proposal := range []bool{true, false} {
		c := castOf(full())
		c.Proposal = proposal
		data, _, err := Print(c, Options{Form: Single})
		if err != nil {
			t.Fatal(err)
		}
		pages := strings.Split(strings.TrimSuffix(reader(t, "pdftotext", save(t, data), "-"), "\f"), "\f")
		for i, p := range pages {
			if strings.Contains(p, "PROPOSAL") != proposal {
				t.Errorf("page %d of a cast with proposal %v", i+1, proposal)
			}
			if !strings.Contains(p, fmt.Sprintf("page %d of %d", i+1, len(pages))) || strings.Count(p, "K-207") < 2 {
				t.Errorf("page %d does not say which it is", i+1)
			}
		}
	}
}

// BenchmarkThousandBags prints 1,000 bags of ordinary rings, and of the
// longest bag there is, and tells the memory taken from the system: 1,000 bags
// are to take less than 300 MB.
func BenchmarkThousandBags(b *testing.B) {
	for _, k := range []struct {
		name string
		bag  func() tree.Bag
	}{{"ordinary", ordinary}, {"longest", full}} {
		b.Run(k.name, func(b *testing.B) {
			c := castOf()
			for i := range 1000 {
				x := k.bag()
				x.Job = fmt.Sprintf("K-%d", i+1000)
				for n := range x.Castings {
					x.Castings[n].ID = fmt.Sprintf("%s/2%c", x.Job, 'a'+n)
				}
				c.Bags = append(c.Bags, x)
			}
			for b.Loop() {
				data, _, err := Print(c, Options{Form: Single, Options: desk.Options{Prints: &record.Prints{}}})
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(len(data))/1e6, "MB-of-PDF")
			}
			b.ReportMetric(mostMemory(), "MB-at-most")
		})
	}
}

// mostMemory is the most that this process has held so far, in MB: what Linux
// has counted, elsewhere what the run-time has asked for.
func mostMemory() float64 {
	status, err := os.ReadFile("/proc/self/status")
	if m := regexp.MustCompile(`VmHWM:\s+(\d+) kB`).FindSubmatch(status); err == nil && m != nil {
		kB, _ := strconv.ParseFloat(string(m[1]), 64)
		return kB * 1024 / 1e6
	}
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return float64(m.Sys) / 1e6
}
