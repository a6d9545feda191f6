package page

// A Flow lays blocks below each other and begins a new leaf when one is full.
// Every leaf gets the head that says what it belongs to; feet, which count the
// pages, are drawn at the end.
type Flow struct {
	Doc   *Doc
	Paper Paper
	Frame Frame
	// Head draws the top of a leaf and gives the y below it. Number counts
	// from 1.
	Head func(l *Leaf, number int) float64
	// Foot draws the bottom of a leaf when the count of all is known.
	Foot func(l *Leaf, number, of int)
	// Note is the style of what a changed line was; without it the marks' own.
	Note     Style
	BarsOnly bool // no room for what a changed line was

	Y      float64 // where the next block begins
	outer  float64 // right edge of the frame as it was begun: bars stand there
	leaf   *Leaf
	top    float64
	leaves []*Leaf
	barAt  float64 // y where a run of changed lines began, or 0
	barOps int     // what the leaf held when it began
}

// Flow begins to lay on a paper; the first leaf starts with the first block.
func (d *Doc) Flow(p Paper, f Frame) *Flow {
	return &Flow{Doc: d, Paper: p, Frame: f, outer: f.Right}
}

// Leaf is the leaf that is being laid.
func (f *Flow) Leaf() *Leaf {
	if f.leaf == nil {
		f.Break()
	}
	return f.leaf
}

// Break begins a new leaf.
func (f *Flow) Break() {
	barred := f.barAt > 0
	f.endBar()
	f.leaf = f.Doc.Leaf(f.Paper)
	f.leaves = append(f.leaves, f.leaf)
	f.Y = f.Frame.Top
	if f.Head != nil {
		head := func() { f.Y = f.Head(f.leaf, len(f.leaves)) }
		if len(f.leaves) == 1 {
			f.unit(nil, head)
		} else {
			f.Doc.Quiet(head)
		}
	}
	f.top = f.Y
	if barred {
		f.barAt, f.barOps = f.Y, len(f.leaf.ops)
	}
}

// Left is the height that is still free.
func (f *Flow) Left() float64 {
	f.Leaf()
	return f.Frame.Bottom - f.Y
}

// Fresh tells whether nothing has been laid on the leaf below its head.
func (f *Flow) Fresh() bool {
	f.Leaf()
	return f.Y == f.top
}

// Need begins a new leaf unless height is still free. On an empty leaf it does
// nothing: what is higher than a leaf must be laid in pieces.
func (f *Flow) Need(height float64) {
	if f.Left() < height && !f.Fresh() {
		f.Break()
	}
}

// Gap leaves space, but none at the top of a leaf.
func (f *Flow) Gap(height float64) {
	if !f.Fresh() {
		f.Y += height
	}
}

// Block lays something of a known height that must not be parted.
func (f *Flow) Block(height float64, draw func(l *Leaf, x, y, width float64)) {
	f.unit(nil, func() {
		f.Need(height)
		draw(f.Leaf(), f.Frame.Left, f.Y, f.Frame.Width())
		f.Y += height
	})
}

// Para lays text in lines, parted between leaves where it must; a single line
// is left alone neither at the foot of a leaf nor at the top of the next.
func (f *Flow) Para(s Style, text string) { f.ParaAt(s, f.Frame.Left, f.Frame.Width(), text) }

// ParaAt is Para in a column of its own.
func (f *Flow) ParaAt(s Style, x, width float64, text string) {
	f.unit([]string{text}, func() { f.para(s, x, width, text) })
}

func (f *Flow) para(s Style, x, width float64, text string) {
	lines := s.Wrap(text, width)
	step := Leading(s.Size)
	if len(lines) > 1 {
		f.Need(2 * step)
	}
	for i, line := range lines {
		if i == len(lines)-2 && i > 0 { // the last line takes one with it
			f.Need(2 * step)
		}
		f.Need(step)
		f.Leaf().Text(x, f.Y+base(s.Size), s, line)
		f.Y += step
	}
}

// base is the distance from the top of a line to its base line.
func base(pt float64) float64 { return Leading(pt)*0.5 + CapMM(pt)/2 }

// Base is the distance from the top of a line of text to its base line.
func (s Style) Base() float64 { return base(s.Size) }

// Leading is the height of a line of text.
func (s Style) Leading() float64 { return Leading(s.Size) }

// Rule lays a line across the frame, but none below a head.
func (f *Flow) Rule() {
	if f.Fresh() {
		return
	}
	f.Gap(1)
	f.Leaf().Line(f.Frame.Left, f.Y, f.Frame.Right, f.Y, Hair)
	f.Y += 1
}

// StartBar begins a change bar at the outer edge; it goes on over leaves until
// EndBar.
func (f *Flow) StartBar() {
	f.Leaf()
	f.endBar()
	f.barAt, f.barOps = f.Y, len(f.leaf.ops)
}

// EndBar ends the change bar.
func (f *Flow) EndBar() { f.endBar() }

func (f *Flow) endBar() {
	if f.barAt > 0 && f.Y > f.barAt && len(f.leaf.ops) > f.barOps {
		f.leaf.ChangeBar(f.outer+barGap, f.barAt, f.Y)
	}
	f.barAt = 0
}

// barGap keeps a change bar off the frame.
const barGap = 1.2

// End draws the feet and gives the leaves.
func (f *Flow) End() []*Leaf {
	f.Leaf()
	f.endBar()
	if f.Foot != nil {
		f.Doc.Quiet(func() {
			for i, l := range f.leaves {
				f.Foot(l, i+1, len(f.leaves))
			}
		})
	}
	return f.leaves
}
