package page

import (
	"strings"
	"unicode"
)

// units never part from the number before them.
var units = map[string]bool{"mm": true, "mm²": true, "mm³": true, "cm³": true, "g": true, "mg": true, "kg": true, "ct": true,
	"°C": true, "°": true, "%": true, "‰": true, "min": true, "h": true, "ml": true, "l": true, "g/cm³": true}

// Wrap breaks text into lines no wider than width millimetres: at spaces, at
// line ends of its own, and inside a word only when the word alone is too
// wide. A number keeps its unit. There is always at least one line.
func (s Style) Wrap(text string, width float64) []string {
	var out []string
	for _, para := range strings.Split(normal(text), "\n") {
		out = append(out, s.wrapLine(strings.TrimRight(para, " "), width)...)
	}
	return out
}

func (s Style) wrapLine(line string, width float64) []string {
	max := width / (s.Size * PointMM) // in em
	var out []string
	var now strings.Builder
	used := 0.0
	space, _ := s.Face.advance(' ')
	for _, word := range glue(strings.Split(line, " ")) {
		w := s.em(word)
		switch {
		case now.Len() == 0 && used == 0:
		case used+space+w <= max:
			now.WriteByte(' ')
			used += space
		default:
			out = append(out, now.String())
			now.Reset()
			used = 0
		}
		for w > max && len(word) > 0 {
			head, rest := s.cut(word, max-used)
			now.WriteString(head)
			out = append(out, now.String())
			now.Reset()
			used, word = 0, rest
			w = s.em(word)
		}
		now.WriteString(word)
		used += w
	}
	return append(out, now.String())
}

func (s Style) em(word string) float64 {
	em := 0.0
	for _, r := range word {
		w, _ := s.Face.advance(r)
		em += w
	}
	return em
}

// cut takes as many characters as fit, at least one; where it can it ends
// after a hyphen or slash.
func (s Style) cut(word string, room float64) (head, rest string) {
	used, soft, at := 0.0, 0, 0
	for i, r := range word {
		w, _ := s.Face.advance(r)
		if used+w > room && i > 0 {
			break
		}
		used += w
		at = i + len(string(r))
		if r == '-' || r == '/' {
			soft = at
		}
	}
	if soft > at/2 {
		at = soft
	}
	return word[:at], word[at:]
}

// glue joins a number and the unit after it with a space that does not break.
func glue(words []string) []string {
	out := words[:0]
	for _, w := range words {
		if n := len(out); n > 0 && out[n-1] != "" && units[strings.TrimRight(w, ".,;:)")] && endsInDigit(out[n-1]) {
			out[n-1] += "\u00a0" + w
			continue
		}
		out = append(out, w)
	}
	return out
}

func endsInDigit(w string) bool { return unicode.IsDigit(rune(w[len(w)-1])) }
