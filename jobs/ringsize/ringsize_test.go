package ringsize

import (
	"errors"
	"math"
	"strings"
	"testing"

	"castweek/metal/measure"
	"pgregory.net/rapid"
)

func mustParse(t *testing.T, text string) Size {
	t.Helper()
	s, err := Parse(text)
	if err != nil {
		t.Fatalf("Parse(%q): %v", text, err)
	}
	return s
}

func near(t *testing.T, what string, got measure.MM, want, tolerance float64) {
	t.Helper()
	if math.Abs(float64(got)-want) > tolerance {
		t.Errorf("%s: %.4f, want %.4f ± %g", what, float64(got), want, tolerance)
	}
}

// Published lengths behind labels.
func TestPublishedLengths(t *testing.T) {
	for _, c := range []struct {
		text         string
		inside, circ float64 // 0: not given
		tolerance    float64
		source       string
	}{
		{"US 7", 17.323, 54.42, 0.005, "0.458 + 0.032 s inches, encyclopaedia article on ring size"},
		{"US 0", 11.63, 36.5, 0.05, "same article, table"},
		{"US 1/2", 12.04, 37.8, 0.05, "same article, table"},
		{"US 1", 12.45, 39.1, 0.05, "same article, table"},
		{"Japan 10", 16, 0, 1e-9, "Japanese shop page and forum note on the custom scale"},
		{"JP 19", 19, 0, 1e-9, "same"},
		{"Japan 22", 20, 0, 1e-9, "same"},
		{"Japan 15", 17.0 + 2.0/3, 0, 1e-9, "same"},
		{"UK C", 0, 40, 1e-9, "BS 6820:1987, at second hand"},
		{"UK A", 0, 37.5, 1e-9, "same"},
		{"UK N", 0, 53.75, 1e-9, "same"},
		{"UK N", 0, 53.8, 0.05 + 1e-9, "public chart"},
		{"UK Z", 0, 68.75, 1e-9, "BS 6820:1987, at second hand"},
		{"UK M", 16.7, 0, 0.05, "common practice, no source"},
		{"ISO 54", 17.2, 54, 0.05, "encyclopaedia table"},
		{"ISO 49", 15.6, 0, 0.05, "encyclopaedia table"},
		{"ISO 58", 18.5, 0, 0.05, "encyclopaedia table"},
		{"ISO 72", 22.9, 0, 0.05, "encyclopaedia table"},
		{"Swiss 10", 0, 50, 1e-9, "circumference less 40, encyclopaedia article"},
	} {
		s := mustParse(t, c.text)
		if s.AsTyped != c.text {
			t.Errorf("%s: kept as %q", c.text, s.AsTyped)
		}
		if c.inside > 0 {
			near(t, c.text+" inside ("+c.source+")", s.Inside, c.inside, c.tolerance)
		}
		if c.circ > 0 {
			near(t, c.text+" circumference ("+c.source+")", s.Circumference, c.circ, c.tolerance)
		}
	}
}

// The cross table derived from the rules of each system: US → nearest others.
func TestCrossTable(t *testing.T) {
	for _, row := range []struct{ us, iso, swiss, uk, japan string }{
		{"3", "44", "4", "F½", "4"}, {"4", "47", "7", "H½", "7"}, {"4.5", "48", "8", "I½", "8"},
		{"5", "49", "9", "J½", "9"}, {"5.5", "51", "11", "K½", "10"}, {"6", "52", "12", "L½", "12"},
		{"6.5", "53", "13", "M½", "13"}, {"7", "54", "14", "N½", "14"}, {"7.25", "55", "15", "O", "15"},
		{"7.5", "56", "16", "O½", "15"}, {"8", "57", "17", "P½", "16"}, {"9", "60", "20", "R½", "19"},
		{"10", "62", "22", "T½", "21"}, {"11", "65", "25", "V½", "24"}, {"12", "67", "27", "Y", "26"},
		{"13", "70", "30", "Z+1", "29"},
	} {
		s := mustParse(t, "US "+row.us)
		for system, want := range map[System]string{ISO: row.iso, Swiss: row.swiss, UK: row.uk, Japan: row.japan} {
			if got := s.Label(system).Text; got != want {
				t.Errorf("US %s: %s %q, want %q", row.us, system, got, want)
			}
		}
	}
}

// ISO 8653:1986 rounds halves up: 43.4 → 43, 43.5 → 44.
func TestISORounding(t *testing.T) {
	for circ, want := range map[measure.MM]string{43.4: "43", 43.5: "44", 43.49: "43", 44.49: "44"} {
		if got := OfCircumference(circ).Label(ISO).Text; got != want {
			t.Errorf("%s: ISO %s, want %s", circ, got, want)
		}
		if got := OfInside(circ / math.Pi).Label(ISO).Text; got != want {
			t.Errorf("%s by its diameter: ISO %s, want %s", circ, got, want)
		}
	}
	if s := mustParse(t, "ISO 8653-43"); s.Circumference != 43 {
		t.Errorf("ISO 8653-43 is %s round", s.Circumference)
	}
}

// Charts in use print other answers; none of them may come out here.
func TestPrintedErrorsDoNotComeOut(t *testing.T) {
	us7 := mustParse(t, "US 7")
	for _, wrong := range []Label{{System: UK, Text: "O"}, {System: UK, Text: "M½"}, {System: Japan, Text: "12"}} {
		if us7.Label(wrong.System).Text == wrong.Text {
			t.Errorf("US 7 gives %s", wrong)
		}
	}
}

func TestEveryLabelComesBack(t *testing.T) {
	count := 0
	for _, system := range Systems() {
		s, _ := scaleOf(system)
		last := measure.MM(0)
		for i := range s.steps {
			size := mustParse(t, system.Name()+" "+s.label(i))
			l := size.Label(system)
			if l.Text != s.label(i) || math.Abs(float64(l.Off)) > 1e-9 {
				t.Errorf("%s %s comes back as %s, off by %s", system, s.label(i), l, l.Off)
			}
			if size.Circumference <= last {
				t.Errorf("%s %s is not larger than the label before it", system, s.label(i))
			}
			if last = size.Circumference; !inReach(size) {
				t.Errorf("%s %s is outside the lengths that are read", system, s.label(i))
			}
			count++
		}
	}
	if want := 58 + 65 + 36 + 30 + 36; count != want {
		t.Errorf("%d labels, want %d", count, want)
	}
	near(t, "UK Z+6", mustParse(t, "UK Z+6").Circumference, 76.25, 1e-9)
}

func TestSpellings(t *testing.T) {
	for _, group := range [][]string{
		{"UK P½", "UK P1/2", "UK P 1/2", "uk p½", " UK  P½ ", "AU P½", "UK P ½"},
		{"US 6.5", "US 6½", "US 6 1/2", "us6.5", "USA 6.50"},
		{"US 0.25", "US 1/4", "US ¼", "US 0¼"},
		{"Japan 14", "JP 14", "jp14"},
		{"Swiss 14", "CH 14", "IT 14", "ISO 54", "54 mm circ", "54mm circumference", "54 mm round"},
		{"17.2 mm", "17.2 mm inside", "17.2mm diameter"},
		{"UK Z+2", "uk z + 2"},
	} {
		want := mustParse(t, group[0])
		for _, text := range group[1:] {
			if got := mustParse(t, text); math.Abs(float64(got.Inside-want.Inside)) > 1e-12 {
				t.Errorf("%q is %s, %q is %s", text, got, group[0], want)
			}
		}
	}
}

func TestRefusals(t *testing.T) {
	for _, c := range []struct{ text, code, says string }{
		{"", "size-form", "not a finger size"},
		{"14", "size-system", "US 14 (23.01 mm inside), Japan 14 (17.33 mm inside), Swiss 14 (17.19 mm inside), 14 mm inside diameter"},
		{"54", "size-system", "ISO 54 (17.19 mm inside), 54 mm circ"},
		{"17.2", "size-system", "17.2 mm inside diameter"},
		{"54.4", "size-system", "such as 54.4 mm circ"}, // as a diameter it would be refused
		{"54 circ", "number-bare", "54 mm circ"},
		{"J 14", "size-system", "Japan 14 (17.33 mm inside) or begin with the UK letter J (15.52 mm inside)"},
		{"j14", "size-system", "such as Japan 14"},
		{"J 99", "size-form", "not a finger size"},
		{"-3 mm", "size-range", "impossible"},
		{"\u22123 mm", "size-range", "impossible"},
		{"P½", "size-system", "UK P½ (18.10 mm inside)"},
		{"German 54", "size-which", "in Germany both are in use"},
		{"DE 17.2", "size-which", "in Germany both are in use"},
		{"54 mm", "size-range", "outside"},
		{"17.2 mm circ", "size-range", "outside"},
		{"HK 14", "size-system", "no one rule"},
		{"France 54", "size-system", "no one rule"},
		{"US 17", "size-range", "US sizes run from 0 to 16"},
		{"US 7.3", "size-form", "not a quarter"},
		{"US 7,5", "number-comma", "comma"},
		{"17,2 mm", "number-comma", "comma"},
		{"US 61/2", "size-form", "two ways"},
		{"US 6.5 1/2", "size-form", "two ways"},
		{"US -1", "size-form", "not a number"},
		{"US", "size-form", "no size"},
		{"ISO 54.5", "size-form", "whole numbers"},
		{"ISO 40", "size-range", "ISO sizes run from 41 to 76"},
		{"Japan 0", "size-range", "Japan sizes run from 1 to 30"},
		{"Japan 31", "size-range", "Japan sizes run from 1 to 30"},
		{"Swiss 37", "size-range", "Swiss sizes run from 1 to 36"},
		{"UK Z+7", "size-form", "not a UK size: UK sizes run from A to Z+6"},
		{"UK P¼", "size-form", "not a UK size"},
		{"UK PP", "size-form", "not a UK size"},
		{"UK 14", "size-form", "not a UK size"},
		{"Atlantis 7", "size-form", "not a finger size"},
		{"17.2 mm wide", "size-form", "not understood"},
		{strings.Repeat("é", 400), "size-form", "…"},
	} {
		_, err := Parse(c.text)
		var s *measure.SyntaxError
		if !errors.As(err, &s) {
			t.Errorf("%q: error %v is no SyntaxError", c.text, err)
			continue
		}
		if s.Code != c.code || !strings.Contains(s.Message+"; "+s.Remedy, c.says) || s.Remedy == "" {
			t.Errorf("%q: [%s] %s (%s); want [%s] with %q", c.text, s.Code, s.Message, s.Remedy, c.code, c.says)
		}
	}
}

// Beyond a scale there is no label, rather than its last one.
func TestOffTheScale(t *testing.T) {
	small := mustParse(t, "10 mm")
	for _, l := range small.Labels() {
		if l.Reached() {
			t.Errorf("10 mm inside has the label %s", l)
		}
	}
	if l := mustParse(t, "US 16").Label(ISO); l.Reached() {
		t.Errorf("US 16, 77.4 mm round, has the label %s", l)
	}
	if l := NearestLabel(System("moon"), 17); l.Reached() {
		t.Errorf("an unknown system gives %s", l)
	}
}

// The nearest label against a search by brute force over diameters.
func TestNearestIsNearest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := measure.MM(rapid.Float64Range(12.9, 21.5).Draw(t, "inside"))
		for _, got := range OfInside(d).Labels() {
			s, _ := scaleOf(got.System)
			for i := range s.steps {
				if other := math.Abs(float64(s.size(i).Inside - d)); other < math.Abs(float64(got.Inside-d))-1e-9 {
					t.Fatalf("%s for %s, but %s is nearer", got, d, s.label(i))
				}
			}
			near := float64(d)*math.Pi + float64(got.Off)
			if math.Abs(near-float64(got.Inside)*math.Pi) > 1e-9 {
				t.Fatalf("%s: off by %s does not lead to it", got, got.Off)
			}
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, text := range []string{"UK P½", "US 6 1/2", "ISO 8653-54", "54 mm circ", "17.2 mm", "Z+1", "14", "German 54", "US ,", "mm", "UKé½"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := Parse(text)
		if err != nil {
			var e *measure.SyntaxError
			if !errors.As(err, &e) || e.Code == "" || e.Remedy == "" {
				t.Errorf("%q: %#v", text, err)
			}
			return
		}
		if !inReach(s) || math.Abs(float64(s.Circumference-s.Inside*math.Pi)) > 1e-9 || s.System == "" {
			t.Errorf("%q was read as %+v", text, s)
		}
	})
}
