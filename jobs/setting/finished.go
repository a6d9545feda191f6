package setting

import "castweek/metal/measure"

// The checks of this file judge a finished setting, as a person measures it or
// looks at it through the loupe.

// FinishedClaw judges how far a finished claw stands above the girdle, as a
// share of the way from girdle to table. A dome has no table and is not judged.
func FinishedClaw(style Style, metal Metal, s Line, above measure.MM) (Check, bool) {
	crown := heights(s).Crown
	if above <= 0 || crown <= 0 || !s.Cut.Faceted() {
		return Check{}, false
	}
	c := newShare("finished-claw", above, crown)
	low, high, source := FinishedHeight(style, metal)
	c.addShare(crown, low, high, source)
	return c, true
}

// ClawContact judges how much of the slope from girdle to table a finished claw
// covers: reach is seen from above.
func ClawContact(style Style, s Line, reach measure.MM) (Check, bool) {
	slope := share(s.Width, slopeShare)
	if reach <= 0 || slope <= 0 || !s.Cut.Faceted() {
		return Check{}, false
	}
	c := newShare("contact", reach, slope)
	if style == Points {
		c.addShare(slope, 50, 0, "contact-points")
		c.addShare(slope, 40, 0, "contact-unsupported")
		return c, true
	}
	c.addShare(slope, 30, 50, "contact")
	c.addShare(slope, 33, 50, "contact-repair")
	return c, true
}

// BeadContact judges how much of the slope from girdle to table a bead covers.
func BeadContact(s Line, reach measure.MM) (Check, bool) {
	slope := share(s.Width, slopeShare)
	if reach <= 0 || slope <= 0 || !s.Cut.Faceted() {
		return Check{}, false
	}
	c := newShare("bead-contact", reach, slope)
	c.addShare(slope, 30, 40, "graver")
	return c, true
}

// StoneGap judges the gap between the girdles of neighbouring stones: about
// 0.10 mm in a field, 0.1 mm in a straight channel and 0.2 to 0.4 mm in a curved
// one. Other styles give no rule. Stones that touch are judged too; a gap below
// 0 is an overlap, and fails.
func StoneGap(style Style, curved bool, gap measure.MM) (Check, bool) {
	c := newCheck("gap", gap)
	switch {
	case style == Pave:
		c.add(gapPave-gapSlack, gapPave+gapSlack, "pave-gap")
	case style == Channel && curved:
		c.add(0.2, 0.4, "channel-gap")
	case style == Channel:
		c.add(0.1-gapSlack, 0.1+gapSlack, "channel-gap")
	default:
		return Check{}, false
	}
	c.Fails = gap < 0
	return c, true
}

// gapSlack is what "about" leaves on either side of a gap of 0.10 mm. House
// reading.
const gapSlack measure.MM = 0.05
