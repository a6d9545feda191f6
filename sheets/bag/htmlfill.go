package bag

import "strconv"

// A webFill is a table of the page with boxes to fill, each of which says by
// itself what goes into it.
type webFill struct {
	Title string
	One   bool // one box a row
	Heads []string
	Rows  []webRow
}

type webRow struct {
	Head  string
	Said  []string // what is expected
	Boxes []webBox
}

type webBox struct {
	Label  string
	Number bool
}

// fillOf makes a table of boxes: a row for each head, a box for each column.
// Columns named in words are for words, the others for numbers.
func (s *sheet) fillOf(title, first string, rows []string, columns []string, words ...string) webFill {
	out := webFill{Title: title, One: len(columns) == 1, Heads: append([]string{first}, columns...)}
	for _, head := range rows {
		row := webRow{Head: head}
		for _, c := range columns {
			number := true
			for _, w := range words {
				number = number && w != c
			}
			row.Boxes = append(row.Boxes, webBox{head + ", " + c, number})
		}
		out.Rows = append(out.Rows, row)
	}
	return out
}

func (s *sheet) marks() []string {
	var out []string
	for i := range s.b.Stones {
		out = append(out, s.b.Stones[i].Mark)
	}
	return out
}

func (s *sheet) webCountIn() webFill {
	mm, ct, initials := s.say("stone.measured")+" "+s.say("unit.mm"), s.say("stone.weighed")+" "+s.say("unit.ct"), s.say("stone.initials")
	return s.fillOf(s.say("stones.in"), s.say("page.mark"), s.marks(), []string{s.say("stone.in"), mm, ct, initials}, initials)
}

func (s *sheet) webCountOut() webFill {
	var columns []string
	for _, key := range countedOut {
		columns = append(columns, s.say(key))
	}
	return s.fillOf(s.say("stones.out"), s.say("page.mark"), s.marks(), columns, s.say("stone.initials"))
}

func (s *sheet) webShank() webFill {
	var parts []string
	for _, k := range s.b.Shank {
		parts = append(parts, k.Part)
	}
	unit := " " + s.say("unit.mm")
	return s.fillOf(s.say("page.shank"), s.say("stone.part"), parts, []string{s.say("shank.before") + unit, s.say("shank.after") + unit})
}

func (s *sheet) webWeights() webFill {
	var names, said []string
	for _, k := range s.stages() {
		names = append(names, k.stage)
		text := s.say("none")
		if k.expected > 0 {
			text = s.grams(k.expected)
		}
		said = append(said, text)
	}
	out := s.fillOf(s.say("page.weights"), s.say("page.stage"), names, []string{s.say("weights.real") + " " + s.say("unit.g")})
	out.Heads = append(out.Heads[:1:1], s.say("weights.expected"), out.Heads[1])
	for i := range out.Rows {
		out.Rows[i].Said = []string{said[i]}
	}
	return out
}

// webEach are the boxes for each casting of a bag of many.
func (s *sheet) webEach() []webFill {
	var out []webFill
	if len(s.b.Castings) < together {
		return nil
	}
	for _, k := range s.kinds() {
		var ids []string
		for i, c := range s.b.Castings[k.from : k.from+k.n] {
			ids = append(ids, s.with("bag.nth", "n", strconv.Itoa(k.from+i+1), "of", strconv.Itoa(len(s.b.Castings)))+", "+c.ID)
		}
		out = append(out, s.fillOf(s.kindWords(k), s.say("page.casting"), ids, []string{s.say("weights.real") + " " + s.say("unit.g")}))
	}
	return out
}

func (s *sheet) webHands() webFill {
	var rows []string
	for i := range mostHands {
		rows = append(rows, strconv.Itoa(i+1))
	}
	to, date, initials := s.say("page.to"), s.say("hand.date"), s.say("hand.initials")
	return s.fillOf(s.say("page.handed"), s.say("page.hand"), rows, []string{to, date, s.say("hand.weight"), initials}, to, date, initials)
}
