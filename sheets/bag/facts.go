package bag

import (
	"strings"

	"castweek/metal/problem"
)

// facts lays what must not go wrong: finger size, alloy, due day, whose metal.
func (s *sheet) facts() {
	b := s.b
	s.f.Leaf() // draws the head, which may leave a rest of the name
	if s.rest != "" {
		s.doc.Field("design")
		s.f.Para(strong, s.rest)
	}
	s.Opening(s.f, strong, plain, hand.Tick)
	s.doc.Field("size")
	if z := b.Size; z != nil {
		s.fact(s.say("bag.size"), value, z.AsTyped+"   "+s.with("bag.inside", "mm", s.fig.MM(z.Inside)))
		var more []string
		if z.Other != "" {
			more = append(more, s.with("bag.same", "other", z.Other))
		}
		if z.Gauge != "" {
			more = append(more, s.with("bag.gauge", "gauge", z.Gauge))
		}
		if z.Resizable != "" {
			more = append(more, s.with("bag.resizable", "way", z.Resizable))
		}
		if z.Finishes > 0 {
			more = append(more, s.with("bag.finishes", "mm", s.fig.MM(z.Finishes)))
		}
		s.fact("", plain, strings.Join(more, "; "))
	}
	s.doc.Field("alloy")
	for _, line := range s.alloys() {
		s.fact(s.say("bag.alloy"), value, line)
	}
	s.fact(s.say("bag.due"), value, s.fig.Moment(b.Due))
	s.doc.Field("for")
	s.fact(s.say("bag.for"), strong, b.For)
	s.doc.Field("owner")
	s.fact(s.say("bag.owner"), strong, b.Owner)
	s.doc.Field("remarks")
	if len(b.Remarks) > 0 {
		s.title("bag.remarks", plain.Leading())
		for _, r := range b.Remarks {
			s.f.Para(plain, "- "+s.fig.Text(r))
		}
	}
}

// alloys are the alloys of the bag, each once, with their parts where there
// are several.
func (s *sheet) alloys() []string {
	var order []string
	parts := map[string][]string{}
	for _, c := range s.b.Castings {
		if _, ok := parts[c.Alloy]; !ok {
			order = append(order, c.Alloy)
		}
		known := false
		for _, p := range parts[c.Alloy] {
			known = known || p == c.Part
		}
		if !known {
			parts[c.Alloy] = append(parts[c.Alloy], c.Part)
		}
	}
	if len(order) == 1 {
		return order
	}
	out := make([]string, len(order))
	for i, a := range order {
		out[i] = a + ": " + strings.Join(parts[a], ", ")
	}
	return out
}

// notes lays the free words of the job.
func (s *sheet) notes() {
	if s.b.Notes == "" {
		return
	}
	s.doc.Field("notes")
	s.title("notes.title", 2*plain.Leading())
	s.f.Para(plain, s.b.Notes)
}

// crossed tells whether this bag holds a sign that the fonts lack.
func (s *sheet) crossed() bool {
	for _, p := range s.doc.Problems() {
		if p.Place.File == s.b.Job && p.Kind == problem.Remark && p.Code == "sign-not-in-fonts" {
			return true
		}
	}
	return false
}
