package setting

import "castweek/metal/measure"

// A bezel wall is to keep this much after burnishing (article on structural
// soundness of jewellery).
const bezelLeft measure.MM = 0.4

// bezel writes the steps for a wall pushed over the stone all round.
func (w *writer) bezel() {
	w.step("bezel.level", "bezel")
	if w.h.Pavilion > 0 {
		w.step("bezel.depth", "bezel-deep", w.under())
	} else {
		w.step("bezel.flat", "practice")
	}
	w.seat("bezel.seat", "bezel-fit")
	w.trial()
	w.culet()
	// Half of a heavy cast wall comes off where it is to bend, but never so much
	// that less than the limit is left.
	if left := max(w.in.Wall/2, bezelLeft); w.in.Wall > 0 && left < w.in.Wall {
		w.step("bezel.thin", "bezel-thin", length("wall", atLeast(left)).ofPiece())
	}
	w.place()
	w.step("bezel.drop", "bezel")
	w.step("bezel.tack", "bezel")
	if w.fragile() {
		w.warn(cautionWords["push"])
		w.step("bezel.push", "practice")
	} else {
		w.step("bezel.hammer", "bezel")
	}
	w.step("bezel.burnish", "bezel-overlap", w.lip())
	w.step("bezel.bright", "bezel-left", length("wall", bezelLeft).ofPiece())
}

// lip is how far the finished wall lies over the stone: a tenth of the way from
// girdle to table, or of the half width of a dome.
func (w *writer) lip() Number {
	way := w.slope()
	if !w.s.Cut.Faceted() {
		way = w.s.Width / 2
	}
	return length("lip", atLeast(share(way, 10)))
}
