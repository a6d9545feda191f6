package bag

import (
	"strings"

	"castweek/sheets/page"
	"castweek/tree"
)

// countIn lays the boxes in which each line of stones is counted, measured and
// weighed when the bag arrives.
func (s *sheet) countIn() {
	s.doc.Field("stones")
	sample := &tree.BagStone{}
	for i := range s.b.Stones {
		st := &s.b.Stones[i]
		sample.Length = max(sample.Length, st.Length)
		sample.Estimate.High = max(sample.Estimate.High, st.Estimate.High)
	}
	s.title("stones.in", 2*hand.Pitch)
	measured := hand.DigitsWidth(s.measureForm(sample), plain, s.say("unit.mm")) + 3
	weighed := hand.DigitsWidth(s.caratForm(sample), plain, s.say("unit.ct")) + 3
	var rows [][]page.Cell
	for i := range s.b.Stones {
		st := &s.b.Stones[i]
		rows = append(rows, []page.Cell{s.markCell(st.Mark), page.Box(),
			s.digitCell(s.measureForm(st), s.say("unit.mm")), s.digitCell(s.caratForm(st), s.say("unit.ct")), page.Box()})
	}
	s.f.Lay(page.Table{Style: plain, Heads: plain, Pitch: hand.Pitch, Bare: true, Columns: []page.Column{
		{Width: indent}, {Head: s.say("stone.in"), Width: plain.Width(s.say("stone.in")) + 2.5}, {Head: s.say("stone.measured"), Width: measured},
		{Head: s.say("stone.weighed"), Width: weighed}, {Head: s.say("stone.initials")}}}, rows)
}

// countedOut are the boxes that account for every stone.
var countedOut = []string{"stone.set", "stone.spareused", "stone.broken", "stone.returned", "stone.lost", "stone.initials"}

// countOut lays the boxes that account for every stone after setting.
func (s *sheet) countOut() {
	if len(s.b.Stones) == 0 {
		return
	}
	s.doc.Field("stones")
	s.title("stones.out", 2*hand.Pitch)
	heads := func(width func(head string) float64) (columns []page.Column, all float64) {
		columns, all = []page.Column{{Width: indent}}, indent
		for _, key := range countedOut {
			c := page.Column{Head: s.say(key), Width: width(s.say(key)) + 2.2}
			columns, all = append(columns, c), all+c.Width
		}
		return columns, all
	}
	columns, all := heads(plain.Width)
	if all > s.f.Frame.Width() { // a head is broken between its words, never inside one
		columns, _ = heads(func(head string) (w float64) {
			for _, word := range strings.Fields(head) {
				w = max(w, plain.Width(word))
			}
			return w
		})
	}
	free := s.f.Frame.Width()
	for _, c := range columns {
		free -= c.Width
	}
	for i := range columns[1:] {
		columns[i+1].Width += free / float64(len(columns)-1)
	}
	var rows [][]page.Cell
	for i := range s.b.Stones {
		row := []page.Cell{s.markCell(s.b.Stones[i].Mark)}
		for range columns[1:] {
			row = append(row, page.Box())
		}
		rows = append(rows, row)
	}
	s.f.Lay(page.Table{Style: plain, Heads: plain, Pitch: hand.Pitch, Bare: true, Columns: columns}, rows)
	s.f.Para(plain, s.say("stone.balance"))
}

func (s *sheet) markCell(mark string) page.Cell {
	return page.Cell{Draw: func(l *page.Leaf, x, y, w, h float64) { s.mark(l, x+5, y+h/2, mark) }}
}

func (s *sheet) digitCell(form, unit string) page.Cell {
	return page.Cell{Draw: func(l *page.Leaf, x, y, w, h float64) {
		l.Digits(x, y+(h-hand.CellH)/2, hand, form, plain, unit)
	}}
}

// measureForm is the boxes for the size of a stone, to the hundredth.
func (s *sheet) measureForm(st *tree.BagStone) string {
	if st.Length < 10 && st.Width < 10 {
		return "0" + s.fig.Mark() + "00"
	}
	return "00" + s.fig.Mark() + "00"
}

// caratForm is the boxes for the weight of a line of stones: small ones are
// weighed to the thousandth.
func (s *sheet) caratForm(st *tree.BagStone) string {
	if st.Estimate.High < 0.1 {
		return "0" + s.fig.Mark() + "000"
	}
	return "00" + s.fig.Mark() + "00"
}
