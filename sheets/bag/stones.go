package bag

import (
	"strings"

	"castweek/jobs/stone"
	"castweek/sheets/page"
	"castweek/tree"
)

// stones lays a block for each line of stones, then where they sit.
func (s *sheet) stones() {
	if len(s.b.Stones) == 0 {
		return
	}
	s.places()
	for i := range s.b.Stones {
		st := &s.b.Stones[i]
		s.doc.Field("stones " + st.Mark)
		s.changed("stone "+st.Mark, func() { s.stone(st) })
	}
}

// stone lays one line of stones: what it is, how many of which size, where the
// counts are written, and how it is to be treated.
func (s *sheet) stone(st *tree.BagStone) {
	s.f.Gap(2)
	s.f.Need(70)
	s.f.Rule()
	s.stoneName(st)
	s.stoneFigures(st)
	s.counts()
	s.stoneFacts(st)
	s.care(st)
}

// stoneName lays the mark in its circle, and the stone in words: what tells it
// from its like comes first.
func (s *sheet) stoneName(st *tree.BagStone) {
	const indent = 13.0
	name := strings.TrimSpace(st.Origin + " " + st.Kind + ", " + st.Cut)
	lines := value.Wrap(name, s.f.Frame.Width()-indent)
	place := plain.Wrap(st.Place, s.f.Frame.Width()-indent)
	if st.Place == "" {
		place = nil
	}
	h := float64(len(lines))*value.Leading() + float64(len(place))*plain.Leading()
	s.f.Gap(0.5)
	s.f.Block(max(h, 11), func(l *page.Leaf, x, y, w float64) {
		s.mark(l, x+5, y+5.5, st.Mark)
		y = l.Lines(x+indent, y+value.Base(), value, lines) - value.Base()
		l.Lines(x+indent, y+plain.Base(), plain, place)
	})
}

// mark draws the letter of a line of stones in a circle around x, y.
func (s *sheet) mark(l *page.Leaf, x, y float64, mark string) {
	st := value
	if len([]rune(mark)) > 1 {
		st = strong
	}
	l.Circle(x, y, max(4.6, st.Width(mark)/2+1), page.Edge)
	l.TextCentre(x, y+page.CapMM(st.Size)/2, st, mark)
}

// stoneFigures lays count, spares, size, depth and estimate, each in a column
// of its own with the unit in its head, and boxes for what is measured.
func (s *sheet) stoneFigures(st *tree.BagStone) {
	size := s.fig.Set(float64(st.Length), 2)
	if st.Width > 0 && st.Width != st.Length {
		size += " x " + s.fig.Set(float64(st.Width), 2)
	}
	depth, estimate := s.say("none"), s.say("none")
	if st.Depth > 0 {
		depth = s.fig.Set(float64(st.Depth), 2)
		if st.Assumed {
			depth += "*"
		}
	}
	if st.Estimate.High > 0 {
		estimate = s.fig.Carat(st.Estimate.Low, st.Estimate.High)
	}
	s.f.Lay(page.Table{
		Style: value, Heads: plain, Pitch: value.Leading(), Every: 99,
		Columns: []page.Column{{Head: s.say("stone.toset"), Width: 18}, {Head: s.say("stone.spares"), Width: 19},
			{Head: s.say("stone.size")}, {Head: s.say("stone.depth"), Width: 22}, {Head: s.say("stone.estimate"), Width: 32}},
	}, [][]page.Cell{{page.Text(s.fig.Count(st.Count)), page.Text(s.fig.Count(st.Spares)), page.Text(size), page.Text(depth), page.Text(estimate)}})
	if st.Assumed && st.Depth > 0 {
		s.f.Para(plain, s.say("stone.assumed"))
	}
	s.f.Gap(1.5)
	form := "00" + s.fig.Mark() + "00"
	if st.Length < 10 && st.Width < 10 {
		form = form[1:]
	}
	carat := "00" + s.fig.Mark() + "00"
	if st.Estimate.High < 0.1 {
		carat = "0" + s.fig.Mark() + "000"
	}
	s.f.Block(hand.CellH+2, func(l *page.Leaf, x, y, w float64) {
		base := y + hand.CellH/2 + page.CapMM(plain.Size)/2
		at := l.Text(x, base, plain, s.say("stone.measured")) + 2
		at = l.Digits(at, y, hand, form, plain, s.say("unit.mm")) + 4
		width := hand.DigitsWidth(carat, plain, s.say("unit.ct"))
		at = max(at, x+w-width-plain.Width(s.say("stone.weighed"))-2)
		at = l.Text(at, base, plain, s.say("stone.weighed")) + 2
		l.Digits(at, y, hand, carat, plain, s.say("unit.ct"))
	})
}

// countColumns are what is counted by hand, in the order in which it happens.
var countColumns = []string{"stone.in", "stone.initials", "stone.set", "stone.spareused", "stone.broken", "stone.returned", "stone.lost", "stone.initials"}

// counts lays the boxes for what is counted in and out.
func (s *sheet) counts() {
	t := page.Table{Style: plain, Heads: plain, Pitch: hand.Pitch, Every: 99}
	row := make([]page.Cell, len(countColumns))
	for i, key := range countColumns {
		t.Columns = append(t.Columns, page.Column{Head: s.say(key)})
		row[i] = page.Box()
	}
	s.f.Lay(t, [][]page.Cell{row})
	s.f.Para(plain, s.say("stone.balance"))
	s.f.Gap(1)
}

// stoneFacts lays whose stone it is and what hangs on that.
func (s *sheet) stoneFacts(st *tree.BagStone) {
	style := st.Style
	if st.InWax {
		style += ", " + s.say("stone.inwax")
	}
	s.fact(s.say("stone.style"), strong, style)
	s.fact(s.say("stone.part"), plain, st.Part)
	s.fact(s.say("stone.owner"), strong, st.Owner)
	s.fact(s.say("stone.risk"), plain, st.Risk)
	s.fact(s.say("stone.parcel"), code, st.Parcel)
	s.fact(s.say("stone.treatment"), strong, st.Treatment)
	if !st.Here {
		text := st.Ordered
		if text == "" {
			text = s.say("stone.nothere")
		}
		s.fact(s.say("stone.ordered"), strong, text)
	}
	if st.Estimate.High > 0 && st.Estimate.Formula != "" {
		s.f.Para(plain, s.with("stone.formula", "formula", s.fig.Text(st.Estimate.Formula)))
	}
}

// shapeSide is the side of a shape beside words at the bench.
const shapeSide = 10.0

// care lays what the stone stands, each with a shape that does not need
// colour, and the notes.
func (s *sheet) care(st *tree.BagStone) {
	if len(st.Stands) > 0 {
		s.f.Gap(1.5)
		// Two rows of two: at four in a row the words would have to be broken.
		for i := 0; i < len(st.Stands); i += 2 {
			s.f.Block(shapeSide+1.5, func(l *page.Leaf, x, y, w float64) {
				for k := i; k < min(i+2, len(st.Stands)); k++ {
					at := x + float64(k-i)*w/2
					cell := st.Stands[k]
					shape, key := shown(cell.Level)
					l.Shape(shape, at, y, shapeSide)
					l.Text(at+shapeSide+2.5, y+plain.Base()-0.3, strong, cell.Word)
					l.Text(at+shapeSide+2.5, y+plain.Base()-0.3+plain.Leading(), plain, s.say(key))
				}
			})
		}
	}
	for _, note := range st.Care {
		s.f.Para(plain, "- "+note)
	}
}

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
