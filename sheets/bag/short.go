package bag

import (
	"strings"

	"castweek/sheets/page"
)

// short lays the form for A6: which piece it is, what is in the bag and which
// stones go where; the steps stay on the whole bag.
func (s *sheet) short() []*page.Leaf {
	s.begin(page.A6)
	s.f.Frame.Left = page.WordEdge
	s.facts()
	s.cautions(s.b.Cautions)
	s.contents()
	for i := range s.b.Stones {
		st := &s.b.Stones[i]
		s.doc.Field("stones " + st.Mark)
		s.changed("stone "+st.Mark, func() {
			s.f.Gap(1.5)
			s.f.Need(40)
			s.f.Rule()
			s.stoneName(st)
			s.fact(s.say("stone.toset"), value, s.fig.Count(st.Count))
			s.fact(s.say("stone.spares"), strong, s.fig.Count(st.Spares))
			size := s.fig.Set(float64(st.Length), 2)
			if st.Width > 0 && st.Width != st.Length {
				size += " x " + s.fig.Set(float64(st.Width), 2)
			}
			s.fact(s.say("stone.size"), strong, size)
			s.stoneFacts(st)
			var stands []string
			for _, cell := range st.Stands {
				_, key := shown(cell.Level)
				stands = append(stands, cell.Word+": "+s.say(key))
			}
			s.fact(s.say("stone.care"), plain, strings.Join(stands, "; "))
		})
	}
	s.finish()
	s.notes()
	if s.crossed() {
		s.f.Para(stamp, s.say("sheet.crossed"))
	}
	return s.f.End()
}
