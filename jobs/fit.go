package jobs

import (
	"castweek/jobs/pattern"
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
	inside := FinishedInside(p.Measured.Finger.Diameter, m.Shrinkage, shop.Limits.CleanInside)
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
