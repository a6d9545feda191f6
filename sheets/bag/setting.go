package bag

import (
	"slices"
	"strconv"
	"strings"

	"castweek/sheets/page"
	"castweek/tree"
)

// setting lays the work on the stones: where to stop, what comes before any
// stone is set, the steps of each style, and what comes after the last.
func (s *sheet) setting() {
	stops, w := stopsOf(s.b, s.say("steps.each")), workOf(s.b, s.say("steps.each"))
	if len(w.lines) == 0 && stops.empty() {
		return
	}
	s.doc.Field("setting steps")
	s.title("steps.title", max(30, limitsHigh(stops.limits)))
	s.stops(stops)
	n := 0
	tasks := func(list []task) {
		for _, t := range list {
			n++
			s.task(t, n)
		}
	}
	if len(w.lines) > 1 && len(w.before) > 0 {
		s.part("steps.before")
	}
	tasks(w.before)
	for _, r := range w.runs {
		s.doc.Field("setting steps " + r.lines[0].Mark)
		s.runHead(r.lines)
		tasks(r.tasks)
	}
	if len(w.lines) > 1 && len(w.after) > 0 {
		s.part("steps.after")
	}
	tasks(w.after)
	s.sources()
}

// part lays the small heading of a part of the work.
func (s *sheet) part(key string) {
	s.f.Gap(1.5)
	s.f.Need(strong.Leading() + hand.Pitch)
	s.f.Para(strong, s.say(key))
}

// task lays one line to tick, behind the cautions that it asks for.
func (s *sheet) task(t task, n int) {
	for _, c := range t.cautions {
		s.caution(c)
	}
	s.tickLine(s.taskText(t), strconv.Itoa(n))
}

// taskText is a task with its tool.
func (s *sheet) taskText(t task) string {
	text := s.fig.Text(t.text)
	if t.tool != "" {
		text += " " + s.with("steps.tool", "tool", s.fig.Text(t.tool))
	}
	return text
}

// runWords says how and which stones of a run are set.
func (s *sheet) runWords(lines []*tree.BagStone) string {
	var words []string
	for _, st := range lines {
		if what := s.fig.Count(st.Count) + " x " + st.Kind + " " + s.size(st) + "\u00a0" + s.say("unit.mm"); !slices.Contains(words, what) {
			words = append(words, what)
		}
	}
	return lines[0].Style + ": " + strings.Join(words, ", ")
}

// runHead says which stones the steps are for. Many marks are written, few are
// drawn.
func (s *sheet) runHead(lines []*tree.BagStone) {
	const drawn = 4
	head := s.runWords(lines)
	s.f.Gap(1)
	if len(lines) > drawn {
		s.f.Need(value.Leading() + strong.Leading() + hand.Pitch)
		s.f.Para(value, lines[0].Style)
		s.f.Para(strong, strings.Join(marksOf(lines), ", "))
		return
	}
	st := value
	from := markStep*float64(len(lines)-1) + indent
	if st.Width(head) > s.f.Frame.Width()-from {
		st = strong
	}
	text := st.Wrap(head, s.f.Frame.Width()-from)
	h := max(10, float64(len(text))*st.Leading()+1)
	s.f.Need(h + hand.Pitch)
	s.f.Block(h, func(l *page.Leaf, x, y, w float64) {
		for i, m := range marksOf(lines) {
			s.mark(l, x+5+markStep*float64(i), y+5, m)
		}
		l.Lines(x+from, y+5-float64(len(text)-1)*st.Leading()/2+page.CapMM(st.Size)/2, st, text)
	})
}

// markStep is from one mark in its circle to the next.
const markStep = 10.5

func marksOf(lines []*tree.BagStone) []string {
	out := make([]string, len(lines))
	for i, st := range lines {
		out[i] = st.Mark
	}
	return out
}

// assembly lays the steps that join the parts.
func (s *sheet) assembly() {
	if len(s.b.Assembly) == 0 {
		return
	}
	s.doc.Field("assembly")
	s.title("assembly.title", hand.Pitch)
	for n, text := range s.b.Assembly {
		s.tickLine(s.fig.Text(text), strconv.Itoa(n+1))
	}
}
