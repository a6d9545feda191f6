package page

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// A line of a trace is what stands on one line of the work: a paragraph, a row
// of a table, a block that is not parted. Its words are parted by tabs, and a
// drawing in it stands as "~" and a number that changes with its strokes.
const (
	between = "\t"
	drawing = "~"
)

// Words are the words of a line, each as it was laid.
func Words(line string) []string { return strings.Split(line, between) }

// Drawing tells whether a word of a line stands for a drawing.
func Drawing(word string) bool { return strings.HasPrefix(word, drawing) }

// Marks say which lines of the pages that follow differ from an earlier print
// of them. Lines count from 0 in the order in which they are laid.
type Marks struct {
	Changed map[int]string // what stands below the line, such as "was 14"; may be empty
	Style   Style          // of what stands below, where a flow has no style of its own
	Ignored []string       // words that are no part of what a page says
}

// trace collects what the pages of a document say, so that nothing that is
// printed can be left out of the comparison with an earlier print.
type trace struct {
	marks   Marks
	lines   []string
	line    []string // the one that is being laid
	open    bool
	mute    int // words are known already
	quiet   int // neither words nor strokes count
	strokes uint64
	origin  *[2]float64
}

// Trace begins to collect lines anew, for pages that are marked by m.
func (d *Doc) Trace(m Marks) { d.trace = trace{marks: m} }

// Lines are what was laid since [Doc.Trace].
func (d *Doc) Lines() []string { return d.trace.lines }

// A Bookmark is how far a trace has come.
type Bookmark struct{ trace trace }

// Bookmark remembers what was laid, for a try that may be laid again.
func (d *Doc) Bookmark() Bookmark { return Bookmark{d.trace} }

// Rewind forgets what was laid since; leaves that are not put are lost.
func (d *Doc) Rewind(b Bookmark) { d.trace = b.trace }

// Quiet lays what is no part of what a page says: numbers of pages and prints,
// heads that are repeated.
func (d *Doc) Quiet(lay func()) {
	d.trace.quiet++
	lay()
	d.trace.quiet--
}

// Unit lays one line that is made of all words written meanwhile, and tells
// its number; it is -1 inside another line and where nothing was said.
func (d *Doc) Unit(lay func()) int { return d.unit(nil, lay) }

// unit lays one line. Given words stand for all that is written meanwhile, so
// that a line says the same wherever it is broken.
func (d *Doc) unit(words []string, lay func()) int {
	t := &d.trace
	outer := !t.open && t.quiet == 0
	if outer {
		t.open, t.line, t.strokes, t.origin = true, nil, 0, nil
	}
	if words != nil {
		t.say(words...)
		t.mute++
	}
	lay()
	if words != nil {
		t.mute--
	}
	if !outer {
		return -1
	}
	t.open = false
	if t.strokes != 0 {
		t.line = append(t.line, fmt.Sprintf("%s%x", drawing, t.strokes))
	}
	if len(t.line) == 0 {
		return -1
	}
	t.lines = append(t.lines, strings.Join(t.line, between))
	return len(t.lines) - 1
}

// say adds words to the line that is laid; words outside any are a line.
func (t *trace) say(words ...string) {
	if t.quiet > 0 || t.mute > 0 {
		return
	}
	for _, w := range words {
		w = strings.Join(strings.Fields(w), " ")
		switch {
		case w == "" || slices.Contains(t.marks.Ignored, w):
		case t.open:
			t.line = append(t.line, w)
		default:
			t.lines = append(t.lines, w)
		}
	}
}

// stroke adds a run of points, to the hundredth of a millimetre and from the
// first point of the line: where on the leaf it stands does not matter.
func (t *trace) stroke(points [][2]float64) {
	if t.quiet > 0 || !t.open {
		return
	}
	if t.origin == nil {
		t.origin = &[2]float64{points[0][0], points[0][1]}
	}
	for _, p := range points {
		for i, v := range p {
			t.strokes = (t.strokes ^ uint64(int64(math.Floor((v-t.origin[i])*100+0.5+dust)))) * fnvPrime
		}
	}
	t.strokes++
}

// dust keeps what lies half-way between two hundredths on the same side
// wherever on the leaf it stands.
const dust = 1e-6

// fnvPrime is the prime of the 64-bit Fowler-Noll-Vo hash (its authors' page,
// from memory); any odd number that mixes would do.
const fnvPrime = 1099511628211

// Unit lays one line in the flow; one that differs from the earlier print gets
// a bar, and what it was below it.
func (f *Flow) Unit(lay func()) { f.unit(nil, lay) }

// Line is [Flow.Unit] with the words of the line given, however they are
// broken.
func (f *Flow) Line(words []string, lay func()) { f.unit(words, lay) }

func (f *Flow) unit(words []string, lay func()) {
	t := &f.Doc.trace
	f.Leaf() // its head is a line of its own
	if t.open || t.quiet > 0 {
		f.Doc.unit(words, lay)
		return
	}
	was, changed := t.marks.Changed[len(t.lines)]
	if !changed {
		f.Doc.unit(words, lay)
		return
	}
	f.StartBar()
	if f.Doc.unit(words, lay) < 0 {
		f.barAt = 0
		return
	}
	f.note(was)
	f.EndBar()
}

// Figure is a block whose drawing says no more than the words that are given,
// so that it may be drawn in any size.
func (f *Flow) Figure(words []string, height float64, draw func(l *Leaf, x, y, width float64)) {
	f.unit(words, func() { f.Doc.Quiet(func() { f.Block(height, draw) }) })
}

// note lays what a changed line was.
func (f *Flow) note(was string) {
	style := f.Note
	if style.Size == 0 {
		style = f.Doc.trace.marks.Style
	}
	if was == "" || f.BarsOnly {
		return
	}
	f.Doc.Quiet(func() { f.Para(style, was) })
}

// Aside lays a line of a known height beside what the flow lays next, at its
// place; the flow does not move.
func (f *Flow) Aside(height float64, lay func(l *Leaf, y float64)) {
	l, y := f.Leaf(), f.Y
	_, changed := f.Doc.trace.marks.Changed[len(f.Doc.trace.lines)]
	if f.Doc.Unit(func() { lay(l, y) }) >= 0 && changed {
		l.ChangeBar(f.outer+barGap, y, y+height)
	}
}
