package treeview

import (
	"math"

	"castweek/sheets/page"
	"castweek/tree"
)

// Plans are the levels as seen from the top, each the clock round the trunk.
func (v View) Plans(scale float64) []Panel {
	var out []Panel
	for i := range v.t.Drawing.Levels {
		out = append(out, v.plan(&v.t.Drawing.Levels[i], scale))
	}
	return out
}

func (v View) plan(lv *tree.LevelDrawing, scale float64) Panel {
	r := float64(v.t.FlaskMM.Diameter) / 2 * scale
	in := v.inset(len(lv.Shapes), 2*(r+ring), 2*(r+ring))
	head := v.with("treeview.level", "n", v.count(lv.Number), "count", v.desk.Fig.Castings(len(lv.Shapes)))
	above := v.with("treeview.top", "mm", v.desk.Fig.Set(float64(lv.Height), 1))
	heads := 2 * bold.Leading()
	return Panel{max(in.width(), bold.Width(head), plain.Width(above)), heads + in.height, saying(lv.Shapes, head, above), func(l *page.Leaf, x, y float64) {
		l.Text(x, y+bold.Base(), bold, head)
		l.Text(x, y+bold.Leading()+plain.Base(), plain, above)
		y += heads
		f := frame{l: l, x: x + in.middle(), y: y + in.height/2, scale: scale}
		l.Circle(f.x, f.y, r, page.Heavy)
		l.Dashed(circle(f.x, f.y, float64(v.t.Drawing.Half)*scale), true, page.Hair)
		l.Circle(f.x, f.y, float64(v.t.Drawing.TrunkDiameter)/2*scale, page.Edge)
		var pins []pin
		for _, s := range lv.Shapes {
			f.solid(s)
			pins = append(pins, f.pin(s))
		}
		label(l, pins, in.margin(x, y))
		v.clock(f, r)
	}}
}

// clock writes the hours round a plan and draws the mark of the base at 12.
func (v View) clock(f frame, r float64) {
	const tick, mark = 2.0, 3.0
	at := r + ring - 2
	for hour := 1; hour <= 12; hour++ {
		sin, cos := math.Sincos(float64(hour) * math.Pi / 6)
		f.l.Line(f.x+(r-tick)*sin, f.y-(r-tick)*cos, f.x+(r+tick/2)*sin, f.y-(r+tick/2)*cos, page.Edge)
		s := plain
		if hour%3 == 0 {
			s = bold
		}
		x, y := f.x+at*sin, f.y-at*cos
		w, h := s.Width(v.count(hour)), page.CapMM(s.Size)
		f.l.Clear(x-w/2-0.3, y-h/2-0.4, w+0.6, h+0.8)
		f.l.TextCentre(x, y+h/2, s, v.count(hour))
	}
	// The mark lies beside the number, pointing to the trunk.
	f.l.Wedge([2]float64{f.x - mark/2, f.y - r - 0.4}, [2]float64{f.x + mark/2, f.y - r - 0.4}, [2]float64{f.x, f.y - r + mark})
}
