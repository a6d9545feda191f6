package tree

import (
	"strings"

	"castweek/jobs/workshop"
	"castweek/metal"
	"castweek/metal/book"
	"castweek/metal/mark"
	"castweek/metal/mix"
)

// Barred says why a lot does not go into a crucible as it is; "" when it may.
func Barred(w *workshop.Workshop, b *book.Book, h book.Holding) string {
	a, ok := w.Alloys.Find(h.Alloy)
	counted := h.Fineness
	if h.From == book.StampOnly {
		counted -= book.Parts(w.Stock.StampDiscount * 1000)
	}
	switch {
	case !ok:
		return "its alloy is not known here"
	case a.Composition.Of("Cd") > 0:
		return "it holds cadmium: send it to the refiner"
	case Soldered(b, h.Lot):
		return "its note speaks of solder or cadmium: assay it or send it to the refiner"
	case h.From == book.StampOnly && !w.Stock.TakesStamps:
		return "its fineness is known by a stamp only: assay it"
	case h.Form == book.Powder:
		return "filings are melted and assayed before they are cast"
	case h.From == book.OwnMelt && mixed(b, h):
		return "it was melted together from several alloys: test it, take the line back, and book it by its assay"
	case counted < standardOf(w, a):
		return "its fineness is under the standard: bring it up in a melt of its own"
	}
	return ""
}

// Soldered looks for a word of solder or cadmium in what was noted of the lot.
// A note that denies it counts too: a person reads it and notes it otherwise.
func Soldered(b *book.Book, lot string) bool {
	for _, m := range b.Movements {
		note := strings.ToLower(m.Note)
		if m.Lot == lot && b.Stands(m) && (strings.Contains(note, "solder") || strings.Contains(note, "cadmium")) {
			return true
		}
	}
	return false
}

// mixed tells whether a lot was made of other alloys than its own: such a melt
// is tested before it is cast. Returns of one alloy may be joined untested.
func mixed(b *book.Book, h book.Holding) bool {
	for _, m := range b.Into(h.Lot) {
		if m.Kind == book.ToMelt && m.Alloy != h.Alloy {
			return true
		}
	}
	return false
}

// standardOf is the fineness that an alloy must reach to be marked as it is.
func standardOf(w *workshop.Workshop, a metal.Alloy) book.Parts {
	m, err := mark.MarkFor(w.Stock.Country, mark.Element(a.Noble()), mark.Parts(a.Fineness()))
	if err == nil && m.State == mark.Legally {
		return book.Parts(m.Fineness)
	}
	return book.Parts(a.Fineness())
}

func (t *Tree) setAside(w *workshop.Workshop, holdings []book.Holding, lots []mix.Metal) {
	a, _ := w.Alloys.Find(t.Alloy)
	for i, h := range holdings {
		if h.Alloy != t.Alloy || h.Owner != ownerOf(t.Owner) {
			continue
		}
		switch most := w.Stock.ReuseOf(a).Melts; {
		case lots[i].Barred != "":
			t.Lots.Aside = append(t.Lots.Aside, LotAside{h.Lot, lots[i].Barred})
		case h.Owner == "" && h.Melts > 0 && h.Melts > most:
			t.Lots.Aside = append(t.Lots.Aside, LotAside{h.Lot, "it was melted more often than the house casts again"})
		}
	}
}
