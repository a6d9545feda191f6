package setting

import "castweek/metal/measure"

// Crown shares are along the slope from girdle to table. In plan that is half
// of what the table leaves of the width: 21.5 % for the reference stone with a
// table of 57 %.
const slopeShare = (100 - 57) / 2.0

// slope is the way from girdle to table, seen from above.
func (w *writer) slope() measure.MM { return share(w.s.Width, slopeShare) }

// Bounds between which one bur cuts the whole seat, or opens it for the rest:
// a bur may be equal to the stone or slightly under (bench article on round
// claws), never over, since even 0.1 mm too large never holds (trade magazine).
// The shares are a house reading of "slightly".
const wholeSeat, opensSeat = 95, 80

// seat writes the step in which the seat is cut: with one bur for a round
// stone, or opened with it and cut out to the stone, or run round the outline
// with a small bur. The bur is one of the house's.
func (w *writer) seat(key, source string, more ...Number) {
	if w.s.Length == w.s.Width && w.s.Cut.Equal() && w.s.Cut.Faceted() {
		if bur, ok := upTo(w.in.House.Burs, w.s.Width); ok {
			switch {
			case bur >= share(w.s.Width, wholeSeat)-dust:
				w.step(key+".bur", source, append(some(length("bur", bur)), more...)...)
				return
			case bur >= share(w.s.Width, opensSeat)-dust:
				w.step(key+".open", source, append(some(length("bur", bur), length("size", about(w.s.Width))), more...)...)
				return
			}
		}
	}
	if bur, ok := upTo(w.in.House.Burs, w.s.Width/3); ok {
		w.step(key+".run", source, append(some(length("bur", bur)), more...)...)
		return
	}
	w.step(key+".graver", source, more...)
}

// seatAsCast puts the seat of the pattern, as it comes out of the cast, beside
// the stone.
func (w *writer) seatAsCast() {
	l, b := AsCast(w.in.Seat.Length, w.in.Shrinkage), AsCast(w.in.Seat.Width, w.in.Shrinkage)
	if min(l, b) < cent || w.in.InWax {
		return
	}
	if w.s.Length == w.s.Width && l == b {
		w.step("front.seat.round", "seat-size", length("cast", about(l)).ofPiece(), length("modelled", about(w.in.Seat.Length)).ofPiece(), length("size", about(w.s.Length)))
		return
	}
	w.step("front.seat.long", "seat-size", length("cast", about(l)).ofPiece(), length("castwidth", about(b)).ofPiece(), length("length", about(w.s.Length)), length("width", about(w.s.Width)))
}

// hole writes the step in which a pilot hole is made: low to high per cent of
// the stone's width, the house drill nearest to want. For a hole larger than
// the largest drill, a ball bur opens what the drill began.
func (w *writer) hole(source string, low, high, want measure.Percent) {
	least, most, aim := share(w.s.Width, low), share(w.s.Width, high), share(w.s.Width, want)
	if drill, ok := within(w.in.House.Drills, least, most, aim); ok {
		w.step("pilot.drill", source, length("drill", drill))
		return
	}
	drill, hasDrill := upTo(w.in.House.Drills, least)
	bur, hasBur := within(w.in.House.Burs, least, most, aim)
	switch {
	case hasDrill && hasBur:
		w.step("pilot.open", source, length("drill", drill), length("bur", bur))
	case hasBur:
		w.step("pilot.bur", source, length("bur", bur))
	default:
		w.step("pilot.none", source, span("hole", least, most))
	}
}

// under is the room that the pavilion needs below the girdle.
func (w *writer) under() Number {
	if w.h.Pavilion <= 0 {
		return Number{}
	}
	return length("room", atLeast(w.h.Girdle/2+w.h.Pavilion)).assumed(w.s.DepthAssumed)
}
