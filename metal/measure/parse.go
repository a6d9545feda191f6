package measure

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// A SyntaxError says why a typed quantity could not be read, and what to type
// instead. Code is stable: "number-bare", "number-comma", "number-form",
// "unit-unknown", "number-range".
type SyntaxError struct{ Code, Message, Remedy string }

func (e *SyntaxError) Error() string { return e.Message }

// maxNumber bounds what may be typed: no quantity of a workshop is larger.
const maxNumber = 1e9

// Number reads a plain decimal number: digits with at most one decimal point.
// No sign, exponent, group mark or decimal comma: what could be read in two
// ways is refused.
func Number(text string) (float64, error) {
	t := strings.TrimSpace(text)
	if strings.Contains(t, ",") {
		return 0, &SyntaxError{"number-comma", fmt.Sprintf("%q has a comma", t),
			"write a decimal point, and no mark between thousands: " + strings.ReplaceAll(t, ",", ".")}
	}
	whole, frac, point := strings.Cut(t, ".")
	if !digits(whole) || (point && !digits(frac)) {
		return 0, &SyntaxError{"number-form", fmt.Sprintf("%q is not a number", t), "write digits and at most one decimal point, such as 1.25"}
	}
	v, err := strconv.ParseFloat(t, 64)
	if err != nil || math.IsInf(v, 0) || v > maxNumber {
		return 0, &SyntaxError{"number-range", fmt.Sprintf("%q is too large", t), "check the number and its unit"}
	}
	return v, nil
}

// Whole reads a count: digits only, no leading zero, at most 1,000,000.
func Whole(text string) (int, error) {
	t := strings.TrimSpace(text)
	if !digits(t) || (len(t) > 1 && t[0] == '0') {
		return 0, &SyntaxError{"count-whole", fmt.Sprintf("%q is not a whole number", t), "write digits only, such as 3"}
	}
	v, err := strconv.Atoi(t)
	if err != nil || v > 1_000_000 {
		return 0, &SyntaxError{"number-range", fmt.Sprintf("%q is too large", t), "check the number"}
	}
	return v, nil
}

func digits(s string) bool {
	if s == "" {
		return false
	}
	for _, r := range s {
		if r < '0' || r > '9' {
			return false
		}
	}
	return true
}

// split parts "1.2 mm" or "1.2mm" into its number and its unit.
func split(text string) (number, unit string) {
	t := strings.TrimSpace(text)
	i := strings.IndexFunc(t, func(r rune) bool { return (r < '0' || r > '9') && r != '.' && r != ',' })
	if i < 0 {
		return t, ""
	}
	return strings.TrimSpace(t[:i]), strings.TrimSpace(t[i:])
}

// moreNumber is what goes on behind a plain number and is no unit: the exponent
// of 1e3, the fraction of 1/2, the groups of 1 000 and 1'000. Proposing the unit
// behind the first digits would propose another quantity.
var moreNumber = regexp.MustCompile(`^([eE][-+]?\d|[^\pL%‰°]*\d)`)

// quantity reads a number with one of the units, given as unit → factor. first
// is the unit that a remedy proposes.
func quantity(text, first string, units map[string]float64) (float64, error) {
	number, unit := split(text)
	if number == "" {
		return 0, &SyntaxError{"number-form", fmt.Sprintf("%q does not begin with a number", strings.TrimSpace(text)), "write a number with its unit, such as 1.2 " + first}
	}
	if moreNumber.MatchString(unit) {
		return 0, &SyntaxError{"number-form", fmt.Sprintf("%q does not begin with a plain number", strings.TrimSpace(text)), "write digits and at most one decimal point, such as 1.25 " + first}
	}
	v, err := Number(number)
	if err != nil {
		var s *SyntaxError
		if errors.As(err, &s) && unit != "" {
			s.Remedy += " " + unit
		}
		return 0, err
	}
	if unit == "" {
		return 0, &SyntaxError{"number-bare", fmt.Sprintf("%q has no unit", number), "write the unit with it: " + number + " " + first}
	}
	f, ok := units[unit]
	if !ok {
		return 0, &SyntaxError{"unit-unknown", fmt.Sprintf("%q is not a unit that is read here", unit), "write it in " + first + ": " + number + " " + first}
	}
	return v * f, nil
}

// ParseMM reads a length such as "1.2 mm" or "9 cm".
func ParseMM(text string) (MM, error) {
	v, err := quantity(text, "mm", map[string]float64{"mm": 1, "cm": 10})
	return MM(v), err
}

// ParseCubicMM reads a volume such as "450 mm3" or "0.45 cm3".
func ParseCubicMM(text string) (CubicMM, error) {
	v, err := quantity(text, "mm3", map[string]float64{"mm3": 1, "mm³": 1, "cm3": 1000, "cm³": 1000})
	return CubicMM(v), err
}

// ParseGram reads a weight such as "0.52 g", "520 mg" or "1.2 kg".
func ParseGram(text string) (Gram, error) {
	v, err := quantity(text, "g", map[string]float64{"g": 1, "mg": 0.001, "kg": 1000})
	return Gram(v), err
}

// ParseGramPerCC reads a density such as "15.2 g/cm3".
func ParseGramPerCC(text string) (GramPerCC, error) {
	v, err := quantity(text, "g/cm3", map[string]float64{"g/cm3": 1, "g/cm³": 1})
	return GramPerCC(v), err
}

// ParsePercent reads a share such as "0.5 %".
func ParsePercent(text string) (Percent, error) {
	v, err := quantity(text, "%", map[string]float64{"%": 1, "‰": 0.1})
	return Percent(v), err
}

// ParsePerMille reads a fineness such as "750 ‰" or "75 %".
func ParsePerMille(text string) (PerMille, error) {
	v, err := quantity(text, "‰", map[string]float64{"‰": 1, "%": 10})
	return PerMille(v), err
}

// ParseCarat reads a weight of stones such as "0.25 ct".
func ParseCarat(text string) (Carat, error) {
	v, err := quantity(text, "ct", map[string]float64{"ct": 1})
	return Carat(v), err
}

// ParseCelsius reads a temperature such as "732 °C".
func ParseCelsius(text string) (Celsius, error) {
	v, err := quantity(text, "°C", map[string]float64{"°C": 1, "C": 1})
	return Celsius(v), err
}

// ParseMinutes reads a duration such as "20 h", "15 min", "3 days" as minutes.
func ParseMinutes(text string) (float64, error) {
	return quantity(text, "h", map[string]float64{"h": 60, "min": 1, "day": 1440, "days": 1440})
}

// ParseSize reads an outer size such as "24 x 22 x 9 mm" (also with ×).
func ParseSize(text string) (Size, error) {
	l, err := ParseLengths(text)
	if err != nil {
		return Size{}, err
	}
	if len(l) != 3 {
		return Size{}, &SyntaxError{"number-form", fmt.Sprintf("%q has %d lengths, three are needed", strings.TrimSpace(text), len(l)), "write length x width x height, such as 24 x 22 x 9 mm"}
	}
	return Size{l[0], l[1], l[2]}, nil
}

// ParseLengths reads one or more lengths with one unit at the end, such as
// "2.0 mm", "6 x 4 mm" or "24 x 22 x 9 mm".
func ParseLengths(text string) ([]MM, error) {
	t := strings.TrimSpace(text)
	body, ok := strings.CutSuffix(t, "mm")
	if !ok {
		number, _ := split(t)
		if number == t {
			return nil, &SyntaxError{"number-bare", fmt.Sprintf("%q has no unit", t), "write the unit with it: " + t + " mm"}
		}
		return nil, &SyntaxError{"unit-unknown", fmt.Sprintf("%q does not end with mm", t), "write lengths in mm, such as 24 x 22 x 9 mm"}
	}
	var out []MM
	for _, part := range strings.FieldsFunc(body, func(r rune) bool { return r == 'x' || r == '×' || r == 'X' }) {
		v, err := Number(part)
		if err != nil {
			return nil, err
		}
		out = append(out, MM(v))
	}
	if len(out) == 0 || strings.Count(strings.ToLower(strings.ReplaceAll(body, "×", "x")), "x") != len(out)-1 {
		return nil, &SyntaxError{"number-form", fmt.Sprintf("%q is not a size", t), "write lengths with x between them, such as 24 x 22 x 9 mm"}
	}
	return out, nil
}
