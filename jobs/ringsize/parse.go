package ringsize

import (
	"errors"
	"regexp"
	"strings"
	"unicode"

	"castweek/metal/measure"
)

// longest bounds what is read as a size, in bytes.
const longest = 60

// systemWords are the words that may stand in front of a label.
var systemWords = map[string]System{
	"uk": UK, "gb": UK, "ie": UK, "au": UK, "nz": UK, "za": UK,
	"us": US, "usa": US, "ca": US, "canada": US,
	"iso": ISO, "japan": Japan, "jp": Japan, "jcs": Japan,
	"swiss": Swiss, "ch": Swiss, "italy": Swiss, "it": Swiss, "spain": Swiss, "es": Swiss,
}

// Places that are asked for by name but whose number does not settle a length.
var (
	bothInUse  = map[string]bool{"german": true, "germany": true, "de": true}
	noFormula  = map[string]bool{"hk": true, "china": true, "cn": true, "india": true, "in": true, "french": true, "france": true, "fr": true, "eu": true, "euro": true}
	lengthWord = map[string]bool{ // true: the length is the circumference
		"": false, "dia": false, "diameter": false, "inside": false, "inside diameter": false, "inside dia": false,
		"circ": true, "circumference": true, "round": true,
	}
)

// Parse reads a size such as "UK P½", "UK P 1/2", "US 7.25", "ISO 54",
// "Japan 14", "Swiss 14", "17.2 mm" (inside diameter) or "54 mm circ". A label
// without its system is refused, and the message names the systems it would
// fit. Every error is a *measure.SyntaxError with code "size-form",
// "size-system", "size-range", "size-which" or one of those of
// [measure.Number].
func Parse(text string) (Size, error) {
	t := strings.Join(strings.Fields(text), " ")
	if t == "" || len(t) > longest {
		return Size{}, refuse("size-form", "write a size with its system, such as UK P½, US 7 or 17.2 mm", "%q is not a finger size", cut(t))
	}
	s, err := read(t)
	if err != nil {
		return Size{}, err
	}
	s.AsTyped = strings.TrimSpace(text)
	return s, nil
}

func cut(t string) string {
	if len(t) <= longest {
		return t
	}
	return strings.ToValidUTF8(t[:longest], "") + "…"
}

func read(t string) (Size, error) {
	if below.MatchString(t) {
		return Size{}, refuse("size-range", giveInMM, "%q is impossible: no finger size is below zero", t)
	}
	if number, word, ok := strings.Cut(strings.ToLower(t), "mm"); ok {
		return readLength(t, strings.TrimSpace(number), strings.TrimSpace(word))
	}
	if number, word, ok := strings.Cut(strings.ToLower(t), " "); ok && unitLeftOut(number, word) {
		return Size{}, refuse("number-bare", "write the unit with it: "+number+" mm "+word, "%q has no unit", t)
	}
	word, label := prefix(t)
	system, known := systemWords[strings.ToLower(word)]
	switch {
	case known && label == "":
		return Size{}, refuse("size-form", "write the size behind it, such as "+example(system), "%q names a system but no size", t)
	case known:
		return readLabel(system, label)
	case bothInUse[strings.ToLower(word)]:
		return Size{}, refuse("size-which", askBoth+": write "+shown(label, "54")+" mm circ, or "+shown(label, "17.2")+" mm",
			"%q could be a circumference or an inside diameter: in Germany both are in use", t)
	case noFormula[strings.ToLower(word)]:
		return Size{}, refuse("size-system", giveInMM, "%q: no one rule says how large that is", t)
	}
	return Size{}, withoutSystem(t)
}

// below is a minus sign, however it is typed, in front of a number.
var below = regexp.MustCompile(`^[-\x{2212}\x{2013}]\s?[.\d]`)

// unitLeftOut tells a length such as "54 circ", whose unit nobody wrote.
func unitLeftOut(number, word string) bool {
	_, err := measure.Number(number)
	_, length := lengthWord[word]
	return err == nil && length
}

func shown(label, other string) string {
	if _, err := measure.Number(label); err != nil {
		return other
	}
	return label
}

// prefix parts the word in front from the label. "US7" has the word "US"; the
// single letter of "P½" is no word.
func prefix(t string) (word, label string) {
	i := strings.IndexFunc(t, func(r rune) bool { return !unicode.IsLetter(r) })
	if i < 0 {
		i = len(t)
	}
	if len(t[:i]) < 2 {
		return "", t
	}
	return t[:i], strings.TrimSpace(t[i:])
}

func readLength(t, number, word string) (Size, error) {
	round, ok := lengthWord[word]
	if !ok {
		return Size{}, refuse("size-form", "write 17.2 mm for an inside diameter, 54 mm circ for a circumference", "%q: %q behind mm is not understood", t, word)
	}
	v, err := measure.Number(number)
	if err != nil {
		var s *measure.SyntaxError
		if errors.As(err, &s) && s.Code == "number-comma" {
			return Size{}, refuse(s.Code, "write a decimal point: "+strings.ReplaceAll(t, ",", "."), "%s", s.Message)
		}
		return Size{}, err
	}
	s, other := OfInside(measure.MM(v)), OfCircumference(measure.MM(v))
	if round {
		s, other = other, s
	}
	if inReach(s) {
		return s, nil
	}
	remedy := giveInMM
	if inReach(other) {
		remedy = askBoth + "; write " + number + " mm circ for the circumference"
		if round {
			remedy = askBoth + "; write " + number + " mm for the inside diameter"
		}
	}
	return Size{}, refuse("size-range", remedy, "%q is no finger size: %s across is outside %s to %s", t, s.Inside, SmallestInside, LargestInside)
}

func inReach(s Size) bool { return s.Inside >= SmallestInside && s.Inside <= LargestInside }

func example(system System) string {
	return map[System]string{UK: "UK P½", US: "US 7", ISO: "ISO 54", Japan: "Japan 14", Swiss: "Swiss 14"}[system]
}

// withoutSystem refuses a label that stands alone and names what it would fit.
func withoutSystem(t string) error {
	var fits []string
	first := ""
	for _, system := range Systems() {
		s, err := readLabel(system, t)
		if err != nil {
			continue
		}
		name := system.Name() + " " + t
		if first == "" {
			first = name
		}
		fits = append(fits, name+" ("+s.Inside.String()+" inside)")
	}
	if v, err := measure.Number(t); err == nil {
		if inReach(OfInside(measure.MM(v))) {
			fits = append(fits, t+" mm inside diameter")
		}
		if inReach(OfCircumference(measure.MM(v))) {
			fits = append(fits, t+" mm circ")
		}
	}
	if number, ok := strings.CutPrefix(strings.ToUpper(t), "J"); ok && len(fits) == 0 {
		return letterJ(t, strings.TrimSpace(number))
	}
	if len(fits) == 0 {
		return noSize(t)
	}
	if first == "" {
		first = fits[0]
	}
	return refuse("size-system", "ask which it is and write it, such as "+first, "%q has no system; it could be %s", t, strings.Join(fits, ", "))
}

// letterJ answers "J 14": the letter is a UK size, and short for a country.
func letterJ(t, number string) error {
	japan, err := readLabel(Japan, number)
	if err != nil {
		return noSize(t)
	}
	uk, _ := readLabel(UK, "J")
	return refuse("size-system", "ask which it is and write it, such as Japan "+number,
		"%q has no system; it could be Japan %s (%s inside) or begin with the UK letter J (%s inside)", t, number, japan.Inside, uk.Inside)
}

func noSize(t string) error {
	return refuse("size-form", "write a size with its system, such as UK P½, US 7, ISO 54, Japan 14, Swiss 14 or 17.2 mm", "%q is not a finger size", t)
}
