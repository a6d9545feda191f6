package workbook

import (
	"fmt"

	"castweek/metal/measure"
	"castweek/tree"
)

// flasksTable is one row a tree that may be poured: its powder, its kiln load,
// its temperatures, and what becomes of its metal.
func flasksTable(c *tree.Cast) *table {
	t := &table{name: "Flasks", columns: []column{
		{key: "tree", width: 15, format: code},
		{key: "order", width: 10, format: count},
		{key: "pour", width: 17, format: day},
		{key: "load", width: 8, format: count},
		{key: "programme", width: 18, format: prose},
		{key: "on", width: 17, format: day},
		{key: "flask_c", width: 9, format: count},
		{key: "metal_c", width: 9, format: count},
		{key: "out", width: 10, format: figure},
		{key: "wait", width: 9, format: figure},
		{key: "wait_most", width: 9, format: figure},
		{key: "quench", width: 24, format: prose},
		{key: "powder", width: 16, format: prose},
		{key: "powder_g", width: 10, format: figure},
		{key: "liquid_g", width: 10, format: figure},
		{key: "castings_g", width: 11, format: grams},
		{key: "back_g", width: 11, format: grams},
		{key: "loss_g", width: 10, format: grams},
		{key: "total_g", width: 11, format: grams},
		{key: "charge_pc", width: 10, format: figure, formula: `IF({total_g}>0,ROUNDDOWN({castings_g}/{total_g}*100+` + dust + `,1),0)`},
		{key: "net_pc", width: 10, format: figure, formula: `IF({total_g}>0,ROUNDDOWN(({castings_g}+{back_g})/{total_g}*100+` + dust + `,1),0)`},
	}}
	for i := range c.Trees {
		tr := &c.Trees[i]
		if !tr.Pourable() {
			continue
		}
		y := tr.Yield
		r := row{"tree": tr.Name, "pour": tr.PourAt, "powder": tr.Powder, "powder_g": tr.Invest.Powder, "liquid_g": tr.Invest.Liquid,
			"castings_g": y.Castings, "back_g": y.TiedUp, "loss_g": y.Loss, "total_g": y.Total, "charge_pc": y.Charge, "net_pc": y.Net, "quench": quenchWord(tr.Quench)}
		known := func(key string, v float64, whole bool) {
			switch {
			case v <= 0: // a dash: nobody said
			case whole:
				r[key] = int(v + 0.5)
			default:
				r[key] = v
			}
		}
		known("order", float64(tr.Order), true)
		known("flask_c", float64(tr.FlaskAt), true)
		known("metal_c", float64(tr.MetalAt), true)
		known("out", c.Out(tr), false)
		known("wait", tr.Quench.Least, false)
		known("wait_most", tr.Quench.Most, false)
		if l := c.LoadOf(tr); l != nil {
			r["load"], r["programme"], r["on"] = l.Number, l.Programme, l.On
		}
		t.rows = append(t.rows, r)
	}
	return t
}

func quenchWord(q tree.Quench) any {
	switch {
	case q.Never:
		return word("noquench")
	case q.Disputed:
		return word("quenchdisputed")
	case q.Most <= 0:
		return word("quenchunknown")
	}
	return dash
}

// checkFlasks holds the flasks against what the plan says of the whole cast.
func checkFlasks(c *tree.Cast, flasks *table, add func(what, which, unit string, one, other live)) {
	if len(flasks.rows) == 0 {
		return
	}
	sum := func(f string) string { return "ROUND((" + f + ")*1000,0)/1000" }
	plain := func(m measure.Milligram) live { return live{m, sum(m.Number(3))} }
	for _, p := range c.Powders {
		var powder measure.Milligram
		row := -1
		for i, r := range flasks.rows {
			if r["powder"] == p.Powder {
				powder += r["powder_g"].(measure.Milligram)
				if row < 0 {
					row = i
				}
			}
		}
		if row < 0 {
			continue
		}
		add("powder", "", "unitg", live{powder, sum(fmt.Sprintf("SUMPRODUCT(--EXACT(%s,%s),%s)", flasks.span("powder"), flasks.at("powder", row), flasks.span("powder_g")))}, plain(p.Weight))
	}
	var back, lost measure.Milligram
	for _, r := range flasks.rows {
		back += r["back_g"].(measure.Milligram)
		lost += r["loss_g"].(measure.Milligram)
	}
	add("tiedup", "", "unitg", live{back, sum("SUM(" + flasks.span("back_g") + ")")}, plain(c.Yield.TiedUp))
	add("loss", "", "unitg", live{lost, sum("SUM(" + flasks.span("loss_g") + ")")}, plain(c.Yield.Loss))
	for i := range flasks.rows {
		r := flasks.rows[i]
		parts := r["castings_g"].(measure.Milligram) + r["back_g"].(measure.Milligram) + r["loss_g"].(measure.Milligram)
		add("metalparts", r["tree"].(string), "unitg",
			live{parts, sum(fmt.Sprintf("%s+%s+%s", flasks.at("castings_g", i), flasks.at("back_g", i), flasks.at("loss_g", i)))},
			live{r["total_g"], sum(flasks.at("total_g", i))})
	}
}
