package bag

import (
	"strings"

	"castweek/sheets/page"
	"castweek/tree"
)

// stones lays where they sit, a block for each line of stones, the boxes for
// counting them in, and their care. Counting them out comes after the steps,
// in the order of the hands.
func (s *sheet) stones() {
	if len(s.b.Stones) == 0 {
		return
	}
	s.spots()
	s.places()
	s.title("bag.stones", 40)
	for i := range s.b.Stones {
		st := &s.b.Stones[i]
		s.doc.Field("stones " + st.Mark)
		s.stone(st, i > 0)
	}
	if text := s.estimates(); text != "" {
		s.f.Gap(0.5)
		s.f.Para(stamp, text)
	}
	s.countIn()
	s.care()
}

// indent is the place of what belongs to a mark in its circle.
const indent = 13.0

// stone lays one line of stones: what it is, how many of which size, and whose.
func (s *sheet) stone(st *tree.BagStone, ruled bool) {
	s.f.Gap(1.5)
	_, _, _, name := s.nameLines(st)
	// Its name, its figures and two lines of words stay together.
	s.f.Need(2 + name + s.figuresHigh(st) + 2*plain.Leading())
	if ruled {
		s.f.Rule()
	}
	s.stoneName(st)
	s.stoneFigures(st)
	s.stoneWords(st)
}

// stoneName lays the mark in its circle, and the stone in words: what tells it
// from its like comes first. The place stands beside it where there is room.
func (s *sheet) stoneName(st *tree.BagStone) {
	lines, place, beside, h := s.nameLines(st)
	s.f.Gap(0.5)
	s.f.Block(h, func(l *page.Leaf, x, y, w float64) {
		s.mark(l, x+5, y+5, st.Mark)
		if len(lines) == 1 && len(place) == 0 {
			y += (10 - value.Leading()) / 2
		}
		if beside {
			l.TextRight(x+w, y+value.Base(), plain, st.Place)
		}
		y = l.Lines(x+indent, y+value.Base(), value, lines) - value.Base()
		l.Lines(x+indent, y+plain.Base(), plain, place)
	})
}

// nameLines are the lines of a stone's name, of its place where that does not
// stand beside the name, and how high they are.
func (s *sheet) nameLines(st *tree.BagStone) (lines, place []string, beside bool, high float64) {
	width := s.f.Frame.Width() - indent
	lines = value.Wrap(stoneWords(st), width)
	beside = len(lines) == 1 && value.Width(lines[0])+4+plain.Width(st.Place) <= width
	if st.Place != "" && !beside {
		place = plain.Wrap(st.Place, width)
	}
	return lines, place, beside, max(10, float64(len(lines))*value.Leading()+float64(len(place))*plain.Leading())
}

// stoneWords names a stone: origin, kind, cut.
func stoneWords(st *tree.BagStone) string {
	name := strings.TrimSpace(st.Origin + " " + st.Kind)
	if st.Cut != "" {
		name += ", " + st.Cut
	}
	return name
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

// size writes the size of a stone without its unit.
func (s *sheet) size(st *tree.BagStone) string {
	size := s.fig.Set(float64(st.Length), 2)
	if st.Width > 0 && st.Width != st.Length {
		size += " x " + s.fig.Set(float64(st.Width), 2)
	}
	return size
}

// stoneFigures lays count, spares, size, depth and estimate, each in a column
// of its own with the unit in its head.
func (s *sheet) stoneFigures(st *tree.BagStone) {
	columns, row := s.figureTable(st)
	frame := s.f.Frame
	s.f.Frame.Left += indent
	defer func() { s.f.Frame = frame }()
	cells := make([]page.Cell, len(row))
	for i, text := range row {
		cells[i] = page.Text(text)
	}
	s.f.Lay(page.Table{Style: value, Heads: plain, Pitch: value.Leading(), Bare: true, Columns: columns}, [][]page.Cell{cells})
}

// figureTable gives the columns of a line's figures and what stands in them.
// The size stays on one line; a range of weights may take two.
func (s *sheet) figureTable(st *tree.BagStone) (columns []page.Column, row []string) {
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
	row = []string{s.fig.Count(st.Count), s.fig.Count(st.Spares), s.size(st), depth, estimate}
	free := s.f.Frame.Width() - indent
	for i, key := range []string{"stone.toset", "stone.spares", "stone.size", "stone.depth", "stone.estimate"} {
		c := page.Column{Head: s.say(key), Width: max(plain.Width(s.say(key)), value.Width(row[i])) + 3}
		columns = append(columns, c)
		free -= c.Width
	}
	columns[2].Width += max(0, free)
	columns[4].Width = max(20, columns[4].Width+min(0, free))
	return columns, row
}

// figuresHigh is how high the figures of a line are.
func (s *sheet) figuresHigh(st *tree.BagStone) float64 {
	columns, row := s.figureTable(st)
	last := len(row) - 1
	return plain.Leading() + 1 + float64(len(value.Wrap(row[last], columns[last].Width-2)))*value.Leading()
}

// stoneWords lays how it is set, whose it is and what hangs on that.
func (s *sheet) stoneWords(st *tree.BagStone) {
	s.pairs(s.f.Frame.Left+indent, s.stonePairs(st))
}

// stonePairs are the words of a line of stones. A part is told where there is a
// choice, and who carries the risk apart from whose stone it is only where
// these differ.
func (s *sheet) stonePairs(st *tree.BagStone) []pair {
	style := st.Style
	if st.InWax {
		style += ", " + s.say("stone.inwax")
	}
	out := []pair{{"stone.style", style}}
	if !s.onePart(st.Part) {
		out = append(out, pair{"stone.part", st.Part})
	}
	if st.Owner == st.Risk {
		out = append(out, pair{"stone.ownerrisk", st.Owner})
	} else {
		out = append(out, pair{"stone.owner", st.Owner}, pair{"stone.risk", st.Risk})
	}
	ordered := st.Ordered
	if st.Here {
		ordered = ""
	} else if ordered == "" {
		ordered = s.say("stone.nothere")
	}
	return append(out, pair{"stone.parcel", st.Parcel}, pair{"stone.treatment", st.Treatment}, pair{"stone.ordered", ordered})
}

// onePart tells whether every casting of the bag is of the same part, which
// stands in its contents.
func (s *sheet) onePart(part string) bool {
	for _, c := range s.b.Castings {
		if c.Part != part {
			return false
		}
	}
	return len(s.b.Castings) > 0
}

// estimates says by which formula weights were estimated, and what the star
// means, once for the bag.
func (s *sheet) estimates() string {
	var out, order []string
	marks := map[string][]string{}
	for i := range s.b.Stones {
		st := &s.b.Stones[i]
		if star := s.say("stone.assumed"); st.Assumed && st.Depth > 0 && len(out) == 0 {
			out = append(out, star+".")
		}
		if st.Estimate.High > 0 && st.Estimate.Formula != "" {
			if marks[st.Estimate.Formula] == nil {
				order = append(order, st.Estimate.Formula)
			}
			marks[st.Estimate.Formula] = append(marks[st.Estimate.Formula], st.Mark)
		}
	}
	for i, formula := range order {
		if len(order) > 1 {
			order[i] = strings.Join(marks[formula], ", ") + ": " + formula
		}
	}
	if len(order) > 0 {
		out = append(out, s.with("stone.formula", "formula", strings.Join(order, "; ")+"."))
	}
	return s.fig.Text(strings.Join(out, " "))
}

// A pair is a label of the catalogue and its value.
type pair struct{ key, text string }

// pairs lays labels with values beside each other, each pair whole where it
// fits a line; empty values are left out.
func (s *sheet) pairs(left float64, list []pair) {
	var words []string
	for _, p := range list {
		if strings.TrimSpace(p.text) != "" {
			words = append(words, s.say(p.key), p.text)
		}
	}
	if len(words) > 0 {
		s.f.Line(words, func() { s.layPairs(left, list) })
	}
}

func (s *sheet) layPairs(left float64, list []pair) {
	const between = 5.0
	right := s.f.Frame.Right
	at := left
	step := plain.Leading()
	for _, p := range list {
		if strings.TrimSpace(p.text) == "" {
			continue
		}
		label := s.say(p.key) + " "
		lw := plain.Width(label)
		w := lw + strong.Width(p.text)
		if at > left && at+w > right {
			s.f.Y += step
			at = left
		}
		if at+w > right { // longer than a line
			lines := strong.Wrap(p.text, right-left-lw)
			for i, line := range lines {
				s.f.Need(step)
				if i == 0 {
					s.f.Leaf().Text(left, s.f.Y+plain.Base(), plain, label)
				}
				s.f.Leaf().Text(left+lw, s.f.Y+plain.Base(), strong, line)
				s.f.Y += step
			}
			continue
		}
		s.f.Need(step)
		s.f.Leaf().Text(at, s.f.Y+plain.Base(), plain, label)
		at = s.f.Leaf().Text(at+lw, s.f.Y+plain.Base(), strong, p.text) + between
	}
	if at > left {
		s.f.Y += step
	}
}
