package main

import (
	"errors"
	"fmt"
	"slices"

	"castweek/metal/book"
	"castweek/metal/measure"
)

// errNotBooked stops an append; why was told already.
var errNotBooked = errors.New("nothing was booked")

// movement makes one of the flags. What the lot or the tree already says is
// taken from the book.
func (h *house) movement(s *streams, b *book.Book, f weighFlags) (m book.Movement, err error) {
	at, err := h.moment(s, f.at)
	if err != nil {
		return m, err
	}
	if f.who == "" {
		return m, wrongUsage("--who is needed: the name or initials of who weighs")
	}
	if f.reverse != 0 {
		if f.reverse < 0 || f.reverse > len(b.Movements) {
			return m, refused(fmt.Errorf("the book has no line %d", f.reverse))
		}
		m = b.Movements[f.reverse-1]
		m.Kind, m.Reverses, m.At, m.Who, m.Note = book.Reversal, f.reverse, at, f.who, f.note
		return m, nil
	}
	m = book.Movement{At: at, Who: f.who, Kind: book.Kind(f.movement), Lot: f.lot, Alloy: f.alloy, From: book.Origin(f.from), Owner: f.owner,
		Form: book.Form(f.form), Tree: f.tree, Into: f.into, Job: f.job, Note: f.note}
	if !slices.Contains(book.Kinds(), m.Kind) || m.Kind == book.Reversal {
		return m, wrongUsage("--movement %q is not known; write one of: %s", f.movement, words(book.Kinds()[:len(book.Kinds())-1]))
	}
	if m.Grams, err = weightFlag("--grams", f.grams); err != nil {
		return m, err
	}
	if f.fineness != "" {
		n, err := exactly(f.fineness)
		if err != nil {
			return m, wrongUsage("--fineness %q is not in ‰; write such as 750", f.fineness)
		}
		m.Fineness = book.Parts(n)
	}
	if f.melts != "" {
		if m.Melts, err = measure.Whole(f.melts); err != nil {
			return m, wrongUsage("--melts %q is not a whole number", f.melts)
		}
		m.HasMelts = true
	}
	fillIn(b, &m)
	if m.Alloy != "" {
		if _, err := h.alloy(m.Alloy); err != nil {
			return m, err
		}
	}
	return m, nil
}

// fillIn takes over what the lot, or the tree that the metal comes off, says.
func fillIn(b *book.Book, m *book.Movement) {
	if m.Lot != "" {
		if l, ok := b.Lot(m.Lot); ok {
			fill(&m.Alloy, l.Alloy)
			fill(&m.Owner, l.Owner)
			fill(&m.Form, l.Form)
			fill(&m.From, l.From)
			if m.Fineness == 0 {
				m.Fineness = l.Fineness
			}
			return
		}
	}
	switch m.Kind {
	case book.ButtonBack, book.CastingsOut, book.Filings:
		for _, t := range b.Trees() {
			if t.Tree != m.Tree || m.Tree == "" {
				continue
			}
			fill(&m.Alloy, t.Alloy)
			fill(&m.Owner, t.Owner)
			if m.Kind != book.CastingsOut {
				from := book.OwnMelt
				if t.Stamped {
					from = book.StampOnly
				}
				fill(&m.From, from)
				if m.Fineness == 0 {
					m.Fineness = t.Fineness()
				}
			}
		}
	}
	switch m.Kind {
	case book.ButtonBack:
		fill(&m.Form, book.Button)
	case book.Filings:
		fill(&m.Form, book.Powder)
	case book.FromMelt:
		for _, x := range b.Into(m.Lot) {
			fill(&m.Owner, x.Owner)
		}
	}
	switch m.Kind {
	case book.Opening, book.Bought, book.CustomerIn, book.ButtonBack, book.Filings:
		fill(&m.Lot, nextLot(b))
	}
}

func fill[T ~string](to *T, with T) {
	if *to == "" {
		*to = with
	}
}

// nextLot is the first free number above all that were used, L1, L2 and so on.
func nextLot(b *book.Book) string {
	highest := 0
	for _, h := range b.OnHand() {
		var n int
		if c, err := fmt.Sscanf(h.Lot, "L%d", &n); c == 1 && err == nil {
			highest = max(highest, n)
		}
	}
	return fmt.Sprintf("L%d", highest+1)
}
