package workbook

import (
	"fmt"
	"strings"

	"castweek/tree"
)

// Lots that can be typed for one tree: a bag of grain and the buttons of a few
// casts at least, and one more than any tree is planned from. Formulas do not
// take any number.
const (
	fewestSlots = 5
	mostSlots   = 40
)

func lotSlots(c *tree.Cast) int {
	n := fewestSlots
	for i := range c.Trees {
		n = max(n, len(c.Trees[i].Lots.Takes)+1)
	}
	return min(n, mostSlots)
}

// finestFirst of what may be wrong with the lots of a tree, by its number.
var lotFaults = []word{1: "lotunknown", 2: "lotalloy", 3: "lotowner", 4: "lotbarred"}

// meltColumns let a person type the lots really weighed out for a tree, and
// work out the fineness of the melt. They stand to the right of the print area,
// beside the tree's name, which stays in sight.
//
// A lot is typed by its name on the sheet Lots, or by its fineness when it came
// in since. The sums are whole milligrams times thousandths of a per mille,
// which a spreadsheet keeps exactly, so that the comparison with the standard is
// exact; what is shown is rounded down.
func meltColumns(lots *table, slots int) []column {
	var out, aside []column
	var weights, faults []string
	fine := "0"
	for k := 1; k <= slots; k++ {
		lot, g, f, fault := fmt.Sprintf("lot%d", k), fmt.Sprintf("lot%d_g", k), fmt.Sprintf("fine%d", k), fmt.Sprintf("fault%d", k)
		n := fmt.Sprint(k)
		is := fmt.Sprintf("EXACT(%s,{%s})", lots.span("lot"), lot)
		out = append(out,
			column{key: lot, head: "lot", of: n, width: 11, format: code, aside: true, input: &limit{name: "typed_" + lot, title: "lot", says: "typed_lot", list: lots}},
			column{key: g, head: "lot_g", of: n, width: 11, format: grams, aside: true, input: &limit{name: "typed_" + g, least: 0.001, top: heaviest, title: "weight", says: "typed_lot_g"}})
		aside = append(aside,
			column{key: f, head: "lot_fine", of: n, width: 11, format: figure, aside: true,
				formula: fmt.Sprintf("IF(SUMPRODUCT(--%s)>0,SUMPRODUCT(%s*%s),IFERROR(VALUE({%s}),0))", is, is, lots.span("fineness"), lot)},
			column{key: fault, head: "lot_fault", of: n, width: 9, format: count, aside: true,
				formula: fmt.Sprintf("IF(N({%s})=0,0,IF(SUMPRODUCT(--%s)=0,IF(AND({%s}>=1,{%s}<=1000),0,1),IF(SUMPRODUCT(%s*EXACT(%s,{alloy}))=0,2,"+
					"IF(SUMPRODUCT(%s*(EXACT(%s,{owner})+EXACT(%s,\"house\")>0))=0,3,IF(SUMPRODUCT(%s*EXACT(%s,\"-\"))=0,4,0)))))",
					g, is, f, f, is, lots.span("alloy"), is, lots.span("owner"), lots.span("owner"), is, lots.span("barred"))})
		weights = append(weights, "N({"+g+"})")
		faults = append(faults, "{"+fault+"}")
		fine += fmt.Sprintf("+ROUND(N({%s})*1000,0)*ROUND({%s}*1000,0)", g, f)
	}
	word := "IF({lots_g}=0,[[notweighed]],"
	for k := 1; k < len(lotFaults); k++ {
		var any []string
		for _, f := range faults {
			any = append(any, fmt.Sprintf("%s=%d", f, k))
		}
		word += fmt.Sprintf("IF(OR(%s),[[%s]],", strings.Join(any, ","), lotFaults[k])
	}
	word += "IF({fine_mg}<ROUND({lots_g}*1000,0)*ROUND({standard}*1000,0),[[under]],[[fineenough]])" + strings.Repeat(")", len(lotFaults))
	out = append(out,
		column{key: "lots_g", width: 12, format: grams, aside: true, formula: "ROUND((" + strings.Join(weights, "+") + ")*1000,0)/1000"},
		column{key: "togo", width: 12, format: grams, aside: true, formula: `ROUND(({total}-{lots_g})*1000,0)/1000`},
		column{key: "fineness", width: 10, format: figure, aside: true, formula: `IF({lots_g}=0,"-",INT({fine_mg}/ROUND({lots_g}*1000,0))/1000)`},
		column{key: "finestate", width: 21, format: prose, aside: true, formula: word},
		column{key: "standard", width: 10, format: figure, aside: true},
		column{key: "lots_plan", width: 12, format: grams, aside: true},
		column{key: "short", width: 12, format: grams, aside: true},
		column{key: "fine_mg", width: 16, format: figure, aside: true, formula: fine})
	return append(out, aside...)
}

// meltRow fills them in for a tree of which nothing is typed yet.
func meltRow(r row, t *tree.Tree, slots int) {
	r["togo"] = t.Charge.Total
	r["lots_g"], r["fineness"], r["finestate"], r["fine_mg"] = 0.0, dash, word("notweighed"), 0.0
	r["standard"], r["short"] = float64(t.Lots.Standard), t.Lots.Short
	taken := t.Lots.Weighed
	for _, k := range t.Lots.Takes {
		taken += k.Weight
	}
	r["lots_plan"] = taken
	for k := 1; k <= slots; k++ {
		r[fmt.Sprintf("fine%d", k)], r[fmt.Sprintf("fault%d", k)] = 0.0, 0
	}
}
