package treemap

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"castweek/metal/measure"
	"castweek/sheets/internal/reading"
	"castweek/sheets/internal/trial"
	"castweek/tree"
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
			c := sample(t)
			c.House.Series = s
			run(t, c)
		})
	}
}

func TestSound(t *testing.T) {
	if reading.UnderRace {
		t.Skip("one goroutine, and slow under the race detector")
	}
	series(t, func(t *testing.T, c *tree.Cast) {
		pdf := printed(t, c)
		if !bytes.Equal(pdf, printed(t, c)) {
			t.Error("the same cast gave other bytes")
		}
		reading.Sound(t, pdf)
	})
}

var castingID = regexp.MustCompile(`\bK-\d+/s?\d+[a-z]?`)

// pagesOf parts the pages by the tree that stands in their foot.
func pagesOf(t *testing.T, pdf []byte) map[string]string {
	t.Helper()
	out := map[string]string{}
	for _, p := range reading.Pages(t, pdf) {
		lines := strings.Split(strings.TrimSpace(p), "\n")
		words := strings.Fields(lines[len(lines)-1])
		out[words[len(words)-1]] += p
	}
	return out
}

// Every casting stands once in the list, with the plan's level, hour, tilt and
// weight; once in a side view; and once in a plan. What is counted and added up
// is the plan's. A tree of 28 castings takes three pages at most, one of two two.
func TestEveryCastingOnItsPlace(t *testing.T) {
	series(t, func(t *testing.T, c *tree.Cast) {
		pages := drawnOf(t, printed(t, c))
		total := 0
		for _, tr := range c.Trees {
			text := strings.Join(pages[tr.Name], "\n")
			if n := len(pages[tr.Name]); n > 3 || len(tr.Castings) < 3 && n > 2 {
				t.Errorf("%s: %d pages for %d castings", tr.Name, n, len(tr.Castings))
			}
			drawn, list, _ := strings.Cut(text, "What hangs where")
			sides, plans, _ := strings.Cut(drawn, "Level 1:")
			list, _, _ = strings.Cut(list, "Weigh the built tree")
			if _, below, ok := strings.Cut(list, "Level 1:"); ok {
				list = "Level 1:" + below // what comes before names kinds of castings
			}
			total += len(tr.Castings)
			for what, part := range map[string]string{"side": sides, "plan": plans, "list": list} {
				found := castingID.FindAllString(part, -1)
				if len(found) != len(tr.Castings) {
					t.Errorf("%s: %d ids in the %s, %d castings on the tree", tr.Name, len(found), what, len(tr.Castings))
				}
				for _, h := range tr.Castings {
					if !slices.Contains(found, h.Casting) {
						t.Errorf("%s: the %s lacks %s", tr.Name, what, h.Casting)
					}
				}
			}
			checkList(t, &tr, list)
			words := strings.Join(strings.Fields(text), " ")
			for _, h := range tr.Castings {
				if !strings.Contains(words, h.Feeders) || h.Feeders == "" {
					t.Errorf("%s: no feeder of %s", tr.Name, h.Casting)
				}
			}
			for _, n := range tr.Notes {
				if !strings.Contains(words, strings.Join(strings.Fields(n), " ")) {
					t.Errorf("%s: the note %q is missing", tr.Name, n)
				}
			}
		}
		if total < 28 || len(c.Trees) < 5 {
			t.Errorf("only %d castings on %d trees: the sample is too poor", total, len(c.Trees))
		}
	})
}

// drawnOf parts the pages by tree, the text of each in the order of drawing.
func drawnOf(t *testing.T, pdf []byte) map[string][]string {
	t.Helper()
	out := map[string][]string{}
	name := regexp.MustCompile(`2026-W49-[A-Z]+`)
	for _, p := range reading.Drawn(t, pdf) {
		n := name.FindString(p)
		out[n] = append(out[n], p)
	}
	return out
}

// What the list holds, in the order of drawing: heads of levels, and castings
// with id, hour, tilt and, on that line or soon after, weight.
var (
	levelLine = regexp.MustCompile(`^Level (\d+)(?:: (\d+) casting|, more)`)
	placeLine = regexp.MustCompile(`(K-\d+/s?\d+[a-z]?)\s(?:(?:none|in the mesh|[^°]*?mm)\s)??([\d.]+)\s([\d.]+)°\s(?:.*?\s)??(\d+\.\d{3})`)
)

func checkList(t *testing.T, tr *tree.Tree, list string) {
	t.Helper()
	at := map[string][]string{} // by id: level, hour, tilt, metal
	var last [2]float64
	for _, part := range regexp.MustCompile(`(?m)^Level `).Split(list, -1)[1:] {
		m := levelLine.FindStringSubmatch("Level " + part)
		if m == nil {
			t.Fatalf("%s: a level without number: %.60s", tr.Name, part)
		}
		n := 0
		for _, h := range tr.Castings {
			if fmt.Sprint(h.Level) == m[1] {
				n++
			}
		}
		if m[2] != "" && m[2] != fmt.Sprint(n) {
			t.Errorf("%s: level %s says %s castings, the plan %d", tr.Name, m[1], m[2], n)
		}
		for _, x := range placeLine.FindAllStringSubmatch(strings.Join(strings.Fields(part), " "), -1) {
			at[x[1]] = []string{m[1], x[2], x[3], x[4]}
			level, _ := strconv.ParseFloat(m[1], 64)
			hour, _ := strconv.ParseFloat(x[2], 64)
			now := [2]float64{level, math.Mod(hour, 12)}
			if now[0] < last[0] || now[0] == last[0] && now[1] < last[1] {
				t.Errorf("%s: %s stands after a later place", tr.Name, x[1])
			}
			last = now
		}
	}
	var sum measure.Milligram
	for _, h := range tr.Castings {
		want := []string{fmt.Sprint(h.Level), strconv.FormatFloat(h.Hour, 'f', -1, 64), strconv.FormatFloat(h.Tilt, 'f', -1, 64), h.Metal.Number(3)}
		if !slices.Equal(at[h.Casting], want) {
			t.Errorf("%s: %s is listed at %v, the plan says %v", tr.Name, h.Casting, at[h.Casting], want)
		}
		sum += h.Metal
	}
	foot := regexp.MustCompile(`All: (\d+) castings?\s+(\d+\.\d{3})`).FindStringSubmatch(list)
	if foot == nil || foot[1] != fmt.Sprint(len(tr.Castings)) || foot[2] != sum.Number(3) || sum != tr.Charge.Patterns {
		t.Errorf("%s: the list ends in %q; %d castings of %s", tr.Name, foot, len(tr.Castings), sum.Number(3))
	}
}

// The built tree's weights add up to what the plan says, and the limits are
// those of the house.
func TestBuiltTree(t *testing.T) {
	c := sample(t)
	pages := pagesOf(t, printed(t, c))
	weight := regexp.MustCompile(`\d+\.\d{3}\b`)
	for _, tr := range c.Trees {
		_, text, _ := strings.Cut(pages[tr.Name], "Planned g")
		text, limits, _ := strings.Cut(text, "The tree must weigh")
		found := weight.FindAllString(text, -1)
		sum := 0.0
		for _, w := range found[:len(found)-1] {
			v, _ := strconv.ParseFloat(w, 64)
			sum += v
		}
		if foot := found[len(found)-1]; fmt.Sprintf("%.3f", sum) != foot || foot != tr.Built().Number(3) {
			t.Errorf("%s: %v; the plan says %s", tr.Name, found, tr.Built().Number(3))
		}
		least, greatest := tr.BuiltWithin(c.House)
		if want := least.Number(2) + " to " + greatest.Number(2) + " g"; !strings.Contains(limits, want) {
			t.Errorf("%s: no %q", tr.Name, want)
		}
	}
}

// gapOf is a gap as the sample's workshop says it.
func gapOf(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile("../../samples/saltmarsh/workshop.yaml")
	if err != nil {
		t.Fatal(err)
	}
	m := regexp.MustCompile(`(?m)^gaps:(?:\n  .*)*?\n  ` + name + `: (\S+ mm)`).FindSubmatch(data)
	if m == nil {
		t.Fatalf("the workshop says no gap %q", name)
	}
	return string(m[1])
}

// The gaps that the map states are those that the sample's workshop typed. The
// one at the top holds only if the map puts the base where the plan does.
func TestGapsStated(t *testing.T) {
	c := sample(t)
	pages := pagesOf(t, printed(t, c))
	for _, tr := range c.Trees {
		wall := gapOf(t, "wall")
		if tr.Resin {
			wall = gapOf(t, "wall_resin")
		}
		text := strings.Join(strings.Fields(pages[tr.Name]), " ")
		want := "Kept free: " + wall + " at the wall, " + gapOf(t, "top") + " at the top"
		if !strings.Contains(text, want) || !strings.Contains(text, "true size.") {
			t.Errorf("%s: no %q:\n%.800s", tr.Name, want, text)
		}
	}
}

// PROPOSAL stands on every page of a proposal and on none of an accepted cast.
func TestProposal(t *testing.T) {
	c := sample(t)
	for _, is := range []bool{true, false} {
		c.Proposal = is
		for i, p := range reading.Pages(t, printed(t, c)) {
			if strings.Contains(p, "PROPOSAL") != is || !strings.Contains(p, "2026-W49-") {
				t.Errorf("page %d of a cast with Proposal %v:\n%.200s", i+1, is, p)
			}
		}
	}
}

// A tree that was kept without drawing and places still has its list, and one
// that is refused says so.
func TestBareTrees(t *testing.T) {
	c := trial.Cast()
	pages := pagesOf(t, printed(t, c))
	for _, tr := range c.Trees {
		text := pages[tr.Name]
		if !strings.Contains(text, "No drawing was kept") || !strings.Contains(text, "Level not given") {
			t.Errorf("%s: the map of a tree without places:\n%s", tr.Name, text)
		}
		for _, h := range tr.Castings {
			if strings.Count(text, h.Casting) != 1 {
				t.Errorf("%s stands %d times", h.Casting, strings.Count(text, h.Casting))
			}
		}
		if strings.Contains(text, "Do not pour yet") == tr.Pourable() {
			t.Errorf("%s: pourable %v", tr.Name, tr.Pourable())
		}
	}
	if _, _, err := Print(&tree.Cast{AsOf: c.AsOf}, Options{}); err == nil {
		t.Error("a cast without trees gave a map")
	}
}

// A flask too large for the paper is drawn smaller, and the map says how much.
func TestScaled(t *testing.T) {
	c := sample(t)
	c.Trees = c.Trees[:1]
	c.Trees[0].FlaskMM = tree.FlaskSize{Diameter: 130, Height: 250}
	if text := strings.Join(strings.Fields(pagesOf(t, printed(t, c))[c.Trees[0].Name]), " "); !strings.Contains(text, "Side at 75 % of true size") || strings.Contains(text, "Side at true") {
		t.Errorf("no scale:\n%.800s", text)
	}
}
