package page

import "math"

// Lengths of a dash and of the space after it, in millimetres: long enough to
// be seen as dashes at 500 mm, short enough to follow a small outline (common
// practice, no source).
const (
	dashOn  = 1.4
	dashOff = 1.0
)

// Dashed draws a run of points as dashes. The pattern goes on round corners,
// so that an outline of many short sides is dashed as well as one of four.
func (l *Leaf) Dashed(points [][2]float64, closed bool, weight float64) {
	if len(points) < 2 {
		return
	}
	if closed {
		points = append(points[:len(points):len(points)], points[0])
	}
	on, left := true, dashOn
	run := [][2]float64{points[0]}
	for i := 1; i < len(points); i++ {
		from, to := points[i-1], points[i]
		if !l.doc.finite("a drawing", from[0], from[1], to[0], to[1]) {
			return
		}
		length := math.Hypot(to[0]-from[0], to[1]-from[1])
		done := 0.0
		for length-done > left {
			done += left
			at := [2]float64{from[0] + (to[0]-from[0])*done/length, from[1] + (to[1]-from[1])*done/length}
			if on {
				l.Path(append(run, at), false, weight)
			}
			on, run = !on, [][2]float64{at}
			left = dashOff
			if on {
				left = dashOn
			}
		}
		left -= length - done
		run = append(run, to)
	}
	if on {
		l.Path(run, false, weight)
	}
}

// Patch draws a closed outline and clears what lies under it, so that the
// nearer of two things hides the farther.
func (l *Leaf) Patch(points [][2]float64, weight float64) {
	for _, p := range points {
		if !l.doc.finite("a drawing", p[0], p[1]) {
			return
		}
	}
	if len(points) > 2 {
		l.add(op{kind: opPath, fill: white, path: points, closed: true})
		l.Path(points, true, weight)
	}
}

// Wedge draws a triangle filled with black.
func (l *Leaf) Wedge(a, b, c [2]float64) {
	if l.doc.finite("a drawing", a[0], a[1], b[0], b[1], c[0], c[1]) {
		l.add(op{kind: opPath, fill: black, path: [][2]float64{a, b, c}, closed: true})
	}
}
