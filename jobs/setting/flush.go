package setting

import "castweek/metal/measure"

// flushProud is the size above which the table of a flush stone stands a little
// above the metal.
const flushProud measure.MM = 3

// flush writes the steps for a stone let into the metal and burnished round.
func (w *writer) flush() {
	least := length("metal", atLeast(w.s.Depth+w.in.House.FlushBelow)).ofPiece().assumed(w.s.DepthAssumed)
	if cast := AsCast(w.in.Thickness, w.in.Shrinkage); cast >= cent {
		w.step("flush.metal.known", "flush-metal", least, length("cast", atMost(cast)).ofPiece())
	} else {
		w.step("flush.metal", "flush-metal", least)
	}
	w.step("bead.punch", "flush")
	w.hole("flush-hole", 50, 200.0/3, 50)
	if bur, ok := within(w.in.House.Burs, share(w.s.Width, 80), share(w.s.Width, 90), share(w.s.Width, 85)); ok && w.s.Length == w.s.Width {
		w.step("flush.bore", "flush-bore", length("bur", bur))
	}
	depth := length("seat", about(w.h.Crown))
	if !w.s.Cut.Faceted() {
		depth = length("seat", about(w.s.Depth/2))
	}
	w.seat("flush.seat", "flush", depth)
	w.place()
	if w.s.Length <= flushProud {
		w.step("flush.drop", "flush")
	} else {
		w.step("flush.drop.proud", "flush")
	}
	w.step("flush.burnish", "flush")
	w.step("flush.ring", "flush")
}
