package bag

import (
	"math"
	"strings"

	"castweek/sheets/page"
	"castweek/tree"
)

// The marks of stones on a picture of their pattern. What the job tells of a
// place is drawn where it is; the mark stands beside it where there is room.

// spotted is one mark, in the millimetres of the drawing from its upper left
// corner: the place of the stone and the middle of its mark.
type spotted struct {
	mark       string
	x, y       float64
	atX, atY   float64
	led, whole bool // has a leader; has room at all
}

// A drawing of a picture with marks, and the room that these take around it.
type drawing struct {
	pic                      *tree.Picture
	scale                    float64
	left, top, right, bottom float64 // margins
	marks                    []spotted
}

const (
	dotRadius = 0.5
	markHigh  = 4.6 // of a mark, with air
)

// drawn lays out the marks of a picture at a scale. Each goes to the nearest of
// a fixed list of places around its stone that is free of other marks and of
// other stones; the first come first, so that the result is always the same.
func drawn(p *tree.Picture, scale float64) drawing {
	d := drawing{pic: p, scale: scale}
	h := float64(p.Height) * scale
	for _, k := range p.Spots {
		d.marks = append(d.marks, spotted{mark: k.Mark, x: float64(k.X) * scale, y: h - float64(k.Y)*scale})
	}
	for i := range d.marks {
		m := &d.marks[i]
		for _, try := range around8 {
			x, y := m.x+try[0], m.y+try[1]
			if d.free(i, x, y) {
				m.atX, m.atY, m.led, m.whole = x, y, math.Hypot(try[0], try[1]) > 6, true
				break
			}
		}
		if !m.whole {
			continue
		}
		half := strong.Width(m.mark)/2 + 0.4
		d.left, d.right = max(d.left, half-m.atX), max(d.right, m.atX+half-float64(p.Width)*scale)
		d.top, d.bottom = max(d.top, markHigh/2-m.atY), max(d.bottom, m.atY+markHigh/2-h)
	}
	return d
}

// around8 are places for a mark around its stone, the nearest first.
var around8 = func() [][2]float64 {
	var out [][2]float64
	for _, r := range []float64{4, 8, 12, 17} {
		for _, turn := range []float64{0, 180, 90, 270, 30, 330, 150, 210, 60, 300, 120, 240} { // from straight up
			a := turn * math.Pi / 180
			out = append(out, [2]float64{r * 1.1 * math.Sin(a), -r * math.Cos(a)})
		}
	}
	return out
}()

// free tells whether a mark at x, y covers neither another mark nor a stone, and
// whether its leader crosses none of them.
func (d *drawing) free(i int, x, y float64) bool {
	half := strong.Width(d.marks[i].mark)/2 + 0.4
	for k, o := range d.marks {
		if math.Abs(o.x-x) < half+dotRadius && math.Abs(o.y-y) < markHigh/2+dotRadius {
			return false
		}
		if k == i || !o.whole {
			continue
		}
		if math.Abs(o.atX-x) < half+strong.Width(o.mark)/2+0.4 && math.Abs(o.atY-y) < markHigh {
			return false
		}
	}
	return true
}

// clear tells whether every stone has its mark.
func (d *drawing) clear() bool {
	for _, m := range d.marks {
		if !m.whole {
			return false
		}
	}
	return true
}

func (d *drawing) width() float64  { return d.left + float64(d.pic.Width)*d.scale + d.right }
func (d *drawing) height() float64 { return d.top + float64(d.pic.Height)*d.scale + d.bottom }

// drawingOf draws a picture at the smallest scale at which every mark has
// room, or else at the largest that fits.
func drawingOf(p *tree.Picture, width, height float64) drawing {
	best := drawn(p, 0.25)
	for _, scale := range []float64{0.5, 1, 1.5, 2, 3, 4, 6} { // at its true size it stands among the others
		d := drawn(p, scale)
		if d.width() > width || d.height() > height {
			break
		}
		best = d
		if scale > 1 && d.clear() && scale*float64(min(p.Width, p.Height)) >= 12 {
			break
		}
	}
	return best
}

// spots lays the pictures on which the job says where its stones sit.
func (s *sheet) spots() {
	for i := range s.b.Pictures {
		p := &s.b.Pictures[i]
		if len(p.Spots) == 0 {
			continue
		}
		s.doc.Field("places")
		d := drawingOf(p, s.f.Frame.Width(), s.f.Frame.Height()*0.4)
		s.heading(s.with("bag.spots", "what", strings.TrimSpace(p.Part+" "+p.View), "scale", s.fig.Set(d.scale, 2)), d.height())
		s.f.Block(d.height()+1, func(l *page.Leaf, x, y, w float64) {
			x += d.left
			y += d.top
			l.Strokes(p.Lines, x, y+float64(p.Height)*d.scale, d.scale, page.Hair)
			for _, m := range d.marks {
				l.Disc(x+m.x, y+m.y, dotRadius)
			}
			for _, m := range d.marks {
				if !m.whole {
					continue
				}
				if m.led {
					l.Line(x+m.x, y+m.y, x+m.atX, y+m.atY, page.Hair)
				}
				half := strong.Width(m.mark)/2 + 0.3
				l.Clear(x+m.atX-half, y+m.atY-markHigh/2+0.3, 2*half, markHigh-0.6)
				l.TextCentre(x+m.atX, y+m.atY+page.CapMM(strong.Size)/2, strong, m.mark)
			}
		})
	}
}
