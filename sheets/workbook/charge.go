package workbook

import (
	"fmt"
	"strings"

	"castweek/metal"
	"castweek/metal/measure"
	"castweek/tree"
)

// dust is how far a weight may lie beyond a whole milligram and still count as
// that one; the same allowance as metal/measure makes for the last bits of a
// floating-point product.
const dust = "0.000001"

// Formulas of the charge, over one row. They follow metal.NewCharge line by
// line: the tree rounded up to whole milligrams, the button by its rule over
// the tree, the loss as a share of what is charged, and the sum rounded up to
// the scale's step, in whole milligrams so that 0.07*100 stays 7.
const (
	treeFormula = `IF({usable}=[[yes]],MAX(0,ROUNDUP({used}*{density}-` + dust + `,0))/1000,({patterns}+{feeders}+{trunk}))`
	// a real weight is a volume by the density of what the tree is built from
	usedFormula    = `IF({usable}=[[yes]],{real}/{built}*1000,{volume})`
	usableFormula  = `IF(AND(ISNUMBER({real}),{built}>0),IF({real}>0,[[yes]],[[no]]),[[no]])`
	stateFormula   = `IF({usable}=[[yes]],IF({planned}=0,[[unplanned]],IF(ABS({real}-{planned})>{planned}*{recount}/100,[[recount]],[[asplanned]])),IF(ISBLANK({real}),[[notweighed]],[[unusable]]))`
	offFormula     = `IF(AND({usable}=[[yes]],{planned}>0),ROUND(({real}/{planned}-1)*100,2),"-")`
	buttonFormula  = `MAX(0,ROUNDUP(MAX(IF({shareof}=[[total]],{tree_g}*{share}/(100-{share}),{tree_g}*{share}/100),{fixed},{cavity}*{density}/1000,{least})*1000-` + dust + `,0))/1000`
	lossFormula    = `MAX(0,ROUNDUP(({tree_g}+{button})*{loss_pc}/(100-{loss_pc})*1000-` + dust + `,0))/1000`
	totalFormula   = `ROUNDUP(ROUND(({tree_g}+{button}+{loss})*1000,0)/ROUND({step}*1000,0),0)*ROUND({step}*1000,0)/1000`
	roundFormula   = `ROUND(({total}-{tree_g}-{button}-{loss})*1000,0)/1000`
	chargedFormula = `IF(ISNUMBER({in_g}),{in_g},IF({lots_g}>0,{lots_g},"-"))` // the lots, where nobody typed their sum
	lostFormula    = `IF(AND(ISNUMBER({charged}),ISNUMBER({out_g}),ISNUMBER({back_g})),ROUND(({charged}-{out_g}-{back_g})*1000,0)/1000,"-")`
	balanceOfMetal = `IF(ISNUMBER({lost}),IF({lost}<0,[[gained]],IF({lost}>{loss},[[lostmore]],[[asplanned]])),[[notweighed]])`
)

const heaviest = 20000 // grams: no built tree or charge of a small workshop weighs more

func weighing(name string) *limit {
	return &limit{name: name, least: 0.001, top: heaviest, title: "weight"}
}

// chargeTable is one row a tree that may be poured. A person types the weight
// of the built tree and the metal follows.
func chargeTable(c *tree.Cast) *table {
	mats := materials(c)
	t := &table{name: "Charge", stays: true, columns: []column{
		{key: "tree", width: 15, format: code},
		{key: "alloy", width: 13, format: code},
		{key: "owner", width: 13, format: prose},
		{key: "flask", width: 11, format: code},
		{key: "castings", width: 10, format: count},
		{key: "planned", width: 12, format: grams, formula: plannedFormula(mats)},
		{key: "real", width: 13, format: grams,
			input: weighing("typed_built_tree")},
		{key: "off", width: 7, format: ratio, formula: offFormula},
		{key: "state", width: 15, format: prose, formula: stateFormula},
		{key: "tree_g", width: 12, format: grams, formula: treeFormula},
		{key: "button", width: 9, format: grams, formula: buttonFormula},
		{key: "loss", width: 8, format: grams, formula: lossFormula},
		{key: "rounding", width: 10, format: grams, formula: roundFormula},
		{key: "total", width: 12, format: grams, formula: totalFormula},
		{key: "in_g", width: 12, format: grams, input: weighing("typed_metal_out")},
		{key: "out_g", width: 12, format: grams, input: weighing("typed_castings")},
		{key: "back_g", width: 13, format: grams, input: weighing("typed_back")},
		{key: "lost", width: 8, format: grams, formula: lostFormula},
		{key: "balance", width: 15, format: prose, formula: balanceOfMetal},
	}}
	t.columns = append(t.columns, meltColumns(lotsTable(c), lotSlots(c))...)
	t.columns = append(t.columns, []column{
		{key: "patterns", width: 11, format: grams, aside: true},
		{key: "feeders", width: 11, format: grams, aside: true},
		{key: "trunk", width: 11, format: grams, aside: true},
		{key: "planned_total", width: 12, format: grams, aside: true},
		{key: "density", width: 12, format: figure, aside: true},
		{key: "rule", width: 14, format: code, aside: true},
		{key: "share", width: 9, format: figure, aside: true},
		{key: "shareof", width: 9, format: code, aside: true},
		{key: "fixed", width: 9, format: figure, aside: true},
		{key: "cavity", width: 10, format: figure, aside: true},
		{key: "least", width: 9, format: figure, aside: true},
		{key: "loss_pc", width: 9, format: figure, aside: true},
		{key: "step", width: 9, format: grams, aside: true},
		{key: "recount", width: 12, format: figure, aside: true},
		{key: "volume", width: 11, format: cubic, aside: true},
		{key: "usable", width: 9, format: code, formula: usableFormula, aside: true},
		{key: "used", width: 11, format: cubic, formula: usedFormula, aside: true},
		{key: "charged", width: 12, format: grams, formula: chargedFormula, aside: true},
		{key: "built", width: 12, format: figure, formula: builtFormula(mats), aside: true},
	}...)
	for i, m := range mats {
		t.columns = append(t.columns,
			column{key: fmt.Sprintf("g%d", i), head: "material_g", of: m.Material, width: 11, format: grams, aside: true},
			column{key: fmt.Sprintf("v%d", i), head: "material_mm3", of: m.Material, width: 11, format: figure, aside: true},
			column{key: fmt.Sprintf("d%d", i), head: "material_density", of: m.Material, width: 11, format: figure, aside: true})
	}
	for i := range c.Trees {
		if len(c.Trees[i].Refused) == 0 {
			t.rows = append(t.rows, chargeRow(&c.Trees[i], c.House, mats, lotSlots(c)))
		}
	}
	return t
}

// materials of all built trees, by first appearance.
func materials(c *tree.Cast) []tree.MaterialWeight {
	var out []tree.MaterialWeight
	seen := map[string]bool{}
	for i := range c.Trees {
		for _, m := range c.Trees[i].Before {
			if !seen[m.Material] {
				seen[m.Material] = true
				out = append(out, m)
			}
		}
	}
	return out
}

func plannedFormula(mats []tree.MaterialWeight) string {
	parts := []string{"0"}
	for i := range mats {
		parts = append(parts, fmt.Sprintf("{g%d}", i))
	}
	return "ROUND((" + strings.Join(parts, "+") + ")*1000,0)/1000"
}

// builtFormula is the density of a tree that is built from several materials:
// its planned weight over its planned volume. For one material it is that
// material's own; for a mixed tree the proportions are taken as planned, since
// one weighing cannot tell resin from wax.
func builtFormula(mats []tree.MaterialWeight) string {
	weight, volume := []string{"0"}, []string{"0"}
	for i := range mats {
		weight = append(weight, fmt.Sprintf("{v%d}*{d%d}", i, i))
		volume = append(volume, fmt.Sprintf("{v%d}", i))
	}
	v := strings.Join(volume, "+")
	return "IF(" + v + "=0,0,(" + strings.Join(weight, "+") + ")/(" + v + "))"
}

func chargeRow(tr *tree.Tree, h tree.House, mats []tree.MaterialWeight, slots int) row {
	ch := tr.Charge
	r := row{"tree": tr.Name, "alloy": tr.Alloy, "owner": tr.Owner, "flask": tr.Flask, "castings": len(tr.Castings),
		"off": dash, "state": word("notweighed"), "tree_g": ch.Tree(), "button": ch.Button, "loss": ch.MeltLoss, "rounding": ch.Rounding,
		"total": ch.Total, "lost": dash, "balance": word("notweighed"), "patterns": ch.Patterns, "feeders": ch.Feeders, "trunk": ch.Trunk, "planned_total": ch.Total,
		"density": float64(ch.Density), "rule": tr.Rule.String(), "share": 0.0, "shareof": dash, "fixed": 0.0, "cavity": 0.0,
		"least": tr.Rule.Minimum, "loss_pc": tr.Loss, "step": max(h.ScaleStep, 1), "recount": h.RecountBeyond(),
		"volume": tr.Patterns + tr.Feeders + tr.Trunk, "usable": word("no"), "used": tr.Patterns + tr.Feeders + tr.Trunk}
	r["charged"] = dash
	meltRow(r, tr, slots)
	switch tr.Rule.Kind {
	case metal.ButtonAdded:
		r["share"], r["shareof"] = tr.Rule.Share, word("tree")
	case metal.ButtonOfTotal:
		r["share"], r["shareof"] = tr.Rule.Share, word("total")
	case metal.ButtonFixed:
		r["fixed"] = tr.Rule.Fixed
	case metal.ButtonByFlask:
		r["cavity"] = tr.Cavity
	}
	var planned measure.Milligram
	var weight, volume float64
	for i, m := range mats {
		g, v, d := fmt.Sprintf("g%d", i), fmt.Sprintf("v%d", i), fmt.Sprintf("d%d", i)
		r[g], r[v], r[d] = measure.Milligram(0), measure.CubicMM(0), float64(m.Density)
		for _, own := range tr.Before {
			if own.Material == m.Material {
				r[g], r[v] = own.Weight, own.Volume
				planned += own.Weight
				weight += float64(own.Volume) * float64(m.Density)
				volume += float64(own.Volume)
			}
		}
	}
	r["planned"], r["built"] = planned, 0.0
	if volume > 0 {
		r["built"] = weight / volume
	}
	return r
}
