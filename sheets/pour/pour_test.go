package pour

import (
	"bytes"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"castweek/metal/measure"
	"castweek/sheets/internal/reading"
	"castweek/sheets/internal/trial"
	"castweek/sheets/words"
	"castweek/tree"
	"castweek/tree/record"
)

func printed(t *testing.T, c *tree.Cast) []byte {
	t.Helper()
	pdf, remarks, err := Print(c, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range remarks {
		t.Errorf("remark: %s", r)
	}
	return pdf
}

// series runs a test on both series of paper.
func series(t *testing.T, run func(t *testing.T, c *tree.Cast)) {
	for _, s := range []string{"A", "letter"} {
		t.Run(s, func(t *testing.T) {
			c := trial.Cast()
			c.House.Series = s
			run(t, c)
		})
	}
}

func TestSheetsAreSound(t *testing.T) {
	series(t, func(t *testing.T, c *tree.Cast) {
		pdf := printed(t, c)
		if !bytes.Equal(pdf, printed(t, c)) {
			t.Error("the same cast gave other bytes")
		}
		reading.Sound(t, pdf)
		labels, _, err := Labels(c, Options{})
		if err != nil {
			t.Fatal(err)
		}
		reading.Sound(t, labels)
	})
}

var castingID = regexp.MustCompile(`K-\d+/\w+`)

// Every casting stands on exactly one tree's weighing page or, for a refused
// tree, on the first page; and the count printed is the count of ids.
func TestEveryCastingOnce(t *testing.T) {
	series(t, func(t *testing.T, c *tree.Cast) {
		seen := map[string]int{}
		for _, page := range reading.Pages(t, printed(t, c)) {
			for _, id := range castingID.FindAllString(page, -1) {
				seen[id]++
			}
		}
		n := 0
		for _, tr := range c.Trees {
			for _, h := range tr.Castings {
				n++
				if seen[h.Casting] != 1 {
					t.Errorf("%s stands %d times on the pour sheets", h.Casting, seen[h.Casting])
				}
			}
		}
		if len(seen) != n || n != 33 {
			t.Errorf("%d ids on paper, %d castings on trees", len(seen), n)
		}
	})
}

// numbers are the weights with three decimals below a heading, in order.
func numbers(page, from, to string) []measure.Milligram {
	_, page, _ = strings.Cut(page, from)
	page, _, _ = strings.Cut(page, to)
	var out []measure.Milligram
	for _, s := range regexp.MustCompile(`\d+\.\d{3}\b`).FindAllString(page, -1) {
		v, _ := strconv.ParseFloat(s, 64)
		out = append(out, measure.Milligram(math.Round(v*1000)))
	}
	return out
}

// What is printed adds up to what is printed: the last weight of each column
// is the sum of those above it, and is the plan's.
func TestColumnsAddUp(t *testing.T) {
	c := trial.Cast()
	pages := reading.Pages(t, printed(t, c))
	for i, tr := range c.Trees[:3] {
		page := pages[1+3*i] + pages[2+3*i]
		for _, column := range []struct {
			from, to string
			total    measure.Milligram
		}{{"Built tree before", "The metal", tr.Built()}, {"The metal", "sheet.bar", tr.Charge.Total}} {
			col := numbers(page, column.from, column.to)
			var sum measure.Milligram
			for _, n := range col[:len(col)-1] {
				sum += n
			}
			if foot := col[len(col)-1]; sum != foot || foot != column.total || len(col) < 2 {
				t.Errorf("%s, %s: %v adds up to %v; the plan says %v", tr.Name, column.from, col, sum, column.total)
			}
		}
		if want := tr.Charge.Total.Number(2) + " g"; !strings.Contains(page, want) || !strings.Contains(pages[3+3*i], want) {
			t.Errorf("%s: %q does not stand on both pages", tr.Name, want)
		}
		if want := fmt.Sprintf("%d castings", len(tr.Castings)); !strings.Contains(page, want) {
			t.Errorf("%s: no %q", tr.Name, want)
		}
	}
}

// The page at the kiln is one page, whatever the tree, and its warnings stand
// before the temperatures and the pour.
func TestOnePageAtTheKiln(t *testing.T) {
	series(t, func(t *testing.T, c *tree.Cast) {
		for i := range c.Trees {
			c.Trees[i].Refused, c.Trees[i].InWax = nil, true
			c.Trees[i].Owner = "Somebody with a rather long name & Daughters"
			c.Trees[i].Charge.Total = 1234560
		}
		pages := reading.Pages(t, printed(t, c))
		var kilns []string
		for _, page := range pages {
			if strings.Contains(page, "Poured at") || strings.Contains(page, "makers' sheets come first") {
				kilns = append(kilns, page)
			}
		}
		if len(kilns) != len(c.Trees) {
			t.Fatalf("%d pages at the kiln for %d trees", len(kilns), len(c.Trees))
		}
		for i := range c.Trees {
			kiln := kilns[i]
			last := -1
			for _, s := range []string{"do not pour from this sheet", "Flask", c.Trees[i].Alloy, "Weigh out", "WARNING Flask damp", "WARNING Metal", "Flask at", "Metal at", "Poured at", "good", "Done", "makers' sheets"} {
				at := strings.Index(kiln, s)
				if at <= last {
					t.Errorf("%s: %q does not stand where it belongs:\n%s", c.Trees[i].Name, s, kiln)
				}
				last = at
			}
		}
		if !strings.Contains(kilns[3], "blinds") || strings.Contains(kilns[0], "blinds") {
			t.Error("the dark shield is for platinum")
		}
	})
}

func TestRefusedTreeIsNotPoured(t *testing.T) {
	c := trial.Cast()
	pages := reading.Pages(t, printed(t, c))
	if len(pages) != 10 {
		t.Fatalf("%d pages, want the order and three for each of three trees", len(pages))
	}
	for _, want := range []string{"Do not pour", "Flask D, 950 platinum", "K-207/1"} {
		if !strings.Contains(pages[0], want) {
			t.Errorf("the first page lacks %q", want)
		}
	}
	if !strings.Contains(strings.Join(strings.Fields(pages[0]), " "), c.Trees[3].Refused[0]) {
		t.Error("the first page lacks the reason")
	}
}

// An unknown temperature is no number; a known one is printed.
func TestTemperatures(t *testing.T) {
	pages := reading.Pages(t, printed(t, trial.Cast()))
	if !strings.Contains(pages[3], "Not on file") || regexp.MustCompile(`\b0 °C`).MatchString(pages[3]) {
		t.Error("unknown temperatures do not defer to the maker's sheet")
	}
	if metal := strings.Join(strings.Fields(pages[2]), " "); !strings.Contains(metal, "No metal temperature is on file for 750 yellow") || !strings.Contains(metal, "No flask temperature is on file") {
		t.Errorf("nothing says to write unknown temperatures down:\n%s", metal)
	}
	if !strings.Contains(pages[6], "480 °C") || !strings.Contains(pages[6], "960 °C") || strings.Contains(pages[6]+pages[5], "temperature is on file") {
		t.Error("temperatures of flask B are missing")
	}
}

func TestProposalOnlyWhenItIsOne(t *testing.T) {
	c := trial.Cast()
	for _, page := range reading.Pages(t, printed(t, c)) {
		if !strings.Contains(page, "PROPOSAL") {
			t.Errorf("a page of a proposal does not say so:\n%s", page)
		}
	}
	c.Proposal = false
	if text := strings.Join(reading.Pages(t, printed(t, c)), ""); strings.Contains(strings.ToUpper(text), "PROPOSAL") {
		t.Error("an accepted cast is printed as a proposal")
	}
}

// The order of pouring is that of the plan, not that of the letters.
func TestPouringOrder(t *testing.T) {
	c := trial.Cast()
	c.Trees[0].Order, c.Trees[1].Order, c.Trees[2].Order = 3, 1, 2
	pages := reading.Pages(t, printed(t, c))
	for i, want := range []string{"925 silver", "585 white", "750 yellow"} {
		if kiln := pages[3+3*i]; !strings.Contains(kiln, want) || !strings.Contains(kiln, fmt.Sprintf("Pour %d of 3", i+1)) {
			t.Errorf("pour %d is not %s:\n%s", i+1, want, kiln)
		}
	}
}

func TestDecimalComma(t *testing.T) {
	c := trial.Cast()
	c.House.Decimal = "comma"
	pages := reading.Pages(t, printed(t, c))
	if !strings.Contains(pages[3], "110,03 g") || strings.Contains(pages[2], "110.03") {
		t.Errorf("no decimal comma:\n%s", pages[2])
	}
}

func TestNothingToPour(t *testing.T) {
	c := &tree.Cast{Name: "2026-W50", AsOf: trial.Cast().AsOf}
	if pages := reading.Pages(t, printed(t, c)); len(pages) != 1 || !strings.Contains(pages[0], "Nothing is poured") {
		t.Errorf("%v", pages)
	}
}

// Many castings with long names flow to further weighing pages, and the kiln
// page still counts as the last one.
func TestManyCastings(t *testing.T) {
	c := trial.Cast()
	c.Trees = c.Trees[:1]
	tr := &c.Trees[0]
	for i := range 90 {
		tr.Castings = append(tr.Castings, tree.Hanging{Casting: fmt.Sprintf("K-9%02d/1", i), Job: fmt.Sprintf("K-9%02d", i), Part: "part",
			Design: "A design with a name that goes on and on until it needs three lines at least"})
	}
	pages := reading.Pages(t, printed(t, c))
	all := strings.Join(pages, "")
	for i := range 90 {
		if !strings.Contains(all, fmt.Sprintf("K-9%02d/1", i)) {
			t.Errorf("casting %d is missing", i)
		}
	}
	last := pages[len(pages)-1]
	if n := len(pages) - 1; !strings.Contains(last, fmt.Sprintf("page %d of %d", n, n)) || !strings.Contains(last, "Poured at") {
		t.Errorf("the last page is not the kiln's:\n%s", last)
	}
	if !strings.Contains(pages[1], fmt.Sprintf("page 1 of %d", len(pages)-1)) {
		t.Error("the first weighing page counts wrong")
	}
}

// A caution is at most twenty words, the signal word left out (house rule for
// what can be taken in beside a kiln; common practice, no source).
func TestCautionsAreShort(t *testing.T) {
	for _, key := range []string{"pour.warn.flask", "pour.warn.metal", "pour.warn.bright", "pour.warn.dust", "pour.warn.alone", "pour.warn.sulphur", "pour.warn.ammonia", "pour.warn.two", "pour.warn.mould"} {
		if n := len(strings.Fields(words.English().Say(key))); n > 20 || n < 5 {
			t.Errorf("%s has %d words", key, n)
		}
	}
}

func TestLabels(t *testing.T) {
	series(t, func(t *testing.T, c *tree.Cast) {
		pdf, remarks, err := Labels(c, Options{})
		if err != nil || len(remarks) > 0 {
			t.Fatal(remarks, err)
		}
		text := strings.Join(reading.Pages(t, pdf), "")
		for _, tr := range c.Trees {
			if strings.Count(text, tr.Name) != 1 || !strings.Contains(text, tr.Alloy) {
				t.Errorf("no label for %s", tr.Name)
			}
		}
		if strings.Count(text, "Do not pour") != 1 {
			t.Error("the refused flask is not marked")
		}
	})
}

func TestUnknownWords(t *testing.T) {
	c := trial.Cast()
	for _, page := range reading.Pages(t, printed(t, c)) {
		if m := regexp.MustCompile(`\[(pour|label|sheet|signal)\.`).FindString(page); m != "" {
			t.Errorf("a word is missing from the catalogue: %s", m)
		}
	}
}

// Names that no font has, that never end or that hold nothing give pages with
// remarks, never an error or a page without its flask.
func TestHostileNames(t *testing.T) {
	for _, s := range []string{"", "💍 שלום", strings.Repeat("endless", 60), strings.Repeat("word ", 200), "a\x00b\nc", "\xff", "&&"} {
		c := trial.Cast()
		for i := range c.Trees {
			tr := &c.Trees[i]
			tr.Owner, tr.Flask, tr.Crucible, tr.Powder, tr.Section, tr.Notes = s, s, s, s, s, []string{s, s}
			tr.Alloy = s
			tr.Castings[0].Design, tr.Castings[0].Part = s, s
			if len(tr.Refused) > 0 {
				tr.Refused = []string{s, s}
			}
		}
		pdf, _, err := Print(c, Options{})
		if err != nil {
			t.Fatalf("%.20q: %v", s, err)
		}
		text := strings.Join(reading.Pages(t, pdf), "")
		for _, tr := range c.Trees {
			for _, h := range tr.Castings {
				if !strings.Contains(text, h.Casting) {
					t.Errorf("%.20q: %s is missing", s, h.Casting)
				}
			}
		}
		if _, _, err := Labels(c, Options{}); err != nil {
			t.Errorf("%.20q: %v", s, err)
		}
	}
}

// A long alloy name does not run off any page.
func TestLongAlloyStaysOnPaper(t *testing.T) {
	series(t, func(t *testing.T, c *tree.Cast) {
		c.Trees[0].Alloy = "750 white palladium, nickel-free, our own melt"
		printed(t, c) // fails on a remark
		if _, remarks, err := Labels(c, Options{}); err != nil || len(remarks) > 0 {
			t.Error(remarks, err)
		}
	})
}

// TestKilnPageOfAReprint: whatever has changed on it, the page at the kiln is
// one page, with what its figures were where there is room.
func TestKilnPageOfAReprint(t *testing.T) {
	for _, of := range []string{"A", "letter", "A all", "letter all"} {
		series, _, all := strings.Cut(of, " ")
		c := trial.Cast()
		c.House.Series = series
		c.Trees = c.Trees[1:2]
		c.Trees[0].Owner = "J. and R. Osei"
		o := Options{Prints: &record.Prints{Cast: c.Name}}
		first, _, err := Print(c, o)
		if err != nil {
			t.Fatal(err)
		}
		tr := &c.Trees[0]
		if all {
			tr.Owner, tr.Alloy, tr.Flask, tr.Crucible, tr.Order = "J. and R. Osei and sons", "750 white, of another melt", "90 x 160", "the other crucible", 2
		}
		tr.Charge.Total += 1000
		tr.FlaskAt += 20
		tr.MetalAt += 30
		second, remarks, err := Print(c, o)
		if err != nil || len(remarks) > 0 {
			t.Fatal(remarks, err)
		}
		was, now := reading.Pages(t, first), reading.Pages(t, second)
		kiln := func(pages []string) (n int, text string) {
			for _, p := range pages {
				if strings.Contains(p, "Metal at") || strings.Contains(p, "Poured at") || strings.Contains(p, "Local rules") {
					n, text = n+1, text+p
				}
			}
			return n, text
		}
		if n, _ := kiln(was); n != 1 {
			t.Fatalf("%s: %d pages at the kiln", of, n)
		}
		n, text := kiln(now)
		if n != 1 {
			t.Errorf("%s: %d pages at the kiln", of, n)
		}
		if !strings.Contains(text, "print 2") || of == "A" && (!strings.Contains(text, "was 480") || !strings.Contains(text, "was 960")) {
			t.Errorf("%s: what was there is missing in\n%s", of, text)
		}
	}
}
