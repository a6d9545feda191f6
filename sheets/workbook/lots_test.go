package workbook

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	metalbook "castweek/metal/book"
	"castweek/metal/measure"
	"castweek/sheets/internal/reading"
	"castweek/sheets/internal/trial"
	"castweek/tree"
)

// lotCast is the invented cast with a metal's book: lots for its trees, and
// more of the first tree to type into.
func lotCast(more int) *tree.Cast {
	c := trial.Cast()
	for i := range more {
		t := c.Trees[0]
		t.Name = fmt.Sprintf("2026-W49-X%d", i)
		t.Castings = nil
		c.Trees = append(c.Trees, t)
	}
	for i := range c.Trees {
		t := &c.Trees[i]
		t.Lots = tree.Lots{Known: true, Standard: map[string]measure.PerMille{"750 yellow": 750, "925 silver": 925, "585 white": 585, "950 platinum": 950}[t.Alloy], Short: t.Charge.Total}
	}
	a := &c.Trees[0]
	a.Lots.Takes = []tree.LotTake{{Lot: "G-14", Form: "grain", Weight: 60_000}, {Lot: "B-31", Form: "button", Melts: 1, Weight: 40_000}}
	a.Lots.Short -= 100_000
	c.LotsLeft = []tree.LotLeft{
		{Lot: "G-14", Alloy: "750 yellow", Form: "grain", From: "certificate", Fineness: 750, OnHand: 60_000, Taken: 60_000},
		{Lot: "B-31", Alloy: "750 yellow", Form: "button", From: "own melt", Fineness: 750.4, Melts: 1, OnHand: 48_350, Taken: 40_000, Promised: 5_000, Weight: 3_350},
		{Lot: "B*", Alloy: "750 yellow", Form: "button", From: "assay", Fineness: 749.999, Melts: 1, OnHand: 90_000, Weight: 90_000},
		{Lot: "b-31", Alloy: "750 yellow", Form: "bar", From: "assay", Fineness: 752.125, OnHand: 10_000, Weight: 10_000},
		{Lot: "31", Alloy: "750 yellow", Form: "bar", From: "assay", Fineness: 751, OnHand: 10_000, Weight: 10_000},
		{Lot: "G-15", Alloy: "925 silver", Form: "grain", From: "certificate", Fineness: 925, OnHand: 100_000, Weight: 100_000},
		{Lot: "T-1", Alloy: "750 yellow", Owner: "M. Thorne", Form: "scrap", From: "assay", Fineness: 753, Melts: 1, OnHand: 20_000, Weight: 20_000},
		{Lot: "S-1", Alloy: "750 yellow", Form: "scrap", From: "stamp only", Fineness: 750, Melts: 1, OnHand: 9_000, Weight: 9_000, Barred: "its fineness is known by a stamp only: assay it"},
		{Lot: "W-1", Alloy: "585 white", Owner: "J. and R. Osei", Form: "bar", From: "assay", Fineness: 586.5, OnHand: 80_000, Weight: 80_000},
		{Lot: "W-2", Alloy: "585 white", Form: "grain", From: "certificate", Fineness: 585, OnHand: 80_000, Weight: 80_000}}
	c.Buy = []tree.Purchase{{Alloy: "750 yellow", Weight: a.Lots.Short, OrderBy: c.Pour, For: []tree.TreeShort{{Tree: a.Name, Weight: a.Lots.Short}}},
		{Alloy: "585 white", Owner: "J. and R. Osei", Weight: 1_000, OrderBy: c.Pour, For: []tree.TreeShort{{Tree: c.Trees[2].Name, Weight: 1_000}}}}
	return c
}

// typedLot is one lot as a person types it.
type typedLot struct {
	lot   string
	grams float64
}

// LibreOffice calculates the fineness of the lots typed for a tree, rounded
// down as the metal's book does it, and says in words what is wrong with them.
func TestOfficeFollowsTheLots(t *testing.T) {
	if reading.UnderRace {
		t.Skip("one goroutine, and slow under the race detector")
	}
	t.Parallel()
	cases := []struct {
		of   int // tree, by its row
		lots []typedLot
		says word
	}{
		{0, []typedLot{{"G-14", 60}, {"B-31", 40.03}}, "fineenough"},
		{1, []typedLot{{"G-15", 100.35}}, "fineenough"},
		{2, []typedLot{{"W-1", 70}, {"W-2", 10.5}}, "fineenough"}, // a customer's, topped up by the house
		{3, []typedLot{{"B*", 30}}, "under"},
		{4, []typedLot{{"B*", 39.996}, {"B-31", 0.1}}, "fineenough"}, // 750.000 exactly at 0.1 of 750.4
		{5, []typedLot{{"B*", 40}, {"B-31", 0.099}}, "under"},        // just below it
		{6, []typedLot{{"b-31", 3}, {"31", 3.333}, {"G-14", 10}}, "fineenough"},
		{7, []typedLot{{"750.4", 12}, {"G-14", 3}}, "fineenough"}, // one that came in since
		{8, []typedLot{{"749.9", 12}}, "under"},
		{9, []typedLot{{"G-99", 12}}, "lotunknown"},
		{10, []typedLot{{"", 12}}, "lotunknown"},
		{11, []typedLot{{"G-14", 12}, {"G-15", 12}}, "lotalloy"},
		{12, []typedLot{{"T-1", 12}}, "lotowner"},
		{13, []typedLot{{"G-14", 12}, {"S-1", 3}}, "lotbarred"},
		{14, nil, "notweighed"},
		{15, []typedLot{{"B-31", 1}, {"b-31", 2}, {"31", 3}, {"G-14", 4}, {"B*", 5.001}}, "fineenough"},
	}
	c := lotCast(13)
	charge, lots := chargeTable(c), lotsTable(c)
	if len(charge.rows) != len(cases) {
		t.Fatalf("%d trees for %d cases", len(charge.rows), len(cases))
	}
	fineness := map[string]measure.PerMille{}
	for _, l := range c.LotsLeft {
		fineness[l.Lot] = l.Fineness
	}
	f := open(t, write(t, c))
	used := map[string]measure.Milligram{}
	for _, x := range cases {
		for k, l := range x.lots {
			if err := f.SetCellStr("Charge", fmt.Sprintf("%s%d", charge.letters(fmt.Sprint("lot", k+1)), x.of+2), l.lot); err != nil {
				t.Fatal(err)
			}
			if err := f.SetCellFloat("Charge", fmt.Sprintf("%s%d", charge.letters(fmt.Sprint("lot", k+1, "_g")), x.of+2), l.grams, -1, 64); err != nil {
				t.Fatal(err)
			}
			used[l.lot] += measure.Gram(l.grams).Round(1)
		}
	}
	sheets := office(t, valueless(t, f))
	of := func(key string, i int) string { return columnOf(t, charge, sheets["Charge"], key)[i] }
	for _, x := range cases {
		if got := of("finestate", x.of); got != said(x.says) {
			t.Errorf("%v: %q, want %q", x.lots, got, said(x.says))
		}
		var melt metalbook.TreeAccount // what the metal's book makes of the same weights
		for _, l := range x.lots {
			p, known := fineness[l.lot]
			if v, err := strconv.ParseFloat(l.lot, 64); err == nil && !known {
				p = measure.PerMille(v)
			}
			g := measure.Gram(l.grams).Round(1)
			melt.Charged += g
			melt.FineIn += metalbook.Of(g, metalbook.Parts(p*1000+0.5))
		}
		if togo, total := milligrams(t, of("togo", x.of)), milligrams(t, of("total", x.of)); total-togo != melt.Charged {
			t.Errorf("%v: %v still to weigh out of %v", x.lots, togo, total)
		}
		if melt.Charged == 0 {
			if got := of("fineness", x.of); got != dash {
				t.Errorf("nothing typed: a fineness of %s", got)
			}
			continue
		}
		want := float64(melt.Fineness()) / 1000
		if got, err := strconv.ParseFloat(of("fineness", x.of), 64); err != nil || got != want {
			t.Errorf("%v: LibreOffice makes it %s ‰, the book %v", x.lots, of("fineness", x.of), want)
		}
		if got := milligrams(t, of("lots_g", x.of)); got != melt.Charged {
			t.Errorf("%v: together %v", x.lots, got)
		}
	}
	for i, l := range c.LotsLeft {
		if got := milligrams(t, columnOf(t, lots, sheets["Lots"], "used")[i]); got != used[l.Lot] {
			t.Errorf("%v of lot %s is used, typed were %v", got, l.Lot, used[l.Lot])
		}
		want := said(agrees)
		switch {
		case used[l.Lot] == 0:
			want = said(notYet)
		case used[l.Lot] > l.OnHand:
			want = said("morethanthere")
		}
		if got := columnOf(t, lots, sheets["Lots"], "state")[i]; got != want {
			t.Errorf("lot %s: %q, want %q", l.Lot, got, want)
		}
	}
}

// The sums of the lots agree as they are planned, and disagree where the sum of
// the lots typed is not what was typed as weighed out; the loss follows from
// the lots where nobody typed their sum.
func TestOfficeChecksTheLots(t *testing.T) {
	if reading.UnderRace {
		t.Skip("one goroutine, and slow under the race detector")
	}
	t.Parallel()
	c := lotCast(0)
	c.Trees[3].Refused = []string{"not poured"}
	charge := chargeTable(c)
	f := open(t, write(t, c))
	set := func(key string, row int, g float64) {
		t.Helper()
		if err := f.SetCellFloat("Charge", fmt.Sprintf("%s%d", charge.letters(key), row+2), g, -1, 64); err != nil {
			t.Fatal(err)
		}
	}
	name := func(row int, lot string) {
		t.Helper()
		if err := f.SetCellStr("Charge", fmt.Sprintf("%s%d", charge.letters("lot1"), row+2), lot); err != nil {
			t.Fatal(err)
		}
	}
	name(0, "G-14")
	set("lot1_g", 0, 60)
	set("in_g", 0, 60) // the same
	name(1, "G-15")
	set("lot1_g", 1, 100.35)
	set("in_g", 1, 100.36) // another sum
	name(2, "W-1")
	set("lot1_g", 2, 70)
	set("out_g", 2, 40)
	set("back_g", 2, 29.5)
	sheets := office(t, valueless(t, f))
	answers := map[string]string{}
	for _, r := range sheets["Check"][1:] {
		answers[r[0]+" "+strings.TrimPrefix(r[1], dash)] = r[6]
	}
	for _, x := range []struct {
		what, which string
		want        word
	}{
		{"lotsonhand", "", agrees}, {"lotstaken", "", agrees}, {"lotscover", "2026-W49-A", agrees}, {"lotscover", "2026-W49-B", agrees}, {"lotscover", "2026-W49-C", agrees},
		{"lotstyped", "2026-W49-A", agrees}, {"lotstyped", "2026-W49-B", doesNotAgree}, {"lotstyped", "2026-W49-C", notYet},
	} {
		if got := answers[said("check."+word(x.what))+" "+x.which]; got != said(x.want) {
			t.Errorf("%s %s: %q, want %q", x.what, x.which, got, said(x.want))
		}
	}
	if got := columnOf(t, charge, sheets["Charge"], "lost")[2]; milligrams(t, got) != 500 {
		t.Errorf("of 70 g of lots 0.5 g did not come back, the sheet says %s", got)
	}
	if got := sheets["Buy"][1]; got[0] != "750 yellow" || got[3] != said("supplier") || !strings.HasPrefix(got[2], "2026-12-03") {
		t.Errorf("buy %v", got)
	}
	if got := sheets["Buy"][2]; got[3] != "J. and R. Osei" || got[2] != dash {
		t.Errorf("buy %v", got)
	}
}

// The words of faults stand out, and lots can be chosen from a list.
func TestLotCells(t *testing.T) {
	c := lotCast(0)
	f := open(t, write(t, c))
	charge := chargeTable(c)
	rules, err := f.GetConditionalFormats("Charge")
	if err != nil {
		t.Fatal(err)
	}
	if n := len(rules[charge.letters("finestate")+"2:"+charge.letters("finestate")+"4"]); n != len(lotFaults) {
		t.Errorf("%d words of the fineness stand out: %v", n, rules)
	}
	lists := 0
	all, err := f.GetDataValidations("Charge")
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range all {
		if r.Type == "list" && strings.Contains(r.Formula1, "Lots!$A$2:$A$11") {
			lists++
		}
	}
	if lists != fewestSlots {
		t.Errorf("%d lists of lots", lists)
	}
	typed := open(t, write(t, c))
	if err := typed.SetCellStr("Charge", charge.letters("lot5")+"2", "G-14"); err != nil {
		t.Fatal(err)
	}
	buf, err := typed.WriteToBuffer()
	if err != nil {
		t.Fatal(err)
	}
	if found, err := Inputs(buf.Bytes()); err != nil || len(found) != 1 {
		t.Errorf("a typed lot is not seen: %v %v", found, err)
	}
	if p, err := f.GetPanes("Charge"); err != nil || p.XSplit != 1 || p.TopLeftCell != "B2" {
		t.Errorf("the tree's name does not stay: %+v %v", p, err)
	}
}

// A tree that is planned from many lots has room for all of them and one more,
// in the sums too, and what is typed into the last is seen.
func TestRoomForEveryPlannedLot(t *testing.T) {
	c := lotCast(0)
	for len(c.Trees[1].Lots.Takes) < 9 {
		c.Trees[1].Lots.Takes = append(c.Trees[1].Lots.Takes, tree.LotTake{Lot: "B-31", Form: "button", Melts: 1, Weight: 1_000})
	}
	charge, lots := chargeTable(c), lotsTable(c)
	f := open(t, write(t, c))
	for key, v := range map[string]any{"lot10": "G-14", "lot10_g": 12.34} {
		if err := f.SetCellValue("Charge", charge.letters(key)+"2", v); err != nil {
			t.Fatal(err)
		}
	}
	buf, err := f.WriteToBuffer()
	if err != nil {
		t.Fatal(err)
	}
	if found, err := Inputs(buf.Bytes()); err != nil || len(found) != 2 {
		t.Errorf("the tenth lot is not seen: %v %v", found, err)
	}
	sheets := office(t, valueless(t, f))
	if got := milligrams(t, columnOf(t, charge, sheets["Charge"], "lots_g")[0]); got != 12_340 {
		t.Errorf("together %v", got)
	}
	if got := milligrams(t, columnOf(t, lots, sheets["Lots"], "used")[0]); got != 12_340 {
		t.Errorf("of the lot %v", got)
	}
}
