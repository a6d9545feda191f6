package workbook

import (
	"strings"

	"castweek/tree"
)

// treesTable is one row a casting: where it hangs and what it takes.
func treesTable(c *tree.Cast) *table {
	t := &table{name: "Trees", columns: []column{
		{key: "tree", width: 15, format: code},
		{key: "casting", width: 13, format: code},
		{key: "job", width: 12, format: code},
		{key: "design", width: 24, format: prose},
		{key: "part", width: 10, format: prose},
		{key: "alloy", width: 14, format: code},
		{key: "owner", width: 13, format: prose},
		{key: "flask", width: 12, format: code},
		{key: "material", width: 11, format: code},
		{key: "volume", width: 11, format: cubic},
		{key: "metal", width: 11, format: grams},
		{key: "length", width: 9, format: mm},
		{key: "width", width: 9, format: mm},
		{key: "height", width: 9, format: mm},
		{key: "thickest", width: 10, format: mm},
		{key: "feeders", width: 17, format: prose},
		{key: "refused", width: 26, format: prose},
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
