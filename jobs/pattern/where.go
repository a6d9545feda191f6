package pattern

import (
	"fmt"
	"math"
	"strings"
)

// A Frame is how a person holds the pattern: Up points to the head, Front out
// of the finger hole towards the eye, Right to the right of both. A pattern
// without a finger hole is held as it lies in the file: y to the back, z up.
type Frame struct {
	Origin           Point
	Right, Up, Front Point
	Ring             bool // there is a finger hole
	Head             bool // and one side that stands out
}

// plainBand is how much farther than its lowest side a ring's highest side
// must stand out to be called the head.
const plainBand = 1.08

// newFrame finds the head as the direction in which the pattern reaches
// farthest from the axis of the hole.
func newFrame(hole *Hole, skin []Point, box Box) Frame {
	if hole == nil {
		return Frame{Origin: box.centre(), Right: Point{1, 0, 0}, Up: Point{0, 0, 1}, Front: Point{0, -1, 0}}
	}
	u, v := hole.Axis.across()
	var reach [sectors]float64
	for _, p := range skin {
		d := p.sub(hole.Centre)
		x, y := d.dot(u), d.dot(v)
		k := sectorOf(x, y)
		reach[k] = max(reach[k], math.Hypot(x, y))
	}
	most, least := 0.0, math.Inf(1)
	for _, r := range reach {
		if r > 0 {
			most, least = max(most, r), min(least, r)
		}
	}
	f := Frame{Origin: hole.Centre, Front: hole.Axis, Ring: true, Head: most > plainBand*least}
	if f.Head {
		// The middle of all that reaches nearly as far.
		var sum Point
		for _, p := range skin {
			d := p.sub(hole.Centre)
			x, y := d.dot(u), d.dot(v)
			if math.Hypot(x, y) > 0.9*most {
				sum = sum.add(u.scale(x)).add(v.scale(y))
			}
		}
		f.Up = sum.unit()
	}
	if f.Up.length() < 0.5 {
		// A plain band: the way that is up in the file.
		f.Head = false
		up := Point{0, 0, 1}
		if math.Abs(f.Front[2]) > 0.7 {
			up = Point{0, 1, 0}
		}
		f.Up = up.sub(f.Front.scale(up.dot(f.Front))).unit()
	}
	f.Right = f.Up.cross(f.Front)
	return f
}

// where says in words and mm where a place lies.
func (f Frame) where(p Point) string {
	d := p.sub(f.Origin)
	x, y, z := d.dot(f.Right), d.dot(f.Up), d.dot(f.Front)
	var parts []string
	of := ""
	say := func(v float64, less, more, then string) {
		if math.Abs(v) >= 0.05 {
			if v < 0 {
				more = less
			}
			parts, of = append(parts, fmt.Sprintf("%.1f mm %s", math.Abs(v), more)), then
		}
	}
	say(x, "left", "right", "of ")
	behind := ""
	if z > 0 {
		behind = "of " // in front of, but behind
	}
	say(z, "behind", "in front", behind)
	say(y, "below", "above", "")
	middle := "at the centre"
	if len(parts) > 0 {
		middle = strings.Join(parts, ", ") + " " + of + "the centre"
	}
	if part := f.part(x, y); part != "" {
		return part + ", " + middle
	}
	return middle
}

// part names the part of a ring by the angle from the head.
func (f Frame) part(x, y float64) string {
	if !f.Ring || math.Hypot(x, y) < 0.05 {
		return ""
	}
	if !f.Head {
		return "on the band"
	}
	side := "right"
	if x < 0 {
		side = "left"
	}
	switch a := math.Abs(math.Atan2(x, y)) * 180 / math.Pi; {
	case a < 30:
		return "near the head"
	case a < 75:
		return "on the " + side + " shoulder"
	case a < 135:
		return "on the " + side + " of the shank"
	}
	return "at the back of the shank"
}
