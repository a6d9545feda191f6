package bag

import (
	"castweek/sheets/page"
)

// finish lays how the piece shall look, what is kept free, the hallmark, and
// the shank before and after heavy polish.
func (s *sheet) finish() {
	b := s.b
	s.doc.Field("finish")
	if b.Finish+b.Masked+b.Plated+b.LastStep+b.Hallmark != "" {
		s.title("finish.title", 2*plain.Leading())
		s.changed("finish", func() {
			s.fact(s.say("finish.finish"), strong, b.Finish)
			s.fact(s.say("finish.masked"), strong, b.Masked)
			s.fact(s.say("finish.plated"), strong, b.Plated)
			s.fact(s.say("finish.last"), strong, b.LastStep)
		})
		s.changed("hallmark", func() { s.fact(s.say("finish.hallmark"), strong, b.Hallmark) })
	}
	if len(b.Shank) == 0 {
		return
	}
	s.doc.Field("shank")
	s.changed("shank", func() {
		s.title("shank.title", plain.Leading()+hand.Pitch)
		for _, k := range b.Shank {
			s.f.Para(plain, k.Part+": "+s.fig.Text(s.with("shank.line", "modelled", k.Modelled, "finished", k.Finished)))
			s.f.Gap(1)
			s.f.Block(hand.Pitch, func(l *page.Leaf, x, y, w float64) {
				form := "0" + s.fig.Mark() + "00"
				base := y + hand.CellH/2 + page.CapMM(plain.Size)/2
				for i, key := range []string{"shank.before", "shank.after"} {
					at := l.Text(x+float64(i)*w/2, base, plain, s.say(key)) + 2
					l.Digits(at, y, hand, form, plain, s.say("unit.mm"))
				}
			})
		}
	})
}
