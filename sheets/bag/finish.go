package bag

import (
	"castweek/sheets/page"
)

// finish lays how the piece shall look, what is kept free, the hallmark, and
// the shank before and after heavy polish.
func (s *sheet) finish() {
	b := s.b
	s.doc.Field("finish")
	if b.Finish+b.Masked+b.Plated+b.LastStep+b.Hallmark != "" || b.Law != nil {
		s.title("finish.title", 2*plain.Leading())
		s.fact(s.say("finish.finish"), strong, b.Finish)
		s.fact(s.say("finish.masked"), strong, b.Masked)
		s.fact(s.say("finish.plated"), strong, b.Plated)
		s.fact(s.say("finish.last"), strong, b.LastStep)
		s.fact(s.say("finish.hallmark"), strong, b.Hallmark)
		if b.Law != nil {
			s.f.Para(plain, s.say("finish.law")+": "+s.fig.Text(b.Law.Verdict+": "+b.Law.Reason+". "+b.Law.Decides))
		}
	}
	if len(b.Shank) == 0 {
		return
	}
	s.doc.Field("shank")
	s.title("shank.title", plain.Leading()+hand.Pitch)
	for _, k := range b.Shank {
		s.f.Para(plain, k.Part+": "+s.fig.Text(s.with("shank.line", "modelled", k.Modelled, "finished", k.Finished)))
		s.f.Gap(1)
		form := "0" + s.fig.Mark() + "00"
		label := max(plain.Width(s.say("shank.before")), plain.Width(s.say("shank.after"))) + 2
		columns := max(1, int(s.f.Frame.Width()/(label+hand.DigitsWidth(form, plain, s.say("unit.mm"))+4)))
		for i, key := range []string{"shank.before", "shank.after"} {
			if i > 0 && columns == 1 {
				s.shankBox(key, label, form, 0, true)
			} else {
				s.shankBox(key, label, form, float64(i)*s.f.Frame.Width()/2, i == 0)
			}
		}
	}
}

// shankBox lays one box for a measured shank, on a row of its own or beside
// the one before.
func (s *sheet) shankBox(key string, label float64, form string, dx float64, ownRow bool) {
	if !ownRow {
		s.f.Y -= hand.Pitch
	}
	s.f.Block(hand.Pitch, func(l *page.Leaf, x, y, w float64) {
		l.Text(x+dx, y+hand.CellH/2+page.CapMM(plain.Size)/2, plain, s.say(key))
		l.Digits(x+dx+label, y, hand, form, plain, s.say("unit.mm"))
	})
}
