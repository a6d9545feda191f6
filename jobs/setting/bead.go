package setting

import "castweek/metal/measure"

// bead writes the steps for stones that have each its own beads, in a row or
// alone, with a bright-cut frame.
func (w *writer) bead() {
	if w.in.Placed { // whoever drew it has settled what is between the stones
		w.step("bead.placed", "practice")
	} else {
		w.step("bead.lay", "bead-apart", about1("apart", w.s.Width/2))
	}
	w.holes()
	w.step("bead.frame", "bead")
	w.place()
	w.step("bead.drop", "bead")
	w.raise()
	w.step("bead.bright", "bead")
}

// pave writes the steps for a field of stones whose beads are shared. The whole
// field is laid out and drilled before the first seat is cut: most of the time
// is layout, and one wrong hole moves all that come after.
func (w *writer) pave() {
	w.step("pave.lay", "pave-gap", length("gap", gapPave), length("pitch", about(w.s.Width+gapPave)).ofPiece())
	w.step("pave.dome", "pave-dome")
	w.holes()
	w.step("pave.azure", "bead")
	w.step("pave.isolate", "bead")
	w.place()
	w.step("pave.drop", "practice")
	w.raise()
	w.step("pave.bright", "bead")
}

// gapPave is the gap between stones of a field.
const gapPave measure.MM = 0.10

func about1(key string, v measure.MM) Number { return length(key, about(v)) }

// holes writes marking, pilot hole and seat.
func (w *writer) holes() {
	w.step("bead.punch", "bead")
	if w.in.Metal == Platinum {
		w.hole("pilot-platinum", 50, 70, 50)
	} else {
		w.hole("pilot", 50, 70, 60)
	}
	w.seat("bead.seat", "bead-seat", length("bearing", atMost(share(w.h.Crown, bearingShare))))
	if w.in.Ring {
		w.step("bead.shank", "bead-shank")
	}
}

// bearingShare: the bearing is cut to a depth of 90 % of the crown.
const bearingShare measure.Percent = 90

// raise writes the raising of beads and how far they lie on the crown.
func (w *writer) raise() {
	contact := span("contact", share(w.slope(), 30), share(w.slope(), 40))
	if w.in.Metal == Platinum {
		w.step("bead.raise.platinum", "graver", contact)
	} else {
		w.step("bead.raise", "graver", contact)
	}
	w.step("bead.round", "bead")
}
