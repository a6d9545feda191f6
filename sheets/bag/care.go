package bag

import (
	"slices"
	"strings"

	"castweek/jobs/stone"
	"castweek/sheets/page"
	"castweek/sheets/words"
	"castweek/tree"
)

// shapeSide is the side of a shape beside words at the bench.
const shapeSide = 10.0

// care lays what the stones stand, once for all lines that stand the same.
func (s *sheet) care() {
	var done []int
	first := true
	for i := range s.b.Stones {
		st := &s.b.Stones[i]
		if slices.Contains(done, i) || len(st.Stands) == 0 && len(st.Care) == 0 {
			continue
		}
		alike := []*tree.BagStone{st}
		for k := i + 1; k < len(s.b.Stones); k++ {
			if sameCare(st, &s.b.Stones[k]) {
				alike, done = append(alike, &s.b.Stones[k]), append(done, k)
			}
		}
		s.doc.Field("care " + st.Mark)
		if first {
			s.title("stone.care", 2*shapeSide)
			first = false
		}
		s.careOf(alike)
	}
}

func sameCare(a, b *tree.BagStone) bool {
	return slices.Equal(a.Stands, b.Stands) && slices.Equal(a.Care, b.Care)
}

// careOf lays marks and kinds, then a shape for each level of care with what it is for,
// beside each other where they fit, then the notes.
func (s *sheet) careOf(lines []*tree.BagStone) {
	st := lines[0]
	s.f.Gap(1)
	s.f.Need(strong.Leading() + shapeSide + 2)
	s.f.Para(strong, kindsOf(lines))
	const between = 5.0
	var row []level
	used := 0.0
	flush := func() {
		if len(row) == 0 {
			return
		}
		levels := row
		s.f.Block(shapeSide+1.5, func(l *page.Leaf, x, y, w float64) {
			for _, c := range levels {
				l.Shape(c.shape, x, y+0.5, shapeSide)
				at := x + textAt(c.shape)
				l.Text(at, y+plain.Base(), strong, s.say(c.key))
				l.Text(at, y+plain.Base()+plain.Leading()-0.3, plain, c.words)
				x += s.levelWidth(c) + between
			}
		})
		row, used = nil, 0
	}
	for _, c := range levelsOf(s.words, st.Stands) {
		w := s.levelWidth(c)
		if used > 0 && used+w > s.f.Frame.Width() {
			flush()
		}
		row = append(row, c)
		used += w + between
	}
	flush()
	for _, note := range st.Care {
		s.f.Para(plain, "- "+s.fig.Text(note))
	}
}

// kindsOf names lines by marks and kinds: "A, B: ruby; C: sapphire".
func kindsOf(lines []*tree.BagStone) string {
	var order []string
	marks := map[string][]string{}
	for _, st := range lines {
		if marks[st.Kind] == nil {
			order = append(order, st.Kind)
		}
		marks[st.Kind] = append(marks[st.Kind], st.Mark)
	}
	for i, kind := range order {
		order[i] = strings.Join(marks[kind], ", ") + ": " + kind
	}
	return strings.Join(order, "; ")
}

// A level is one level of care and all that it is for.
type level struct {
	shape page.Shape
	key   string
	words string
}

// levelsOf gathers cells by their level, the strictest first.
func levelsOf(w *words.Words, cells []stone.Cell) []level {
	var out []level
	for _, l := range []stone.Level{stone.KeepAway, stone.NotSaid, stone.WithCare, stone.Tolerated} {
		var list []string
		for _, c := range cells {
			if c.Level == l {
				list = append(list, careWord(w, c))
			}
		}
		if len(list) > 0 {
			shape, key := shown(l)
			out = append(out, level{shape, key, strings.Join(list, ", ")})
		}
	}
	return out
}

func textAt(shape page.Shape) float64 {
	if shape == page.NoShape {
		return 0
	}
	return shapeSide + 2
}

func (s *sheet) levelWidth(c level) float64 {
	return textAt(c.shape) + max(strong.Width(s.say(c.key)), plain.Width(c.words))
}

// careWord is the catalogue's word for what a cell of care is about.
func careWord(w *words.Words, c stone.Cell) string { return w.Say("care." + c.Word) }

// shown gives the shape and the words of a level of care. What is allowed has
// no shape: a sign for everything is a sign for nothing.
func shown(l stone.Level) (page.Shape, string) {
	switch l {
	case stone.KeepAway:
		return page.MustNot, "care.keepaway"
	case stone.WithCare:
		return page.Hazard, "care.withcare"
	case stone.Tolerated:
		return page.NoShape, "care.tolerated"
	}
	return page.Information, "care.ask"
}
