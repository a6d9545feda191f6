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

func counting(name string) *limit {
	return &limit{name: name, whole: true, top: mostStones, title: "count"}
}

// stonesTable is one row for each line of stones in a bag. What is pulled must
// be set, returned, broken or lost.
func stonesTable(c *tree.Cast) *table {
	t := &table{name: "Stones", columns: []column{
		{key: "job", width: 10, format: code},
		{key: "bag", width: 14, format: prose},
		{key: "mark", width: 6, format: code},
		{key: "place", width: 14, format: prose},
		{key: "kind", width: 12, format: prose},
		{key: "cut", width: 12, format: prose},
		{key: "origin", width: 10, format: prose},
		{key: "length", width: 8, format: mm},
		{key: "width", width: 8, format: mm},
		{key: "depth", width: 8, format: mm},
		{key: "assumed", width: 9, format: code},
		{key: "count", width: 8, format: count},
		{key: "spares", width: 8, format: count},
		{key: "supplied", width: 9, format: count, formula: suppliedFormula},
		{key: "low", width: 10, format: carats},
		{key: "high", width: 10, format: carats},
		{key: "style", width: 11, format: prose},
		{key: "inwax", width: 7, format: code},
		{key: "owner", width: 14, format: prose},
		{key: "risk", width: 12, format: prose},
		{key: "parcel", width: 9, format: code},
		{key: "here", width: 6, format: code},
		{key: "ordered", width: 18, format: prose},
		{key: "pulled", width: 9, format: count, input: counting("typed_pulled")},
		{key: "set", width: 9, format: count, input: counting("typed_set")},
		{key: "returned", width: 9, format: count, input: counting("typed_returned")},
		{key: "broken", width: 9, format: count, input: counting("typed_broken")},
		{key: "missing", width: 9, format: count, formula: balanceFormula},
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
