package workbook

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"castweek/metal/measure"
	"castweek/sheets/internal/trial"
	"castweek/sheets/words"
	"castweek/tree"
)

func write(t *testing.T, c *tree.Cast) []byte {
	t.Helper()
	data, remarks, err := Write(c)
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range remarks {
		t.Log(r.Message)
	}
	return data
}

func open(t *testing.T, data []byte) *excelize.File {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f
}

func TestSheetsAndHeaders(t *testing.T) {
	f := open(t, write(t, trial.Cast()))
	want := []string{"Week", "Trees", "Charge", "Lots", "Buy", "Flasks", "Stones", "Steps", "Waiting", "Check", "About"}
	if got := f.GetSheetList(); fmt.Sprint(got) != fmt.Sprint(want) {
		t.Fatalf("sheets are %v, want %v", got, want)
	}
	for _, sheet := range want {
		p, err := f.GetPanes(sheet)
		if err != nil || !p.Freeze || p.YSplit != 1 {
			t.Errorf("%s: header row is not frozen: %+v %v", sheet, p, err)
		}
		props, err := f.GetSheetProps(sheet)
		if err != nil || props.FitToPage == nil || !*props.FitToPage {
			t.Errorf("%s does not fit the page: %v", sheet, err)
		}
		names := map[string]bool{}
		for _, d := range f.GetDefinedName() {
			if d.Scope == sheet {
				names[d.Name] = true
			}
		}
		if !names["_xlnm.Print_Area"] || !names["_xlnm.Print_Titles"] || !names["_xlnm._FilterDatabase"] {
			t.Errorf("%s: print area, titles or filter is missing: %v", sheet, names)
		}
		rows, err := f.GetRows(sheet)
		if err != nil || len(rows) < 1 {
			t.Fatalf("%s: %v", sheet, err)
		}
		for i, h := range rows[0] {
			if h == "" {
				t.Errorf("%s: header %d is empty", sheet, i)
			}
		}
	}
	p, err := f.GetDocProps()
	if err != nil || p.Created != "2026-12-01T07:00:00Z" || p.Creator != "Saltmarsh & Dory" {
		t.Errorf("document properties: %+v %v", p, err)
	}
}

func TestSameBytesTwice(t *testing.T) {
	a := write(t, trial.Cast())
	for range 3 {
		if !bytes.Equal(a, write(t, trial.Cast())) {
			t.Fatal("the same cast gave other bytes")
		}
	}
}

// No cell is empty but those that a person fills in.
func TestOnlyInputCellsAreOpen(t *testing.T) {
	c := trial.Cast()
	f := open(t, write(t, c))
	for _, tab := range []*table{weekTable(c), treesTable(c), chargeTable(c), stonesTable(c), stepsTable(c), waitingTable(c)} {
		for r := range tab.rows {
			for _, col := range tab.columns {
				v, err := f.GetCellValue(tab.name, fmt.Sprintf("%s%d", tab.letters(col.key), r+2))
				if err != nil || (v == "") != (col.input != nil) {
					t.Errorf("%s row %d %q: %q %v", tab.name, r+2, col.key, v, err)
				}
			}
		}
	}
}

// Every formula stands on cells, and its stored value is what the library's
// own calculator finds: a second referee beside LibreOffice.
func TestStoredValuesAreCalculatedOnes(t *testing.T) {
	c := trial.Cast()
	f := open(t, write(t, c))
	seen := 0
	for _, sheet := range f.GetSheetList() {
		rows, err := f.GetRows(sheet)
		if err != nil {
			t.Fatal(err)
		}
		for r := range rows {
			for i := range rows[r] {
				ref, _ := excelize.CoordinatesToCellName(i+1, r+1)
				formula, err := f.GetCellFormula(sheet, ref)
				if err != nil {
					t.Fatal(err)
				}
				if formula == "" {
					continue
				}
				seen++
				stored, _ := f.GetCellValue(sheet, ref, excelize.Options{RawCellValue: true})
				got, err := f.CalcCellValue(sheet, ref, excelize.Options{RawCellValue: true})
				if err != nil {
					t.Errorf("%s!%s %s: %v", sheet, ref, formula, err)
				}
				if !same(stored, got) {
					t.Errorf("%s!%s: stored %q, calculated %q by %s", sheet, ref, stored, got, formula)
				}
			}
		}
	}
	if seen < 60 {
		t.Errorf("only %d formulas were looked at", seen)
	}
}

func same(a, b string) bool {
	var x, y float64
	if _, err := fmt.Sscan(a, &x); err == nil {
		if _, err := fmt.Sscan(b, &y); err == nil {
			return math.Abs(x-y) < 1e-9*math.Max(1, math.Abs(x))
		}
	}
	return a == b
}

func TestTextsStayTexts(t *testing.T) {
	c := trial.Cast()
	long := strings.Repeat("long note ", 4000)
	for _, s := range []string{"=1+1", "+44 20", "-5", "@SUM(A1)", "=HYPERLINK(\"http://x\")", "_x0041_", "0412", "1e3", "12:30", "null\x00byte", "tab\tand\nline", "\xffbroken", "🙂 ring", long} {
		c.Waiting = append(c.Waiting, tree.Waiting{Job: "K-9", Design: s, For: s, Reason: s, Ask: s})
	}
	c.Bags[0].Design = "=cmd()"
	data, remarks, err := Write(c)
	if err != nil {
		t.Fatal(err)
	}
	f := open(t, data)
	codes := map[string]int{}
	for _, r := range remarks {
		codes[r.Code]++
	}
	if codes["text-cut"] != 8 || codes["text-control"] != 8 {
		t.Errorf("remarks: %v", codes)
	}
	rows, err := f.GetRows("Waiting")
	if err != nil {
		t.Fatal(err)
	}
	found := 0
	for r, cells := range rows {
		for i, v := range cells {
			ref, _ := excelize.CoordinatesToCellName(i+1, r+1)
			if formula, _ := f.GetCellFormula("Waiting", ref); formula != "" {
				t.Errorf("%s became the formula %q", ref, formula)
			}
			if typ, _ := f.GetCellType("Waiting", ref); v == "=1+1" && typ != excelize.CellTypeSharedString {
				t.Errorf("%s: %q is of type %v", ref, v, typ)
			}
			if v == "=1+1" || v == "0412" || v == "_x0041_" || v == "null□byte" {
				found++
			}
			if strings.HasPrefix(v, "long note") && !strings.Contains(v, "[cut here: ") {
				t.Error("a cut text does not say so")
			}
		}
	}
	if found != 16 {
		t.Errorf("found %d of 16 texts as they were typed", found)
	}
}

func TestNumbersThatAreNone(t *testing.T) {
	c := trial.Cast()
	c.Trees[0].Castings[0].Volume = measure.CubicMM(math.NaN())
	c.Trees[0].Castings[1].Outer.Length = measure.MM(math.Inf(1))
	data, remarks, err := Write(c)
	if err != nil {
		t.Fatal(err)
	}
	if len(remarks) != 2 || remarks[0].Code != "value-not-finite" {
		t.Errorf("remarks: %v", remarks)
	}
	rows, _ := open(t, data).GetRows("Trees")
	for _, cells := range rows {
		for _, v := range cells {
			if v == "NaN" || strings.Contains(v, "Inf") {
				t.Errorf("the sheet shows %q", v)
			}
		}
	}
}

func TestNothingToCast(t *testing.T) {
	f := open(t, write(t, &tree.Cast{Name: "2026-W50"}))
	if n := len(f.GetSheetList()); n != 11 {
		t.Errorf("%d sheets", n)
	}
}

// Every word stands in the catalogue, and a refused tree's jobs are told.
func TestWordsAndRefusedTrees(t *testing.T) {
	f := open(t, write(t, trial.Cast()))
	told := 0
	for _, sheet := range f.GetSheetList() {
		rows, err := f.GetRows(sheet)
		if err != nil {
			t.Fatal(err)
		}
		for r, cells := range rows {
			for i, v := range cells {
				if strings.Contains(v, "[book.") {
					t.Errorf("%s: no words for %s", sheet, v)
				}
				ref, _ := excelize.CoordinatesToCellName(i+1, r+1)
				if formula, _ := f.GetCellFormula(sheet, ref); strings.Contains(formula, "book.") || strings.Contains(formula, "[[") {
					t.Errorf("%s!%s: no words in %s", sheet, ref, formula)
				}
				if v == "tree is not poured" {
					told++
				}
			}
		}
	}
	if told != 2 {
		t.Errorf("the refused tree's job is told %d times, want on Week and on Waiting", told)
	}
	for _, l := range allInputs() {
		if said := words.English().Say("book." + l.key()); strings.HasPrefix(said, "[") || len(said) > 255 {
			t.Errorf("what %s says: %q", l.name, said)
		}
	}
}

// The paper is the house's: 9 is A4 and 1 is Letter in the file format.
func TestPaperOfTheHouse(t *testing.T) {
	for series, want := range map[string]int{"A": 9, "letter": 1} {
		c := trial.Cast()
		c.House.Series = series
		f := open(t, write(t, c))
		for _, sheet := range f.GetSheetList() {
			l, err := f.GetPageLayout(sheet)
			if err != nil || l.Size == nil || *l.Size != want || l.FitToWidth == nil || *l.FitToWidth != 1 {
				t.Errorf("%s, %s: %+v %v", series, sheet, l, err)
			}
		}
	}
}

// The marked cells refuse what is no weight or count.
func TestInputsAreValidated(t *testing.T) {
	f := open(t, write(t, trial.Cast()))
	for sheet, want := range map[string]int{"Charge": 4 + 2*fewestSlots, "Stones": 4, "Week": 0, "Lots": 0} {
		rules, err := f.GetDataValidations(sheet)
		if err != nil || len(rules) != want {
			t.Errorf("%s has %d rules, want %d; %v", sheet, len(rules), want, err)
		}
		for _, r := range rules {
			if !r.ShowErrorMessage || !r.ShowInputMessage || r.Error == nil || *r.Error == "" {
				t.Errorf("%s %s says nothing to a wrong entry", sheet, r.Sqref)
			}
		}
	}
}

// What the week page leaves to the workbook is there: the remarks of the bags too.
func TestRemarksOfBagsAreListed(t *testing.T) {
	c := trial.Cast()
	c.Bags[0].Remarks = []string{"the shank is thin; look at it"}
	for _, r := range waitingTable(c).rows {
		if r["job"] == c.Bags[0].Job && r["reason"] == c.Bags[0].Remarks[0] {
			return
		}
	}
	t.Error("a bag's remark is not on Waiting")
}
