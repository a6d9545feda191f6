package workbook

import (
	"testing"

	"castweek/sheets/internal/reading"
	"castweek/sheets/internal/trial"
	"castweek/tree"
)

// LibreOffice, which knows nothing of the plan's own figures, comes to the same
// yields, rounded down to a tenth, and finds the sums of the week in the rows.
func TestOfficeAddsUpTheFlasks(t *testing.T) {
	if reading.UnderRace {
		t.Skip("one goroutine, and slow under the race detector")
	}
	c := trial.Cast()
	for i := range c.Trees[:3] {
		x := &c.Trees[i]
		x.Powder = []string{"ordinary", "ordin*", "ordinary"}[i] // a star is no wildcard
		x.Invest = tree.Investing{Powder: 427_000, Liquid: 167_000}
		// 50.000 of 100.000 g cast, 0.500 g lost; then two that do not come out even
		x.Yield = []tree.Yield{{Charge: 50, Net: 99.5, Castings: 50_000, TiedUp: 49_500, Loss: 500, Total: 100_000},
			{Charge: 33.3, Net: 99.4, Castings: 10_000, TiedUp: 19_834, Loss: 166, Total: 30_000},
			{Charge: 66.6, Net: 99.6, Castings: 20_000, TiedUp: 9_900, Loss: 100, Total: 30_000}}[i]
	}
	c.Trees[0].Quench.Never, c.Trees[1].Quench.Disputed = true, true
	c.Powders = []tree.PowderNeed{{Powder: "ordinary", Flasks: 2, Weight: 854_000}, {Powder: "ordin*", Flasks: 1, Weight: 427_000}}
	c.Yield = tree.Yield{TiedUp: 79_234, Loss: 766}
	data := write(t, c)
	sheets := office(t, valueless(t, open(t, data)))
	flasks := flasksTable(c)
	for key, want := range map[string][]string{"charge_pc": {"50", "33.3", "66.6"}, "net_pc": {"99.5", "99.4", "99.6"}, "metal_c": {"-", "960", "-"},
		"quench": {said("noquench"), said("quenchdisputed"), said("quenchunknown")}} {
		for i, got := range columnOf(t, flasks, sheets["Flasks"], key) {
			if got != want[i] {
				t.Errorf("%s of %s: %q, want %q", key, c.Trees[i].Name, got, want[i])
			}
		}
	}
	check := checkTable(c, weekTable(c), treesTable(c), chargeTable(c), stonesTable(c))
	answers := map[string]int{}
	for i, a := range columnOf(t, check, sheets["Check"], "answer") {
		what, _ := check.rows[i]["what"].(word)
		answers[string(what)+" "+a]++
	}
	for what, n := range map[string]int{"check.powder": 2, "check.tiedup": 1, "check.loss": 1, "check.metalparts": 3} {
		if got := answers[what+" "+said(agrees)]; got != n {
			t.Errorf("%s agrees %d times, want %d: %v", what, got, n, answers)
		}
	}
	c.Powders[0].Weight++
	c.Yield.Loss--
	wrong := office(t, valueless(t, open(t, write(t, c))))
	n := 0
	for _, a := range columnOf(t, check, wrong["Check"], "answer") {
		if a == said(doesNotAgree) {
			n++
		}
	}
	if n != 2 {
		t.Errorf("%d sums do not agree, want the powder and the loss", n)
	}
}
