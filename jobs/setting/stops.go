package setting

import (
	"castweek/jobs/stone"
	"castweek/metal/measure"
)

// measured writes the lines that decide on a measured stone.
func (w *writer) measured() {
	h := w.in.House
	sides := []struct {
		key string
		v   measure.MM
	}{{"size", w.s.Length}}
	if w.s.Length != w.s.Width {
		sides[0].key = "length"
		sides = append(sides, sides[0])
		sides[1].key, sides[1].v = "width", w.s.Width
	}
	// A stone so small that the house limit would reach nothing is bounded at
	// half its size.
	band := func(limit measure.MM) (out []Number) {
		for _, s := range sides {
			n := span(s.key, max(s.v-limit, s.v/2), s.v+limit)
			n.Piece = true // the upper end is larger than the stone of the job
			out = append(out, n)
		}
		return out
	}
	suffix := ".round"
	if len(sides) == 2 {
		suffix = ".long"
	}
	w.stop("size-fits"+suffix, "house", false, band(h.Fits)...)
	w.stop("size-cut"+suffix, "house", false, band(h.Return)...)
	w.stop("size-return"+suffix, "house", false, band(h.Return)...)
	w.stop("chip", "practice", false)
	w.stop("count", "practice", false, w.all())
}

// suit writes what already speaks against the job as it is written.
func (w *writer) suit() {
	if !w.s.Kind.Known {
		w.stop("unknown-kind", "practice", true)
	}
	if w.in.Style == Points && w.s.Cut.Points() == 0 {
		w.stop("style-cut", "points", true)
	}
	if !w.s.Cut.Faceted() && (w.in.Style == Flush || w.in.Style == Channel || w.in.Style == Pave || w.in.Style == Bead) {
		w.stop("style-dome", "practice", true)
	}
	if w.in.Style == Flush && w.fragile() && !w.in.InWax {
		w.stop("fragile", "flush-fragile", true)
	}
	if w.in.InWax {
		switch level, _ := stone.CastInPlace(w.s.Kind, w.s.Origin); level {
		case stone.KeepAway:
			w.stop("wax-kind", "wax", true)
		case stone.NotSaid:
			w.stop("wax-ask", "wax", true)
		}
	}
	w.culetStop()
	if c, ok := ClawsBeforeSetting(w.in.Style, w.in.Metal, w.s, w.in.Claws.Height); ok && c.Fails && w.held() && w.s.Cut.Faceted() {
		_, _, source := FinishedHeight(w.in.Style, w.in.Metal)
		w.stop("claw-short", source, true, length("height", atLeast(w.in.Claws.Height)), length("least", atLeast(c.Rules[2].Low)))
	}
}

// held says whether claws hold the stone.
func (w *writer) held() bool { return w.in.Style == Claw || w.in.Style == Points }

func (w *writer) culetStop() {
	c, ok := CuletClearance(w.s, w.in.Girdle, w.in.House)
	switch {
	case !ok || !w.in.Ring:
	case c.Fails:
		w.stop("culet-out", "house", true)
	case !c.Rules[0].Met:
		w.stop("culet-low", "house", true, length("clearance", atMost(c.Value)).ofPiece(), length("culet", w.in.House.Culet).ofPiece())
	}
}

// culet writes the step about the clearance of the culet from the finger.
func (w *writer) culet() {
	if !w.in.Ring || w.h.Pavilion <= 0 {
		return
	}
	least := length("culet", w.in.House.Culet).ofPiece()
	c, ok := CuletClearance(w.s, w.in.Girdle, w.in.House)
	if ok && c.Value >= cent {
		w.step("culet.known", "culet-findings", length("clearance", atMost(c.Value)).ofPiece().assumed(w.s.DepthAssumed), least)
		return
	}
	w.step("culet.ask", "culet-findings", least)
}
