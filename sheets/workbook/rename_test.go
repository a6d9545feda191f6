package workbook

import (
	"archive/zip"
	"bytes"
	"regexp"
	"strings"
	"testing"

	"castweek/metal/measure"
	"castweek/sheets/internal/reading"
	"castweek/sheets/internal/trial"
	"castweek/sheets/words"
)

// another is a language whose sheets have names that references have to quote,
// and whose words for yes and no stand in formulas.
func another(t *testing.T) *words.Words {
	t.Helper()
	text := string(words.EnglishFile())
	for was, is := range map[string]string{"book.sheet.charge = Charge": "book.sheet.charge = t Metaal & meer", "book.sheet.week = Week": "book.sheet.week = Deze week",
		"book.sheet.trees = Trees": "book.sheet.trees = Boom's lijst & <meer>", "book.sheet.lots = Lots": "book.sheet.lots = R1C1", "book.sheet.check = Check": "book.sheet.check = Контроль",
		"book.say.yes = yes": "book.say.yes = ja \"zeker\"", "book.say.agrees = OK": "book.say.agrees = klopt"} {
		if !strings.Contains(text, was) {
			t.Fatalf("no %q", was)
		}
		text = strings.Replace(text, was, is, 1)
	}
	w, problems := words.Read("nl.txt", []byte(text))
	if w == nil {
		t.Fatal(problems)
	}
	return w
}

// A workbook in another language refers to its own sheets everywhere, and what
// is typed into it is found.
func TestSheetsInAnotherLanguage(t *testing.T) {
	c := trial.Cast()
	data, remarks, err := WriteIn(c, another(t))
	if err != nil || len(remarks) > 0 {
		t.Fatal(remarks, err)
	}
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	old := regexp.MustCompile(`(?:Week|Trees|Charge|Lots|Check)(?:'|&#39;)?!`)
	for _, part := range z.File {
		text, err := read(part)
		if err != nil {
			t.Fatal(err)
		}
		if m := old.Find(text); m != nil {
			t.Errorf("%s refers to %s", part.Name, m)
		}
	}
	if typed, err := Inputs(data); err != nil || len(typed) > 0 {
		t.Errorf("a workbook as it is written holds %v, %v", typed, err)
	}
	f := open(t, data)
	const sheet = "t Metaal & meer"
	charge := chargeTable(c)
	if err := f.SetCellFloat(sheet, charge.letters("real")+"2", 6.5, -1, 64); err != nil {
		t.Fatal(err)
	}
	typed, err := Inputs(valueless(t, f))
	if err != nil || len(typed) != 1 || typed[0].Sheet != sheet {
		t.Errorf("%v, %v", typed, err)
	}
}

// LibreOffice follows a typed weight there too, to the milligram.
func TestOfficeInAnotherLanguage(t *testing.T) {
	if reading.UnderRace {
		t.Skip("one goroutine, and slow under the race detector")
	}
	t.Parallel()
	c := trial.Cast()
	w := another(t)
	data, _, err := WriteIn(c, w)
	if err != nil {
		t.Fatal(err)
	}
	charge := chargeTable(c)
	f := open(t, data)
	if err := f.SetCellFloat("t Metaal & meer", charge.letters("real")+"2", 6.5, -1, 64); err != nil {
		t.Fatal(err)
	}
	sheets := officeIn(t, valueless(t, f), w)
	want := retyped(c.Trees[0], c.House, measure.Gram(6.5))
	if got := columnOf(t, charge, sheets["Charge"], "total")[0]; milligrams(t, got) != want.Total {
		t.Errorf("LibreOffice makes it %s, metal.NewCharge %s", got, want.Total.Number(3))
	}
	if got := columnOf(t, charge, sheets["Charge"], "usable")[0]; got != `ja "zeker"` {
		t.Errorf("the typed weight is used: %q", got)
	}
	answers := columnOf(t, checkTable(c, weekTable(c), treesTable(c), charge, stonesTable(c)), sheets["Check"], "answer")
	for _, a := range answers {
		if a != "klopt" && a != w.Say("book.say.nottyped") && a != "-" {
			t.Errorf("a sum does not agree: %q", a)
		}
	}
}
