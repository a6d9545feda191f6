package book

import (
	"strings"
	"testing"
)

// The sample's book as a spreadsheet program saves it: LibreOffice Calc 7.4,
// text in quotes, with rows of empty cells and a column too many as other
// programs leave them.
const saved = `"id","at","who","movement","lot","alloy","fineness","from","grams","owner","form","melts","tree","into","job","note","reverses",
1,"2026-11-27T16:00:00Z","Ines","opening","G-14","750 yellow",750,"certificate",60,,"grain",,,,,,,
,,,,,,,,,,,,,,,,,

2,"2026-11-27T16:20:00Z","Ines","opening","X-1","750 yellow",750.25,"assay",10.125,,"scrap",1,,,,"a ""note"", with comma",,
,,,,,,,,,,,,,,,,,
`

func TestSavedByASpreadsheet(t *testing.T) {
	next := move(ToTree, "G-14", 5_000).tree("A").alloy("750 yellow", 750_000)
	next.From = Certificate
	for name, data := range map[string]string{"Unix": saved, "Windows": "\ufeff" + strings.ReplaceAll(saved, "\n", "\r\n")} {
		b, l := Read("metal.csv", []byte(data))
		if len(l) > 0 || len(b.Movements) != 2 {
			t.Fatalf("%s: %v", name, l)
		}
		m := b.Movements[1]
		if m.Grams != 10_125 || m.Fineness != 750_250 || m.Note != `a "note", with comma` || m.Place.Line != 5 {
			t.Errorf("%s: %+v", name, m)
		}
		// and the book goes on
		line, m, l := AppendLine("metal.csv", []byte(data), next)
		if len(l) > 0 || m.ID != 3 || m.Place.Line != 7 {
			t.Fatalf("%s: %+v %v", name, m, l)
		}
		if b, l = Read("metal.csv", append([]byte(data), line...)); len(l) > 0 || len(b.Movements) != 3 {
			t.Errorf("%s: %v", name, l)
		}
	}
}
