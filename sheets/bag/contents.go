package bag

import (
	"strconv"
	"strings"

	"castweek/sheets/page"
	"castweek/tree"
)

// together is from how many castings on a bag counts them in a grid instead of
// giving each a line of its own.
const together = 5

// contents lays what has to be in the bag, each with a box to tick when it has
// been seen.
func (s *sheet) contents() {
	s.doc.Field("castings")
	s.title("bag.here", 2*plain.Leading()+2)
	if len(s.b.Castings) >= together {
		s.grid()
	} else {
		for _, c := range s.b.Castings {
			s.casting(c)
		}
	}
	s.doc.Field("findings")
	if len(s.b.Findings) > 0 {
		for _, f := range s.b.Findings {
			s.tickLine(s.finding(f), "")
		}
	}
	s.missing()
}

// missing lays which castings of the piece are not in the bag, and why.
func (s *sheet) missing() {
	s.doc.Field("missing")
	if len(s.b.Missing) == 0 {
		return
	}
	s.f.Gap(1)
	s.f.Need(2 * plain.Leading())
	s.f.Para(strong, s.say("bag.missing"))
	for _, m := range s.b.Missing {
		s.f.Para(plain, "- "+m)
	}
}

// casting lays one casting: its id, and what and from where it is. A long id
// stands above its words.
func (s *sheet) casting(c tree.BagCasting) {
	words := strings.Join(s.origin(c), ", ")
	at := s.f.Frame.Left + hand.Tick*5/3
	beside := code.Width(c.ID) + 3
	width := s.f.Frame.Right - at - beside
	var id []string
	if width < 40 {
		id, beside, width = code.Wrap(c.ID, s.f.Frame.Right-at), 0, s.f.Frame.Right-at
	}
	lines := plain.Wrap(words, width)
	h := max(hand.Pitch, float64(len(id)+len(lines))*plain.Leading()+1)
	s.f.Block(h, func(l *page.Leaf, x, y, w float64) {
		l.TickBox(x, y+(h-hand.Tick)/2, hand.Tick)
		y += (h - float64(len(id)+len(lines))*plain.Leading()) / 2
		if len(id) > 0 {
			y = l.Lines(at, y+code.Base(), code, id) - code.Base()
		} else {
			l.Text(at, y+code.Base(), code, c.ID)
		}
		l.Lines(at+beside, y+plain.Base(), plain, lines)
	})
}

// origin says what a casting is and where it comes from.
func (s *sheet) origin(c tree.BagCasting) []string {
	what := c.Part
	if c.Alloy != "" {
		what += ", " + c.Alloy
	}
	if c.Spare {
		what = s.say("bag.spare") + ", " + what
	}
	out := []string{what}
	if c.Tree != "" {
		out = append(out, s.with("bag.tree", "tree", c.Tree))
	}
	if c.Flask != "" {
		out = append(out, s.with("bag.flask", "flask", strings.ReplaceAll(c.Flask, " ", "\u00a0")))
	}
	if c.Material != "" {
		out = append(out, c.Material)
	}
	return out
}

func (s *sheet) finding(f tree.BagFinding) string {
	parts := []string{s.with("bag.finding", "count", s.fig.Count(f.Count), "name", f.Name)}
	if f.Alloy != "" {
		parts = append(parts, f.Alloy)
	}
	if f.Weight > 0 {
		parts = append(parts, s.fig.Grams(f.Weight, 1)+"\u00a0"+s.say("unit.g"))
	}
	if f.Marked {
		parts = append(parts, s.say("bag.marked"))
	} else {
		parts = append(parts, s.say("bag.unmarked"))
	}
	switch {
	case !f.Here && f.From != "":
		parts = append(parts, s.with("bag.ordered", "from", f.From))
	case !f.Here:
		parts = append(parts, s.say("bag.nothere"))
	case f.From != "":
		parts = append(parts, s.with("bag.from", "from", f.From))
	}
	return strings.Join(parts, ", ")
}

// grid lays small identical castings of one bag: a box for each, with its
// number among all of them.
func (s *sheet) grid() {
	of := len(s.b.Castings)
	widest := 0.0
	for i, c := range s.b.Castings {
		widest = max(widest, code.Width(c.ID), plain.Width(s.with("bag.nth", "n", strconv.Itoa(i+1), "of", strconv.Itoa(of))))
	}
	const (
		gap   = 1.8 // neighbours stay 2 mm apart, so the words come nearer
		pitch = 10.0
	)
	cell := hand.Tick + gap + widest + 1.2
	columns := max(1, int(s.f.Frame.Width()/cell))
	cell = s.f.Frame.Width() / float64(columns)
	for i := 0; i < of; {
		c := s.b.Castings[i]
		same := strings.Join(s.origin(c), ", ")
		s.f.Need(plain.Leading() + pitch + 2)
		s.f.Para(plain, same)
		s.f.Gap(0.5)
		run := 0
		for i+run < of && strings.Join(s.origin(s.b.Castings[i+run]), ", ") == same {
			run++
		}
		for row := 0; row < run; row += columns {
			s.f.Block(pitch, func(l *page.Leaf, x, y, w float64) {
				for k := row; k < min(row+columns, run); k++ {
					at := x + float64(k-row)*cell
					l.Rect(at, y+1, hand.Tick, hand.Tick, page.Edge)
					l.Text(at+hand.Tick+gap, y+plain.Base()-0.3, plain, s.with("bag.nth", "n", strconv.Itoa(i+k+1), "of", strconv.Itoa(of)))
					l.Text(at+hand.Tick+gap, y+plain.Base()+pitch/2-0.3, code, s.b.Castings[i+k].ID)
				}
			})
		}
		i += run
	}
}

// tickLine lays words beside a box to tick, and a number before them if given.
// Longer than a leaf, it goes on over the next.
func (s *sheet) tickLine(text, number string) {
	indent := hand.Tick * 5 / 3
	if number != "" {
		indent += max(strong.Width("00"), strong.Width(number)) + 2.5
	}
	s.f.Line([]string{text}, func() { s.ticked(text, number, indent) })
}

// ticked draws the line; its number is no part of what it says, since it
// changes with the lines before.
func (s *sheet) ticked(text, number string, indent float64) {
	lines := plain.Wrap(text, s.f.Frame.Width()-indent)
	h := max(hand.Pitch, float64(len(lines))*plain.Leading()+1)
	if h > s.f.Frame.Height()/2 {
		s.f.Need(hand.Pitch)
		s.box(number)
		s.f.ParaAt(plain, s.f.Frame.Left+indent, s.f.Frame.Width()-indent, text)
		s.f.Gap(2)
		return
	}
	s.f.Need(h)
	s.box(number)
	y := s.f.Y + 0.5
	if len(lines) == 1 {
		y = s.f.Y + 1 + (hand.Tick-plain.Leading())/2
	}
	s.f.Leaf().Lines(s.f.Frame.Left+indent, y+plain.Base(), plain, lines)
	s.f.Y += h
}

// box draws the box of a line at the flow's place, with its number.
func (s *sheet) box(number string) {
	l, x, y := s.f.Leaf(), s.f.Frame.Left, s.f.Y+1
	at := l.TickBox(x, y, hand.Tick)
	if number != "" {
		l.TextRight(at+max(strong.Width("00"), strong.Width(number)), y+(hand.Tick-plain.Leading())/2+plain.Base(), strong, number)
	}
}
