package jobs

import (
	"slices"
	"strings"

	"castweek/jobs/pattern"
	"castweek/jobs/ringsize"
	"castweek/jobs/source"
	"castweek/jobs/workshop"
	"castweek/metal/measure"
)

// FinishedInside is the inside diameter that a ring's pattern will finish at:
// pattern × (1 − shrinkage) + 2 × what is cleaned up inside.
func FinishedInside(hole measure.MM, shrinkage measure.Percent, cleanInside measure.MM) measure.MM {
	return hole*measure.MM(1-shrinkage/100) + 2*cleanInside
}

// fit compares the finger hole of a pattern, as it will finish, with the size
// that was ordered.
func (u user) fit(shop *workshop.Workshop) {
	j, p := u.in.job, u.part.Pattern
	if patternKind(j, u.part) != pattern.Ring || j.Size == nil || j.Size.Inside <= 0 || p.Measured == nil || p.Measured.Finger == nil {
		return
	}
	m, ok := shop.Material(p.Material)
	if !ok {
		return
	}
	if len(j.Parts) > 1 && u.part.Shank == nil && p.Measured.Finger.Diameter < ringsize.SmallestInside {
		return // a collar or head: no finger goes through it
	}
	inside := FinishedInside(p.Measured.Finger.Diameter, m.Shrinkage, shop.Limits.CleanInside)
	u.part.Pattern.Finishes = inside
	off := inside - j.Size.Inside
	word := "large"
	if off < 0 {
		off, word = -off, "small"
	}
	if off > shop.Limits.FitTolerance {
		u.in.problems.Remark(p.At, "finger-size-off", "order the pattern in the right size, or plan to size the ring",
			"%s will finish at %s inside; %s is %s: %s %s", p.Mesh, inside, j.SizeText, j.Size.Inside, off, word)
	}
}

// band remarks what the width of a ring's band does to its fit: the wrong
// gauge, and the house rule for wide bands.
func (r *reader) band(m *source.Map, j *Job) {
	if j.Kind != Ring || j.Size == nil || j.Size.Inside <= 0 {
		return
	}
	var width measure.MM
	for _, p := range j.Parts {
		if p.Shank != nil {
			width = max(width, p.Shank.FinishedWidth)
		}
	}
	gauge, rule := ringsize.Gauge(j.Gauge), ringsize.DefaultWideBand()
	common := ringsize.Notes(*j.Size, 0, gauge, rule)
	for _, n := range ringsize.Notes(*j.Size, width, gauge, rule) {
		if !slices.Contains(common, n) {
			m.Remark("size", "size-band", "ask which band the finger was measured for, and decide", "%s (%s)", strings.TrimSuffix(n.Text, "."), n.Source)
		}
	}
}
