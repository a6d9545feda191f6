package bag

import (
	"strconv"
	"strings"

	"castweek/metal/measure"
	"castweek/sheets/page"
	"castweek/sheets/words"
)

// weights lays what each stage is expected to weigh beside boxes for what it
// does weigh. What goes into the bench and what comes out of it are told apart
// in words, never by place alone.
func (s *sheet) weights() {
	w := s.b.Weights
	step := s.cast.House.ScaleStep
	s.doc.Field("weights")
	largest := w.Cast
	for _, m := range s.expected() { // figures that add up are printed so that they do
		if step > 0 && m%step != 0 {
			step = 1
		}
	}
	var rows [][]page.Cell
	row := func(stage string, expected measure.Milligram) {
		text := s.say("none")
		if expected > 0 {
			text = s.fig.Grams(expected, step)
		}
		largest = max(largest, expected)
		rows = append(rows, []page.Cell{page.Text(stage), page.Text(text), {Draw: func(l *page.Leaf, x, y, wd, h float64) {
			l.Digits(x, y+(h-hand.CellH)/2, hand, s.digits(largest), plain, s.say("unit.g"))
		}}})
	}
	row(s.say("weights.cast"), w.Cast)
	for _, c := range s.b.Castings {
		if c.Finished > 0 {
			stage := s.with("weights.cleaned", "id", c.ID)
			if c.Band > 0 {
				stage += ", ±\u00a0" + s.fig.Set(float64(c.Band), 1) + "\u00a0%"
			}
			row(stage, c.Finished)
		}
	}
	if w.Findings > 0 {
		row(s.say("weights.findings"), w.Findings)
	}
	if w.Metal > 0 {
		row(s.say("weights.metal"), w.Metal)
	}
	row(s.say("weights.in"), 0)
	row(s.say("weights.out"), 0)
	row(s.say("weights.scrap"), 0)
	if w.Stones > 0 {
		row(s.say("weights.stones"), w.Stones)
	}
	row(s.say("weights.finished"), w.Finished)
	s.changed("weights", func() {
		s.title("weights.title", 2*hand.Pitch)
		s.f.Lay(page.Table{Style: plain, Pitch: hand.Pitch, Columns: []page.Column{
			{Head: s.say("weights.stage")}, {Head: s.say("weights.expected"), Width: 30, Align: page.AlignPoint},
			{Head: s.say("weights.real"), Width: hand.DigitsWidth(s.digits(largest), plain, s.say("unit.g")) + 2}}}, rows)
	})
}

// expected are the expected weights that the bag prints.
func (s *sheet) expected() []measure.Milligram {
	w := s.b.Weights
	out := []measure.Milligram{w.Cast, w.Finished, w.Stones, w.Findings, w.Metal}
	for _, c := range s.b.Castings {
		out = append(out, c.Finished)
	}
	return out
}

// digits is how many boxes a weight needs: those of the largest expected one and
// one more before the point, since a surprise is what the scale is for.
func (s *sheet) digits(largest measure.Milligram) string {
	whole := len(strconv.FormatInt(int64(largest)/1000, 10)) + 1
	form := strings.Repeat("0", whole)
	if n := words.Decimals(s.cast.House.ScaleStep); n > 0 {
		form += s.fig.Mark() + strings.Repeat("0", n)
	}
	return form
}

// handOver lays the lines on which each hand signs, and the last line that
// closes the bag.
func (s *sheet) handOver() {
	const hands = 3
	s.title("hand.title", (hands+2)*hand.Pitch)
	rows := make([][]page.Cell, hands)
	for i := range rows {
		rows[i] = []page.Cell{page.Box(), page.Box(), page.Box(), page.Box()}
	}
	s.f.Lay(page.Table{Style: plain, Pitch: hand.Pitch, Columns: []page.Column{
		{Head: s.say("hand.to")}, {Head: s.say("hand.date"), Width: 26}, {Head: s.say("hand.weight"), Width: 26}, {Head: s.say("hand.initials"), Width: 22}}}, rows)
	s.f.Gap(1.5)
	end := strong.Wrap(s.say("bag.end"), s.f.Frame.Width()-40)
	s.f.Block(float64(len(end))*strong.Leading()+4, func(l *page.Leaf, x, y, w float64) {
		y = l.Lines(x, y+2+strong.Base(), strong, end) - strong.Leading()
		l.WriteLine(x+strong.Width(end[len(end)-1])+2, y+0.8, w-strong.Width(end[len(end)-1])-2)
	})
	if s.crossed() {
		s.f.Para(stamp, s.say("sheet.crossed"))
	}
}
