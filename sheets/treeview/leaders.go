package treeview

import (
	"cmp"
	"math"
	"slices"

	"castweek/sheets/page"
	"castweek/tree"
)

// A pin is one id with the spot of a drawing that it belongs to, on paper.
type pin struct {
	id   string
	x, y float64 // the spot
	at   float64 // y of the middle of the id
	open bool    // the casting is hidden: an open dot
}

// idPitch is the distance of ids below each other.
var idPitch = code.Leading()

// A margin is where the ids of a drawing stand: columns beside it.
type margin struct {
	left, right float64 // inner edges of the columns
	top, bottom float64
	onlyRight   bool
}

// room is how many ids one column takes.
func (m margin) room() int { return max(1, int((m.bottom-m.top)/idPitch+1e-6)) }

// sides parts pins between the columns: each to its own side, but what one
// column cannot take, the nearest to the middle first, to the other.
func sides(pins []pin, middle float64, room int) (left, right []pin) {
	slices.SortStableFunc(pins, func(a, b pin) int { return cmp.Compare(a.x, b.x) })
	n := 0
	for n < len(pins) && pins[n].x < middle {
		n++
	}
	n = max(min(n, room), len(pins)-room)
	n = min(n, len(pins))
	return pins[:n], pins[n:]
}

// spread gives each pin of a column its place: as near to its own height as
// the pitch allows.
func spread(pins []pin, edge, top, bottom float64) {
	slices.SortStableFunc(pins, func(a, b pin) int { return cmp.Compare(a.y, b.y) })
	for i := range pins {
		pins[i].at = max(pins[i].y, top+idPitch/2)
		if i > 0 {
			pins[i].at = max(pins[i].at, pins[i-1].at+idPitch)
		}
	}
	low := bottom - idPitch/2
	for i := len(pins) - 1; i >= 0 && pins[i].at > low; i-- {
		pins[i].at = low
		low -= idPitch
	}
	uncross(pins, edge)
}

// uncross exchanges places while that makes two leaders shorter together: of
// two straight lines that cross, the exchanged pair is always the shorter, so
// none cross at the end. Each exchange shortens the whole, and the count of
// rounds is limited besides.
func uncross(pins []pin, edge float64) {
	length := func(p pin, at float64) float64 { return math.Hypot(p.x-edge, p.y-at) }
	for range 4 * len(pins) {
		changed := false
		for i := range pins {
			for k := i + 1; k < len(pins); k++ {
				a, b := pins[i], pins[k]
				if length(a, b.at)+length(b, a.at) < length(a, a.at)+length(b, b.at)-1e-9 {
					pins[i].at, pins[k].at = b.at, a.at
					changed = true
				}
			}
		}
		if !changed {
			return
		}
	}
}

// label writes the ids of a drawing beside it, each with a line to its spot.
func label(l *page.Leaf, pins []pin, m margin) {
	left, right := []pin(nil), pins
	if !m.onlyRight {
		left, right = sides(pins, (m.left+m.right)/2, m.room())
	}
	spread(left, m.left, m.top, m.bottom)
	spread(right, m.right, m.top, m.bottom)
	base := page.CapMM(code.Size) / 2
	for _, p := range left {
		l.TextRight(m.left-1, p.at+base, code, p.id)
		l.Line(m.left, p.at, p.x, p.y, page.Hair)
		p.dot(l)
	}
	for _, p := range right {
		l.Text(m.right+1, p.at+base, code, p.id)
		l.Line(m.right, p.at, p.x, p.y, page.Hair)
		p.dot(l)
	}
}

func (p pin) dot(l *page.Leaf) {
	if p.open {
		l.Patch(circle(p.x, p.y, spot+0.2), page.Edge)
	} else {
		l.Disc(p.x, p.y, spot)
	}
}

// spot is the radius of the dot that a leader ends in.
const spot = 0.7

// idWidth is the width of a column that takes every id of a tree.
func idWidth(t *tree.Tree) float64 {
	w := 0.0
	for i := range t.Castings {
		w = max(w, code.Width(t.Castings[i].Casting))
	}
	return w + 1
}
