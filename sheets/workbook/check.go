package workbook

import (
	"fmt"

	"castweek/metal/measure"
	"castweek/tree"
)

const (
	agrees       word = "agrees"
	doesNotAgree word = "disagrees"
	notYet       word = "nottyped"
)

// checkTable compares sums that must agree because they say the same thing in
// two places. Its formulas stand on the other sheets, so that a slip there is
// seen here.
func checkTable(c *tree.Cast, week, trees, charge, stones *table) *table {
	lots, flasks := lotsTable(c), flasksTable(c)
	t := &table{name: "Check", columns: []column{
		{key: "what", width: 62, format: prose},
		{key: "which", width: 15, format: code},
		{key: "unit", width: 8, format: code},
		{key: "one", width: 14, format: figure},
		{key: "other", width: 14, format: figure},
		{key: "difference", width: 12, format: figure,
			formula: `IF(AND(ISNUMBER({one}),ISNUMBER({other})),ROUND(({one}-{other})*1000,0)/1000,"-")`},
		{key: "answer", width: 18, format: code,
			formula: `IF(ISNUMBER({difference}),IF({difference}=0,[[agrees]],[[disagrees]]),[[nottyped]])`},
	}}
	add := func(what, which, unit string, one, other live) {
		r := row{"what": word("check." + what), "which": which, "unit": word(unit), "one": one, "other": other, "difference": dash, "answer": notYet}
		if a, ok := number(one.value); ok {
			if b, ok := number(other.value); ok {
				r["difference"], r["answer"] = a-b, agrees
				if a != b {
					r["answer"] = doesNotAgree
				}
			}
		}
		t.rows = append(t.rows, r)
	}
	sum := func(of *table, key string) live {
		total := 0
		for _, r := range of.rows {
			n, _ := r[key].(int)
			total += n
		}
		return live{total, "SUM(" + of.span(key) + ")"}
	}
	grams := func(v measure.Milligram, f string) live { return live{v, "ROUND((" + f + ")*1000,0)/1000"} }
	add("castingslisted", "", "unitcount",
		live{len(trees.rows), "COUNTA(" + trees.span("casting") + ")"}, sum(week, "castings"))
	add("stonessupplied", "", "unitcount", sum(stones, "supplied"), sum(week, "stones"))
	i := -1
	for k := range c.Trees {
		tr := &c.Trees[k]
		if len(tr.Refused) > 0 {
			continue
		}
		i++
		name := charge.at("tree", i)
		var metalOf measure.Milligram
		for j := range tr.Castings {
			metalOf += tr.Castings[j].Metal
		}
		add("castingshang", tr.Name, "unitcount",
			live{len(tr.Castings), fmt.Sprintf("COUNTIF(%s,%s)", trees.span("tree"), name)}, live{len(tr.Castings), charge.at("castings", i)})
		add("metalcastings", tr.Name, "unitg",
			grams(metalOf, fmt.Sprintf("SUMIF(%s,%s,%s)", trees.span("tree"), name, trees.span("metal"))), grams(tr.Charge.Patterns, charge.at("patterns", i)))
		ch := tr.Charge
		add("linesadd", tr.Name, "unitg",
			grams(ch.Tree()+ch.Button+ch.MeltLoss+ch.Rounding, fmt.Sprintf("%s+%s+%s+%s", charge.at("tree_g", i), charge.at("button", i), charge.at("loss", i), charge.at("rounding", i))),
			grams(ch.Total, charge.at("total", i)))
		add("untouched", tr.Name, "unitg",
			live{ch.Total, fmt.Sprintf(`IF(%s=[[yes]],"-",%s)`, charge.at("usable", i), charge.at("total", i))}, grams(ch.Total, charge.at("planned_total", i)))
	}
	checkLots(c, lots, charge, add)
	checkFlasks(c, flasks, add)
	pulled := func(key string) string {
		return fmt.Sprintf(`IF(COUNT(%s)=0,"-",SUM(%s))`, stones.span(key), stones.span(key))
	}
	add("stonesback", "", "unitcount", live{dash, pulled("pulled")},
		live{dash, fmt.Sprintf(`IF(COUNT(%s)=0,"-",SUM(%s)+SUM(%s)+SUM(%s))`, stones.span("set"), stones.span("set"), stones.span("returned"), stones.span("broken"))})
	return t
}

// checkLots holds the lots of the sheet Charge against the sheet Lots, planned
// and typed. What is taken for the trees is compared by its sum; a tree's lots
// with what is short make its charge, once the folder has a metal's book.
func checkLots(c *tree.Cast, lots, charge *table, add func(what, which, unit string, one, other live)) {
	grams := func(v measure.Milligram, f string) live { return live{v, "ROUND((" + f + ")*1000,0)/1000"} }
	sum := func(t *table, key string) string { return "SUM(" + t.span(key) + ")" }
	typed := func(at, f string) live { return live{dash, fmt.Sprintf(`IF(%s>0,ROUND((%s)*1000,0)/1000,"-")`, at, f)} }
	var onHand, accounted, taken, planned measure.Milligram
	for _, l := range c.LotsLeft {
		onHand += l.OnHand
		accounted += l.Taken + l.Promised + l.Weight
		taken += l.Taken
	}
	if len(c.LotsLeft) > 0 {
		add("lotsonhand", "", "unitg", grams(accounted, sum(lots, "taken")+"+"+sum(lots, "promised")+"+"+sum(lots, "left")), grams(onHand, sum(lots, "onhand")))
	}
	i, weighed := -1, measure.Milligram(0)
	for k := range c.Trees {
		tr := &c.Trees[k]
		if len(tr.Refused) > 0 {
			continue
		}
		i++
		cover := tr.Lots.Weighed
		for _, x := range tr.Lots.Takes {
			cover += x.Weight
		}
		planned += cover
		weighed += tr.Lots.Weighed
		if tr.Lots.Known && tr.Lots.Weighed == 0 {
			add("lotscover", tr.Name, "unitg", grams(cover+tr.Lots.Short, charge.at("lots_plan", i)+"+"+charge.at("short", i)), grams(tr.Charge.Total, charge.at("planned_total", i)))
		}
		add("lotstyped", tr.Name, "unitg", typed(charge.at("lots_g", i), charge.at("lots_g", i)), typed(charge.at("in_g", i), charge.at("in_g", i)))
	}
	if len(c.LotsLeft) > 0 && weighed == 0 {
		add("lotstaken", "", "unitg", grams(taken, sum(lots, "taken")), grams(planned, sum(charge, "lots_plan")))
	}
}

// number reads a value of a check as a number, weights in grams.
func number(v any) (float64, bool) {
	switch x := v.(type) {
	case int:
		return float64(x), true
	case measure.Milligram:
		return float64(x) / 1000, true
	}
	return 0, false
}
