package bag

import (
	"strconv"
	"strings"

	"castweek/metal/measure"
	"castweek/sheets/page"
	"castweek/sheets/words"
)

// A stage is one weighing of the bag with the weight that is expected, 0 where
// nobody can know it.
type stage struct {
	stage    string
	expected measure.Milligram
}

// stages are the weighings in the order of the work. What goes into the bench
// and what comes out of it are told apart in words, never by place alone.
func (s *sheet) stages() []stage {
	w := s.b.Weights
	out := []stage{{s.say("weights.cast"), w.Cast}}
	for _, c := range s.b.Castings {
		if c.Finished > 0 {
			text := s.with("weights.cleaned", "id", c.ID)
			if c.Band > 0 {
				text += ", ±\u00a0" + s.fig.Set(float64(c.Band), 1) + "\u00a0%"
			}
			out = append(out, stage{text, c.Finished})
		}
	}
	if w.Findings > 0 {
		out = append(out, stage{s.say("weights.findings"), w.Findings})
	}
	if w.Metal > 0 {
		out = append(out, stage{s.say("weights.metal"), w.Metal})
	}
	out = append(out, stage{s.say("weights.in"), 0}, stage{s.say("weights.out"), 0}, stage{s.say("weights.scrap"), 0})
	if w.Stones > 0 {
		out = append(out, stage{s.say("weights.stones"), w.Stones})
	}
	return append(out, stage{s.say("weights.finished"), w.Finished})
}

// grams writes an expected weight as the scale shows it; where any of the bag
// is finer than the scale, all are written to the milligram, so that what adds
// up is printed so that it does.
func (s *sheet) grams(m measure.Milligram) string {
	step := s.cast.House.ScaleStep
	for _, k := range s.stages() {
		if step > 0 && k.expected%step != 0 {
			step = 1
		}
	}
	return s.fig.Grams(m, step)
}

// weights lays what each stage is expected to weigh beside boxes for what it
// does weigh.
func (s *sheet) weights() {
	s.doc.Field("weights")
	var largest measure.Milligram
	for _, k := range s.stages() {
		largest = max(largest, k.expected)
	}
	form := s.digits(largest)
	var rows [][]page.Cell
	for _, k := range s.stages() {
		text := s.say("none")
		if k.expected > 0 {
			text = s.grams(k.expected)
		}
		rows = append(rows, []page.Cell{page.Text(k.stage), page.Text(text), s.digitCell(form, s.say("unit.g"))})
	}
	s.changed("weights", func() {
		// Whole where it can be: a sum is compared with what stands above it.
		s.title("weights.title", min(float64(len(rows)+1)*hand.Pitch, 0.7*s.f.Frame.Height()))
		s.f.Lay(page.Table{Style: plain, Pitch: hand.Pitch, Columns: []page.Column{
			{Head: s.say("weights.stage")}, {Head: s.say("weights.expected"), Width: 30, Align: page.AlignPoint},
			{Head: s.say("weights.real"), Width: hand.DigitsWidth(form, plain, s.say("unit.g")) + 2}}}, rows)
	})
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
