package page

import (
	"fmt"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"castweek/metal/problem"
)

// A piece is a run of a line: text of the face, or one drawn sign, or a gap.
type piece struct {
	text  string
	sign  rune // drawn as a shape when not 0; unknown for what the face lacks
	width float64
}

// unknown stands for a sign that the face lacks: a crossed box.
const unknown = unicode.ReplacementChar

// Widths of what is drawn or left free, in em. A thin gap and the gap of
// thousands are moves, since the fonts lack those spaces; a figure space is as
// wide as a digit (0.556 em in the Go fonts, measured).
const (
	thinGap   = 0.2
	figureGap = 0.556
	signWidth = 0.75
)

// drawn are signs that the fonts lack and that are drawn as shapes.
var drawn = map[rune]bool{'✓': true, '☐': true, '☑': true, '△': true, '⚠': true}

// normal brings text into the one form that is laid out: NFC, no control
// characters, and "dia" for a diameter sign before a number, since the slashed
// zero of the face reads like it.
func normal(s string) string {
	if plain(s) {
		return s
	}
	s = strings.ReplaceAll(norm.NFC.String(strings.ToValidUTF8(s, "\uFFFD")), "\r\n", "\n")
	var b strings.Builder
	in := []rune(s)
	for i, r := range in {
		switch {
		case r == '⌀' || r == 'Ø' && beforeNumber(in[i+1:]):
			b.WriteString("dia")
			if i+1 < len(in) && in[i+1] != ' ' && in[i+1] != '\u00a0' {
				b.WriteByte(' ')
			}
		case r == '\r', r == '\u2028', r == '\u2029', r == '\v', r == '\f', r == '\u0085':
			b.WriteByte('\n')
		case r == '\t', r == '\u2002', r == '\u2003', r == '\u2004', r == '\u2005', r == '\u3000':
			b.WriteByte(' ')
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

func plain(s string) bool {
	for i := 0; i < len(s); i++ {
		if s[i] < ' ' && s[i] != '\n' || s[i] >= 0x7f {
			return false
		}
	}
	return true
}

func beforeNumber(rest []rune) bool {
	for _, r := range rest {
		if r != ' ' && r != '\u00a0' {
			return unicode.IsDigit(r)
		}
	}
	return false
}

// advance is the width of one character in em, and how it is shown.
func (f Face) advance(r rune) (em float64, sign rune) {
	if r < 0x10000 && r >= ' ' {
		if w := f.table()[r]; w >= 0 {
			return float64(w) / 1000, 0
		}
	}
	switch {
	case r == '\u2009' || r == '\u202f' || r == '\u200a':
		return thinGap, ' '
	case r == '\u2007' || r == '\u2008':
		return figureGap, ' '
	case ignorable(r):
		return 0, ' '
	case drawn[r]:
		return signWidth, r
	}
	return signWidth, unknown
}

// ignorable characters are invisible by definition: joiners, direction marks,
// soft hyphens, variation selectors.
func ignorable(r rune) bool {
	return unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Variation_Selector, r)
}

// Width is the width of one line of text in millimetres.
func (s Style) Width(text string) float64 {
	em := 0.0
	for _, r := range normal(text) {
		w, _ := s.Face.advance(r)
		em += w
	}
	return em * s.Size * PointMM
}

// pieces cuts a normal line into what is written and what is drawn, and makes
// the remark for each sign that the face lacks.
func (d *Doc) pieces(s Style, line string) []piece {
	mm := s.Size * PointMM
	var out []piece
	start, width := 0, 0.0
	flush := func(end int) {
		if end > start {
			out = append(out, piece{text: line[start:end], width: width})
		}
		width = 0
	}
	for i, r := range line {
		em, sign := s.Face.advance(r)
		if sign == 0 {
			width += em * mm
			continue
		}
		flush(i)
		out = append(out, piece{sign: sign, width: em * mm})
		start = i + len(string(r))
		if sign == unknown || ignorable(r) {
			d.lacking(r)
		}
	}
	flush(len(line))
	return out
}

// A lack is what the fonts lack of one field: signs that a crossed box stands
// for, and marks that are left out, in the order they were met.
type lack struct {
	at            int // of its remark among the problems
	boxed, marked []string
	seen          map[rune]bool
}

// lacking notes a sign that the fonts lack, in one remark for each field.
func (d *Doc) lacking(r rune) {
	key := d.job + "\x00" + d.field
	k := d.lacks[key]
	if k == nil {
		k = &lack{at: len(d.problems), seen: map[rune]bool{}}
		d.lacks[key] = k
		d.problems.Remark(problem.Place{File: d.job}, "sign-not-in-fonts", "read it on the bag's page in HTML, or write it in words", "")
	}
	if k.seen[r] {
		return
	}
	k.seen[r] = true
	name := fmt.Sprintf("U+%04X", r)
	if ignorable(r) {
		k.marked = append(k.marked, name)
	} else {
		if r != unknown && !unicode.Is(unicode.M, r) && !unicode.IsControl(r) {
			name = string(r) + " (" + name + ")"
		}
		k.boxed = append(k.boxed, name)
	}
	d.problems[k.at].Message = k.message(d.field)
}

func (k *lack) message(field string) string {
	var parts []string
	if len(k.boxed) > 0 {
		parts = append(parts, "the paper's fonts lack "+strings.Join(k.boxed, ", ")+"; a crossed box stands for each")
	}
	if len(k.marked) > 0 {
		parts = append(parts, "marks that show nothing are left out: "+strings.Join(k.marked, ", "))
	}
	if field != "" {
		field += ": "
	}
	return field + strings.Join(parts, "; ")
}
