package bag

import (
	"slices"
	"strings"

	"castweek/tree"
)

// sources says where the limits are from, once for the bag; it is for checking,
// not for the work, and so in small type. What holds for some lines only is
// told with their marks.
func (s *sheet) sources() {
	if text := s.sourceText(); text != "" {
		s.f.Gap(1)
		s.f.Para(stamp, s.fig.Text(s.with("steps.sources", "sources", text+".")))
	}
}

// A place is where limits are from, with what it says, once each, in the order
// in which they are met.
type place struct {
	where string
	of    map[string][]string // the marks of the lines for which it says this
	says  []string
}

// sourceText tells every place once, with all that it says of the lines of a
// bag; what holds for some of the lines only is followed by their marks.
func (s *sheet) sourceText() string {
	b := s.b
	var places []*place
	lines := 0
	for i := range b.Stones {
		list := sourcesOf(&b.Stones[i])
		if len(list) > 0 {
			lines++
		}
		for _, text := range list {
			where, what, _ := strings.Cut(text, ": ")
			k := slices.IndexFunc(places, func(p *place) bool { return p.where == where })
			if k < 0 {
				k = len(places)
				places = append(places, &place{where: where, of: map[string][]string{}})
			}
			p := places[k]
			if p.of[what] == nil {
				p.says = append(p.says, what)
			}
			p.of[what] = append(p.of[what], b.Stones[i].Mark)
		}
	}
	out := make([]string, len(places))
	for i, p := range places {
		out[i] = s.told(p, lines)
	}
	return strings.Join(out, "; ")
}

// told is a place with what it says. One that is the source of the work as a
// whole besides says so, lest only what it says seem to be from there.
func (s *sheet) told(p *place, lines int) string {
	where := p.where
	var says []string
	for _, what := range p.says {
		text := what
		if marks := p.of[what]; len(marks) < lines {
			text += " (" + strings.Join(marks, ", ") + ")"
		}
		if what == "" {
			where += text
		} else {
			says = append(says, text)
		}
	}
	switch {
	case len(says) == 0:
		return where
	case p.of[""] != nil:
		return s.with("steps.also", "where", where, "what", strings.Join(says, ", "))
	}
	return where + ": " + strings.Join(says, ", ")
}

// sourcesOf lists the sources of steps and stop lines, once each: several of one
// step are parted.
func sourcesOf(st *tree.BagStone) []string {
	var all []string
	add := func(source string) {
		for text := range strings.SplitSeq(source, "; ") {
			if text != "" && !slices.Contains(all, text) {
				all = append(all, text)
			}
		}
	}
	for _, step := range st.Steps {
		add(step.Source)
	}
	for _, stop := range st.Stops {
		add(stop.Source)
	}
	return all
}
