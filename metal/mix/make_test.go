package mix

import (
	"math/big"
	"testing"

	"castweek/metal/measure"
)

func comp(pairs ...any) (out []Content) {
	for i := 0; i < len(pairs); i += 2 {
		out = append(out, Content{pairs[i].(string), r(pairs[i+1].(string))})
	}
	return out
}

var (
	fineGold   = Lot{Name: "999.9 gold", Comp: comp("Au", "999.9"), Fresh: true, Cost: r("100")}
	yellow585  = Lot{Name: "585 yellow", Comp: comp("Au", "585", "Ag", "300", "Cu", "115"), Cost: r("50")}
	master750y = Lot{Name: "master 750 yellow", Comp: comp("Ag", "500", "Cu", "500"), Cost: r("1")}
)

func limited(l Lot, g measure.Milligram) Lot { l.Limit, l.Limited = g, true; return l }

// want750 is 60 g of 750 gold on a 0.01 g scale, with the default margin.
func want750() Want {
	return Want{Metal: "Au", Fineness: r("750"), Margin: DefaultMargin(), Grams: 60_000, Step: 10}
}

func TestMakeYellow(t *testing.T) {
	a := Make(want750(), []Lot{fineGold, limited(yellow585, 22_000), master750y})
	if !a.OK() {
		t.Fatal(a.Problems)
	}
	// 60·751 = 999.9·x + 585·22 leaves x = 32.193 g: 32.20 on the scale.
	if a.Total != 60_000 || len(a.Takes) != 3 || a.Takes[0].Grams != 32_200 || a.Takes[1].Grams != 22_000 || a.Takes[2].Grams != 5_800 {
		t.Errorf("takes %v, total %v", a.Takes, a.Total)
	}
	near(t, "optimum", a.Optimum, "32193.22", "0.01")
	if a.Fineness.Cmp(r("751")) < 0 || a.Worst.Cmp(r("750")) < 0 || a.Worst.Cmp(a.Fineness) >= 0 {
		t.Errorf("fineness %v, worst %v", a.Fineness, a.Worst)
	}
}

// 45.00 g fine in 60.00 g is 750 only if the scale never errs.
func TestExactlyTheStandardIsRefused(t *testing.T) {
	gold := Lot{Name: "fine", Comp: comp("Au", "1000"), Fresh: true}
	w := want750()
	w.Margin = new(big.Rat)
	lots := []Lot{gold, master750y}
	a := Weighed(w, lots, []measure.Milligram{45_000, 15_000})
	if a.OK() || a.Fineness.Cmp(r("750")) != 0 || a.Worst.Cmp(r("750")) >= 0 {
		t.Fatalf("fineness %v, worst %v, %v", a.Fineness, a.Worst, a.Problems)
	}
	// 44.99 g fine in 60.00 g with one step the wrong way twice.
	if a.Worst.Cmp(r("44990000/60000")) != 0 {
		t.Errorf("worst %v", a.Worst)
	}
	if len(a.Short) != 1 || a.Short[0] != (Shortage{"Au", 50}) || a.Problems[0].Code != "mix-not-fine-enough" {
		t.Errorf("short %v, %v", a.Short, a.Problems)
	}
	mended := Weighed(w, append(lots, gold), []measure.Milligram{45_000, 15_000, 50})
	if !mended.OK() {
		t.Errorf("what it said to add does not mend it: %v", mended.Problems)
	}
	if less := Weighed(w, append(lots, gold), []measure.Milligram{45_000, 15_000, 40}); less.OK() {
		t.Error("less than it said mends it too")
	}
	// With the margin of 1 ‰ more is needed: 60·(751−750)/(1000−751) = 0.241 g.
	w.Margin = DefaultMargin()
	if a = Weighed(w, lots, []measure.Milligram{45_000, 15_000}); len(a.Short) != 1 || a.Short[0].Grams != 250 {
		t.Errorf("with margin: %v", a.Short)
	}
}

// Old school arithmetic, alligation, example 5 (A16): 5 lb at 20 ct and 8 lb at
// 18 ct never make 22 ct. The shortage is 7 lb of fine within the 13 lb:
// 5·20 + 1·18 + 7·24 = 13·22.
func TestNotFineEnough(t *testing.T) {
	w := Want{Metal: "Au", Fineness: r("22000/24"), Grams: 13_000, Step: 1}
	lots := []Lot{
		{Name: "20 ct", Comp: comp("Au", "20000/24"), Partial: true, Limited: true, Limit: 5_000},
		{Name: "18 ct", Comp: comp("Au", "18000/24"), Partial: true, Limited: true, Limit: 8_000},
	}
	a := Make(w, lots)
	if a.OK() || a.Problems[0].Code != "mix-not-fine-enough" || len(a.Takes) != 0 {
		t.Fatalf("%v %v", a.Takes, a.Problems)
	}
	if len(a.Short) != 1 || a.Short[0].Element != "Au" || a.Short[0].Grams < 7_000 || a.Short[0].Grams > 7_020 {
		t.Errorf("short %v", a.Short)
	}
}

func TestShortOfGoldAndOfAlloy(t *testing.T) {
	// 60·751 = 999.9·x needs 45.065 g of fine gold; 40 g are there.
	a := Make(want750(), []Lot{limited(fineGold, 40_000), master750y})
	if a.OK() || len(a.Short) != 1 || a.Short[0].Element != "Au" || a.Short[0].Grams != 5_070 {
		t.Errorf("gold: %v %v", a.Short, a.Problems)
	}
	a = Make(want750(), []Lot{limited(fineGold, 46_000), limited(master750y, 5_000)})
	if a.OK() || len(a.Short) != 1 || a.Short[0].Element != AnyAlloy || a.Problems[0].Code != "mix-short" {
		t.Errorf("alloy: %v %v", a.Short, a.Problems)
	}
}

// Bands keep the colour: without them the cheapest way from 585 yellow is
// silver-rich; with them the mix is 750 yellow (125 Ag, 125 Cu).
func TestBands(t *testing.T) {
	w := want750()
	w.Bands = []Band{{"Ag", r("110"), r("140")}, {"Cu", r("110"), r("140")}}
	copper := Lot{Name: "copper", Comp: comp("Cu", "1000")}
	a := Make(w, []Lot{fineGold, limited(yellow585, 22_000), master750y, copper})
	if !a.OK() {
		t.Fatal(a.Problems)
	}
	got := map[string]*big.Rat{"Ag": new(big.Rat), "Cu": new(big.Rat)}
	lots := []Lot{fineGold, yellow585, master750y, copper}
	for _, k := range a.Takes {
		for _, c := range lots[k.Lot].Comp {
			if got[c.Element] != nil {
				got[c.Element].Add(got[c.Element], mul(c.PerMille, big.NewRat(int64(k.Grams), int64(a.Total))))
			}
		}
	}
	for e, v := range got {
		if v.Cmp(r("110")) < 0 || v.Cmp(r("140")) > 0 {
			t.Errorf("%s at %s ‰", e, v.FloatString(2))
		}
	}
	// Nickel white scrap would be fine enough, and is not this alloy.
	nickel := Lot{Name: "750 white", Comp: comp("Au", "750", "Cu", "55", "Zn", "50", "Ni", "145")}
	a = Make(w, []Lot{fineGold, nickel})
	if a.OK() || len(a.Short) == 0 {
		t.Errorf("nickel white became yellow: %v", a.Takes)
	}
	w.Bands = []Band{{"Ag", r("300"), nil}}
	if a = Make(w, []Lot{fineGold, master750y}); a.OK() || a.Problems[0].Code != "mix-impossible" {
		t.Errorf("bands that contradict the standard: %v", a.Problems)
	}
	w.Bands = []Band{{"Ag", r("125"), r("125")}, {"Cu", r("123.9"), r("124")}}
	if a = Make(w, []Lot{fineGold, master750y}); a.OK() || a.Problems[0].Code != "mix-scale-too-coarse" && a.Problems[0].Code != "mix-impossible" {
		t.Errorf("a band of no width: %v", a.Problems)
	}
}

func TestAimAboveFineMetal(t *testing.T) {
	w := want750()
	w.Fineness = r("999.9")
	if a := Make(w, []Lot{fineGold}); a.OK() || a.Problems[0].Code != "mix-aim-too-high" {
		t.Errorf("%v %v", a.Takes, a.Problems)
	}
}

func TestStampIsNotAFineness(t *testing.T) {
	stamp := Lot{Name: "stamped 750", Comp: comp("Au", "750"), StampOnly: true}
	a := Make(want750(), []Lot{fineGold, stamp})
	if a.OK() || a.Problems[0].Code != "lot-stamp-only" {
		t.Fatal(a.Problems)
	}
	w := want750()
	w.StampDiscount = r("20")
	a = Make(w, []Lot{fineGold, stamp})
	if !a.OK() {
		t.Fatal(a.Problems)
	}
	// (751−730)/(999.9−730)·60 = 4.668 g
	if a.Takes[0].Grams < 4_670 || a.Takes[0].Grams > 4_690 {
		t.Errorf("takes %v", a.Takes)
	}
}

func TestLeastCost(t *testing.T) {
	w := want750()
	w.Objective = LeastCost
	dear := limited(yellow585, 22_000)
	dear.Cost = r("500")
	a := Make(w, []Lot{fineGold, dear, master750y})
	if !a.OK() || len(a.Takes) != 2 || a.Takes[1].Name != "master 750 yellow" {
		t.Errorf("dear scrap is used: %v %v", a.Takes, a.Problems)
	}
	w.Objective = LeastFresh
	if a = Make(w, []Lot{fineGold, dear, master750y}); len(a.Takes) != 3 {
		t.Errorf("least fresh leaves scrap: %v", a.Takes)
	}
}

// The finest alone is not given away: 916 scrap without end is let down.
func TestNoGoldGivenAway(t *testing.T) {
	a := Make(want750(), []Lot{{Name: "916", Comp: comp("Au", "916", "Ag", "84")}, master750y})
	if !a.OK() || a.Fineness.Cmp(r("752")) > 0 {
		t.Errorf("fineness %v, %v", a.Fineness, a.Problems)
	}
}

func TestBadLots(t *testing.T) {
	for code, l := range map[string]Lot{
		"lot-sum":         {Name: "x", Comp: comp("Au", "583", "Ag", "248", "Cu", "268", "Zn", "1.4")}, // a printed recipe of 1100.4 ‰
		"lot-composition": {Name: "x", Comp: comp("Au", "750", "Au", "250")},
		"lot-weight":      limited(fineGold, -1),
		"lot-soldered":    {Name: "x", Comp: comp("Au", "1000"), Soldered: true},
		"lot-cadmium":     {Name: "x", Comp: comp("Au", "750", "Cd", "250")},
	} {
		a := Make(want750(), []Lot{l})
		if a.OK() || a.Problems[0].Code != code {
			t.Errorf("%s: %v", code, a.Problems)
		}
	}
	negative := Lot{Name: "x", Comp: []Content{{"Au", r("-1")}}}
	if a := Make(want750(), []Lot{negative}); a.OK() {
		t.Error("a negative composition passes")
	}
	// The other printed recipes that do not add up.
	for _, c := range [][]Content{
		comp("Au", "750", "Cu", "22.3", "Zn", "54.7", "Ni", "178"),
		comp("Au", "585", "Pd", "50", "Ag", "325", "Cu", "205", "Zn", "14"),
		comp("Au", "583", "Pd", "200", "Ag", "60", "Cu", "30", "Zn", "10"),
		comp("Au", "750", "Pd", "64", "Ag", "99", "Cu", "51", "Zn", "35", "Ni", "11"),
		comp("Au", "750", "Ag", "40", "Pd", "170"),
	} {
		if a := Make(want750(), []Lot{{Name: "printed", Comp: c}}); a.OK() || a.Problems[0].Code != "lot-sum" {
			t.Errorf("%v: %v", c, a.Problems)
		}
	}
	for _, w := range []Want{
		{}, {Metal: "Au", Fineness: r("1001"), Grams: 1, Step: 1}, {Metal: "Au", Fineness: r("750"), Grams: -5, Step: 1},
		{Metal: "Au", Fineness: r("750"), Grams: 5, Step: 0}, {Metal: "Au", Fineness: r("750"), Margin: r("-1"), Grams: 5, Step: 1},
		{Metal: "Au", Fineness: r("750"), Grams: 5, Step: 1, Bands: []Band{{"Ag", r("5"), r("4")}}},
	} {
		if a := Make(w, []Lot{fineGold}); a.OK() {
			t.Errorf("%+v passes", w)
		}
	}
	if a := Make(want750(), nil); a.OK() {
		t.Error("nothing makes something")
	}
}

// A very small pour is ruled by the scale: 1 g on a 0.01 g scale needs about
// 10 ‰ over the standard.
func TestSmallPour(t *testing.T) {
	w := want750()
	w.Grams = 1_000
	a := Make(w, []Lot{fineGold, master750y})
	if !a.OK() || a.Fineness.Cmp(r("758")) < 0 || a.Worst.Cmp(r("750")) < 0 {
		t.Errorf("fineness %v worst %v %v", a.Fineness, a.Worst, a.Problems)
	}
}

func TestExact(t *testing.T) {
	// A18: 20 % and 60 % gold to 80 g at 52 %: 16 g and 64 g.
	w := Want{Metal: "Au", Fineness: r("520"), Grams: 80_000, Step: 1}
	x, _, err := Exact(w, []Lot{
		{Name: "20 %", Comp: comp("Au", "200"), Partial: true},
		{Name: "60 %", Comp: comp("Au", "600"), Partial: true},
	})
	if err != nil || x[0].Cmp(r("16000")) != 0 || x[1].Cmp(r("64000")) != 0 {
		t.Errorf("%v %v", x, err)
	}
}
