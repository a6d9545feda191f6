package bag

import (
	"strings"

	"castweek/sheets/page"
)

// signals are the signal words of a caution with the shape that goes with
// each: damage only, NOTICE, has none.
var signals = []struct {
	word, key string
	shape     page.Shape
}{
	{"DANGER", "signal.danger", page.Hazard},
	{"WARNING", "signal.warning", page.Hazard},
	{"CAUTION", "signal.caution", page.Hazard},
	{"NOTICE", "signal.notice", page.NoShape},
}

// signal parts the signal word from a caution. One that has none speaks of
// damage to the piece.
func signal(text string) (key string, shape page.Shape, rest string) {
	for _, g := range signals {
		if after, ok := strings.CutPrefix(text, g.word); ok {
			return g.key, g.shape, strings.TrimLeft(after, " -:.–—")
		}
	}
	return "signal.notice", page.NoShape, text
}

// cautions lays the cautions of the bag as a whole.
func (s *sheet) cautions(list []string) {
	s.doc.Field("cautions")
	for _, c := range list {
		s.caution(c)
	}
}

// caution lays one caution in a heavy frame, right before what it speaks of.
// The word stands above its text beside a shape, and in its first line where
// there is none.
func (s *sheet) caution(text string) {
	key, shape, rest := signal(text)
	const pad = 2.0
	word, at, first := s.say(key), pad, 0.0
	if shape != page.NoShape {
		at += shapeSide + 2.5
	} else {
		first = strong.Width(word) + 2.5
	}
	width := s.f.Frame.Width() - at - pad
	lines := runIn(plain, s.fig.Text(rest), width, first)
	h := float64(len(lines))*plain.Leading() + 2*pad - 0.6
	if shape != page.NoShape {
		h = max(h+strong.Leading(), shapeSide+2*pad)
	}
	s.f.Gap(0.8)
	if h > s.f.Frame.Height()/2 { // a text that no frame can hold
		s.f.Para(strong, word)
		s.f.Para(plain, s.fig.Text(rest))
		return
	}
	s.f.Need(h + 14) // it must not part from its step
	s.f.Block(h, func(l *page.Leaf, x, y, w float64) {
		l.Rect(x, y, w, h, page.Heavy)
		if shape != page.NoShape {
			l.Shape(shape, x+pad, y+(h-shapeSide)/2, shapeSide)
		}
		y += pad - 0.3
		l.Text(x+at, y+strong.Base(), strong, word)
		if shape != page.NoShape {
			y += strong.Leading()
		}
		for i, line := range lines {
			from := x + at
			if i == 0 {
				from += first
			}
			l.Text(from, y+plain.Base(), plain, line)
			y += plain.Leading()
		}
	})
	s.f.Gap(0.8)
}

// runIn breaks text into lines of a width, the first of which begins later.
func runIn(st page.Style, text string, width, first float64) []string {
	if first <= 0 {
		return st.Wrap(text, width)
	}
	lines := st.Wrap(text, width-first)
	if len(lines) < 2 {
		return lines
	}
	rest := strings.TrimLeft(strings.TrimPrefix(text, lines[0]), " ")
	if rest == text || strings.Contains(text, "\n") { // broken inside a word, or by its writer
		return lines
	}
	return append(lines[:1:1], st.Wrap(rest, width)...)
}
