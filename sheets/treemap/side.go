package treemap

import (
	"math"
	"slices"

	"castweek/sheets/page"
	"castweek/tree"
)

// crowded is from how many castings on front and back are drawn by themselves:
// dashed outlines over so many solid ones can no longer be followed.
const crowded = 9

// drawings lays the tree from the side and its levels from the top.
func (p *printer) drawings(f *page.Flow, t *tree.Tree) {
	if len(t.Drawing.Side) == 0 {
		f.Gap(2)
		f.Para(bold, p.say("treemap.nodrawing"))
		return
	}
	scale := scaleOf(t, f.Frame.Width(), f.Frame.Height()-value.Leading()-1)
	f.Para(plain, p.flaskWords(t, scale))
	if len(t.Castings) < crowded {
		f.Gap(2)
		p.side(f, t, scale, both)
	} else {
		f.Gap(2)
		p.side(f, t, scale, front)
		f.Gap(3)
		p.side(f, t, scale, back)
	}
	p.plans(f, t, scale)
}

// flaskWords say the flask and the room that the plan leaves free in it.
func (p *printer) flaskWords(t *tree.Tree, scale float64) string {
	d, h := t.FlaskMM.Diameter, t.FlaskMM.Height
	wall := d/2 - t.Drawing.Half
	top := h - t.Drawing.Top - t.ButtonHeight()
	text := ""
	if t.Drawing.TrunkLength > 0 {
		text = p.with("treemap.trunk", "diameter", p.set(t.Drawing.TrunkDiameter), "length", p.set(t.Drawing.TrunkLength)) + ". "
	}
	text += p.with("treemap.inside", "diameter", p.set(d), "height", p.set(h), "wall", p.set(wall), "top", p.set(top))
	if t.Cavity > 0 {
		text += " " + p.with("treemap.button", "mm", p.set(t.ButtonHeight()))
	} else {
		text += " " + p.say("treemap.nobutton")
	}
	if scale == 1 {
		return text + " " + p.say("treemap.truesize")
	}
	return text + " " + p.with("treemap.scaled", "percent", p.fig.Count(int(100*scale)))
}

// which says what castings a side view shows.
type which int

const (
	both  which = iota // from 6 o'clock, those behind dashed
	front              // from 6 o'clock, those before the trunk
	back               // from 12 o'clock, those that are behind from 6
)

var sideWords = [...]string{both: "treemap.side.both", front: "treemap.side.front", back: "treemap.side.back"}

// side draws the tree from the side, on its base, in its flask.
func (p *printer) side(f *page.Flow, t *tree.Tree, scale float64, w which) {
	head := bold.Wrap(p.say(sideWords[w]), f.Frame.Width())
	headHeight := float64(len(head))*bold.Leading() + 2
	height := float64(t.FlaskMM.Height) * scale
	shown := shownIn(t, w)
	f.Block(headHeight+height+key, func(l *page.Leaf, x, y, width float64) {
		l.Lines(x, y+bold.Base(), bold, head)
		y += headHeight
		half := float64(t.FlaskMM.Diameter) / 2 * scale
		v := view{l: l, x: x + width/2, y: y + height - float64(t.ButtonHeight())*scale, scale: scale, mirror: w == back}
		p.flask(v, t, y)
		for _, line := range t.Drawing.Trunk {
			l.Patch(v.path(line), page.Edge)
		}
		for _, s := range shown {
			if w != both || !s.Behind {
				v.solid(s)
			}
		}
		for _, s := range shown {
			if w == both && s.Behind {
				v.hidden(s)
			}
		}
		p.levelTags(v, t, shown, w)
		p.key(v, y+height, half, w)
		var pins []pin
		for _, s := range shown {
			pin := v.pin(s)
			pin.open = w == both && s.Behind
			pins = append(pins, pin)
		}
		label(l, pins, margin{v.x - half - leader, v.x + half + leader, y, y + height})
	})
}

// shownIn are the castings of a side view, those farthest from its viewer
// first.
func shownIn(t *tree.Tree, w which) []tree.Shape {
	var out []tree.Shape
	for _, s := range t.Drawing.Side {
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
func (p *printer) flask(v view, t *tree.Tree, top float64) {
	d := t.Drawing
	half, button := float64(t.FlaskMM.Diameter)/2, float64(t.ButtonHeight())
	foot := v.at(0, -button)[1]
	left, right := v.x-half*v.scale, v.x+half*v.scale
	v.l.Path([][2]float64{{left, top}, {left, foot}, {right, foot}, {right, top}}, false, page.Heavy)
	v.l.Line(left, top, right, top, page.Hair)
	var dome [][2]float64
	const steps = 24
	for i := 0; i <= steps; i++ {
		sin, cos := math.Sincos(math.Pi * float64(i) / steps)
		dome = append(dome, v.at(button*cos, button*sin-button))
	}
	v.l.Path(dome, false, page.Edge)
	r, low, high := float64(d.Half), float64(d.Bottom), float64(d.Top)
	v.l.Dashed(v.path([][2]float64{{-r, low}, {r, low}, {r, high}, {-r, high}}), true, page.Hair)
}

// levelTags write the number of each level on the trunk where its feeders
// begin, unless a casting hangs before it.
func (p *printer) levelTags(v view, t *tree.Tree, shown []tree.Shape, w which) {
	const r = 2.6
	for _, lv := range t.Drawing.Levels {
		at := v.at(0, float64(lv.Height))
		rim := circle(at[0], at[1], r)
		if slices.ContainsFunc(shown, func(s tree.Shape) bool { return (w != both || !s.Behind) && v.covers(s, rim) }) {
			continue
		}
		v.l.Patch(rim, page.Hair)
		v.l.TextCentre(at[0], at[1]+page.CapMM(bold.Size)/2, bold, p.fig.Count(lv.Number))
	}
}

// key says below a side view which hours are left and right, and where the
// mark on the base is.
func (p *printer) key(v view, foot, half float64, w which) {
	y := foot + 1.5
	left, right := p.with("treemap.oclock", "hour", p.fig.Count(9)), p.with("treemap.oclock", "hour", p.fig.Count(3))
	words := "treemap.mark.behind"
	if w == back {
		left, right = right, left
		words = "treemap.mark.before"
	}
	base := y + plain.Base()
	said := p.say(words)
	width := plain.Width(said) + 5
	x := v.x - width/2
	a, b, c := [2]float64{x, base}, [2]float64{x + 3, base}, [2]float64{x + 1.5, base - 3}
	if w == back {
		v.l.Wedge(a, b, c)
	} else {
		v.l.Path([][2]float64{a, b, c}, true, page.Hair)
	}
	v.l.Text(x+5, base, plain, said)
	edge := max(half, width/2+3)
	v.l.TextRight(v.x-edge, base, plain, left)
	v.l.Text(v.x+edge, base, plain, right)
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
