package mix

import "castweek/metal/measure"

// A line is a lot that a pour takes from, by their places in the lists.
type line struct{ lot, pour int }

// ShareFrom is [Share] without lines that are hardly worth a weighing: of the
// house's metal a pour takes less than least only where that is all there is of
// the lot, or where without it an alloy would have to be bought that otherwise
// need not be. What such a line would have given of returned metal, fresh metal
// gives, from a lot or from the order that is placed anyway.
func ShareFrom(pours []Pour, lots []Metal, step, least measure.Milligram) Shared {
	best := Share(pours, lots, step)
	apart := map[line]bool{}
	needed := map[line]bool{}
	try := func(l line, fewer bool) bool {
		apart[l] = true
		s := share(pours, lots, step, apart)
		if s.buysNothingNew(best) && (!fewer || len(s.crumbs(lots, least)) < len(best.crumbs(lots, least))) {
			best = s
			return true
		}
		delete(apart, l)
		return false
	}
next:
	for {
		for _, l := range best.crumbs(lots, least) {
			if needed[l] {
				continue
			}
			if try(l, false) {
				continue next
			}
			// or its lot gives what another line of the pour gives
			for _, k := range best.Pours[l.pour].Takes {
				if k.Lot != l.lot && try(line{k.Lot, l.pour}, true) {
					continue next
				}
			}
			needed[l] = true
		}
		return best
	}
}

// crumbs lists the lines under least that leave something of their lot.
func (s Shared) crumbs(lots []Metal, least measure.Milligram) (out []line) {
	for p, m := range s.Pours {
		for _, k := range m.Takes {
			if lot := lots[k.Lot]; lot.Owner == "" && k.Grams < least && k.Grams < lot.Grams {
				out = append(out, line{k.Lot, p})
			}
		}
	}
	return out
}

// buysNothingNew tells whether all that is bought was to be bought before.
func (s Shared) buysNothingNew(before Shared) bool {
	type alloyOf struct{ alloy, owner string }
	had := map[alloyOf]bool{}
	for _, b := range before.Buy {
		had[alloyOf{b.Alloy, b.Owner}] = true
	}
	for _, b := range s.Buy {
		if !had[alloyOf{b.Alloy, b.Owner}] {
			return false
		}
	}
	return true
}
