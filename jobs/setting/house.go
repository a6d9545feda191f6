package setting

import "castweek/metal/measure"

// House is what the workshop has and holds to.
type House struct {
	Burs   []measure.MM // setting and ball burs, rising
	Drills []measure.MM // twist drills, rising
	// Fits: a measured stone within this of its size is set as it is. Return:
	// beyond this it goes back to the scheduler. Between, the seat is cut to it.
	Fits, Return measure.MM
	Culet        measure.MM // least clearance of the culet from the finger
	// Of a pattern: the thinnest claw wire, the most that a claw overlaps the
	// girdle, the thinnest bezel wall, and the metal under a flush stone.
	ClawWire    measure.MM
	ClawOverlap measure.Percent // of the modelled wire
	BezelWall   measure.MM
	FlushBelow  measure.MM
	Times       Times
}

// DefaultHouse is a common set of tools and limits. The tools are from memory:
// burs by 0.1 mm to 6 mm and by 0.5 mm to 10 mm, drills by 0.1 mm to 3 mm. The
// limits on stones: ±0.05 mm is what melee sellers promise at best, ±0.15 mm
// what a casting and setting house accepts for a seat; the culet clearance is
// a findings maker's model standard. The limits on patterns are a model-builder's
// guideline, common practice without a source, an article on structural
// soundness (0.4 mm finished, 0.1 mm for each face) and a bench forum.
func DefaultHouse() House {
	var h House
	for i := 5; i <= 60; i++ {
		h.Burs = append(h.Burs, measure.MM(i)/10)
	}
	for i := 13; i <= 20; i++ {
		h.Burs = append(h.Burs, measure.MM(i)/2)
	}
	for i := 3; i <= 30; i++ {
		h.Drills = append(h.Drills, measure.MM(i)/10)
	}
	h.Fits, h.Return, h.Culet = 0.05, 0.15, 0.5
	h.ClawWire, h.ClawOverlap, h.BezelWall, h.FlushBelow = 0.6, 100.0/3, 0.6, 0.2
	h.Times = DefaultTimes()
	return h
}

// upTo gives the largest tool that is not larger than v.
func upTo(tools []measure.MM, v measure.MM) (measure.MM, bool) {
	best := measure.MM(0)
	for _, t := range tools {
		if t <= v+dust && t > best {
			best = t
		}
	}
	return best, best > 0
}

// within gives the tool nearest to want among those from low to high.
func within(tools []measure.MM, low, high, want measure.MM) (measure.MM, bool) {
	best, found := measure.MM(0), false
	for _, t := range tools {
		if t < low-dust || t > high+dust {
			continue
		}
		if !found || abs(t-want) < abs(best-want)-dust {
			best, found = t, true
		}
	}
	return best, found
}

func abs(v measure.MM) measure.MM { return max(v, -v) }
