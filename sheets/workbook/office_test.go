package workbook

import (
	"archive/zip"
	"bytes"
	"context"
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"castweek/metal"
	"castweek/metal/measure"
	"castweek/sheets/internal/reading"
	"castweek/sheets/internal/trial"
	"castweek/sheets/words"
	"castweek/tree"
)

// office opens a workbook with LibreOffice, which calculates it anew, and
// gives the cells of its sheets as they are shown.
func office(t *testing.T, data []byte) map[string][][]string {
	t.Helper()
	return officeIn(t, data, words.English())
}

// officeIn is office for a workbook in the language of the words; the sheets
// go by their English names.
func officeIn(t *testing.T, data []byte, w *words.Words) map[string][][]string {
	t.Helper()
	program, err := exec.LookPath("soffice")
	if err != nil {
		if os.Getenv("CASTWEEK_READERS") == "required" {
			t.Fatal("LibreOffice is required and not installed")
		}
		t.Skip("LibreOffice is not installed")
	}
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "week.xlsx"), data, 0o600); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(context.Background(), 2*time.Minute)
	defer cancel()
	// the last token, -1, exports every sheet to a file of its own
	cmd := exec.CommandContext(ctx, program, "-env:UserInstallation=file://"+filepath.Join(dir, "profile"), "--headless", "--convert-to",
		"csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true,false,false,false,-1", "--outdir", dir, filepath.Join(dir, "week.xlsx"))
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("LibreOffice: %v\n%s", err, out)
	}
	sheets := map[string][][]string{}
	for _, name := range []string{"Week", "Trees", "Charge", "Lots", "Buy", "Flasks", "Stones", "Steps", "Waiting", "Check", "About"} {
		f, err := os.Open(filepath.Join(dir, "week-"+(&book{words: w}).titleOf(name)+".csv"))
		if err != nil {
			t.Fatal(err)
		}
		sheets[name], err = csv.NewReader(f).ReadAll()
		f.Close()
		if err != nil {
			t.Fatal(err)
		}
	}
	return sheets
}

func said(w word) string { return (&book{words: words.English()}).say(w) }

// columnOf reads one column of a sheet below its header.
func columnOf(t *testing.T, tab *table, rows [][]string, key string) []string {
	t.Helper()
	n, err := excelize.ColumnNameToNumber(tab.letters(key))
	if err != nil || len(rows) != len(tab.rows)+1 {
		t.Fatalf("sheet %s has %d rows, want %d; %v", tab.name, len(rows), len(tab.rows)+1, err)
	}
	var out []string
	for _, r := range rows[1:] {
		out = append(out, r[n-1])
	}
	return out
}

// valueless takes the stored values of all formulas out of a workbook, so that
// what LibreOffice shows is its own calculation.
func valueless(t *testing.T, f *excelize.File) []byte {
	t.Helper()
	if err := f.UpdateLinkedValue(); err != nil {
		t.Fatal(err)
	}
	buf, err := f.WriteToBuffer()
	if err != nil {
		t.Fatal(err)
	}
	text, err := zip.NewReader(bytes.NewReader(buf.Bytes()), int64(buf.Len()))
	if err != nil {
		t.Fatal(err)
	}
	for _, part := range text.File {
		if b, err := read(part); err != nil || bytes.Contains(b, []byte("</f><v>")) {
			t.Fatalf("%s still holds values of formulas (%v)", part.Name, err)
		}
	}
	return buf.Bytes()
}

// milligrams reads a weight in grams as LibreOffice writes it.
func milligrams(t *testing.T, s string) measure.Milligram {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatalf("%q is no weight", s)
	}
	mg := measure.Gram(v).Round(1)
	if math.Abs(v*1000-float64(mg)) > 1e-6 {
		t.Errorf("%s g is no whole number of milligrams", s)
	}
	return mg
}

// LibreOffice calculates the charge of the plan, to the milligram, and finds
// that all sums agree.
func TestOfficeShowsThePlan(t *testing.T) {
	t.Parallel()
	c := trial.Cast()
	sheets := office(t, valueless(t, open(t, write(t, c))))
	charge := chargeTable(c)
	for key, of := range map[string]func(metal.Charge) measure.Milligram{
		"tree_g": metal.Charge.Tree, "button": func(ch metal.Charge) measure.Milligram { return ch.Button },
		"loss": func(ch metal.Charge) measure.Milligram { return ch.MeltLoss }, "rounding": func(ch metal.Charge) measure.Milligram { return ch.Rounding },
		"total": func(ch metal.Charge) measure.Milligram { return ch.Total },
	} {
		for i, got := range columnOf(t, charge, sheets["Charge"], key) {
			if want := of(c.Trees[i].Charge); milligrams(t, got) != want {
				t.Errorf("%s %s: LibreOffice makes it %s, the plan says %s", c.Trees[i].Name, key, got, want)
			}
		}
	}
	check := checkTable(c, weekTable(c), treesTable(c), charge, stonesTable(c))
	ok := 0
	for _, a := range columnOf(t, check, sheets["Check"], "answer") {
		if a == said(doesNotAgree) {
			t.Errorf("the sheet Check finds sums that do not agree: %v", sheets["Check"])
		}
		if a == said(agrees) {
			ok++
		}
	}
	if ok != 2+5*3+2 { // the flasks add one a tree and two of the cast
		t.Errorf("%d sums agree, want 19", ok)
	}
	if got := sheets["Week"][1][0]; !strings.HasPrefix(got, "2026-12-08 12:00") {
		t.Errorf("the due day is shown as %q", got)
	}
}

// Each case types the weight of a built tree and compares what LibreOffice and
// the library's calculator make of it with the charge of the same metal.
func TestTypedWeightMovesTheMetal(t *testing.T) {
	if reading.UnderRace {
		t.Skip("one goroutine, and slow under the race detector")
	}
	t.Parallel()
	c := trial.Cast()
	charge := chargeTable(c)
	weights := []float64{6.5, 22.4, 0.007} // within 3 % of the plan, far above, next to nothing
	f := open(t, write(t, c))
	for i, g := range weights {
		if err := f.SetCellFloat("Charge", fmt.Sprintf("%s%d", charge.letters("real"), i+2), g, -1, 64); err != nil {
			t.Fatal(err)
		}
	}
	states := []string{"stop and recount", "stop and recount", "stop and recount"}
	for i := range weights {
		var sum measure.Milligram
		for _, m := range c.Trees[i].Before {
			sum += m.Weight
		}
		if math.Abs(weights[i]-float64(sum.Gram())) <= 0.03*float64(sum.Gram()) {
			states[i] = "as planned"
		}
	}
	if states[0] != "as planned" {
		t.Fatalf("the first weight is meant to be as planned; the tree weighs %v", c.Trees[0].Before)
	}
	sheets := office(t, valueless(t, f))
	for i, g := range weights {
		want := retyped(c.Trees[i], c.House, measure.Gram(g))
		ref := func(key string) string { return fmt.Sprintf("%s%d", charge.letters(key), i+2) }
		for key, mg := range map[string]measure.Milligram{"tree_g": want.Tree(), "button": want.Button, "loss": want.MeltLoss, "rounding": want.Rounding, "total": want.Total} {
			if got := columnOf(t, charge, sheets["Charge"], key)[i]; milligrams(t, got) != mg {
				t.Errorf("%s at %v g, %s: LibreOffice makes it %s, metal.NewCharge %s", c.Trees[i].Name, g, key, got, mg.Number(3))
			}
			// the library's calculator is the second referee
			got, err := f.CalcCellValue("Charge", ref(key), excelize.Options{RawCellValue: true})
			v, _ := strconv.ParseFloat(got, 64)
			if err != nil || measure.Gram(v).Round(1) != mg {
				t.Errorf("%s at %v g, %s: the library's calculator makes it %s, metal.NewCharge %s (%v)", c.Trees[i].Name, g, key, got, mg.Number(3), err)
			}
		}
		if got := columnOf(t, charge, sheets["Charge"], "state")[i]; got != states[i] {
			t.Errorf("%s at %v g: state %q, want %q", c.Trees[i].Name, g, got, states[i])
		}
	}
	for _, a := range columnOf(t, checkTable(c, weekTable(c), treesTable(c), charge, stonesTable(c)), sheets["Check"], "answer") {
		if a == said(doesNotAgree) {
			t.Error("a typed weight makes sums disagree")
		}
	}
}

// retyped is the charge of a tree whose built weight was taken on a scale: the
// weight is a volume by the mean density of what the tree is planned to hold.
func retyped(tr tree.Tree, h tree.House, weighed measure.Gram) metal.Charge {
	var weight, volume float64
	for _, m := range tr.Before {
		weight += float64(m.Volume) * float64(m.Density)
		volume += float64(m.Volume)
	}
	return metal.NewCharge(metal.ChargeInput{Density: tr.Charge.Density, Castings: []measure.CubicMM{weighed.At(measure.GramPerCC(weight / volume))},
		Button: tr.Rule, Cavity: tr.Cavity, Loss: tr.Loss, Step: h.ScaleStep})
}
