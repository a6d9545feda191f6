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
// and what comes out of it are told apart in words, never by place alone. Many
// castings are weighed together here and one by one in [sheet.each].
func (s *sheet) stages() []stage {
	w := s.b.Weights
	out := []stage{{s.say("weights.cast"), w.Cast}}
	many := len(s.b.Castings) >= together
	switch {
	case many && w.Finished > 0:
		out = append(out, stage{s.say("weights.allcleaned"), w.Finished})
	case !many:
		for _, c := range s.b.Castings {
			if c.Finished > 0 {
				out = append(out, stage{s.with("weights.cleaned", "id", c.ID) + s.band(c.Band), c.Finished})
			}
		}
	}
	if w.Findings > 0 {
		out = append(out, stage{s.say("weights.findings"), w.Findings})
	}
	// A sum of one is no sum, and what is finished is told once.
	if w.Metal > 0 && w.Metal != w.Whole && (w.Findings > 0 || len(s.b.Castings) > 1 && !many) {
		out = append(out, stage{s.say("weights.metal"), w.Metal})
	}
	out = append(out, stage{s.say("weights.in"), 0}, stage{s.say("weights.out"), 0}, stage{s.say("weights.scrap"), 0})
	if len(s.b.Stones) > 0 {
		out = append(out, stage{s.say("weights.stones"), w.Stones})
	}
	return append(out, stage{s.say("weights.finished"), w.Whole})
}

// band is how far an expected weight may lie either way, in words.
func (s *sheet) band(b measure.Percent) string {
	if b <= 0 {
		return ""
	}
	return ", ±\u00a0" + s.fig.Set(float64(b), 1) + "\u00a0%"
}

// A kindOf is castings of a bag that are expected to weigh the same.
type kindOf struct {
	part     string
	from     int // index of the first in the bag
	n        int
	expected measure.Milligram
	band     measure.Percent
}

// kinds gathers castings that follow each other and are alike.
func (s *sheet) kinds() []kindOf {
	var out []kindOf
	for i, c := range s.b.Castings {
		if n := len(out); n > 0 && out[n-1].part == c.Part && out[n-1].expected == c.Finished && out[n-1].band == c.Band {
			out[n-1].n++
			continue
		}
		out = append(out, kindOf{c.Part, i, 1, c.Finished, c.Band})
	}
	return out
}

// kindWords says what castings that are alike shall weigh.
func (s *sheet) kindWords(k kindOf) string {
	text := s.with("weights.each", "part", k.part)
	if k.expected <= 0 {
		return text
	}
	return text + ": " + s.with("weights.eachexpected", "g", s.fig.Grams(k.expected, s.step())) + s.band(k.band)
}

// smallPiece is a weight of a single casting that cannot be out by so much that
// it needs one more digit.
const smallPiece measure.Milligram = 2000

// each lays a box for the weight of every casting of a bag of many, by the
// number that its tick box has.
func (s *sheet) each() {
	if len(s.b.Castings) < together {
		return
	}
	const apart = 3.4 // between one box and the number of the next
	for i, k := range s.kinds() {
		if s.apart == beforeEach && i == 0 && !s.f.Fresh() {
			s.f.Break()
		}
		form := s.digits(k.expected)
		if k.expected > 0 && k.expected < smallPiece {
			form = form[1:]
		}
		number := max(code.Width(strconv.Itoa(len(s.b.Castings))), code.Width("00")) + 1.5
		cell := number + hand.DigitsWidth(form, plain, "") + apart
		columns := max(1, int((s.f.Frame.Width()+apart)/cell))
		s.f.Gap(1.5)
		s.f.Need(plain.Leading() + 2*hand.Pitch)
		s.f.Para(plain, s.kindWords(k))
		s.f.Gap(0.8)
		for row := 0; row < k.n; row += columns {
			s.f.Block(hand.Pitch, func(l *page.Leaf, x, y, w float64) {
				for i := row; i < min(row+columns, k.n); i++ {
					at := x + float64(i-row)*cell
					l.TextRight(at+number-1.5, y+hand.CellH/2+page.CapMM(code.Size)/2, code, strconv.Itoa(k.from+i+1))
					l.Digits(at+number, y, hand, form, plain, "")
				}
			})
		}
	}
}

// grams writes an expected weight as the scale shows it.
func (s *sheet) grams(m measure.Milligram) string { return s.fig.Grams(m, s.step()) }

// step is the scale's; where any weight of the bag is finer than the scale, all
// are written to the milligram, so that what adds up is printed so that it does.
func (s *sheet) step() measure.Milligram {
	step := s.cast.House.ScaleStep
	for _, k := range s.stages() {
		if step > 0 && k.expected%step != 0 {
			return 1
		}
	}
	return step
}

// weights lays what each stage is expected to weigh beside boxes for what it
// does weigh.
func (s *sheet) weights() {
	s.doc.Field("weights")
	var largest measure.Milligram
	stages := s.stages()
	for _, k := range stages {
		largest = max(largest, k.expected)
	}
	form := s.digits(largest)
	var rows [][]page.Cell
	for _, k := range stages {
		text := s.say("none")
		if k.expected > 0 {
			text = s.grams(k.expected)
		}
		rows = append(rows, []page.Cell{page.Text(k.stage), page.Text(text), s.digitCell(form, s.say("unit.g"))})
	}
	if s.apart == beforeAll && !s.f.Fresh() {
		s.f.Break()
	}
	// Enough of it that a sum stands near what it is compared with.
	s.begins(min(float64(len(rows)+1)*hand.Pitch, 5*hand.Pitch))
	s.f.Lay(page.Table{Style: plain, Pitch: hand.Pitch, Columns: []page.Column{
		{Head: s.say("weights.title")}, {Head: s.say("weights.expected"), Width: 30, Align: page.AlignPoint},
		{Head: s.say("weights.real"), Width: hand.DigitsWidth(form, plain, s.say("unit.g")) + 2}}}, rows)
	s.each()
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

// mostHands is how many hands a bag has lines for, beside the last.
const mostHands = 3

// handOver lays the lines on which each hand signs, and the last line that
// closes the bag. It tells whether they are alone on their leaf.
func (s *sheet) handOver() (alone bool) {
	// Three hands; fewer where one more would begin a leaf of its own.
	end := strong.Leading() + 3
	need := func(hands int) float64 { return float64(hands)*hand.Pitch + strong.Leading() + 2 + end }
	hands := mostHands
	for n := mostHands - 1; n >= s.hands && s.f.Left()-1.5 < need(hands); n-- {
		if s.f.Left()-1.5 >= need(n) {
			hands = n
		}
	}
	s.f.Gap(1.5) // the rule below the weights parts them
	s.f.Need(need(hands))
	alone = s.f.Fresh()
	rows := make([][]page.Cell, hands)
	for i := range rows {
		rows[i] = []page.Cell{page.Box(), page.Box(), page.Box(), page.Box()}
	}
	s.f.Lay(page.Table{Style: plain, Pitch: hand.Pitch, Columns: []page.Column{
		{Head: s.say("hand.title")}, {Head: s.say("hand.date"), Width: 26}, {Head: s.say("hand.weight"), Width: 26}, {Head: s.say("hand.initials"), Width: 22}}}, rows)
	last := strong.Wrap(s.say("bag.end"), s.f.Frame.Width()-30)
	s.f.Block(float64(len(last)-1)*strong.Leading()+end, func(l *page.Leaf, x, y, w float64) {
		y = l.Lines(x, y+2+strong.Base(), strong, last) - strong.Leading()
		l.WriteLine(x+strong.Width(last[len(last)-1])+2, y+0.8, w-strong.Width(last[len(last)-1])-2)
	})
	if s.crossed() {
		s.f.Para(stamp, s.say("sheet.crossed"))
	}
	return alone
}
