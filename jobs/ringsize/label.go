package ringsize

import (
	"errors"
	"math"
	"strings"

	"castweek/metal/measure"
)

// readLabel reads the part of a size behind its system.
func readLabel(system System, label string) (Size, error) {
	s, _ := scaleOf(system)
	if system == UK {
		i, ok := letterStep(label)
		if !ok {
			return Size{}, refuse("size-form", "write a letter, with ½ or not, or Z+1 to Z+6, such as UK P½", "%q is not a UK size: %s", label, reach(s))
		}
		return s.size(i), nil
	}
	if system == ISO {
		label = strings.TrimPrefix(label, "8653-") // as the standard writes it
	}
	q, err := quarters(label)
	if err != nil {
		return Size{}, err
	}
	if system != US && q != math.Trunc(q/4)*4 {
		remedy := "write a whole size, or the measured inside diameter, such as 17.2 mm"
		return Size{}, refuse("size-form", remedy, "%s %s: %s sizes are whole numbers", system.Name(), label, system.Name())
	}
	if q != math.Trunc(q) {
		return Size{}, refuse("size-form", "write the nearest quarter, or the measured inside diameter, such as 17.2 mm", "US %s is not a quarter size", label)
	}
	i := int(q)
	switch system {
	case ISO:
		i = i/4 - 41
	case Japan, Swiss:
		i = i/4 - 1
	}
	if i < 0 || i >= s.steps {
		return Size{}, refuse("size-range", "check the system and the number, or write the inside diameter, such as 17.2 mm", "%s %s is off the scale: %s", system.Name(), label, reach(s))
	}
	return s.size(i), nil
}

// fractions are the ways to write a part of a size, in quarters.
var fractions = []struct {
	text     string
	quarters float64
}{{"¼", 1}, {"½", 2}, {"¾", 3}, {"1/4", 1}, {"1/2", 2}, {"3/4", 3}}

// fraction parts a fraction from the end of a label.
func fraction(label string) (rest string, q float64) {
	for _, f := range fractions {
		if before, ok := strings.CutSuffix(label, f.text); ok {
			return strings.TrimSpace(before), f.quarters
		}
	}
	return label, 0
}

// quarters reads "7", "7.25", "6 1/2", "6½" or "1/2" as a number of quarters,
// which is not whole for 7.3.
func quarters(label string) (float64, error) {
	number, part := fraction(label)
	if part > 0 && number == "" {
		return part, nil
	}
	// "61/2" would be 6½ or 61 halves: a space has to part them.
	joined := part > 0 && strings.Contains(label, "/")
	if joined && !strings.HasPrefix(label, number+" ") || part > 0 && strings.Contains(number, ".") {
		return 0, refuse("size-form", "write a space before the fraction, such as 6 1/2", "%q can be read in two ways", label)
	}
	v, err := measure.Number(number)
	if err != nil {
		var s *measure.SyntaxError
		if errors.As(err, &s) && s.Code == "number-form" {
			return 0, refuse("size-form", "write a number behind the system, such as US 7", "%q is not a number", label)
		}
		return 0, err
	}
	if v > 1000 { // far beyond every scale; keeps what follows a small int
		v = 1000
	}
	return v*4 + part, nil
}

// letterStep reads "P", "P½", "P 1/2" or "Z+3" as a step of the UK scale.
func letterStep(label string) (int, bool) {
	label = strings.ToUpper(label)
	if after, ok := strings.CutPrefix(strings.ReplaceAll(label, " ", ""), "Z+"); ok {
		if len(after) != 1 || after[0] < '1' || after[0] > '6' {
			return 0, false
		}
		return ukZ + 1 + int(after[0]-'0'), true
	}
	letter, part := fraction(label)
	if len(letter) != 1 || letter[0] < 'A' || letter[0] > 'Z' || part != 0 && part != 2 {
		return 0, false
	}
	return int(letter[0]-'A')*2 + int(part)/2, true
}
