package treeview

import (
	"math"
	"slices"

	"castweek/sheets/page"
	"castweek/tree"
)

// crowded is from how many castings on front and back are drawn by themselves:
// dashed outlines over so many solid ones can no longer be followed.
const crowded = 9

// which says what castings a side view shows.
type which int

const (
	both  which = iota // from 6 o'clock, those behind dashed
	front              // from 6 o'clock, those before the trunk
	back               // from 12 o'clock, those that are behind from 6
)

var sideWords = [...]string{both: "treeview.both", front: "treeview.front", back: "treeview.back"}

// Sides are the tree from the side, on its base, in its flask: in one drawing,
// or in its halves.
func (v View) Sides(scale float64) []Panel {
	if len(v.t.Castings) < crowded {
		return []Panel{v.side(scale, both)}
	}
	return []Panel{v.side(scale, front), v.side(scale, back)}
}

// Halves tells whether front and back are drawn by themselves.
func (v View) Halves() bool { return len(v.t.Castings) >= crowded }

func (v View) side(scale float64, w which) Panel {
	shown := v.shown(w)
	tall := float64(v.t.FlaskMM.Height) * scale
	in := v.inset(len(shown), float64(v.t.FlaskMM.Diameter)*scale, tall)
	left, mark, right := v.keyWords(w)
	below := plain.Width(left) + plain.Width(right) + plain.Width(mark) + 5 + 6
	width := max(in.width(), below)
	head := bold.Wrap(v.say(sideWords[w]), width)
	heads := float64(len(head))*bold.Leading() + 1
	return Panel{width, heads + in.height + key, saying(shown, v.say(sideWords[w])), func(l *page.Leaf, x, y float64) {
		l.Lines(x, y+bold.Base(), bold, head)
		y += heads
		x += (width - in.width()) / 2
		top := y + (in.height-tall)/2
		f := frame{l: l, x: x + in.middle(), y: top + tall - float64(v.t.ButtonHeight())*scale, scale: scale, mirror: w == back}
		v.flask(f, top)
		for _, line := range v.t.Drawing.Trunk {
			l.Patch(f.path(line), page.Edge)
		}
		for _, s := range shown {
			if w != both || !s.Behind {
				f.solid(s)
			}
		}
		for _, s := range shown {
			if w == both && s.Behind {
				f.hidden(s)
			}
		}
		v.levelTags(f, shown, w)
		v.key(l, x+in.width()/2, top+tall, w)
		var pins []pin
		for _, s := range shown {
			pin := f.pin(s)
			pin.open = w == both && s.Behind
			pins = append(pins, pin)
		}
		label(l, pins, in.margin(x, y))
	}}
}

// shown are the castings of a side view, those farthest from its viewer first.
func (v View) shown(w which) []tree.Shape {
	var out []tree.Shape
	for _, s := range v.t.Drawing.Side {
		if w == both || s.Behind == (w == back) {
			out = append(out, s)
		}
	}
	if w == back {
		slices.Reverse(out)
	}
	return out
}

// flask draws the inside of the flask from its foot to the fill level at top,
// the base in it, and dashed the room that no casting leaves.
func (v View) flask(f frame, top float64) {
	d := v.t.Drawing
	half, button := float64(v.t.FlaskMM.Diameter)/2, float64(v.t.ButtonHeight())
	foot := f.at(0, -button)[1]
	left, right := f.x-half*f.scale, f.x+half*f.scale
	f.l.Path([][2]float64{{left, top}, {left, foot}, {right, foot}, {right, top}}, false, page.Heavy)
	f.l.Line(left, top, right, top, page.Hair)
	var dome [][2]float64
	const steps = 24
	for i := 0; i <= steps; i++ {
		sin, cos := math.Sincos(math.Pi * float64(i) / steps)
		dome = append(dome, f.at(button*cos, button*sin-button))
	}
	f.l.Path(dome, false, page.Edge)
	r, low, high := float64(d.Half), float64(d.Bottom), float64(d.Top)
	f.l.Dashed(f.path([][2]float64{{-r, low}, {r, low}, {r, high}, {-r, high}}), true, page.Hair)
}

// levelTags write the number of each level on the trunk where its feeders
// begin, unless a casting hangs before it or the tag below is too near.
func (v View) levelTags(f frame, shown []tree.Shape, w which) {
	const r = 2.6
	last := math.Inf(1)
	for _, lv := range v.t.Drawing.Levels {
		at := f.at(0, float64(lv.Height))
		rim := circle(at[0], at[1], r)
		if last-at[1] < 2*r || slices.ContainsFunc(shown, func(s tree.Shape) bool { return (w != both || !s.Behind) && f.covers(s, rim) }) {
			continue
		}
		last = at[1]
		f.l.Patch(rim, page.Hair)
		f.l.TextCentre(at[0], at[1]+page.CapMM(bold.Size)/2, bold, v.count(lv.Number))
	}
}

// keyWords say which hours are left and right of a side view, and where the
// mark on the base is.
func (v View) keyWords(w which) (left, mark, right string) {
	left, mark, right = v.with("treeview.oclock", "hour", v.count(9)), v.say("treeview.mark.behind"), v.with("treeview.oclock", "hour", v.count(3))
	if w == back {
		left, mark, right = right, v.say("treeview.mark.before"), left
	}
	return left, mark, right
}

// key writes them below the view, the wedge empty where the mark is hidden.
func (v View) key(l *page.Leaf, middle, foot float64, w which) {
	left, mark, right := v.keyWords(w)
	base := foot + 1.5 + plain.Base()
	wide := plain.Width(mark) + 5
	x := middle - wide/2
	a, b, c := [2]float64{x, base}, [2]float64{x + 3, base}, [2]float64{x + 1.5, base - 3}
	if w == back {
		l.Wedge(a, b, c)
	} else {
		l.Path([][2]float64{a, b, c}, true, page.Hair)
	}
	l.Text(x+5, base, plain, mark)
	l.TextRight(x-3, base, plain, left)
	l.Text(x+wide+3, base, plain, right)
}

func circle(x, y, r float64) [][2]float64 {
	const steps = 48
	out := make([][2]float64, steps)
	for i := range out {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / steps)
		out[i] = [2]float64{x + r*cos, y + r*sin}
	}
	return out
}
