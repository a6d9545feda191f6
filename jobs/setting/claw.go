package setting

import "castweek/metal/measure"

// claw writes the steps for round-wire claws.
func (w *writer) claw() {
	claws := some(count("claws", w.in.Claws.Count))
	w.step("claw.true", "claw", claws...)
	w.modelled()
	w.rawHeight()
	w.notch("claw.seat", "seat-bur")
	w.step("claw.burr", "claw")
	w.trial()
	w.culet()
	w.place()
	w.step("claw.drop", "claw")
	if w.in.Claws.Count == 3 {
		w.step("claw.close.three", "practice")
	} else {
		w.step("claw.close", "claw")
	}
	w.step("claw.level", "contact", w.reach(30, 50))
	w.trim("claw.trim")
	w.step("claw.round", "tips", some(cupBur(w.in))...)
}

// points writes the steps for V-claws over pointed corners.
func (w *writer) points() {
	corners := some(count("points", w.s.Cut.Points()))
	w.step("points.true", "points", corners...)
	w.modelled()
	w.rawHeight()
	w.notch("points.seat", "points")
	if bur, ok := upTo(w.in.House.Burs, w.s.Width/8); ok {
		w.step("points.relief", "relief", length("bur", bur))
	} else {
		w.step("points.relief.graver", "relief")
	}
	w.step("claw.burr", "claw")
	w.trial()
	w.culet()
	w.place()
	w.step("points.drop", "points")
	w.step("points.close", "relief")
	w.step("claw.level", "contact-points", w.reach(50, 50))
	w.trim("points.trim")
	w.step("points.file", "practice")
}

// modelled tells what the pattern gave the claws: how far they stand above the
// girdle, beside both rules, and how far they overlap it, which is not the depth
// of the notch.
func (w *writer) modelled() {
	c := w.in.Claws
	if r, ok := ClawsBeforeSetting(w.in.Style, w.in.Metal, w.s, c.Height); ok && c.Height >= cent && w.s.Cut.Faceted() {
		w.step("claw.height", "raw-both", length("height", about(c.Height)).ofPiece(), length("pavilion", about(w.h.Pavilion)),
			span("above", r.Rules[1].Low, r.Rules[1].High).ofPiece())
	}
	if min(c.Modelled, c.Overlap) >= cent {
		w.step("claw.overlap", "overlap-both", length("overlap", about(c.Overlap)).ofPiece(), length("wire", about(c.Modelled)).ofPiece())
	}
}

// rawHeight tells where the seat lies below the tip before setting. The
// published addition of 0.5 to 1 mm is for stones of some size: where it would
// be more than the stone is deep, one pavilion depth is told instead.
func (w *writer) rawHeight() {
	low, high, _ := FinishedHeight(w.in.Style, w.in.Metal)
	if !w.s.Cut.Faceted() {
		w.step("claw.mark.dome", "dome", span("above", share(w.s.Depth, domeLow), share(w.s.Depth, domeHigh)))
		return
	}
	above := span("above", share(w.h.Crown, low)+rawLow, share(w.h.Crown, high)+rawHigh)
	source := "raw-height"
	if above.High > w.s.Depth {
		above, source = length("above", about(w.h.Pavilion)), "raw-pavilion"
	}
	w.step("claw.mark", source, above)
}

// A dome has no table to reach for: claws end a third of the way up, a little
// more for a high one. Common practice, no source.
const domeLow, domeHigh measure.Percent = 30, 40

// notch writes the seat in the claws, with the most that it may take of them.
func (w *writer) notch(key, source string) {
	limit, from := NotchLimit(w.in.Metal, w.in.Claws.Shared)
	more := Number{}
	if w.in.Claws.Finished > 0 {
		more = length("notch", atMost(share(w.in.Claws.Finished, limit))).ofPiece()
	}
	if more.High > 0 {
		w.step("claw.notch", from, more)
	} else {
		w.step("claw.notch."+map[measure.Percent]string{25: "quarter", 40: "part", 50: "half"}[limit], from)
	}
	w.seat(key, source)
}

// trial fits the stone loose; only a flat table can go in first.
func (w *writer) trial() {
	if w.s.Cut.Faceted() {
		w.step("trial", "claw")
	} else {
		w.step("trial.dome", "practice")
	}
}

// reach is how far a claw lies over the stone, seen from above.
func (w *writer) reach(low, high measure.Percent) Number {
	return span("reach", share(w.slope(), low), share(w.slope(), high))
}

// trim writes the height that a finished claw stands above the girdle.
func (w *writer) trim(key string) {
	low, high, source := FinishedHeight(w.in.Style, w.in.Metal)
	if !w.s.Cut.Faceted() {
		w.step(key+".dome", "dome", span("leave", share(w.s.Depth, domeLow), share(w.s.Depth, domeHigh)))
		return
	}
	w.step(key, source, span("leave", share(w.h.Crown, low), share(w.h.Crown, high)))
}

// cupBur is the smallest house bur that takes in the finished wire, if any.
func cupBur(in Input) Number {
	if in.Claws.Finished <= 0 {
		return Number{}
	}
	for _, b := range in.House.Burs {
		if b >= in.Claws.Finished-dust && b <= in.Stone.Width {
			return length("cup", b)
		}
	}
	return Number{}
}
