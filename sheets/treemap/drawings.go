package treemap

import (
	"castweek/sheets/page"
	"castweek/sheets/treeview"
	"castweek/tree"
)

// sizes are the scales of a map's drawings.
type sizes struct{ side, levels float64 }

// better tells whether a map of so many pages at these sizes is to be preferred:
// fewer pages first, then larger drawings.
func (s sizes) better(pages int, t sizes, of int) bool {
	switch {
	case pages != of:
		return pages < of
	case s.side+s.levels != t.side+t.levels:
		return s.side+s.levels > t.side+t.levels
	}
	return s.side > t.side
}

// fits tells whether every drawing at these sizes is within a frame.
func (s sizes) fits(v treeview.View, frame page.Frame) bool {
	for _, p := range append(v.Sides(s.side), v.Plans(s.levels)...) {
		if p.W > frame.Width() || p.H > frame.Height()-value.Leading()-1 {
			return false
		}
	}
	return true
}

// drawings lays the tree from the side and its levels from the top.
func (p *printer) drawings(f *page.Flow, t *tree.Tree, s sizes) {
	v := treeview.Of(&p.Desk, t)
	if !v.Any() {
		f.Gap(2)
		f.Para(bold, p.say("treemap.nodrawing"))
		return
	}
	facts, how := p.flaskWords(t, v, s)
	// at what scale there was room to draw is no part of what the map says
	f.Line([]string{facts}, func() { f.Para(plain, facts+" "+how) })
	treeview.Lay(f, append(v.Sides(s.side), v.Plans(s.levels)...))
}

// flaskWords say the flask and the room that the plan leaves free in it, and how
// the drawings are to be read.
func (p *printer) flaskWords(t *tree.Tree, v treeview.View, s sizes) (facts, how string) {
	d, h := t.FlaskMM.Diameter, t.FlaskMM.Height
	wall := d/2 - t.Drawing.Half
	top := h - t.Drawing.Top - t.ButtonHeight()
	if t.Drawing.TrunkLength > 0 {
		facts = p.with("treemap.trunk", "diameter", p.set(t.Drawing.TrunkDiameter), "length", p.set(t.Drawing.TrunkLength)) + ". "
	}
	inside := "treemap.inside"
	if t.Cavity <= 0 {
		inside = "treemap.nobutton"
	}
	facts += p.with(inside, "diameter", p.set(d), "height", p.set(h), "button", p.set(t.ButtonHeight()), "wall", p.set(wall), "top", p.set(top))
	if s.side == s.levels {
		how = p.with("treemap.drawnalike", "side", v.Scale(s.side))
	} else {
		how = p.with("treemap.drawn", "side", v.Scale(s.side), "levels", v.Scale(s.levels))
	}
	if !v.Halves() {
		how += " " + p.say("treeview.hidden")
	}
	return facts, how
}
