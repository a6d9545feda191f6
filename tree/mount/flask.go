package mount

import (
	"math"

	"castweek/metal/measure"
	"castweek/metal/problem"
)

// A Flask with the base that it stands on.
type Flask struct {
	InnerDiameter measure.MM
	Height        measure.MM
	TrunkDiameter measure.MM
	TrunkLength   measure.MM // 0: as long as the castings need
	ButtonHeight  measure.MM // how far base and button reach into the flask
}

// Gaps are the least distances inside a flask.
type Gaps struct {
	Between   measure.MM // casting to casting
	Wall      measure.MM // casting to the flask wall
	WallResin measure.MM // the same when resin is on the tree
	Top       measure.MM // top of the tree to the fill level
	Trunk     measure.MM // casting to trunk; 0 takes Between
	Resin     bool       // resin is on this tree
}

func (g Gaps) wall() measure.MM {
	if g.Resin {
		return max(g.Wall, g.WallResin)
	}
	return g.Wall
}

func (g Gaps) trunk() measure.MM {
	if g.Trunk > 0 {
		return g.Trunk
	}
	return g.Between
}

func (f Flask) faults(l *problem.List, g Gaps) {
	bad := func(format string, args ...any) {
		l.Add(problem.Place{}, "mount-flask", "correct the flask, its trunk or the gaps", format, args...)
	}
	for _, x := range []struct {
		name string
		v    measure.MM
		more bool
	}{
		{"inner diameter", f.InnerDiameter, true}, {"height", f.Height, true}, {"trunk diameter", f.TrunkDiameter, true},
		{"trunk length", f.TrunkLength, false}, {"button height", f.ButtonHeight, false}, {"gap between castings", g.Between, false},
		{"gap to the wall", g.Wall, false}, {"gap to the wall for resin", g.WallResin, false}, {"gap to the top", g.Top, false}, {"gap to the trunk", g.Trunk, false},
	} {
		if !usable(x.v) || (x.more && x.v == 0) {
			bad("the %s is not a usable length", x.name)
		}
	}
	if len(*l) > 0 {
		return
	}
	r := roomOf(f, g)
	if r.top <= 0 {
		bad("button and gap to the top leave no height in a flask of %s", f.Height)
	}
	if r.outer <= r.inner {
		bad("trunk and gap to the wall leave no room in a flask of %s", f.InnerDiameter)
	}
	if f.TrunkLength > 0 && float64(f.TrunkLength) > r.top {
		bad("a trunk of %s is nearer to the fill level than %s", f.TrunkLength, g.Top)
	}
}

// room is what a flask leaves for castings: between the radii inner and outer,
// and between the heights bottom and top. Feeders may begin up to roots.
type room struct {
	trunk, inner, outer float64
	bottom, top, roots  float64
	between             float64
}

func roomOf(f Flask, g Gaps) room {
	r := room{
		trunk:   float64(f.TrunkDiameter) / 2,
		outer:   float64(f.InnerDiameter)/2 - float64(g.wall()),
		bottom:  float64(g.Between),
		top:     float64(f.Height - f.ButtonHeight - g.Top),
		between: float64(g.Between),
	}
	r.inner = r.trunk + float64(g.trunk())
	r.roots = r.top
	if f.TrunkLength > 0 {
		r.roots = math.Min(r.top, float64(f.TrunkLength))
	}
	return r
}
