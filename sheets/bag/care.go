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
		marks := []string{st.Mark}
		for k := i + 1; k < len(s.b.Stones); k++ {
			if sameCare(st, &s.b.Stones[k]) {
				marks, done = append(marks, s.b.Stones[k].Mark), append(done, k)
			}
		}
		s.doc.Field("care " + st.Mark)
		if first {
			s.title("stone.care", 2*shapeSide)
			first = false
		}
		s.careOf(st, marks)
	}
}

func sameCare(a, b *tree.BagStone) bool {
	return a.Kind == b.Kind && slices.Equal(a.Stands, b.Stands) && slices.Equal(a.Care, b.Care)
}

// careOf lays marks, then each cell of care with its shape, as many as fit a
// row, then the notes.
func (s *sheet) careOf(st *tree.BagStone, marks []string) {
	s.f.Gap(1)
	s.f.Need(strong.Leading() + shapeSide + 2)
	s.f.Para(strong, strings.Join(marks, ", ")+": "+st.Kind)
	const between = 6.0
	var row []stone.Cell
	used := 0.0
	flush := func() {
		if len(row) == 0 {
			return
		}
		cells := row
		s.f.Block(shapeSide+2, func(l *page.Leaf, x, y, w float64) {
			for _, c := range cells {
				shape, key := shown(c.Level)
				if shape != page.NoShape {
					l.Shape(shape, x, y+0.5, shapeSide)
				}
				at := x + textAt(shape)
				l.Text(at, y+plain.Base(), strong, careWord(s.words, c))
				l.Text(at, y+plain.Base()+plain.Leading()-0.3, plain, s.say(key))
				x += s.careWidth(c) + between
			}
		})
		row, used = nil, 0
	}
	for _, c := range st.Stands {
		w := s.careWidth(c)
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

func textAt(shape page.Shape) float64 {
	if shape == page.NoShape {
		return 0
	}
	return shapeSide + 2
}

func (s *sheet) careWidth(c stone.Cell) float64 {
	shape, key := shown(c.Level)
	return textAt(shape) + max(strong.Width(careWord(s.words, c)), plain.Width(s.say(key)))
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
