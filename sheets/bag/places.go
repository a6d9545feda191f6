package bag

import (
	"slices"
	"strconv"
	"strings"

	"castweek/jobs/stone"
	"castweek/sheets/page"
	"castweek/tree"
)

// A seat is one line of stones in the drawing of places.
type seat struct {
	stone  *tree.BagStone
	shape  [][2]float64
	column int // 0 left, 1 middle, 2 right
	row    int
}

// Words of a place that say where it lies, seen from the front. They are read
// from the job, so that the drawing needs no more than the setter would.
var (
	leftWords   = []string{"left"}
	rightWords  = []string{"right"}
	topWords    = []string{"top", "upper", "above", "front"}
	bottomWords = []string{"bottom", "lower", "below", "back", "inside", "underside", "stem"}
)

func says(place string, any []string) bool {
	return slices.ContainsFunc(strings.FieldsFunc(strings.ToLower(place), func(r rune) bool { return r < 'a' || r > 'z' }),
		func(w string) bool { return slices.Contains(any, w) })
}

// seatOf places a line of stones by the words of its place; the middle is for
// those whose words say nothing.
func seatOf(st *tree.BagStone) seat {
	width := st.Width
	if width <= 0 {
		width = st.Length
	}
	out := seat{stone: st, shape: outline(st.Cut, float64(st.Length), float64(width)), column: 1, row: 1}
	switch {
	case says(st.Place, leftWords) && !says(st.Place, rightWords):
		out.column = 0
	case says(st.Place, rightWords) && !says(st.Place, leftWords):
		out.column = 2
	}
	switch {
	case says(st.Place, topWords):
		out.row = 0
	case says(st.Place, bottomWords):
		out.row = 2
	}
	return out
}

// places lays the drawing of where the stones sit: outlines in one scale, in
// three columns and up to three rows, each with its mark, count and place.
func (s *sheet) places() {
	var seats []seat
	for i := range s.b.Stones {
		if st := &s.b.Stones[i]; st.Length > 0 && !st.Drawn {
			seats = append(seats, seatOf(&s.b.Stones[i]))
		}
	}
	if len(seats) == 0 {
		return
	}
	column := s.f.Frame.Width() / 3
	alone := len(seats) <= mostPlaced
	for _, k := range seats {
		alone = alone && k.column == 1
	}
	if alone { // nothing to the left or right: the row may take the whole width
		column = s.f.Frame.Width()
	}
	scale := drawingScale(seats, column)
	if len(seats) > mostPlaced {
		s.listed(seats)
		return
	}
	s.heading(s.with("bag.places", "scale", s.fig.Set(scale, 2)), 20)
	for row := range 3 {
		// Those of one row and column stand below each other.
		var stacks [3][]seat
		deepest := 0
		for _, k := range seats {
			if k.row == row {
				stacks[k.column] = append(stacks[k.column], k)
				deepest = max(deepest, len(stacks[k.column]))
			}
		}
		for level := range deepest {
			var line [3]*seat
			for c := range stacks {
				if level < len(stacks[c]) {
					line[c] = &stacks[c][level]
				}
			}
			s.seatRow(line, column, scale)
		}
	}
}

// gapBetween parts the outlines of a row.
const gapBetween = 0.6

// scales are those a drawing may have, the clearest first.
var scales = []float64{6, 4, 3, 2, 1.5, 1, 0.5, 0.25, 0.1}

// drawingScale is the largest scale at which every outline fits its column and
// every row is whole; a row too long for 1.5 times its size is cut short
// instead, since its count stands beside it.
func drawingScale(seats []seat, column float64) float64 {
	fits := func(scale float64, whole bool) bool {
		for _, k := range seats {
			w, h := extent(k.shape)
			n := 1
			if whole {
				n = each(k.stone)
			}
			if float64(n)*(w*scale+gapBetween) > column-6 || h*scale > 18 {
				return false
			}
		}
		return true
	}
	for _, whole := range []bool{true, false} {
		for _, scale := range scales {
			if (scale >= 1.5 || !whole) && fits(scale, whole) {
				return scale
			}
		}
	}
	return scales[len(scales)-1]
}

// mostPlaced is from how many lines of stones on a drawing by places would be
// a scatter: they are then drawn in their order.
const mostPlaced = 9

// listed draws one stone of each line in the order of their marks, in rows.
func (s *sheet) listed(seats []seat) {
	const columns, wide, high = 5, 12.0, 9.5
	scale := scales[len(scales)-1]
	for _, try := range scales {
		fits := true
		for _, k := range seats {
			w, h := extent(k.shape)
			fits = fits && w*try <= wide && h*try <= high
		}
		if fits {
			scale = try
			break
		}
	}
	s.heading(s.with("bag.placeslist", "scale", s.fig.Set(scale, 2)), 2*(high+1.5))
	column := s.f.Frame.Width() / columns
	for i := 0; i < len(seats); i += columns {
		row := seats[i:min(i+columns, len(seats))]
		s.f.Block(high+1.5, func(l *page.Leaf, x, y, _ float64) {
			for _, k := range row {
				one := *k.stone
				one.Each, one.Count = 1, 1
				s.mark(l, x+4.8, y+high/2+0.5, k.stone.Mark)
				s.outlines(l, seat{stone: &one, shape: k.shape}, 1, x+10+wide/2, y+high/2+0.5, scale)
				x += column
			}
		})
	}
}

// each is how many stones of a line sit on one piece.
func each(st *tree.BagStone) int {
	if st.Each > 0 {
		return st.Each
	}
	return st.Count
}

// shownAtMost is how many outlines of a width a row of a width holds.
func shownAtMost(row, w float64) int { return max(1, int((row-6)/(w+gapBetween))) }

// seatRow lays up to three seats beside each other.
func (s *sheet) seatRow(line [3]*seat, column, scale float64) {
	const space = 3.0
	height, labels := 0.0, [3][]string{}
	for c, k := range line {
		if k == nil {
			continue
		}
		text := s.fig.Count(each(k.stone)) + " x"
		if k.stone.Place != "" {
			text += ", " + k.stone.Place
		}
		_, h := extent(k.shape)
		labels[c] = plain.Wrap(text, column-14)
		height = max(height, h*scale+max(10.5, float64(len(labels[c]))*plain.Leading())+space)
	}
	if s.beside(line, column, scale, labels[1]) {
		return
	}
	s.f.Block(height, func(l *page.Leaf, x, y, w float64) {
		for c, k := range line {
			if k != nil {
				if column < s.f.Frame.Width() {
					s.seat(l, *k, x+float64(c)*column, y, column, scale, labels[c])
				} else {
					s.seat(l, *k, x, y, column, scale, labels[c])
				}
			}
		}
	})
}

// beside lays the only seat of a row with its words beside its outlines, where
// there is room for both.
func (s *sheet) beside(line [3]*seat, column, scale float64, label []string) bool {
	k := line[1]
	if k == nil || column < s.f.Frame.Width() || len(label) != 1 {
		return false
	}
	w, h := extent(k.shape)
	w, h = w*scale, h*scale
	row := float64(each(k.stone))*(w+gapBetween) - gapBetween
	if row+6+indent+plain.Width(label[0]) > column || each(k.stone) > shownAtMost(column, w) {
		return false
	}
	s.f.Block(max(h, 9.5)+1.5, func(l *page.Leaf, x, y, _ float64) {
		y += (max(h, 9.5) + 1) / 2
		s.outlines(l, *k, each(k.stone), x+w/2, y, scale)
		x += row + 6
		s.mark(l, x+4.6, y, k.stone.Mark)
		l.Text(x+11, y+page.CapMM(plain.Size)/2, plain, label[0])
	})
	return true
}

// outlines draws the first n stones of a line beside each other, the middle of
// the first at x, y. Stones large enough to hold one have their number in the
// row, from the left.
func (s *sheet) outlines(l *page.Leaf, k seat, n int, x, y, scale float64) {
	w, _ := extent(k.shape)
	w *= scale
	for i := range n {
		l.Path(moved(k.shape, x, y, scale), true, page.Edge)
		cut, known := stone.CutOf(k.stone.Cut)
		switch {
		case each(k.stone) > 1 && w > strong.Width(strconv.Itoa(n))+1.5:
			l.TextCentre(x, y+page.CapMM(strong.Size)/2, strong, strconv.Itoa(i+1))
		case w > 3 && (cut.Faceted() || !known): // the table of the stone; a dome has none
			l.Path(moved(k.shape, x, y, scale*0.55), true, page.Hair)
		}
		x += w + gapBetween
	}
	if n < each(k.stone) {
		l.Text(x-w/2, y+1, strong, "…")
	}
}

// seat draws the outlines of one line of stones, as many as fit beside each
// other, with the mark and the place below.
func (s *sheet) seat(l *page.Leaf, k seat, x, y, width, scale float64, label []string) {
	w, h := extent(k.shape)
	w, h = w*scale, h*scale
	n := min(each(k.stone), shownAtMost(width, w))
	s.outlines(l, k, n, x+width/2-(float64(n)*(w+gapBetween)-gapBetween)/2+w/2, y+h/2, scale)
	text := 0.0
	for _, line := range label {
		text = max(text, plain.Width(line))
	}
	left := x + (width-text-11)/2
	s.mark(l, left+4.6, y+h+1+5.5, k.stone.Mark)
	l.Lines(left+11, y+h+1+plain.Base(), plain, label)
}

func moved(points [][2]float64, x, y, scale float64) [][2]float64 {
	out := make([][2]float64, len(points))
	for i, p := range points {
		out[i] = [2]float64{x + p[0]*scale, y + p[1]*scale}
	}
	return out
}

// viewGap is between neighbouring views.
const viewGap = 4.0

// viewWidth is what a view takes of its row: never less than its words below.
func viewWidth(p tree.Picture, scale float64) float64 { return max(float64(p.Width)*scale, 22) }

// pictures lays the views of the patterns beside each other at their true
// size; one that is too wide for the paper is drawn smaller and says so.
func (s *sheet) pictures() {
	s.doc.Field("pictures")
	pics := s.b.Pictures
	for i := 0; i < len(pics); {
		scale := 1.0
		room := s.f.Frame.Width()
		for float64(pics[i].Width)*scale > room || float64(pics[i].Height)*scale > s.f.Frame.Height()*0.6 {
			scale /= 2
		}
		// As many of the next as fit the row at the same scale.
		n, used, high := 0, 0.0, 0.0
		for i+n < len(pics) {
			p := pics[i+n]
			w := viewWidth(p, scale)
			if n > 0 && (used+w > room || float64(p.Height)*scale > s.f.Frame.Height()*0.6) {
				break
			}
			used += w + viewGap
			high = max(high, float64(p.Height)*scale)
			n++
		}
		s.pictureRow(pics[i:i+n], scale, high, i == 0)
		i += n
	}
}

// larger fills what is free at the end of the bag with the views of the first
// part at two to four times their size, where the finer places can be seen. It
// takes no leaf of its own, and is no change of the bag when the room changes.
func (s *sheet) larger() {
	pics := s.b.Pictures
	n := 0
	for n < len(pics) && pics[n].Part == pics[0].Part {
		n++
	}
	pics = pics[:n]
	if n == 0 {
		return
	}
	for scale := 4.0; scale >= 2; scale-- {
		wide, high := viewGap*float64(n-1), 0.0
		for _, p := range pics {
			wide += viewWidth(p, scale)
			high = max(high, float64(p.Height)*scale)
		}
		if wide <= s.f.Frame.Width() && high+4*plain.Leading()+6 <= s.f.Left() {
			s.doc.Quiet(func() { s.pictureRow(pics, scale, high, true) })
			return
		}
	}
}

// ratio writes a scale as a drawing does: 1:2 or 3:1.
func ratio(scale float64) string {
	if scale > 1 {
		return strconv.Itoa(int(scale+0.5)) + ":1"
	}
	return "1:" + strconv.Itoa(int(1/scale+0.5))
}

func (s *sheet) pictureRow(pics []tree.Picture, scale, high float64, first bool) {
	labels := make([][]string, len(pics))
	lines := 0
	for i, p := range pics {
		labels[i] = plain.Wrap(strings.TrimSpace(p.Part+" "+p.View), viewWidth(p, scale)+3)
		lines = max(lines, len(labels[i]))
	}
	height := high + float64(lines)*plain.Leading() + 2
	if first || scale != 1 {
		key := "bag.picture"
		if scale != 1 {
			key = "bag.scaled"
		}
		s.f.Gap(2)
		s.f.Need(plain.Leading() + height + 2)
		s.f.Rule()
		s.f.Para(strong, s.with(key, "scale", ratio(scale)))
	}
	s.f.Block(height, func(l *page.Leaf, x, y, w float64) {
		for i, p := range pics {
			base := y + high
			l.Strokes(p.Lines, x, base, scale, page.Hair)
			l.Lines(x, base+1+plain.Base(), plain, labels[i])
			x += viewWidth(p, scale) + viewGap
		}
	})
}
