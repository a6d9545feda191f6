package bag

import (
	"reflect"
	"slices"
	"strconv"
	"strings"

	"castweek/sheets/page"
	"castweek/tree"
)

// setting lays the steps of each line of stones, with its stop lines before;
// lines whose steps are the same share them.
func (s *sheet) setting() {
	var done []int
	for i := range s.b.Stones {
		st := &s.b.Stones[i]
		if slices.Contains(done, i) || len(st.Steps) == 0 && len(st.Stops) == 0 {
			continue
		}
		marks := []string{st.Mark}
		for k := i + 1; k < len(s.b.Stones); k++ {
			if o := &s.b.Stones[k]; o.Style == st.Style && o.Kind == st.Kind && reflect.DeepEqual(o.Steps, st.Steps) && reflect.DeepEqual(o.Stops, st.Stops) {
				marks, done = append(marks, o.Mark), append(done, k)
			}
		}
		s.doc.Field("setting steps " + st.Mark)
		s.title("steps.title", min(15+s.stopsHeight(st), s.f.Frame.Height()*0.7))
		s.stepsHead(st, marks)
		s.stops(st)
		for n, step := range st.Steps {
			if step.Caution != "" {
				s.caution(step.Caution)
			}
			text := s.fig.Text(step.Text)
			if step.Tool != "" {
				text += " " + s.with("steps.tool", "tool", s.fig.Text(step.Tool))
			}
			s.tickLine(text, strconv.Itoa(n+1))
		}
		s.sources(st)
	}
}

// stepsHead says which stones the steps are for. Many marks are written, few
// are drawn.
func (s *sheet) stepsHead(st *tree.BagStone, marks []string) {
	const drawn = 4
	words := st.Style + ": " + st.Kind
	if len(marks) > drawn {
		s.f.Para(value, words)
		s.f.Para(strong, strings.Join(marks, ", "))
		return
	}
	if len(marks) == 1 {
		words = st.Style + ": " + s.fig.Count(st.Count) + " x " + st.Kind + " " + s.size(st) + "\u00a0" + s.say("unit.mm")
	}
	from := indent + 11*float64(len(marks)-1)
	lines := value.Wrap(words, s.f.Frame.Width()-from)
	s.f.Gap(0.5)
	s.f.Block(max(11, float64(len(lines))*value.Leading()+2), func(l *page.Leaf, x, y, w float64) {
		for i, m := range marks {
			s.mark(l, x+5+11*float64(i), y+5.5, m)
		}
		l.Lines(x+from, y+5.5+page.CapMM(value.Size)/2, value, lines)
	})
}

// stops lays the lines that say when to stop, each beside a heavy bar that
// may go on over a leaf.
func (s *sheet) stops(st *tree.BagStone) {
	if len(st.Stops) == 0 {
		return
	}
	s.f.Gap(1)
	s.f.Need(min(s.stopsHeight(st), s.f.Frame.Height()*0.6))
	s.f.Para(strong, s.say("steps.stop"))
	for _, stop := range st.Stops {
		text := s.fig.Text(stop.Text)
		if stop.Now {
			text += " (" + s.say("steps.now") + ")"
		}
		style := plain
		if stop.Now {
			style = strong
		}
		lines := style.Wrap(text, s.f.Frame.Width()-stopIndent)
		s.f.Need(min(float64(len(lines))*style.Leading()+1, s.f.Frame.Height()/2))
		for _, line := range lines {
			s.f.Need(style.Leading())
			l := s.f.Leaf()
			l.Bar(s.f.Frame.Left, s.f.Y, 1.2, style.Leading())
			l.Text(s.f.Frame.Left+stopIndent, s.f.Y+style.Base(), style, line)
			s.f.Y += style.Leading()
		}
		s.f.Gap(1.2)
	}
}

// stopIndent is the place of the words beside the heavy bar.
const stopIndent = 4.0

// stopsHeight is how high the stop lines are, so that they can stay together.
func (s *sheet) stopsHeight(st *tree.BagStone) float64 {
	high := strong.Leading()
	for _, stop := range st.Stops {
		high += float64(len(strong.Wrap(s.fig.Text(stop.Text), s.f.Frame.Width()-stopIndent)))*plain.Leading() + 1.2
	}
	return high
}

// sources says where the limits are from; it is for checking, not for the
// work, and so in small type.
func (s *sheet) sources(st *tree.BagStone) {
	if all := sourcesOf(st); len(all) > 0 {
		s.f.Gap(1)
		s.f.Para(stamp, s.fig.Text(s.with("steps.sources", "sources", strings.Join(all, "; ")+".")))
	}
}

// sourcesOf lists the sources of steps and stop lines, once each.
func sourcesOf(st *tree.BagStone) []string {
	var all []string
	for _, step := range st.Steps {
		if step.Source != "" && !slices.Contains(all, step.Source) {
			all = append(all, step.Source)
		}
	}
	for _, stop := range st.Stops {
		if stop.Source != "" && !slices.Contains(all, stop.Source) {
			all = append(all, stop.Source)
		}
	}
	return all
}

// signals are the signal words of a caution with the shape that goes with
// each: damage only, NOTICE, has none.
var signals = []struct {
	word, key string
	shape     page.Shape
}{
	{"DANGER", "signal.danger", page.Hazard},
	{"WARNING", "signal.warning", page.Hazard},
	{"CAUTION", "signal.caution", page.Hazard},
	{"NOTICE", "signal.notice", page.NoShape},
}

// signal parts the signal word from a caution. One that has none speaks of
// damage to the piece.
func signal(text string) (key string, shape page.Shape, rest string) {
	for _, g := range signals {
		if after, ok := strings.CutPrefix(text, g.word); ok {
			return g.key, g.shape, strings.TrimLeft(after, " -:.–—")
		}
	}
	return "signal.notice", page.NoShape, text
}

// cautions lays the cautions of the bag as a whole.
func (s *sheet) cautions(list []string) {
	s.doc.Field("cautions")
	for _, c := range list {
		s.caution(c)
	}
}

// caution lays one caution in a heavy frame, right before what it speaks of.
func (s *sheet) caution(text string) {
	key, shape, rest := signal(text)
	const pad = 2.0
	indent := pad
	if shape != page.NoShape {
		indent += shapeSide + 2.5
	}
	lines := plain.Wrap(s.fig.Text(rest), s.f.Frame.Width()-indent-pad)
	inner := strong.Leading() + float64(len(lines))*plain.Leading()
	h := max(inner, shapeSide+1) + 2*pad - 1
	s.f.Gap(1)
	if h > s.f.Frame.Height()/2 { // a text that no frame can hold
		s.f.Para(strong, s.say(key))
		s.f.Para(plain, s.fig.Text(rest))
		return
	}
	s.f.Need(h + 14) // it must not part from its step
	s.f.Block(h, func(l *page.Leaf, x, y, w float64) {
		l.Rect(x, y, w, h, page.Heavy)
		if shape != page.NoShape {
			l.Shape(shape, x+pad, y+(h-shapeSide)/2, shapeSide)
		}
		l.Text(x+indent, y+pad-0.5+strong.Base(), strong, s.say(key))
		l.Lines(x+indent, y+pad-0.5+strong.Leading()+plain.Base(), plain, lines)
	})
	s.f.Gap(1)
}

// assembly lays the steps that join the parts.
func (s *sheet) assembly() {
	if len(s.b.Assembly) == 0 {
		return
	}
	s.doc.Field("assembly")
	s.changed("assembly", func() {
		s.title("assembly.title", hand.Pitch)
		for n, text := range s.b.Assembly {
			s.tickLine(s.fig.Text(text), strconv.Itoa(n+1))
		}
	})
}
