package workbook

import (
	"strings"

	"castweek/tree"
)

// treesTable is one row a casting: where it hangs and what it takes.
func treesTable(c *tree.Cast) *table {
	t := &table{name: "Trees", columns: []column{
		{key: "tree", head: "Tree", width: 15, format: code},
		{key: "casting", head: "Casting", width: 13, format: code},
		{key: "job", head: "Job", width: 12, format: code},
		{key: "design", head: "Design", width: 24, format: words},
		{key: "part", head: "Part", width: 10, format: words},
		{key: "alloy", head: "Alloy", width: 14, format: code},
		{key: "owner", head: "Owner of the metal", width: 13, format: words},
		{key: "flask", head: "Flask", width: 12, format: code},
		{key: "material", head: "Pattern material", width: 11, format: code},
		{key: "volume", head: "Pattern volume (mm³)", width: 11, format: cubic},
		{key: "metal", head: "Metal of the casting (g)", width: 11, format: grams},
		{key: "length", head: "Length (mm)", width: 9, format: mm},
		{key: "width", head: "Width (mm)", width: 9, format: mm},
		{key: "height", head: "Height (mm)", width: 9, format: mm},
		{key: "thickest", head: "Thickest (mm)", width: 10, format: mm},
		{key: "feeders", head: "Feeders", width: 17, format: words},
		{key: "refused", head: "Do not pour: reason", width: 26, format: words},
	}}
	for i := range c.Trees {
		tr := &c.Trees[i]
		for k := range tr.Castings {
			h := &tr.Castings[k]
			t.rows = append(t.rows, row{"tree": tr.Name, "casting": h.Casting, "job": h.Job, "design": h.Design, "part": h.Part,
				"alloy": tr.Alloy, "owner": tr.Owner, "flask": tr.Flask, "material": h.Material, "volume": h.Volume, "metal": h.Metal,
				"length": h.Outer.Length, "width": h.Outer.Width, "height": h.Outer.Height, "thickest": h.Thickest,
				"feeders": h.Feeders, "refused": strings.Join(tr.Refused, "; ")})
		}
	}
	return t
}
