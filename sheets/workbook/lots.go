package workbook

import (
	"fmt"
	"strings"

	"castweek/metal/measure"
	"castweek/tree"
)

// lotsTable is one row a lot on hand: what the plan takes of it, and what the
// lots typed on the sheet Charge leave of it.
func lotsTable(c *tree.Cast) *table {
	t := &table{name: "Lots", columns: []column{
		{key: "lot", width: 12, format: code},
		{key: "alloy", width: 13, format: code},
		{key: "owner", width: 13, format: prose},
		{key: "form", width: 9, format: code},
		{key: "fineness", width: 10, format: figure},
		{key: "from", width: 12, format: code},
		{key: "melts", width: 8, format: count},
		{key: "onhand", width: 11, format: grams},
		{key: "taken", width: 11, format: grams},
		{key: "promised", width: 11, format: grams},
		{key: "left", width: 11, format: grams},
		{key: "used", width: 11, format: grams, formula: "0"},
		{key: "stays", width: 11, format: grams, formula: `ROUND(({onhand}-{used})*1000,0)/1000`},
		{key: "state", width: 18, format: prose, formula: `IF({used}=0,[[nottyped]],IF({stays}<0,[[morethanthere]],[[agrees]]))`},
		{key: "barred", width: 40, format: prose},
	}}
	for _, l := range c.LotsLeft {
		t.rows = append(t.rows, row{"lot": l.Lot, "alloy": l.Alloy, "owner": ownerName(l.Owner), "form": l.Form, "fineness": float64(l.Fineness), "from": l.From, "melts": l.Melts,
			"onhand": l.OnHand, "taken": l.Taken, "promised": l.Promised, "left": l.Weight, "used": measure.Milligram(0), "stays": l.OnHand, "state": notYet, "barred": l.Barred})
	}
	return t
}

// ownerName is the owner of a lot as a tree names it.
func ownerName(owner string) string {
	if owner == "" {
		return "house"
	}
	return owner
}

// follow lets the lots add up what is typed for them on the sheet Charge. Names
// are compared sign by sign: a star in one is no wildcard.
func follow(lots, charge *table, slots int) {
	var parts []string
	for k := 1; k <= slots; k++ {
		parts = append(parts, fmt.Sprintf("SUMPRODUCT(--EXACT(%s,{lot}),%s)", charge.span(fmt.Sprintf("lot%d", k)), charge.span(fmt.Sprintf("lot%d_g", k))))
	}
	for i := range lots.columns {
		if lots.columns[i].key == "used" {
			lots.columns[i].formula = "ROUND((" + strings.Join(parts, "+") + ")*1000,0)/1000"
		}
	}
}

// buyTable is what to order, or to have brought, for which trees.
func buyTable(c *tree.Cast) *table {
	t := &table{name: "Buy", columns: []column{
		{key: "alloy", width: 16, format: code},
		{key: "weight", width: 12, format: grams},
		{key: "orderby", width: 17, format: day},
		{key: "from", width: 24, format: prose},
		{key: "trees", width: 40, format: prose},
	}}
	for _, b := range c.Buy {
		r := row{"alloy": b.Alloy, "weight": b.Weight, "trees": b.Trees(), "from": word("supplier"), "orderby": b.OrderBy}
		if b.Owner != "" {
			r["from"], r["orderby"] = b.Owner, dash
		}
		t.rows = append(t.rows, r)
	}
	return t
}
