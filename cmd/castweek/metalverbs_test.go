package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	metalbook "castweek/metal/book"
)

// castweek runs a command line and gives what it wrote and its exit code.
func castweek(t *testing.T, input string, args ...string) (out, err string, code int) {
	t.Helper()
	var o, e bytes.Buffer
	moment := time.Date(2026, 11, 30, 8, 0, 0, 0, time.UTC)
	code = run(args, &streams{in: strings.NewReader(input), out: &o, err: &e, now: func() time.Time { return moment }})
	return o.String(), e.String(), code
}

func answer[T any](t *testing.T, want int, args ...string) (a T) {
	t.Helper()
	out, errs, code := castweek(t, "", append(args, "--json")...)
	if code != want {
		t.Fatalf("%v: exit %d, not %d\n%s%s", args, code, want, out, errs)
	}
	return decoded[T](t, out)
}

func decoded[T any](t *testing.T, out string) (a T) {
	t.Helper()
	if err := json.Unmarshal([]byte(out), &a); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	return a
}

func mixing(lots ...string) []string {
	args := []string{"mix", "--want", "750 yellow", "--grams", "60"}
	for _, l := range lots {
		args = append(args, "--lot", l)
	}
	return args
}

func TestMix(t *testing.T) {
	// 60·751 = 999.9·x + 585·22 leaves x = 32.193 g, on the scale 32.20.
	a := answer[mixAnswer](t, exitDone, mixing("999.9 gold", "585 yellow:22g", "master 750 yellow")...)
	if a.Want != "750 yellow" || a.Grams != 60 || len(a.Lots) != 3 || a.Lots[0] != (mixLotJSON{"999.9 gold", 32.2}) || a.Lots[1].Grams != 22 || a.Fineness < 751 || a.Worst < 750 || len(a.Short) != 0 {
		t.Errorf("%+v", a)
	}
	a = answer[mixAnswer](t, exitDone, mixing("999.9 gold", "417 scrap:20g=Au417,Ag100,Cu483", "copper")...)
	// (60·751 − 20·417)/999.9 = 36.725
	if a.Lots[0].Grams != 36.73 || a.Lots[1].Grams != 20 {
		t.Errorf("%+v", a)
	}
	a = answer[mixAnswer](t, exitIncomplete, mixing("999.9 gold:30g", "585 yellow:22g", "master 750 yellow")...)
	if a.Short["gold"] != 2.2 || a.Lots[0].Grams != 0 || a.Problems[0].Code != "mix-not-fine-enough" {
		t.Errorf("%+v", a)
	}
	a = answer[mixAnswer](t, exitRefused, mixing("999.9 gold", "750 stamp:20g")...)
	if a.Problems[0].Code != "lot-stamp-only" {
		t.Errorf("%+v", a)
	}
	a = answer[mixAnswer](t, exitDone, append(mixing("999.9 gold", "750 stamp:20g", "master 750 yellow"), "--stamp-discount", "10")...)
	if a.Lots[1].Grams != 20 {
		t.Errorf("%+v", a)
	}
	a = answer[mixAnswer](t, exitRefused, mixing("999.9 gold", "417 scrap=Au417,Ag100,Cu400")...)
	if a.Problems[0].Code != "lot-sum" {
		t.Errorf("%+v", a)
	}
	// Kept to the recipe, less of the silver-rich 585 goes in, and copper helps.
	a = answer[mixAnswer](t, exitDone, append(mixing("999.9 gold", "585 yellow:22g", "master 750 yellow", "copper"), "--within", "10")...)
	if a.Lots[3].Grams == 0 {
		t.Errorf("%+v", a)
	}
	// Bounds of single elements: no silver above 140 ‰, and none at all of nickel.
	a = answer[mixAnswer](t, exitDone, append(mixing("999.9 gold", "585 yellow:22g", "master 750 yellow", "copper"), "--band", "Ag=-140", "--band", "Ni=-0")...)
	if silver := (a.Lots[1].Grams*300 + a.Lots[2].Grams*500) / a.Grams; silver > 140 || a.Lots[3].Grams == 0 {
		t.Errorf("silver at %v ‰: %+v", silver, a)
	}
	a = answer[mixAnswer](t, exitIncomplete, append(mixing("999.9 gold:30g", "750 white=Au750,Cu55,Zn50,Ni145"), "--band", "Ni=-0")...)
	if a.Lots[1].Grams != 0 || len(a.Short) == 0 {
		t.Errorf("%+v", a)
	}
	for _, bad := range []string{"Ag", "Ag=", "Ag=-", "Xx=1-2", "Ag=a-b", "Ag=5"} {
		if _, _, code := castweek(t, "", append(mixing("999.9 gold", "copper"), "--band", bad)...); code != exitUsage {
			t.Errorf("--band %s: exit %d", bad, code)
		}
	}
	a = answer[mixAnswer](t, exitDone, append(mixing("999.9 gold", "585 yellow", "master 750 yellow"), "--least", "cost",
		"--cost", "999.9 gold=100", "--cost", "585 yellow=900", "--cost", "master 750 yellow=1")...)
	if a.Lots[1].Grams != 0 {
		t.Errorf("dear scrap is used: %+v", a)
	}
}

// Of little metal the scale shows too little: less than a step is refused, and
// what the steps alone make finer is not put down to the lots.
func TestMixOfLittle(t *testing.T) {
	of := func(want int, grams string) mixAnswer {
		return answer[mixAnswer](t, want, "mix", "--want", "750 yellow", "--grams", grams, "--lot", "999.9 gold", "--lot", "master 750 yellow")
	}
	if _, errs, code := castweek(t, "", "mix", "--want", "750 yellow", "--grams", "0.001", "--lot", "999.9 gold"); code != exitUsage || !strings.Contains(errs, "less than the scale shows") {
		t.Errorf("%d %s", code, errs)
	}
	// 0.76 g and 0.24 g, each a step off against us, are 0.75 · 999.9 / 1.00 < 750 ‰
	a := of(exitDone, "1")
	if a.Lots[0].Grams != 0.77 || len(a.Problems) != 1 || a.Problems[0].Code != "mix-coarse" {
		t.Errorf("%+v", a)
	}
	if a = of(exitDone, "60"); len(a.Problems) != 0 {
		t.Errorf("%+v", a)
	}
}

// 45.00 g of fine gold in 60.00 g is 750 only if the scale never errs.
func TestMixWeighed(t *testing.T) {
	weighed := func(want int, margin string) mixAnswer {
		return answer[mixAnswer](t, want, "mix", "--want", "750 yellow", "--weighed", "--margin", margin, "--lot", "fine:45g=Au1000", "--lot", "master 750 yellow:15g")
	}
	for margin, short := range map[string]float64{"0": 0.05, "1": 0.25} {
		if a := weighed(exitIncomplete, margin); a.Fineness != 750 || a.Worst >= 750 || a.Short["gold"] != short || a.Grams != 60 {
			t.Errorf("margin %s: %+v", margin, a)
		}
	}
	a := answer[mixAnswer](t, exitDone, "mix", "--want", "750 yellow", "--weighed", "--lot", "fine:45.25g=Au1000", "--lot", "master 750 yellow:15g")
	if a.Fineness < 751 || a.Worst < 750 {
		t.Errorf("%+v", a)
	}
	if _, _, code := castweek(t, "", "mix", "--want", "750 yellow", "--weighed", "--lot", "999.9 gold"); code != exitUsage {
		t.Errorf("no grams: exit %d", code)
	}
}

func TestMixTells(t *testing.T) {
	out, errs, code := castweek(t, "", mixing("999.9 gold", "585 yellow:22g", "master 750 yellow")...)
	if code != exitDone || !strings.Contains(out, "32.20 g") || !strings.Contains(out, "test it before it is cast") || !strings.Contains(errs, "silver is at 158.3 ‰") {
		t.Errorf("%s%s", out, errs)
	}
}

// Published worked examples: supplier's and casting houses' wax weight pages.
func TestCharge(t *testing.T) {
	for _, c := range []struct {
		args             string
		patterns, button float64
		tolerance        float64
	}{
		{"--wax 5g --wax-density 1 --density 13.5 --button 0g", 67.5, 0, 0.0005},
		{"--wax 5g --wax-density 1 --density 13.07", 65.35, 6.535, 0.0005}, // 71.89 with the button
		{"--wax 5.5g --wax-density 1 --density 10.5 --button 0g", 57.75, 0, 0.0005},
		{"--wax 5.5g --wax-density 1 --density 15.2 --button 0g", 83.60, 0, 0.0005},
		{"--resin 0.56g --resin-density 1.09 --density 10.36", 5.32, 0.532, 0.01},
		{"--volume 6919mm3 --density 15.2 --button 12g", 105.169, 12, 0.0005},
	} {
		args := append([]string{"charge"}, strings.Fields(c.args)...)
		if !strings.Contains(c.args, "--button") {
			args = append(args, "--button", "10% added")
		}
		m := answer[chargeAnswer](t, exitDone, args...).Metal
		if math.Abs(m.Patterns-c.patterns) > c.tolerance+0.001 || math.Abs(m.Button-c.button) > c.tolerance+0.001 {
			t.Errorf("%s: %+v", c.args, m)
		}
		if s := m.Patterns + m.Button + m.MeltLoss + m.Rounding; math.Abs(s-m.Total) > 1e-9 || m.Total < c.patterns+c.button {
			t.Errorf("%s: the lines make %v, the total is %v", c.args, s, m.Total)
		}
	}
	a := answer[chargeAnswer](t, exitDone, "charge", "--alloy", "750 yellow", "--wax", "5.5g", "--wax-density", "0.96", "--button", "10% of total")
	if math.Abs(a.Volume-5729.167) > 0.001 || math.Abs(a.Metal.Button/(a.Metal.Button+a.Metal.Patterns)-0.1) > 1e-4 || math.Abs(a.Density-15.45) > 0.01 {
		t.Errorf("%+v", a)
	}
}

func TestMetalUsage(t *testing.T) {
	for _, line := range []string{
		"mix", "mix --want 750_yellow --grams 60", "mix --want 750_yelow --grams 60 --lot copper", "mix --want copper --grams 60 --lot copper",
		"mix --want 750_yellow --grams -60 --lot copper", "mix --want 750_yellow --grams 60,5 --lot copper", "mix --want 750_yellow --grams 60 --lot nonsense",
		"mix --want 750_yellow --grams 60 --lot copper --lot copper", "mix --want 750_yellow --grams 60 --lot copper:0g", "mix --want 750_yellow --grams 60 --lot x=Xx1000",
		"mix --want 750_yellow --grams 60 --lot copper --least worst", "mix --want 750_yellow --grams 60 --lot copper --margin -1",
		"charge", "charge --alloy 750_yellow --button 12g", "charge --alloy 750_yellow --wax 5g --button 12g", "charge --alloy 750_yellow --volume 5mm3",
		"charge --alloy 950_platinum --density 23.6 --volume 5mm3 --button 12g", // a published density above pure platinum's
		"charge --alloy 750_yellow --density 99 --volume 5mm3 --button 12g", "charge --alloy 750_yellow --volume 5mm3 --button 10%", "charge --volume 5 --density 15 --button 12g",
		"charge --wax -5g --wax-density 0.96 --density 15 --button 12g", "weigh", "metal",
	} {
		args := strings.Fields(line)
		for i := range args {
			args[i] = strings.ReplaceAll(args[i], "_", " ")
		}
		if out, errs, code := castweek(t, "", args...); code != exitUsage || out != "" || errs == "" {
			t.Errorf("%s: exit %d\n%s%s", line, code, out, errs)
		}
	}
}

// shopFolder is a job folder with nothing but the sample workshop's settings.
func shopFolder(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	data, err := os.ReadFile("../../samples/saltmarsh/workshop.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "workshop.yaml"), data, 0o644); err != nil {
		t.Fatal(err)
	}
	return dir
}

func TestWeighAndMetal(t *testing.T) {
	dir := shopFolder(t)
	weigh := func(want int, args ...string) weighAnswer {
		t.Helper()
		if want != exitDone {
			if out, errs, code := castweek(t, "", append([]string{"weigh", dir, "--who", "AB"}, args...)...); code != want {
				t.Fatalf("%v: exit %d\n%s%s", args, code, out, errs)
			}
			return weighAnswer{}
		}
		return answer[weighAnswer](t, want, append([]string{"weigh", dir, "--who", "AB"}, args...)...)
	}
	weigh(exitDone, "--movement", "bought", "--alloy", "750 yellow", "--fineness", "751", "--from", "certificate", "--form", "grain", "--grams", "100")
	if a := weigh(exitDone, "--movement", "to tree", "--lot", "L1", "--tree", "2026-W49-A", "--grams", "62.4"); a.Left != 37.6 || a.Line != 2 {
		t.Errorf("%+v", a)
	}
	weigh(exitDone, "--movement", "castings out", "--tree", "2026-W49-A", "--job", "K-204", "--grams", "30")
	if a := weigh(exitDone, "--movement", "button back", "--tree", "2026-W49-A", "--grams", "32.15"); a.Lot != "L2" {
		t.Errorf("%+v", a)
	}
	weigh(exitRefused, "--movement", "to tree", "--lot", "L1", "--tree", "2026-W49-B", "--grams", "62.4") // not so much left
	weigh(exitRefused, "--reverse", "2")                                                                  // others stand on it
	weigh(exitUsage, "--movement", "to tree", "--lot", "L1", "--tree", "X", "--grams", "-1")
	weigh(exitUsage, "--movement", "lost", "--lot", "L1", "--grams", "1")
	weigh(exitUsage, "--movement", "bought", "--alloy", "750 yelow", "--fineness", "750", "--from", "assay", "--form", "bar", "--grams", "1")
	weigh(exitDone, "--movement", "to refiner", "--lot", "L2", "--grams", "2")
	weigh(exitDone, "--reverse", "5")
	m := answer[metalAnswer](t, exitDone, "metal", dir, "--trace", "L2")
	if len(m.OnHand) != 2 || m.OnHand[1].Grams != 32.15 || m.OnHand[1].Melts != 1 || m.OnHand[1].Fineness != 751 || m.Trees[0].Open != 0.25 || len(m.Traces) != 1 || len(m.Traces[0].Back) != 3 {
		t.Errorf("%+v", m)
	}
	// Metal on hand is a lot for mixing, no more of it than there is.
	a := answer[mixAnswer](t, exitDone, "mix", "--folder", dir, "--want", "585 yellow", "--grams", "60", "--lot", "L2", "--lot", "L1", "--lot", "copper", "--lot", "999.9 gold")
	if a.Lots[0].Grams+a.Lots[1].Grams == 0 || a.Lots[0].Grams > 32.15 || a.Lots[1].Grams > 37.6 {
		t.Errorf("%+v", a)
	}
	// A line torn off by a power cut is said, set aside, and not in the way.
	book := filepath.Join(dir, bookFile)
	data, _ := os.ReadFile(book)
	if err := os.WriteFile(book, append(data, "7,2026-1"...), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, errs, code := castweek(t, "", "metal", dir); code != exitDone || !strings.Contains(errs, "unfinished") {
		t.Error(code, errs)
	}
	weigh(exitDone, "--movement", "to refiner", "--lot", "L2", "--grams", "2")
	if aside, _ := os.ReadFile(book + ".torn"); string(aside) != "7,2026-1\n" {
		t.Errorf("aside %q", aside)
	}
	// A book that was mended by hand is refused with its line.
	data, _ = os.ReadFile(book)
	if err := os.WriteFile(book, bytes.Replace(data, []byte(",62.400,"), []byte(",-62.400,"), 1), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, errs, code := castweek(t, "", "metal", dir); code != exitRefused || !strings.Contains(errs, "metal.csv:3:") {
		t.Error(code, errs)
	}
}

// A customer's metal is melted with nobody else's: neither reckoned together
// nor booked into one melt, and what the melt gives is the customer's.
func TestOwnersApart(t *testing.T) {
	dir := shopFolder(t)
	weigh := func(want int, args ...string) (out string) {
		t.Helper()
		out, errs, code := castweek(t, "", append([]string{"weigh", dir, "--who", "AB"}, args...)...)
		if code != want {
			t.Fatalf("%v: exit %d\n%s%s", args, code, out, errs)
		}
		return out
	}
	in := func(lot, owner string) {
		weigh(exitDone, "--movement", "customer in", "--lot", lot, "--alloy", "585 yellow", "--fineness", "585", "--from", "assay", "--form", "bar", "--owner", owner, "--grams", "20")
	}
	in("K", "Ms K")
	in("L", "Mr L")
	weigh(exitDone, "--movement", "bought", "--lot", "G", "--alloy", "999.9 gold", "--fineness", "999.9", "--from", "certificate", "--form", "grain", "--grams", "50")
	mixed := []string{"mix", "--folder", dir, "--want", "750 yellow", "--grams", "20", "--lot", "G"}
	if _, errs, code := castweek(t, "", append(mixed, "--lot", "K", "--lot", "L")...); code != exitRefused || !strings.Contains(errs, "never melted with another's") {
		t.Errorf("exit %d: %s", code, errs)
	}
	if _, errs, code := castweek(t, "", append(mixed, "--lot", "K")...); code != exitDone || !strings.Contains(errs, "Ms K's own metal and some is the house's") {
		t.Errorf("exit %d: %s", code, errs)
	}
	weigh(exitDone, "--movement", "to melt", "--lot", "K", "--into", "M", "--grams", "10")
	weigh(exitRefused, "--movement", "to melt", "--lot", "L", "--into", "M", "--grams", "10")
	weigh(exitDone, "--movement", "to melt", "--lot", "G", "--into", "M", "--grams", "5")
	weigh(exitDone, "--movement", "from melt", "--lot", "M", "--alloy", "750 yellow", "--fineness", "751", "--from", "assay", "--form", "bar", "--grams", "14.9")
	m := answer[metalAnswer](t, exitDone, "metal", dir)
	if l := m.OnHand[3]; l.Lot != "M" || l.Owner != "Ms K" || strings.Join(l.MadeOf, ", ") != "lot K, lot G" {
		t.Errorf("%+v", m.OnHand)
	}
}

func TestWeighAsks(t *testing.T) {
	dir := shopFolder(t)
	out, errs, code := castweek(t, "opening\nAB\n925 silver\n925\nassay\nbutton\n40.5\n2\n", "weigh", dir, "--ask")
	if code != exitDone || !strings.Contains(out, "lot L1; 40.500 g") {
		t.Errorf("exit %d\n%s%s", code, out, errs)
	}
	// What may be left out is asked only of who answers anyway.
	if _, errs, code := castweek(t, "", "weigh", dir, "--ask", "--who", "AB", "--movement", "to tree", "--lot", "L1", "--tree", "A", "--grams", "20"); code != exitDone {
		t.Errorf("all was said: exit %d, %s", code, errs)
	}
	if out, errs, code := castweek(t, "", "weigh", dir, "--ask", "--who", "AB", "--movement", "castings out", "--tree", "A", "--grams", "5"); code != exitDone {
		t.Errorf("all was said: exit %d\n%s%s", code, out, errs)
	}
	if out, errs, code := castweek(t, "castings out\nAB\n1\nK-9\n4\n", "weigh", dir, "--ask"); code != exitDone || !strings.Contains(out, "4.000 g of 925 silver") || !strings.Contains(errs, "1 A  15.000 g out, 925 silver") {
		t.Errorf("exit %d\n%s%s", code, out, errs)
	}
	if out, errs, code := castweek(t, "filings\nAB\nA\n0.3\n", "weigh", dir, "--ask"); code != exitDone || !strings.Contains(out, "filings, 0.300 g of 925 silver, lot L2") {
		t.Errorf("exit %d\n%s%s", code, out, errs)
	}
	if out, errs, code := castweek(t, "7\nAB\n\n925 silver\n925\n4\n0.5\n", "weigh", dir, "--ask"); code != exitDone || !strings.Contains(out, "filings, 0.500 g of 925 silver, lot L3") {
		t.Errorf("exit %d\n%s%s", code, out, errs)
	}
	if _, _, code := castweek(t, "bought\nAB\n", "weigh", dir, "--ask"); code != exitRefused {
		t.Errorf("half an answer: exit %d", code)
	}
}

// A book of years shows the last trees, and all of them when asked.
func TestMetalShowsTheLastTrees(t *testing.T) {
	dir := shopFolder(t)
	lines := []string{strings.TrimSpace(string(metalbook.Header())), "1,2026-01-01T08:00:00Z,AB,bought,L1,750 yellow,750,certificate,900.000,,grain,,,,,,"}
	for i := range 25 {
		lines = append(lines, fmt.Sprintf("%d,2026-01-02T08:00:00Z,AB,to tree,L1,750 yellow,750,certificate,10.000,,grain,,2026-W%02d-A,,,,", i+2, i+10))
	}
	if err := os.WriteFile(filepath.Join(dir, bookFile), []byte(strings.Join(lines, "\n")+"\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	for args, want := range map[string]int{"": 20, "--all": 25} {
		out, errs, code := castweek(t, "", append([]string{"metal", dir}, strings.Fields(args)...)...)
		if n := strings.Count(out, "-A  750 yellow"); code != exitDone || n != want || strings.Contains(out, "5 trees before these") != (args == "") || !strings.Contains(out, "2026-W34-A") {
			t.Errorf("%q shows %d trees, want %d\n%s%s", args, n, want, out, errs)
		}
	}
	if m := answer[metalAnswer](t, exitDone, "metal", dir); len(m.Trees) != 25 {
		t.Errorf("%d trees as JSON", len(m.Trees))
	}
}
