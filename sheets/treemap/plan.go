package treemap

import (
	"math"

	"castweek/sheets/page"
	"castweek/tree"
)

// plans draws each level from the top, as the clock round the trunk.
func (p *printer) plans(f *page.Flow, t *tree.Tree, scale float64) {
	r := float64(t.FlaskMM.Diameter) / 2 * scale
	for i := range t.Drawing.Levels {
		lv := &t.Drawing.Levels[i]
		f.Gap(3)
		f.Block(bold.Leading()+2*(r+ring), func(l *page.Leaf, x, y, width float64) {
			x2 := l.Text(x, y+bold.Base(), bold, p.with("treemap.level", "n", p.fig.Count(lv.Number), "count", p.count(len(lv.Shapes))))
			l.Text(x2+5, y+bold.Base(), plain, p.with("treemap.top", "mm", p.set(lv.Height)))
			y += bold.Leading()
			v := view{l: l, x: x + width/2, y: y + r + ring, scale: scale}
			l.Circle(v.x, v.y, r, page.Heavy)
			l.Dashed(circle(v.x, v.y, float64(t.Drawing.Half)*scale), true, page.Hair)
			l.Circle(v.x, v.y, float64(t.Drawing.TrunkDiameter)/2*scale, page.Edge)
			var pins []pin
			for _, s := range lv.Shapes {
				v.solid(s)
				pins = append(pins, v.pin(s))
			}
			label(l, pins, margin{v.x - r - ring - leader, v.x + r + ring + leader, y, y + 2*(r+ring)})
			p.clock(v, r)
		})
	}
}

// clock writes the hours round a plan and draws the mark of the base at 12.
func (p *printer) clock(v view, r float64) {
	const tick, mark = 2.0, 3.0
	for hour := 1; hour <= 12; hour++ {
		sin, cos := math.Sincos(float64(hour) * math.Pi / 6)
		v.l.Line(v.x+(r-tick)*sin, v.y-(r-tick)*cos, v.x+(r+tick/2)*sin, v.y-(r+tick/2)*cos, page.Edge)
		s, at := plain, r+4.2
		if hour%3 == 0 {
			s = bold
		}
		x, y := v.x+at*sin, v.y-at*cos
		w, h := s.Width(p.fig.Count(hour)), page.CapMM(s.Size)
		v.l.Clear(x-w/2-0.3, y-h/2-0.4, w+0.6, h+0.8)
		v.l.TextCentre(x, y+h/2, s, p.fig.Count(hour))
	}
	// The mark lies beside the number, pointing to the trunk.
	v.l.Wedge([2]float64{v.x - mark/2, v.y - r - 0.4}, [2]float64{v.x + mark/2, v.y - r - 0.4}, [2]float64{v.x, v.y - r + mark})
	v.l.Text(v.x+5, v.y-r-4.2+page.CapMM(plain.Size)/2, plain, p.say("treemap.mark"))
}
