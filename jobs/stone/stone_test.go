package stone

import (
	"math"
	"slices"
	"strings"
	"testing"

	"castweek/metal/measure"
)

func TestFind(t *testing.T) {
	for typed, want := range map[string]string{
		"diamond": "diamond", "  Black  Opal ": "opal", "lab-grown diamond": "diamond", "blue sapphire": "sapphire", "CZ": "cubic zirconia",
		"cubic zirconia": "cubic zirconia", "rhodolite": "rhodolite garnet", "freshwater pearl": "pearl", "synthetic blue spinel": "spinel",
	} {
		if k := Find(typed); k.Name != want || !k.Known {
			t.Errorf("%q is found as %+v", typed, k)
		}
	}
	// Names that say another stone than their last word.
	for _, typed := range []string{"herkimer diamond", "smoky topaz", "balas ruby", "cape ruby", "moonrock", "", "white"} {
		k := Find(typed)
		if k.Known || k.SG != 0 || k.Care != mostDelicate() || k.Heat != lastOfAll || len(k.Notes) == 0 {
			t.Errorf("%q is taken for %+v", typed, k)
		}
	}
}

// Every row of the table is whole, and its SG lies in the range printed.
func TestTable(t *testing.T) {
	if len(Names()) < 25 {
		t.Fatalf("only %d kinds", len(Names()))
	}
	for _, name := range Names() {
		k := Find(name)
		if !k.Known || k.SG < 1.9 || k.SG > 6.1 || k.Mohs == "" || k.Source == "" || len(k.Notes) == 0 || k.Heat < 1 || k.Heat >= lastOfAll {
			t.Errorf("%s: %+v", name, k)
		}
		for _, cell := range k.Care.Cells() {
			if cell.Level == NotSaid {
				t.Errorf("%s: nothing said about %s", name, cell.Word)
			}
		}
		for _, note := range k.Notes {
			if note.Text == "" || note.Source == "" || len(note.Text) > 110 {
				t.Errorf("%s: note %+v", name, note)
			}
		}
		if k.Milder != (Care{}) && (k.Care.Stricter(k.Milder) != k.Care || k.Milder == k.Care) {
			t.Errorf("%s: the milder %s is not milder than %s", name, k.Milder, k.Care)
		}
	}
}

// The care table as published, with the stricter where sources part.
func TestCare(t *testing.T) {
	for kind, want := range map[string]string{
		"diamond": "torch with care", "ruby": "torch with care, acid with care",
		"emerald": "no torch, no ultrasonic, no steam, no acid", "topaz": "no torch, no ultrasonic, no steam, acid with care",
		"spinel": "torch with care, steam with care", "garnet": "no torch, ultrasonic with care, steam with care",
		"tourmaline": "no torch, no steam, ultrasonic with care, acid with care", "amethyst": "no torch, steam with care",
		"peridot": "no torch, no steam, no acid, ultrasonic with care", "aquamarine": "no torch, ultrasonic with care, steam with care, acid with care",
		"moonrock": "no torch, no ultrasonic, no steam, no acid",
	} {
		if got := Find(kind).Care.String(); got != want {
			t.Errorf("%s: %q, want %q", kind, got, want)
		}
	}
	if got := (Care{Tolerated, Tolerated, Tolerated, Tolerated}).String(); got != "nothing special" {
		t.Errorf("nothing to say is said as %q", got)
	}
}

func TestTreatments(t *testing.T) {
	for _, c := range []struct {
		kind, treatment string
		want            Care
		says            string
	}{
		{"ruby", "", Care{WithCare, Tolerated, Tolerated, WithCare}, "filled"},
		{"ruby", "Heated", Care{WithCare, Tolerated, Tolerated, WithCare}, ""},
		{"ruby", "glass-filled", mostDelicate(), "damp cloth only"},
		{"diamond", "irradiated", Care{KeepAway, Tolerated, Tolerated, Tolerated}, "500 °C"},
		{"diamond", "fracture filled", mostDelicate(), "damp cloth"},
		{"moissanite", "colour-treated", Care{KeepAway, WithCare, WithCare, WithCare}, "15 cm"},
		{"sapphire", "blessed", mostDelicate(), "not known here"},
	} {
		care, notes := CareOf(Find(c.kind), c.treatment)
		if care != c.want {
			t.Errorf("%s %s: %s", c.treatment, c.kind, care)
		}
		if !slices.ContainsFunc(notes, func(n Note) bool { return strings.Contains(n.Text, c.says) }) {
			t.Errorf("%s %s: no note says %q", c.treatment, c.kind, c.says)
		}
	}
	// A treatment never makes care milder, and never writes into the table.
	for _, name := range Names() {
		k := Find(name)
		before := len(k.Notes)
		for _, treatment := range []string{"", "none", "heated", "filled", "coated", "irradiated", "?"} {
			care, _ := CareOf(k, treatment)
			if care.Stricter(k.Care) != care {
				t.Errorf("%s, %s: %s is milder than %s", name, treatment, care, k.Care)
			}
		}
		if len(Find(name).Notes) != before {
			t.Errorf("%s: notes grew", name)
		}
	}
}

func TestHeatRank(t *testing.T) {
	order := []string{"diamond", "sapphire", "emerald", "opal", "moonrock"}
	for i := 1; i < len(order); i++ {
		if HeatRank(Find(order[i-1]), "") >= HeatRank(Find(order[i]), "") {
			t.Errorf("%s is not set before %s", order[i-1], order[i])
		}
	}
	if HeatRank(Find("ruby"), "glass-filled") <= HeatRank(Find("opal"), "") || HeatRank(Find("ruby"), "heated") != Find("ruby").Heat {
		t.Error("a treatment does not move a ruby as it should")
	}
	// What must never see a torch is never set before what may.
	for _, a := range Names() {
		for _, b := range Names() {
			if Find(a).Care.Torch == KeepAway && Find(b).Care.Torch != KeepAway && Find(a).Heat <= Find(b).Heat {
				t.Errorf("%s is set before %s", a, b)
			}
		}
	}
}

func TestCastInPlace(t *testing.T) {
	for kind, want := range map[string]Level{
		"diamond": WithCare, "ruby": WithCare, "sapphire": WithCare, "garnet": WithCare, "cubic zirconia": WithCare,
		"emerald": KeepAway, "opal": KeepAway, "jade": KeepAway, "amethyst": KeepAway, "topaz": KeepAway, "peridot": KeepAway, "coral": KeepAway,
		"aquamarine": KeepAway, "tourmaline": KeepAway, "pearl": KeepAway, "lapis": KeepAway, "turquoise": KeepAway, "onyx": KeepAway,
		"tanzanite": KeepAway, "moonrock": KeepAway, "moissanite": NotSaid, "spinel": NotSaid,
	} {
		if got, note := CastInPlace(Find(kind), ""); got != want || note.Text == "" || note.Source == "" {
			t.Errorf("%s: %s (%s), want %s", kind, got, note.Text, want)
		}
	}
	if got, _ := CastInPlace(Find("spinel"), "lab-grown"); got != WithCare {
		t.Errorf("lab-grown spinel: %s", got)
	}
}

func TestCuts(t *testing.T) {
	for typed, want := range map[string]Cut{"Round": Round, "emerald cut": EmeraldCut, "emerald-cut": EmeraldCut, "trillion": Trilliant, "round  brilliant": Round} {
		if got, ok := CutOf(typed); !ok || got != want {
			t.Errorf("%q: %q", typed, got)
		}
	}
	for _, typed := range []string{"", "emerald", "lump"} {
		if got, ok := CutOf(typed); ok {
			t.Errorf("%q: %q", typed, got)
		}
	}
	for _, cut := range Cuts() {
		if back, ok := CutOf(string(cut)); !ok || back != cut {
			t.Errorf("%s is not found", cut)
		}
		depth, d := AssumedDepth(cut, Find("ruby"), 6)
		if depth < 2.5 || depth > 6 || d.Source == "" {
			t.Errorf("%s of 6 mm: depth %s", cut, depth)
		}
		h := HeightsOf(cut, depth)
		if math.Abs(float64(h.Crown+h.Girdle+h.Pavilion-depth)) > 1e-9 || cut.Faceted() != (h.Girdle > 0) {
			t.Errorf("%s: %+v of %s", cut, h, depth)
		}
	}
}

func TestCalibrationTolerance(t *testing.T) {
	for _, c := range []struct {
		kind string
		d    measure.MM
		ct   measure.Carat
		want measure.MM
	}{{"diamond", 2, 0.03, 0.05}, {"sapphire", 4, 0.4, 0.1}, {"sapphire", 7, 1.6, 0.2}} {
		if got := CalibrationTolerance(Find(c.kind), c.d, c.ct); got.Usual != c.want || got.Wide <= got.Usual || got.Source == "" {
			t.Errorf("%s %s: %+v", c.kind, c.d, got)
		}
	}
}

func FuzzFind(f *testing.F) {
	f.Add("blue sapphire")
	f.Add("lab grown fire opal")
	f.Fuzz(func(t *testing.T, name string) {
		k := Find(name)
		if k.Care == (Care{}) || k.Heat == 0 || k.Known != (k.SG > 0) {
			t.Errorf("%q: %+v", name, k)
		}
		CareOf(k, name)
		CutOf(name)
	})
}
