package pour

import (
	"fmt"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"castweek/jobs"
	"castweek/metal/measure"
	"castweek/sheets/internal/reading"
	"castweek/sheets/page"
	"castweek/tree"

	"pgregory.net/rapid"
)

// kinds is a cast of every kind of tree: gold in wax and in resin, silver,
// platinum in phosphate, a stone in the wax, a customer's metal.
func kinds(t *testing.T) *tree.Cast {
	t.Helper()
	fsys := os.DirFS("testdata/kinds")
	f, problems := jobs.ReadFolder(fsys, jobs.Options{})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	p, err := tree.Make(tree.Input{Folder: f, AsOf: f.Workshop.AsOf})
	if err != nil || len(p.Cast.Trees) != 7 || len(p.Cast.Loads) != 4 {
		t.Fatalf("%v: %d trees", err, len(p.Cast.Trees))
	}
	return &p.Cast
}

// plain is a page with single spaces, so that words broken over lines are found.
func plain(page string) string { return strings.Join(strings.Fields(page), " ") }

// pageWith finds the one page that holds all of some words.
func pageWith(t *testing.T, pages []string, words ...string) string {
	t.Helper()
	found := ""
	for _, page := range pages {
		page = plain(page)
		all := true
		for _, w := range words {
			all = all && strings.Contains(page, w)
		}
		if all {
			if found != "" {
				t.Fatalf("more than one page holds %q", words)
			}
			found = page
		}
	}
	if found == "" {
		t.Fatalf("no page holds %q", words)
	}
	return found
}

// inOrder holds that some words follow each other on a page.
func inOrder(t *testing.T, page string, words ...string) {
	t.Helper()
	at := 0
	for _, w := range words {
		i := strings.Index(page[at:], w)
		if i < 0 {
			t.Errorf("%q does not stand where it belongs on\n%s", w, page)
			return
		}
		at += i + len(w)
	}
}

func TestKindsAreSound(t *testing.T) {
	for _, s := range []string{"A", "letter"} {
		c := kinds(t)
		c.House.Series = s
		pdf := printed(t, c) // fails on a remark
		reading.Sound(t, pdf)
	}
}

// Each kiln load has its page: cautions before the switch and before the heat,
// the programme on the clock, every flask with its minute and temperature, and
// the words of the drawn curve.
func TestLoadPages(t *testing.T) {
	c := kinds(t)
	pages := reading.Pages(t, printed(t, c))
	for i := range c.Loads {
		l := &c.Loads[i]
		page := ""
		for _, text := range pages {
			if text = plain(text); strings.HasPrefix(text, fmt.Sprintf("Burnout PROPOSAL %s %d ", c.Name, l.Number)) {
				page += " " + text
			}
		}
		gas := "WARNING Gypsum above 750 °C"
		if l.Bond == "phosphate" {
			gas = "WARNING Phosphate powder"
		}
		inOrder(t, page, fmt.Sprintf("Kiln load %d:", l.Number), "WARNING Kiln left alone", "Switch on", l.On.Format("15:04"), gas, "kiln", "0 °C")
		for _, s := range l.Stages {
			want := regexp.MustCompile(s.From.Format("15:04") + ` [a-z ]*` + strconv.Itoa(int(s.At)) + ` °C`)
			if !want.MatchString(page) {
				t.Errorf("load %d lacks %v", l.Number, want)
			}
		}
		for k := range c.Trees {
			x := &c.Trees[k]
			if x.Kiln != l.Number {
				continue
			}
			want := fmt.Sprintf("%s %s %s %s %d °C", x.Letter(), x.Alloy, x.Flask, x.PourAt.Format("15:04"), int(x.FlaskAt))
			if !strings.Contains(page, want) {
				t.Errorf("load %d lacks %q:\n%s", l.Number, want, page)
			}
		}
		if has := strings.Contains(page, "never above"); has != (l.Ceiling > 0) {
			t.Errorf("load %d: a ceiling is drawn: %v", l.Number, has)
		}
	}
}

// A change of clocks in the night is said before the programme, and the hours
// below the curve stay apart.
func TestClocksChangeOnTheLoadPage(t *testing.T) {
	for by, words := range map[time.Duration]string{time.Hour: "The clocks go forward to Sun 28 Mar 2027 02:00", -time.Hour: "The clocks go back to Sun 28 Mar 2027 02:00", 0: ""} {
		c := kinds(t)
		c.Loads[0].ClocksBy, c.Loads[0].ClocksTo = by, time.Date(2027, 3, 28, 2, 0, 0, 0, time.UTC)
		text := plain(strings.Join(reading.Pages(t, printed(t, c)), " "))
		if n := strings.Count(text, "The clocks go"); words == "" && n != 0 || words != "" && (n != 1 || !strings.Contains(text, words)) {
			t.Errorf("%v: said %d times", by, n)
		}
		if words != "" {
			inOrder(t, text, "Kiln load 1:", "Switch on", words, "WARNING Gypsum above")
		}
	}
}

// Each caution stands straight before its step, and what no sheet gives is
// asked for before the metal is melted.
func TestCautionsStandBeforeTheirSteps(t *testing.T) {
	c := kinds(t)
	pages := reading.Pages(t, printed(t, c))
	for i := range c.Trees {
		x := &c.Trees[i]
		build := pageWith(t, pages, "What hangs on it", x.Name)
		inOrder(t, build, "What hangs on it", "Built tree before investing", "Investment powder", "WARNING Investment dust", "% of liquid", "powder", "1: 0 to", "gloss")
		if has := strings.Contains(build, "WARNING Phosphate powder"); has != (x.Bond == "phosphate") {
			t.Errorf("%s: ammonia: %v", x.Name, has)
		}
		metal := pageWith(t, pages, "The metal", x.Name)
		inOrder(t, metal, "The metal", "Burnout", "Before the pour", "WARNING Alone", "WARNING Surplus metal", "Out of the kiln for at most", "Before the quench")
		if asked := strings.Contains(metal, "No metal temperature is on file for "+x.Alloy); asked != (x.MetalAt == 0) {
			t.Errorf("%s: metal at %v, asked for: %v", x.Name, x.MetalAt, asked)
		}
		if x.MetalAt == 0 {
			inOrder(t, metal, "No metal temperature", "Metal at", "°C", "from sheet", "WARNING Alone")
		}
		if says := strings.Contains(metal, "Do not quench"); says != x.InWax {
			t.Errorf("%s: not to be quenched: %v", x.Name, says)
		}
		if says := strings.Contains(metal, "Sheets disagree"); says != (x.Quench.Disputed && !x.InWax) {
			t.Errorf("%s: sheets disagree: %v", x.Name, says)
		}
		for _, n := range x.Build {
			inOrder(t, build, "See to before it is built", upper(plain(n.Text))+".", upper(n.Remedy)+".", "Built tree before investing")
		}
		if own := strings.Count(build+metal, "Only metal of B. Owner"); own != map[bool]int{true: 2}[x.Owner == "B. Owner"] {
			t.Errorf("%s: whose metal it is stands on %d pages", x.Name, own)
		}
	}
}

// The page of powder and metal adds up to what it prints at its foot, which is
// the plan's.
func TestStockPageAddsUp(t *testing.T) {
	c := kinds(t)
	page := pageWith(t, reading.Pages(t, printed(t, c)), "Powder for all flasks")
	powder, metal, _ := strings.Cut(page, "Metal: cast, back, lost")
	for _, n := range c.Powders {
		sum, row := 0, regexp.MustCompile(` `+regexp.QuoteMeta(n.Powder)+` (\d+) (\d+) \d+ %`)
		for _, m := range row.FindAllStringSubmatch(powder, -1) {
			g, _ := strconv.Atoi(m[1])
			sum += g
		}
		foot := fmt.Sprintf("flasks: %d %s %d %d", n.Flasks, n.Powder, int(n.Weight)/1000, int(n.Liquid)/1000)
		if sum*1000 != int(n.Weight) || !strings.Contains(powder, foot) {
			t.Errorf("%s adds up to %d g; want the foot %q in\n%s", n.Powder, sum, foot, powder)
		}
	}
	column := func(line string) (out []measure.Milligram) {
		for _, s := range regexp.MustCompile(`\d+\.\d{3}`).FindAllString(line, -1) {
			v, _ := strconv.Atoi(strings.Replace(s, ".", "", 1))
			out = append(out, measure.Milligram(v))
		}
		return out
	}
	all := column(metal)
	if len(all) != 4*(len(c.Trees)+1) {
		t.Fatalf("%d weights for %d trees: %s", len(all), len(c.Trees), metal)
	}
	foot := all[len(all)-4:]
	for k := range 4 {
		var sum measure.Milligram
		for i := range c.Trees {
			sum += all[4*i+k]
		}
		if sum != foot[k] {
			t.Errorf("column %d adds up to %v, its foot is %v", k, sum, foot[k])
		}
	}
	if foot[0]+foot[1]+foot[2] != foot[3] || foot[3] != c.Yield.Total {
		t.Errorf("%v does not add up across", foot)
	}
}

// Five large values at most on the page at the kiln: flask, alloy, grams, two
// temperatures. Nothing else there is set as large, and nothing as large as the
// flask's letter, which must not be taken for another.
func TestFiveLargeValues(t *testing.T) {
	c := kinds(t)
	pdf := printed(t, c)
	large, largest := reading.Large(t, pdf, int(page.Kiln.Value)), reading.Large(t, pdf, int(page.Kiln.Identity))
	seen := 0
	for i, text := range reading.Pages(t, pdf) {
		if !strings.Contains(text, "Poured at") {
			continue
		}
		seen++
		if n := len(large[i]); n > 5 || n < 4 {
			t.Errorf("%d large values on page %d: %q", n, i+1, large[i])
		}
		if len(largest[i]) != 1 || !strings.Contains("ABCDEFG", largest[i][0]) {
			t.Errorf("the largest on page %d: %q", i+1, largest[i])
		}
	}
	if seen != len(c.Trees) {
		t.Errorf("%d pages at the kiln", seen)
	}
}

// Letters of flasks that come out near each other never cover each other, and
// every flask has its letter.
func TestLettersDoNotCover(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		on := time.Date(2026, 12, 2, 19, 0, 0, 0, time.UTC)
		var out []*tree.Tree
		minute := 0
		for range rapid.IntRange(0, 40).Draw(t, "flasks") {
			minute += rapid.IntRange(0, 120).Draw(t, "later")
			out = append(out, &tree.Tree{PourAt: on.Add(time.Duration(minute) * time.Minute)})
		}
		across := func(m float64) float64 { return m / 8 }
		rows, at := outRows(out, on, across)
		if len(at) != len(out) {
			t.Fatalf("%d places for %d flasks", len(at), len(out))
		}
		for i := range out {
			for k := range i {
				apart := across(out[i].PourAt.Sub(out[k].PourAt).Minutes())
				if at[i] == at[k] && apart < outApart {
					t.Fatalf("flasks %d and %d stand %v mm apart in row %d", k, i, apart, at[i])
				}
			}
			if at[i] >= rows {
				t.Fatalf("row %d of %d", at[i], rows)
			}
		}
	})
}

// Names that no font has, that never end or that hold nothing stop no page of a
// kiln load.
func TestHostileLoads(t *testing.T) {
	c := kinds(t)
	for _, s := range []string{"", "💍 שלום", strings.Repeat("endless", 60), strings.Repeat("word ", 200), "a\x00b\nc", "\xff"} {
		for i := range c.Loads {
			c.Loads[i].Programme, c.Loads[i].Sheet, c.Loads[i].CeilingBy = s, s, s
		}
		for i := range c.Trees {
			x := &c.Trees[i]
			x.Quench.Words, x.HeatSheet, x.Notes, x.Invest.Sheet = s, s, []string{s}, s
			x.Build = []tree.BuildNote{{Text: s, Remedy: s}}
		}
		pdf, _, err := Print(c, Options{})
		if err != nil {
			t.Fatalf("%.20q: %v", s, err)
		}
		if n := strings.Count(strings.Join(reading.Pages(t, pdf), ""), "Switch on"); n != len(c.Loads) {
			t.Errorf("%.20q: %d loads of %d", s, n, len(c.Loads))
		}
	}
	// paths that a damaged record might hold are drawn or left out, never a panic
	for _, path := range [][]tree.PathPoint{nil, {{Minute: 0, At: 20}}, {{Minute: 0, At: 20}, {Minute: 0, At: 20}}, {{Minute: 0, At: 0}, {Minute: math.NaN(), At: 600}}, {{Minute: 0, At: 20}, {Minute: 1e9, At: 600}}} {
		c.Loads[0].Path = path
		_, _, _ = Print(c, Options{})
	}
}
