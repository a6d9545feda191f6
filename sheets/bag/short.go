package bag

import (
	"strings"

	"castweek/sheets/page"
	"castweek/tree"
)

// short lays the form for A6 or quarter Letter: which piece it is, what is in the bag, which
// stones go where and what they do not stand. The steps, the boxes for counts
// and weights and the pictures stay on the whole bag.
func (p *printer) short(b *tree.Bag) []*page.Leaf {
	p.doc.About(b.Job, "")
	s := &sheet{printer: p, b: b}
	s.begin(page.Quarter(s.cast.House.Series))
	s.f.Frame.Left = page.WordEdge
	s.facts()
	s.cautions(s.b.Cautions)
	s.shortContents()
	for i := range s.b.Stones {
		st := &s.b.Stones[i]
		s.doc.Field("stones " + st.Mark)
		s.shortStone(st)
	}
	s.doc.Field("finish")
	if b.Finish+b.Masked+b.Plated+b.LastStep+b.Hallmark != "" {
		s.f.Need(2 * plain.Leading())
		s.f.Rule()
		s.pairs(s.f.Frame.Left, []pair{{"finish.finish", b.Finish}, {"finish.masked", b.Masked}, {"finish.plated", b.Plated}, {"finish.last", b.LastStep}})
		s.pairs(s.f.Frame.Left, []pair{{"finish.hallmark", b.Hallmark}})
	}
	s.notes()
	if s.crossed() {
		s.f.Para(stamp, s.say("sheet.crossed"))
	}
	return s.f.End()
}

// shortContents lists castings with what and from where they are, those alike
// together, and findings.
func (s *sheet) shortContents() {
	s.doc.Field("castings")
	s.title("bag.here", 3*plain.Leading())
	for i := 0; i < len(s.b.Castings); {
		same := strings.Join(s.origin(s.b.Castings[i]), ", ")
		var ids []string
		for ; i < len(s.b.Castings) && strings.Join(s.origin(s.b.Castings[i]), ", ") == same; i++ {
			ids = append(ids, s.b.Castings[i].ID)
		}
		s.f.Need(3 * plain.Leading())
		s.f.Para(code, strings.Join(ids, " "))
		s.f.Para(plain, same)
	}
	s.doc.Field("findings")
	if len(s.b.Findings) > 0 {
		for _, f := range s.b.Findings {
			s.f.Para(plain, s.finding(f))
		}
	}
	s.missing()
}

func (s *sheet) shortStone(st *tree.BagStone) {
	s.f.Gap(1)
	s.f.Need(6 * plain.Leading())
	s.f.Rule()
	s.f.Gap(0.5)
	s.f.Block(10, func(l *page.Leaf, x, y, w float64) {
		s.mark(l, x+5, y+5, st.Mark)
		l.Lines(x+indent, y+strong.Base()-0.5, strong, []string{fit(strong, stoneWords(st), w-indent), fit(strong, st.Place, w-indent)})
	})
	left := s.f.Frame.Left
	if strong.Width(stoneWords(st)) > s.f.Frame.Width()-indent || strong.Width(st.Place) > s.f.Frame.Width()-indent {
		s.f.Para(plain, stoneWords(st)+", "+st.Place)
	}
	s.pairs(left, append([]pair{{"stone.toset", s.fig.Count(st.Count)}, {"stone.spares", s.fig.Count(st.Spares)}, {"stone.size", s.size(st)}}, s.stonePairs(st)...))
	var stands []string
	for _, cell := range st.Stands {
		_, key := shown(cell.Level)
		stands = append(stands, careWord(s.words, cell)+" "+s.say(key))
	}
	if len(stands) > 0 {
		s.f.Para(plain, s.say("stone.care")+": "+strings.Join(stands, ", "))
	}
}
