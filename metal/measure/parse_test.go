package measure

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// code is that of a refusal, or "".
func code(err error) string {
	var s *SyntaxError
	if errors.As(err, &s) {
		return s.Code
	}
	return ""
}

// What could be read in two ways is refused.
func TestNumber(t *testing.T) {
	for text, want := range map[string]float64{"0": 0, "1.25": 1.25, " 7 ": 7, "007": 7, "0.001": 0.001, "1000000000": 1e9} {
		if got, err := Number(text); err != nil || got != want {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	for text, want := range map[string]string{
		"": "number-form", ".5": "number-form", "5.": "number-form", "-1": "number-form", "+1": "number-form", "1e3": "number-form", "0x10": "number-form", "1_000": "number-form",
		"NaN": "number-form", "Inf": "number-form", "1 000": "number-form", "1'000": "number-form", "1.2.3": "number-form", "٣": "number-form", "½": "number-form",
		"0,5": "number-comma", "1,000.5": "number-comma", "1000000000.1": "number-range", "9999999999999999999999": "number-range",
	} {
		if got, err := Number(text); code(err) != want {
			t.Errorf("%q: %v, %v; want %s", text, got, err, want)
		}
	}
}

func TestWhole(t *testing.T) {
	for text, want := range map[string]string{"0": "", "1": "", "1000000": "", "1000001": "number-range", "99999999999999999999": "number-range", "01": "count-whole", "1.0": "count-whole", "-1": "count-whole", "": "count-whole", "1e3": "count-whole"} {
		if _, err := Whole(text); code(err) != want {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
}

// Each quantity reads its own units only.
func TestQuantities(t *testing.T) {
	type parser func(string) (float64, error)
	of := func(f any) parser {
		return func(s string) (float64, error) {
			switch p := f.(type) {
			case func(string) (MM, error):
				v, err := p(s)
				return float64(v), err
			case func(string) (CubicMM, error):
				v, err := p(s)
				return float64(v), err
			case func(string) (Gram, error):
				v, err := p(s)
				return float64(v), err
			case func(string) (GramPerCC, error):
				v, err := p(s)
				return float64(v), err
			case func(string) (Percent, error):
				v, err := p(s)
				return float64(v), err
			case func(string) (PerMille, error):
				v, err := p(s)
				return float64(v), err
			case func(string) (Carat, error):
				v, err := p(s)
				return float64(v), err
			case func(string) (Celsius, error):
				v, err := p(s)
				return float64(v), err
			case func(string) (float64, error):
				return p(s)
			}
			panic(fmt.Sprintf("%T", f))
		}
	}
	for _, c := range []struct {
		parse parser
		text  string
		want  float64
		code  string
	}{
		{of(ParseMM), "1.2 mm", 1.2, ""}, {of(ParseMM), "9cm", 90, ""}, {of(ParseMM), "1.2", 0, "number-bare"}, {of(ParseMM), "1.2 g", 0, "unit-unknown"}, {of(ParseMM), "1,2 mm", 0, "number-comma"},
		{of(ParseMM), "-1 mm", 0, "number-form"}, {of(ParseMM), "mm", 0, "number-form"}, {of(ParseMM), "1e308 mm", 0, "number-form"}, {of(ParseMM), "1E-3 mm", 0, "number-form"}, {of(ParseMM), "1 mm2", 0, "unit-unknown"},
		{of(ParseCubicMM), "450 mm3", 450, ""}, {of(ParseCubicMM), "0.45 cm³", 450, ""}, {of(ParseCubicMM), "450 mm", 0, "unit-unknown"},
		{of(ParseGram), "0.52 g", 0.52, ""}, {of(ParseGram), "520 mg", 0.52, ""}, {of(ParseGram), "1.2 kg", 1200, ""}, {of(ParseGram), "1 oz", 0, "unit-unknown"}, {of(ParseGram), "1/2 g", 0, "number-form"}, {of(ParseGram), "1 000 g", 0, "number-form"}, {of(ParseGram), "1'000 g", 0, "number-form"}, {of(ParseGram), "1_000 g", 0, "number-form"}, {of(ParseGram), "5 eg", 0, "unit-unknown"}, {of(ParseGram), "1 ct", 0, "unit-unknown"},
		{of(ParseGramPerCC), "15.2 g/cm3", 15.2, ""}, {of(ParseGramPerCC), "15.2 g", 0, "unit-unknown"},
		{of(ParsePercent), "0.5 %", 0.5, ""}, {of(ParsePercent), "15 ‰", 1.5, ""}, {of(ParsePerMille), "750 ‰", 750, ""}, {of(ParsePerMille), "75 %", 750, ""},
		{of(ParseCarat), "0.25 ct", 0.25, ""}, {of(ParseCelsius), "732 °C", 732, ""}, {of(ParseCelsius), "1350 F", 0, "unit-unknown"}, {of(ParseCelsius), "1350 °F", 0, "unit-unknown"},
		{of(ParseMinutes), "20 h", 1200, ""}, {of(ParseMinutes), "2 days", 2880, ""}, {of(ParseMinutes), "0.5 min", 0.5, ""}, {of(ParseMinutes), "5 s", 0, "unit-unknown"},
	} {
		got, err := c.parse(c.text)
		if code(err) != c.code || err == nil && math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%q: %v, %v; want %v %s", c.text, got, err, c.want, c.code)
		}
	}
}

func TestSizes(t *testing.T) {
	for _, text := range []string{"24 x 22 x 9 mm", "24×22×9 mm", "24X22x9mm"} {
		if s, err := ParseSize(text); err != nil || s != (Size{24, 22, 9}) {
			t.Errorf("%q: %v %v", text, s, err)
		}
	}
	for text, want := range map[string]string{"24 x 22 mm": "number-form", "24 x 22 x 9": "unit-unknown", "24": "number-bare", "24 x  x 9 mm": "number-form", "x 1 x 2 x 3 mm": "number-form", "1,5 x 2 x 3 mm": "number-comma", "24 mm x 22 mm x 9 mm": "number-form", "": "number-bare"} {
		if s, err := ParseSize(text); code(err) != want {
			t.Errorf("%q: %v, %v; want %s", text, s, err, want)
		}
	}
}

// A weight is printed so that it can be typed again.
func TestWhatIsPrintedCanBeRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := Milligram(rapid.IntRange(0, 999_999_999).Draw(t, "mg"))
		if g, err := ParseGram(m.String()); err != nil || g.Round(1) != m {
			t.Fatalf("%v comes back as %v (%v)", m, g, err)
		}
	})
}

func FuzzQuantities(f *testing.F) {
	for _, s := range []string{"1.2 mm", "24 x 22 x 9 mm", "1,2 g", "NaN g", "1e308 kg", "½ mm", "\xff", "x x mm"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if v, err := ParseGram(text); err == nil && (math.IsNaN(float64(v)) || v < 0 || v > 1e12) {
			t.Errorf("%q: %v", text, v)
		}
		if l, err := ParseLengths(text); err == nil {
			for _, v := range l {
				if math.IsNaN(float64(v)) || v < 0 || v > 1e9 {
					t.Errorf("%q: %v", text, v)
				}
			}
		}
	})
}
