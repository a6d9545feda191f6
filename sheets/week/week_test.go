package week

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"castweek/sheets/internal/reading"
	"castweek/sheets/internal/trial"
	"castweek/tree"
	"castweek/tree/record"
)

// TestWeekTellsItsPrints: the page says which print of each job's bag is valid,
// and what was printed for the cast and is not in it any more.
func TestWeekTellsItsPrints(t *testing.T) {
	c := trial.Cast()
	prints := &record.Prints{Cast: c.Name, List: []record.Print{{Key: "bag K-201/1", Number: 3}, {Key: "bag K-202/1", Number: 1}, {Key: "bag K-999/2", Number: 2}, {Key: "pour sheet 2026-W49-Z", Number: 4}}}
	pdf, _, err := Print(c, Options{Prints: prints})
	if err != nil {
		t.Fatal(err)
	}
	all := strings.Join(reading.Pages(t, pdf), "")
	for _, want := range []string{`bag K-999/2, print 2`, `sheets of tree 2026-W49-Z, print 4`, `K-201 .* A +3`, `K-202 .* A +1`} {
		if !regexp.MustCompile(want).MatchString(all) {
			t.Errorf("no %s in\n%s", want, all)
		}
	}
}

// TestFullWeekIsOnePage: a week of twenty jobs with remarks stays on one page,
// with for whom each is; the first sentence of each remark of a bag is there.
func TestFullWeekIsOnePage(t *testing.T) {
	c := trial.Cast()
	for i := range 15 {
		b := c.Bags[0]
		b.Job = fmt.Sprintf("K-3%02d", i)
		b.Design, b.For = "A ring whose name goes on and on and on until it takes two lines of the page", fmt.Sprintf("customer %c", 'A'+i)
		b.Castings = []tree.BagCasting{{ID: b.Job + "/1"}}
		b.Remarks = []string{"the shank is thin; look at it"}
		c.Bags = append(c.Bags, b)
	}
	all, pages := text(t, c)
	if pages != 1 {
		t.Fatalf("%d pages", pages)
	}
	for i := range 15 {
		if !strings.Contains(all, fmt.Sprintf("K-3%02d", i)) || !strings.Contains(all, fmt.Sprintf("customer %c", 'A'+i)) {
			t.Errorf("job %d or whom it is for is missing:\n%s", i, all)
		}
	}
	if !strings.Contains(all, "the shank is thin") {
		t.Error("the remarks of the bags are missing")
	}
}

// TestFortyJobsOnePage: a week of forty-six jobs is one page that names every
// job, for whom, and how many decisions stand in the workbook.
func TestFortyJobsOnePage(t *testing.T) {
	for _, series := range []string{"A", "letter"} {
		c := trial.Cast()
		c.House.Series = series
		for i := range 40 {
			b := c.Bags[0]
			b.Job, b.For = fmt.Sprintf("K-3%02d", i), fmt.Sprintf("customer %d.", i)
			b.Castings = []tree.BagCasting{{ID: b.Job + "/1"}}
			b.Remarks = []string{fmt.Sprintf("the shank is %d.%02d mm thick", 0, i)}
			c.Bags = append(c.Bags, b)
		}
		all, pages := text(t, c)
		if pages != 1 {
			t.Fatalf("%s: %d pages", series, pages)
		}
		for i := range 40 {
			if job := fmt.Sprintf("K-3%02d", i); !strings.Contains(all, job) || !strings.Contains(all, fmt.Sprintf("customer %d.", i)) {
				t.Errorf("%s: %s or whom it is for is missing", series, job)
			}
		}
		shown := strings.Count(all, "mm thick")
		told := regexp.MustCompile(`And (\d+) more`).FindStringSubmatch(all)
		if told == nil {
			t.Fatalf("%s: what is left to the workbook is not said:\n%s", series, all)
		}
		if n, _ := strconv.Atoi(told[1]); n+shown < 40 {
			t.Errorf("%s: %d remarks shown, %d left to the workbook", series, shown, n)
		}
	}
}

func text(t *testing.T, c *tree.Cast) (all string, pages int) {
	t.Helper()
	pdf, remarks, err := Print(c, Options{})
	if err != nil || len(remarks) > 0 {
		t.Fatal(remarks, err)
	}
	list := reading.Pages(t, pdf)
	return strings.Join(list, "\n"), len(list)
}

func TestSound(t *testing.T) {
	for _, series := range []string{"A", "letter"} {
		c := trial.Cast()
		c.House.Series = series
		a, _, err := Print(c, Options{})
		if err != nil {
			t.Fatal(err)
		}
		b, _, _ := Print(c, Options{})
		if !bytes.Equal(a, b) {
			t.Error("the same cast gave other bytes")
		}
		reading.Sound(t, a)
		if _, n := text(t, c); n != 1 {
			t.Errorf("%s: the week takes %d pages", series, n)
		}
	}
}

// Each job stands where the reader looks for it.
func TestEveryJobInItsPlace(t *testing.T) {
	c := trial.Cast()
	all, _ := text(t, c)
	parts := regexp.MustCompile(`(?m)^\s*(Late|Needs a decision|Promised|Poured .*|Waits)$`).Split(all, -1)
	if len(parts) != 6 {
		t.Fatalf("%d parts on the page:\n%s", len(parts)-1, all)
	}
	for i, jobs := range map[int][]string{1: {"K-202"}, 2: {"flask D is not poured", "K-210", "whoever drew it", "K-205/12a, K-205/12b", "0.12 mm"},
		3: {"K-201", "K-202", "K-203", "K-204", "K-205", "K-206", "K-207"}, 4: {"110.03 g", "100.35 g", "109.69 g"}, 5: {"K-208", "Ask Mrs Ardley", "K-209"}} {
		for _, job := range jobs {
			if !strings.Contains(parts[i], job) {
				t.Errorf("%q is missing from part %d:\n%s", job, i, parts[i])
			}
		}
	}
	if strings.Contains(parts[4], "950 platinum") {
		t.Error("a refused tree is listed among the poured ones")
	}
}

// Promised days rise down the page.
func TestByDueDay(t *testing.T) {
	jobs := jobsByDue(trial.Cast())
	if len(jobs) != 7 {
		t.Fatalf("%d jobs", len(jobs))
	}
	for i := 1; i < len(jobs); i++ {
		if jobs[i].Due.Before(jobs[i-1].Due) {
			t.Errorf("%s is due before %s", jobs[i].Job, jobs[i-1].Job)
		}
	}
}

// A week of twenty jobs still is one page, of the larger paper.
func TestTwentyJobsOnePage(t *testing.T) {
	for _, series := range []string{"A", "letter"} {
		c := trial.Cast()
		c.House.Series = series
		for range 3 {
			c.Remarks = append(c.Remarks, tree.Remark{Job: "K-203", Text: "alone needs a tree of its own; waiting a week would save more metal than the piece itself holds, unless nothing else comes",
				Remedy: "put it on hold for a week, if the customer agrees and nothing else of the alloy is promised before"})
		}
		for i := range 13 {
			b := c.Bags[0]
			b.Job = fmt.Sprintf("K-3%02d", i)
			c.Bags = append(c.Bags, b)
		}
		if _, n := text(t, c); n != 1 {
			t.Errorf("%s: twenty jobs take %d pages", series, n)
		}
	}
}

func TestQuietWeek(t *testing.T) {
	c := &tree.Cast{Name: "2026-W50", AsOf: trial.Cast().AsOf, Pour: trial.Cast().Pour}
	all, _ := text(t, c)
	if strings.Count(all, "Nothing.") != 4 || strings.Contains(all, "Late") || strings.Contains(all, "PROPOSAL") {
		t.Errorf("a week without jobs reads:\n%s", all)
	}
}

func TestNoWordIsMissing(t *testing.T) {
	all, _ := text(t, trial.Cast())
	if m := regexp.MustCompile(`\[(week|sheet|none)[.\]]`).FindString(all); m != "" {
		t.Errorf("a word is missing from the catalogue: %s", m)
	}
}

// Names that no font has, that never end or that hold nothing give a page with
// remarks, never an error or a lost job.
func TestHostileNames(t *testing.T) {
	for _, s := range []string{"", "💍 שלום", strings.Repeat("endless", 60), strings.Repeat("word ", 200), "a\x00b\nc", "\xff"} {
		c := trial.Cast()
		for i := range c.Bags {
			c.Bags[i].Design, c.Bags[i].For = s, s
		}
		c.Waiting[0].Design, c.Waiting[0].Reason, c.Waiting[0].Ask = s, s, s
		c.Held[0].Reason, c.LeftOver[0].Reason, c.Remarks[0].Text, c.Remarks[0].Remedy, c.House.Name = s, s, s, s, s
		pdf, _, err := Print(c, Options{})
		if err != nil {
			t.Fatalf("%.20q: %v", s, err)
		}
		all := strings.Join(reading.Pages(t, pdf), "")
		for _, job := range []string{"K-201", "K-203", "K-208", "K-210"} {
			if !strings.Contains(all, job) {
				t.Errorf("%.20q: %s is missing", s, job)
			}
		}
	}
}

// What to order by when, what a customer has to bring and what stays; in a full
// week the orders alone.
func TestMetal(t *testing.T) {
	c := trial.Cast()
	by := func(day int) time.Time { return c.Pour.AddDate(0, 0, -day) }
	c.Buy = []tree.Purchase{
		{Alloy: "585 yellow", Weight: 45_960, OrderBy: by(3), For: []tree.TreeShort{{Tree: "2026-W49-A", Weight: 17_370}, {Tree: "2026-W48-B", Weight: 28_590, Accepted: true}}},
		{Alloy: "585 yellow", Owner: "M. Thorne", Weight: 4_340, OrderBy: by(3), For: []tree.TreeShort{{Tree: "2026-W49-C", Weight: 4_340}}},
		{Alloy: "750 red", Weight: 23_440, OrderBy: by(3), For: []tree.TreeShort{{Tree: "2026-W49-E", Weight: 23_440}}},
		{Alloy: "750 white", Weight: 9_000, OrderBy: by(8), For: []tree.TreeShort{{Tree: "2026-W49-D", Weight: 9_000}}}}
	c.LotsLeft = []tree.LotLeft{{Lot: "B-1", Alloy: "925 silver", Weight: 4_125}, {Lot: "B-2", Alloy: "925 silver", Weight: 100_000}, {Lot: "B-3", Alloy: "750 yellow"},
		{Lot: "T-1", Alloy: "375 red", Owner: "M. Thorne", Weight: 2_000}}
	flat := func(s string) string { return strings.Join(strings.Fields(strings.ReplaceAll(s, "\u00a0", " ")), " ") }
	all, n := text(t, c)
	for _, want := range []string{
		"Missing: 4.34 g of 585 yellow (C), from M. Thorne",
		"Order by Wed 25 Nov 2026 09:00: 9.00 g of 750 white (D)",
		"Order by Mon 30 Nov 2026 09:00: 45.96 g of 585 yellow (A, 2026-W48-B), 23.44 g of 750 red (E)",
		"Left when all is weighed out: 2.000 g of 375 red of M. Thorne, 104.125 g of 925 silver",
	} {
		if n != 1 || !strings.Contains(flat(all), want) {
			t.Errorf("%d pages without %q:\n%s", n, want, all)
		}
	}
	for range 12 {
		c.Remarks = append(c.Remarks, tree.Remark{Job: "K-203", Text: "something to look at", Remedy: strings.Repeat("a long way to mend it, ", 12)})
	}
	if all, _ = text(t, c); !strings.Contains(flat(all), "Order by Mon 30 Nov 2026 09:00: 45.96 g of 585 yellow, 23.44 g of 750 red") || strings.Contains(all, "Left when") {
		t.Errorf("a full week reads:\n%s", all)
	}
}

// A flask that waits for the kiln until another day says so, and a week that is
// not too full says when each kiln is switched on, what powder stands ready and
// what becomes of the metal.
func TestFired(t *testing.T) {
	c := trial.Cast()
	c.Loads = []tree.Load{{Number: 1, On: c.Pour.Add(-13 * time.Hour), First: c.Pour}, {Number: 2, On: c.Pour.Add(10 * time.Hour), First: c.Pour.AddDate(0, 0, 1)}}
	c.Trees[0].Kiln, c.Trees[1].Kiln, c.Trees[2].Kiln = 1, 1, 2
	c.Trees[0].PourAt, c.Trees[2].PourAt = c.Pour, c.Pour.AddDate(0, 0, 1)
	c.Powders = []tree.PowderNeed{{Powder: "house gypsum", Weight: 2_841_000, Liquid: 1_108_000}}
	c.Yield = tree.Yield{Charge: 43.7, Net: 99.5, Castings: 142_999, TiedUp: 182_657, Loss: 1_504, Total: 327_160}
	all, _ := text(t, c)
	all = strings.Join(strings.Fields(all), " ")
	for _, want := range []string{"pours Thu 3 Dec 2026 09:00, kiln on Wed 2 Dec 2026 20:00", "Kiln load 1: on Wed 2 Dec 2026 20:00, first pour Thu 3 Dec 2026 09:00, flasks A B",
		"Kiln load 2: on Thu 3 Dec 2026 19:00, first pour Fri 4 Dec 2026 09:00, flasks C", "g metal, Fri 4 Dec 2026 09:00", "house gypsum: 2841 g powder, 1108 g liquid",
		"327.160 g metal: 142.999 g castings, 182.657 g tied up, 1.504 g expected loss; charge yield 43.7 %, net yield 99.5 %"} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is missing:\n%s", want, all)
		}
	}
}
