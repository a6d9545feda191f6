package treemap

import (
	"castweek/metal/measure"
	"castweek/sheets/page"
	"castweek/tree"
)

// A line of the list in columns: a level's head, or a casting below it.
type line struct {
	level int
	head  bool
	again bool // a head that names its level once more
	draw  func(l *page.Leaf, x, y, w float64)
}

func (n line) height() float64 {
	if n.head {
		return bold.Leading() + 2
	}
	return hand.Pitch
}

// columns lays every casting by level and hour in two columns, one below the
// other, for trees of more castings than one column takes.
func (p *printer) columns(f *page.Flow, t *tree.Tree) {
	p.whatHangs(f, t)
	f.Gap(3)
	rest := p.lines(t)
	for len(rest) > 0 {
		f.Need(bold.Leading() + 3*hand.Pitch)
		free := f.Left() - bold.Leading() - 1
		if whole := splitAt(rest, free, p.more); len(whole) <= 2 {
			free = least(rest, free, p.more)
		}
		parts := splitAt(rest, free, p.more)
		y, width := f.Y, f.Frame.Width()
		tall := 0.0
		const gap = 6.0
		for i, part := range parts[:min(2, len(parts))] {
			x, w, at := f.Frame.Left, (width-gap)/2, y
			if i == 1 {
				x += w + gap
			}
			f.Doc.Quiet(func() { p.columnHeads(f.Leaf(), x, at, w, t) })
			at += bold.Leading() + 1
			for _, n := range part {
				f.Y = at
				lay := func() { f.Aside(n.height(), func(l *page.Leaf, y float64) { n.draw(l, x, y, w) }) }
				if n.again {
					f.Doc.Quiet(lay)
				} else {
					lay()
				}
				at += n.height()
			}
			tall = max(tall, at-y)
		}
		f.Y = y + tall
		rest = nil
		for _, part := range parts[min(2, len(parts)):] {
			for _, n := range part {
				if !n.again {
					rest = append(rest, n)
				}
			}
		}
		if len(rest) > 0 {
			f.Break()
		}
	}
	var sum measure.Milligram
	for i := range t.Castings {
		sum += t.Castings[i].Metal
	}
	f.Gap(1)
	f.Rule()
	f.Block(bold.Leading(), func(l *page.Leaf, x, y, w float64) {
		end := l.Text(x, y+bold.Base(), bold, p.with("treemap.all", "count", p.fig.Castings(len(t.Castings))))
		l.Text(end+6, y+bold.Base(), bold, p.Exact(sum)+"\u00a0"+p.say("unit.g"))
	})
	f.Gap(2)
	f.Block(2*hand.Pitch, func(l *page.Leaf, x, y, w float64) {
		end := l.Text(x, y+hand.Pitch-2, plain, p.say("treemap.badlines"))
		l.WriteLine(end+3, y+hand.Pitch-1, w-(end+3-x))
		l.WriteLine(x, y+2*hand.Pitch-1, w)
	})
}

// splitAt parts lines into columns no higher than given. A level that goes on
// in the next column is named there again, and its head takes a casting with it.
func splitAt(lines []line, height float64, more func(level int) line) [][]line {
	var out [][]line
	used := height + 1
	for i, n := range lines {
		need := n.height()
		if n.head && i+1 < len(lines) {
			need += lines[i+1].height()
		}
		if used+need > height {
			out = append(out, nil)
			used = 0
			if !n.head {
				m := more(n.level)
				out[len(out)-1] = append(out[len(out)-1], m)
				used = m.height()
			}
		}
		out[len(out)-1] = append(out[len(out)-1], n)
		used += n.height()
	}
	return out
}

// least is the height at which the lines take no more than two columns.
func least(lines []line, most float64, more func(int) line) float64 {
	for h := hand.Pitch * 3; h < most; h++ {
		if len(splitAt(lines, h, more)) <= 2 {
			return h
		}
	}
	return most
}

// lines are the heads and castings of the list, from the button upwards.
func (p *printer) lines(t *tree.Tree) []line {
	var out []line
	last := -1
	for _, h := range inOrder(t.Castings) {
		if h.Level != last {
			last = h.Level
			out = append(out, line{last, true, false, p.levelHead(p.levelWords(t, last))})
		}
		out = append(out, line{h.Level, false, false, p.casting(t, h)})
	}
	return out
}

// more is the head of a level that goes on in another column.
func (p *printer) more(level int) line {
	return line{level, true, true, p.levelHead(p.with("treemap.levelmore", "n", p.fig.Count(level)))}
}

func (p *printer) levelHead(words string) func(l *page.Leaf, x, y, w float64) {
	return func(l *page.Leaf, x, y, w float64) {
		l.Text(x, y+1+bold.Base(), bold, words)
		l.Line(x, y+bold.Leading()+2, x+w, y+bold.Leading()+2, page.Hair)
	}
}

// places are the left edges of the columns of one line: the boxes, id, hour,
// tilt and weight of a casting.
func places(x, w float64, t *tree.Tree) (id, hour, tilt, metal, cut float64) {
	id = x + hand.Tick + 2
	hour = id + idWidth(t) + 3
	cut = x + w - hand.Tick
	metal = cut - 15
	return id, hour, hour + 13, metal, cut
}

func (p *printer) columnHeads(l *page.Leaf, x, y, w float64, t *tree.Tree) {
	id, hour, tilt, metal, cut := places(x, w, t)
	for _, h := range []struct {
		x   float64
		key string
	}{{x, "treemap.head.mounted"}, {id, "treemap.head.id"}, {hour, "treemap.head.hour"}, {tilt, "treemap.head.tilt"}, {metal - 8, "treemap.head.metal"}, {cut, "treemap.head.cut"}} {
		l.Text(h.x, y+bold.Base(), bold, p.say(h.key))
	}
	l.Line(x, y+bold.Leading()+0.5, x+w, y+bold.Leading()+0.5, page.Edge)
}

// casting is one casting of the list.
func (p *printer) casting(t *tree.Tree, h tree.Hanging) func(l *page.Leaf, x, y, w float64) {
	hour, tilt := p.place(h)
	return func(l *page.Leaf, x, y, w float64) {
		id, atHour, atTilt, metal, cut := places(x, w, t)
		base := y + hand.Pitch/2 + page.CapMM(plain.Size)/2
		l.Rect(x, y+(hand.Pitch-hand.Tick)/2, hand.Tick, hand.Tick, page.Edge)
		l.Text(id, base, code, h.Casting)
		l.NumberAt(atHour+hourPoint, base, bold, hour)
		l.Text(atTilt, base, plain, tilt)
		l.NumberAt(metal, base, plain, p.Exact(h.Metal))
		l.Rect(cut, y+(hand.Pitch-hand.Tick)/2, hand.Tick, hand.Tick, page.Edge)
		l.Line(x, y+hand.Pitch, x+w, y+hand.Pitch, page.Hair)
	}
}

// place is where a casting hangs, in figures; a dash where it is not known.
func (p *printer) place(h tree.Hanging) (hour, tilt string) {
	if h.Level == 0 {
		return p.say("none"), p.say("none")
	}
	return p.fig.Set(h.Hour, 2), p.fig.Set(h.Tilt, 1) + "°"
}
