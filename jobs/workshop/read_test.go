package workshop

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"castweek/metal"
)

func complete(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile("testdata/complete.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func TestCompleteFile(t *testing.T) {
	w, problems := Read("workshop.yaml", []byte(complete(t)))
	if len(problems) > 0 {
		t.Fatalf("%v", problems)
	}
	if got := w.AsOf.Format(time.RFC3339); got != "2026-11-30T08:00:00Z" {
		t.Error("as_of", got)
	}
	if w.CutOff != 20*time.Hour || w.BenchTime != 48*time.Hour {
		t.Error("spans", w.CutOff, w.BenchTime)
	}
	if f := w.Flasks[0]; f.Name != "90 x 150" || f.TrunkDiameter != 8 || f.TrunkLength != 110 || f.ButtonCavity != 12000 || f.Count != 4 {
		t.Errorf("flask %+v", f)
	}
	if w.ScaleStep != 10 || w.Button.Kind != metal.ButtonAdded || w.Button.Minimum != 10 {
		t.Errorf("scale %v, button %+v", w.ScaleStep, w.Button)
	}
	silver, _ := w.Alloys.Find("925 silver")
	if got := w.MeltLoss.Of(silver); got != 0.8 {
		t.Error("loss of silver", got)
	}
	if rose, ok := w.Alloys.Find("750 rose"); !ok || rose.Density() != 15.2 {
		t.Errorf("own alloy %+v", rose)
	}
}

// What may be left out takes its documented default.
func TestDefaults(t *testing.T) {
	short, _, _ := strings.Cut(complete(t), "# From here on")
	w, problems := Read("workshop.yaml", []byte(short))
	if len(problems) > 0 {
		t.Fatalf("%v", problems)
	}
	if w.Gaps != (Gaps{DefaultNeighbour, DefaultWall, DefaultWallResin, DefaultTop}) || w.MeltLoss.Default != metal.DefaultLoss || w.ScaleStep != DefaultScaleStep || w.Paper.Series != "A" || w.Hang != (HangRule{DefaultTilt, DefaultLeastTilt, DefaultMostTilt, DefaultLongestFeeder}) {
		t.Errorf("%+v", w)
	}
}

// Each row changes one line of the complete file, and names the code that must
// come of it.
func TestRefusals(t *testing.T) {
	for _, c := range []struct{ old, new, code string }{
		{"name: Invented house\n", "", "key-missing"},
		{"zone: Europe/London", "zone: Europe/Londom", "zone-unknown"},
		{"zone: Europe/London", "zone: Local", "zone-unknown"},
		{"08:00        #", "8:00 #", "date-form"},
		{"2026-11-30 08:00", "2026-03-29 01:30", "date-skipped"}, // London, clocks forward
		{"2026-11-30 08:00", "1926-11-30 08:00", "date-range"},
		{"cut_off: 20 h", "cut_off: 20", "number-bare"},
		{"cut_off: 20 h", "cut-off: 20 h", "key-missing key-unknown"},
		{"bench_time: 2 days", "bench_time: 2,5 days", "number-comma"},
		{"density: 0.96 g/cm3", "density: 0.96", "number-bare"},
		{"density: 0.96 g/cm3", "density: 9.6 g/cm3", "number-range"},
		{"name: resin,", "name: Wax,", "name-double"},
		{"burnout: resin", "burnout: rasin", "word-unknown"},
		{"trunk_material: wax", "trunk_material: waxx", "unknown-material"},
		{"trunk: 8 x 110 mm", "trunk: 8 x 140 mm", "trunk-long"},
		{"trunk: 8 x 110 mm", "trunk: 110 x 8 mm", "trunk-thick"},
		{"trunk: 8 x 110 mm", "trunk: 110 mm", "trunk-form"},
		{"count: 4", "count: 2.5", "count-whole"},
		{"tilt: 45°,", "tilt: 45,", "number-bare"},
		{"tilt: 45°,", "tilt: 120°,", "number-range"},
		{"least_tilt: 30°", "least_tilt: 50°", "tilt-order"},
		{"most_tilt: 75°", "most_tilt: 40 deg", "tilt-order"},
		{"longest_feeder: 15 mm", "longest_feeder: 90 mm", "number-range"},
		{"count: 4", "count: 0", "number-zero"},
		{"name: 100 x 120", "name: 90 x 150", "name-double kiln-flask"}, // and the kiln speaks of a flask that is gone
		{"alloys: [gold], limit", "alloys: [golt], limit", "unknown-alloy crucible-none"},
		{"limit: 400 g}\n  - {name: silver", "limit: 0 g}\n  - {name: silver", "number-zero"},
		{"melts: [gold, 925 silver]", "melts: [gold, platinum]", "crucible-none"},
		{"alloys: [gold, silver]}", "alloys: [gold, silver, platinum]}", "powder-gypsum-hot"},
		{"alloys: [gold, silver]}", "alloys: [950 palladium]}", "powder-gypsum-hot"},
		{"rule: 10% added", "rule: 10%", "button-rule"},
		{"wall_resin: 10 mm", "wall_resin: 5 mm", "gap-order"},
		{"stone_return: 0.15 mm", "stone_return: 0.01 mm", "limit-order"},
		{"alloy: 925 silver, loss", "alloy: 926 silver, loss", "unknown-alloy"},
		{"scale_step: 0.01 g", "scale_step: 0.0105 g", "scale-step"},
		{"decimal: point", "decimal: dot", "word-unknown"},
		{"copper 205]", "copper 215]", "composition-sum"},
		{"copper 205]", "cooper 205]", "element-unknown"},
		{"silver 45,", "silver 45, silver 3,", "name-double"},
		{"density: 15.2 g/cm3", "density: 19.9 g/cm3", "density-impossible"},
		{"density: 15.2 g/cm3", "density: 14.2 g/cm3", "density-doubtful"},
		{"medium: 30 %, heavy", "medium: 80 %, heavy", "number-range"},
		{"fill: 1 min", "fill: 2 min", "working-late"},
		{"flask_vacuum: 1 min}\n    sheet: invented for this file", "flask_vacuum: 1 min}", "sheet-missing"},
		{"3 h at 732 °C", "3 h at 760 °C", "burnout-gypsum"},
		{"3 h at 732 °C", "1 h at 732 °C", "burnout-ramp"},
		{"3 h at 732 °C", "3 h, 732 °C", "hold-form hold-form"},
		{"3 h at 732 °C", "3 h at 732", "number-bare"},
		{"pattern: wax #", "pattern: stones in the wax #", "burnout-stones"},
		{"bond: gypsum\n", "bond: plaster\n", "word-unknown"},
		{"ramp: 200 K/h", "ramp: 200 °C", "rate-form"},
		{"8 of 90 x 150, 6", "8 of 90 x 151, 6", "kiln-flask kiln-flask"},
		{"8 of 90 x 150, 6", "8 times 90 x 150, 6", "kiln-form"},
		{"8 of 90 x 150, 6 of", "6 of", "kiln-flask"},
		{"6 of 100 x 120]", "6 of 100 x 120, 5 of 100 x 120]", "name-double"},
		{"kiln: {flasks: 8,", "kiln: {flasks: 0,", "number-range"},
		{"ceiling: 480 °C", "ceiling: 800 °C", "number-range"},
		{"heat:\n  - {alloys: [925 silver]", "heat:\n  - {alloys: [926 silver]", "unknown-alloy"},
		{"thin: 600 °C", "thin: 400 °C", "heat-order"},
		{"wait_most: 20 min", "wait_most: 10 min", "wait-order"},
		{"metal: 970 °C", "metal: 97 °C", "number-range"},
		{"most_melts: 4", "most_melts: many", "count-whole"},
		{"alloy: 750 white, fresh", "alloy: 750 whit, fresh", "unknown-alloy"},
		{"fresh_share: 50 %", "fresh_share: 150 %", "number-range"},
		{"marks: United Kingdom", "marks: Atlantis", "country-unknown"},
		{"gold 750, silver 45, copper 205", "gold 740, silver 45, copper 215", "fineness-name"},
		{"gold 750, silver 45, copper 205", "gold 749.9, silver 45, copper 205.1", "fineness-name"},
	} {
		text := complete(t)
		if !strings.Contains(text, c.old) {
			t.Fatalf("the file has no %q", c.old)
		}
		w, problems := Read("workshop.yaml", []byte(strings.Replace(text, c.old, c.new, 1)))
		var codes []string
		for _, p := range problems {
			codes = append(codes, p.Code)
			if p.Remedy == "" || p.Place.Line == 0 {
				t.Errorf("%q: no remedy or line in %+v", c.new, p)
			}
		}
		if got := strings.Join(codes, " "); got != c.code {
			t.Errorf("%q: got %q, want %q\n%v", c.new, got, c.code, problems)
		}
		if (w == nil) != (len(problems.Errors()) > 0) {
			t.Errorf("%q: a workshop with errors was handed out", c.new)
		}
	}
}

// The page shows the file that the tests read.
func TestPage(t *testing.T) {
	page, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(page), "```yaml\n"+complete(t)+"```") {
		t.Error("the example of the page is not testdata/complete.yaml")
	}
}

// The house's word goes before the general rows, and a stricter row stays.
func TestHouseBeforeGeneral(t *testing.T) {
	w, problems := Read("workshop.yaml", []byte(complete(t)))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	reuse := func(w *Workshop, name string) Reuse {
		a, ok := w.Alloys.Find(name)
		if !ok {
			t.Fatal(name)
		}
		return w.Stock.ReuseOf(a)
	}
	const day = 24 * time.Hour
	for name, want := range map[string]Reuse{"750 yellow": {50, 10, 3 * day}, "750 white": {70, 4, 8 * day}, "585 white": {70, 10, 3 * day},
		"950 palladium": {100, 0, 3 * day}, "916 yellow": {50, 10, 3 * day}} {
		if got := reuse(w, name); got != want {
			t.Errorf("%s: %+v, want %+v", name, got, want)
		}
	}
	short, _, _ := strings.Cut(complete(t), "# From here on")
	bare, _ := Read("workshop.yaml", []byte(short))
	if got := reuse(bare, "916 yellow"); got != (Reuse{0, DefaultMelts, DefaultLead}) {
		t.Errorf("916 yellow without a word of the house: %+v", got)
	}
	if len(w.Firing.Programmes) != len(bare.Firing.Programmes)-2 || w.Firing.Programmes[0].Name != "wax, this kiln" {
		t.Errorf("programmes %+v", w.Firing.Programmes)
	}
	if w.Powders[1].Mixing.Ratio("thin") != 31 || w.Powders[0].Mixing.Ratio("thin") != 40 || w.Firing.StonesMost != 480 || !w.Stock.TakesStamps || bare.Stock.TakesStamps {
		t.Errorf("%+v %+v", w.Powders, w.Stock)
	}
	silver, _ := w.Alloys.Find("925 silver")
	if r := w.Firing.Room; r.Flasks != 8 || r.Sizes["90 x 150"] != 8 || r.Sizes["100 x 120"] != 6 || bare.Firing.Room.Known() {
		t.Errorf("room %+v", r)
	}
	if h, ok := w.Firing.HeatOf(silver); !ok || h.Quench != "stir when wet" {
		t.Errorf("heat %+v", h)
	}
}

// A span out of range is answered in units, not in bare minutes.
func TestSpansAreRefusedWithTheirUnits(t *testing.T) {
	for _, c := range []struct {
		text      string
		low, high float64
		want      string
	}{
		{"400 days", 0, 60 * 24 * 60, `"400 days" is outside 0 min to 60 days`},
		{"5 h", 1, 240, `"5 h" is outside 1 min to 4 h`},
		{"1 min", 0.25 * 60, 48 * 60, `"1 min" is outside 15 min to 48 h`},
		{"20 min", 0.25, 15, `"20 min" is outside 0.25 min to 15 min`},
		{"15 min", 0.25, 15, "<nil>"},
	} {
		if _, err := minutesWithin(c.low, c.high)(c.text); fmt.Sprint(err) != c.want {
			t.Errorf("%s: %v, want %s", c.text, err, c.want)
		}
	}
}
