package workbook

import (
	"castweek/metal/measure"
	"castweek/tree"
)

const (
	suppliedFormula = `{count}+{spares}`
	balanceFormula  = `IF(AND(ISNUMBER({pulled}),ISNUMBER({set}),ISNUMBER({returned}),ISNUMBER({broken})),{pulled}-{set}-{returned}-{broken},"-")`
)

const mostStones = 100000

func counting(name, say string) *limit {
	return &limit{name: name, whole: true, top: mostStones, title: "Count of stones", say: say}
}

// stonesTable is one row for each line of stones in a bag. What is pulled must
// be set, returned, broken or lost.
func stonesTable(c *tree.Cast) *table {
	t := &table{name: "Stones", columns: []column{
		{key: "job", head: "Job", width: 10, format: code},
		{key: "bag", head: "Bag", width: 14, format: words},
		{key: "mark", head: "Mark", width: 6, format: code},
		{key: "place", head: "Place", width: 14, format: words},
		{key: "kind", head: "Kind", width: 12, format: words},
		{key: "cut", head: "Cut", width: 12, format: words},
		{key: "origin", head: "Origin", width: 10, format: words},
		{key: "length", head: "Length (mm)", width: 8, format: mm},
		{key: "width", head: "Width (mm)", width: 8, format: mm},
		{key: "depth", head: "Depth (mm)", width: 8, format: mm},
		{key: "assumed", head: "Depth assumed", width: 9, format: code},
		{key: "count", head: "To set (count)", width: 8, format: count},
		{key: "spares", head: "Spares (count)", width: 8, format: count},
		{key: "supplied", head: "To supply (count)", width: 9, format: count, formula: suppliedFormula},
		{key: "low", head: "Estimate of one, low (ct)", width: 10, format: carats},
		{key: "high", head: "Estimate of one, high (ct)", width: 10, format: carats},
		{key: "style", head: "Style", width: 11, format: words},
		{key: "inwax", head: "In the wax", width: 7, format: code},
		{key: "owner", head: "Owner of the stone", width: 14, format: words},
		{key: "risk", head: "Risk", width: 12, format: words},
		{key: "parcel", head: "Parcel", width: 9, format: code},
		{key: "here", head: "Here", width: 6, format: code},
		{key: "ordered", head: "Ordered", width: 18, format: words},
		{key: "pulled", head: "TYPE: pulled (count)", width: 9, format: count, input: counting("typed_pulled", "Stones taken from the drawer, spares included.")},
		{key: "set", head: "TYPE: set (count)", width: 9, format: count, input: counting("typed_set", "Stones that are set.")},
		{key: "returned", head: "TYPE: returned (count)", width: 9, format: count, input: counting("typed_returned", "Stones back in the drawer.")},
		{key: "broken", head: "TYPE: broken (count)", width: 9, format: count, input: counting("typed_broken", "Stones broken.")},
		{key: "missing", head: "Missing (count)", width: 9, format: count, formula: balanceFormula},
	}}
	for i := range c.Bags {
		bag := &c.Bags[i]
		for k := range bag.Stones {
			s := &bag.Stones[k]
			t.rows = append(t.rows, row{"job": bag.Job, "bag": bag.Title, "mark": s.Mark, "place": s.Place, "kind": s.Kind, "cut": s.Cut,
				"origin": s.Origin, "length": s.Length, "width": s.Width, "depth": s.Depth, "assumed": s.Assumed, "count": s.Count,
				"spares": s.Spares, "supplied": s.Count + s.Spares, "low": measure.Carat(s.Estimate.Low), "high": measure.Carat(s.Estimate.High),
				"style": s.Style, "inwax": s.InWax, "owner": s.Owner, "risk": s.Risk, "parcel": s.Parcel, "here": s.Here,
				"ordered": s.Ordered, "missing": dash})
		}
	}
	return t
}
