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
	treeFormula = `IF({usable}="yes",MAX(0,ROUNDUP({used}*{density}-` + dust + `,0))/1000,({patterns}+{feeders}+{trunk}))`
	// a real weight is a volume by the density of what the tree is built from
	usedFormula    = `IF({usable}="yes",{real}/{built}*1000,{volume})`
	usableFormula  = `IF(AND(ISNUMBER({real}),{built}>0),IF({real}>0,"yes","no"),"no")`
	stateFormula   = `IF({usable}="yes",IF({planned}=0,"no planned weight",IF(ABS({real}-{planned})>{planned}*{recount}/100,"stop and recount","as planned")),IF(ISBLANK({real}),"not weighed","cannot be used"))`
	offFormula     = `IF(AND({usable}="yes",{planned}>0),ROUND(({real}/{planned}-1)*100,2),"-")`
	buttonFormula  = `MAX(0,ROUNDUP(MAX(IF({shareof}="total",{tree_g}*{share}/(100-{share}),{tree_g}*{share}/100),{fixed},{cavity}*{density}/1000,{least})*1000-` + dust + `,0))/1000`
	lossFormula    = `MAX(0,ROUNDUP(({tree_g}+{button})*{loss_pc}/(100-{loss_pc})*1000-` + dust + `,0))/1000`
	totalFormula   = `ROUNDUP(ROUND(({tree_g}+{button}+{loss})*1000,0)/ROUND({step}*1000,0),0)*ROUND({step}*1000,0)/1000`
	roundFormula   = `ROUND(({total}-{tree_g}-{button}-{loss})*1000,0)/1000`
	lostFormula    = `IF(AND(ISNUMBER({in_g}),ISNUMBER({out_g}),ISNUMBER({back_g})),ROUND(({in_g}-{out_g}-{back_g})*1000,0)/1000,"-")`
	balanceOfMetal = `IF(ISNUMBER({lost}),IF({lost}<0,"more came back than went in",IF({lost}>{loss},"more than planned","as planned")),"not weighed")`
)

const heaviest = 20000 // grams: no built tree or charge of a small workshop weighs more

func weighing(name, say string) *limit {
	return &limit{name: name, least: 0.001, top: heaviest, title: "Weight in grams", say: say}
}

// chargeTable is one row a tree that may be poured. A person types the weight
// of the built tree and the metal follows.
func chargeTable(c *tree.Cast) *table {
	mats := materials(c)
	t := &table{name: "Charge", columns: []column{
		{key: "tree", head: "Tree", width: 15, format: code},
		{key: "alloy", head: "Alloy", width: 13, format: code},
		{key: "owner", head: "Owner of the metal", width: 13, format: words},
		{key: "flask", head: "Flask", width: 11, format: code},
		{key: "castings", head: "Castings (count)", width: 10, format: count},
		{key: "planned", head: "Built tree planned, without base (g)", width: 12, format: grams, formula: plannedFormula(mats)},
		{key: "real", head: "TYPE: built tree weighed, without base (g)", width: 13, format: grams,
			input: weighing("typed_built_tree", "The built tree before investing, without its base, in grams. Leave open until it is weighed.")},
		{key: "off", head: "Off plan (%)", width: 7, format: ratio, formula: offFormula},
		{key: "state", head: "State", width: 15, format: code, formula: stateFormula},
		{key: "tree_g", head: "Tree: castings, feeders, trunk (g)", width: 12, format: grams, formula: treeFormula},
		{key: "button", head: "Button (g)", width: 9, format: grams, formula: buttonFormula},
		{key: "loss", head: "Melt loss (g)", width: 8, format: grams, formula: lossFormula},
		{key: "rounding", head: "Rounding (g)", width: 10, format: grams, formula: roundFormula},
		{key: "total", head: "Metal to weigh out (g)", width: 12, format: grams, formula: totalFormula},
		{key: "in_g", head: "TYPE: metal weighed out (g)", width: 12, format: grams, input: weighing("typed_metal_out", "What went into the crucible, in grams.")},
		{key: "out_g", head: "TYPE: castings cut off (g)", width: 12, format: grams, input: weighing("typed_castings", "All castings of the tree, cut off and clean, in grams.")},
		{key: "back_g", head: "TYPE: button, trunk, feeders back (g)", width: 13, format: grams, input: weighing("typed_back", "Button, trunk and feeders that came back, in grams.")},
		{key: "lost", head: "Lost (g)", width: 8, format: grams, formula: lostFormula},
		{key: "balance", head: "Loss", width: 15, format: code, formula: balanceOfMetal},
		{key: "patterns", head: "Planned castings (g)", width: 11, format: grams, aside: true},
		{key: "feeders", head: "Planned feeders (g)", width: 11, format: grams, aside: true},
		{key: "trunk", head: "Planned trunk (g)", width: 11, format: grams, aside: true},
		{key: "planned_total", head: "Planned metal to weigh out (g)", width: 12, format: grams, aside: true},
		{key: "density", head: "Density of the alloy (g/cm³)", width: 12, format: figure, aside: true},
		{key: "rule", head: "Button rule", width: 14, format: code, aside: true},
		{key: "share", head: "Button share (%)", width: 9, format: figure, aside: true},
		{key: "shareof", head: "Button share of", width: 9, format: code, aside: true},
		{key: "fixed", head: "Button fixed (g)", width: 9, format: figure, aside: true},
		{key: "cavity", head: "Button cavity filled (mm³)", width: 10, format: figure, aside: true},
		{key: "least", head: "Button at least (g)", width: 9, format: figure, aside: true},
		{key: "loss_pc", head: "Melt loss (%)", width: 9, format: figure, aside: true},
		{key: "step", head: "Scale step (g)", width: 9, format: grams, aside: true},
		{key: "recount", head: "Recount when off by more than (%)", width: 12, format: figure, aside: true},
		{key: "volume", head: "Planned volume (mm³)", width: 11, format: cubic, aside: true},
		{key: "usable", head: "Typed weight is used", width: 9, format: code, formula: usableFormula, aside: true},
		{key: "used", head: "Volume used (mm³)", width: 11, format: cubic, formula: usedFormula, aside: true},
		{key: "built", head: "Density of the built tree (g/cm³)", width: 12, format: figure, formula: builtFormula(mats), aside: true},
	}}
	for i, m := range mats {
		t.columns = append(t.columns,
			column{key: fmt.Sprintf("g%d", i), head: "Planned " + m.Material + " (g)", width: 11, format: grams, aside: true},
			column{key: fmt.Sprintf("v%d", i), head: "Planned " + m.Material + " (mm³)", width: 11, format: figure, aside: true},
			column{key: fmt.Sprintf("d%d", i), head: "Density of " + m.Material + " (g/cm³)", width: 11, format: figure, aside: true})
	}
	for i := range c.Trees {
		if len(c.Trees[i].Refused) == 0 {
			t.rows = append(t.rows, chargeRow(&c.Trees[i], c.House, mats))
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

func chargeRow(tr *tree.Tree, h tree.House, mats []tree.MaterialWeight) row {
	ch := tr.Charge
	r := row{"tree": tr.Name, "alloy": tr.Alloy, "owner": tr.Owner, "flask": tr.Flask, "castings": len(tr.Castings),
		"off": dash, "state": "not weighed", "tree_g": ch.Tree(), "button": ch.Button, "loss": ch.MeltLoss, "rounding": ch.Rounding,
		"total": ch.Total, "lost": dash, "balance": "not weighed", "patterns": ch.Patterns, "feeders": ch.Feeders, "trunk": ch.Trunk, "planned_total": ch.Total,
		"density": float64(ch.Density), "rule": tr.Rule.String(), "share": 0.0, "shareof": dash, "fixed": 0.0, "cavity": 0.0,
		"least": tr.Rule.Minimum, "loss_pc": tr.Loss, "step": max(h.ScaleStep, 1), "recount": h.RecountBeyond(),
		"volume": tr.Patterns + tr.Feeders + tr.Trunk, "usable": "no", "used": tr.Patterns + tr.Feeders + tr.Trunk}
	switch tr.Rule.Kind {
	case metal.ButtonAdded:
		r["share"], r["shareof"] = tr.Rule.Share, "tree"
	case metal.ButtonOfTotal:
		r["share"], r["shareof"] = tr.Rule.Share, "total"
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
