package main

import (
	"fmt"
	"math/big"
	"regexp"
	"strings"

	"castweek/metal"
	"castweek/metal/book"
	"castweek/metal/mix"
	"castweek/tree"
)

var (
	// lotForm is NAME, then ":22g" and "=Au417,Ag100,Cu483" where they are given.
	lotForm     = regexp.MustCompile(`^([^:=]+?)\s*(?::\s*([^=]*?)\s*)?(?:=(.*))?$`)
	contentForm = regexp.MustCompile(`^\s*([A-Za-z]+)\s*([0-9.]+)\s*$`)
)

func isElement(name string) bool { _, ok := metal.ElementNamed(name); return ok }

func elementSymbol(name string) string {
	e, _ := metal.ElementNamed(name)
	return string(e)
}

// lots reads the --lot flags.
func (h *house) lots(w mix.Want, b *book.Book, f mixFlags) (out []mix.Lot, err error) {
	seen := map[string]bool{}
	for _, text := range f.lots {
		l, err := h.lot(w, b, text)
		if err != nil {
			return nil, err
		}
		if seen[l.Name] {
			return nil, wrongUsage("the lot %q is given twice; give the grams together", l.Name)
		}
		seen[l.Name] = true
		for _, c := range l.Comp {
			l.Fresh = l.Fresh || c.Element == w.Metal && !l.StampOnly && mix.IsFine(c.PerMille)
		}
		out = append(out, l)
	}
	for _, text := range f.costs {
		name, price, ok := strings.Cut(text, "=")
		cost, err := exactly(strings.TrimSpace(price))
		found := false
		for i := range out {
			if out[i].Name == strings.TrimSpace(name) {
				out[i].Cost, found = big.NewRat(cost, 1000), true
			}
		}
		if !ok || err != nil || !found {
			return nil, wrongUsage(`--cost %q is not a lot with its cost per gram, such as "999.9 gold=85.20"`, text)
		}
	}
	return out, nil
}

func (h *house) lot(w mix.Want, b *book.Book, text string) (l mix.Lot, err error) {
	m := lotForm.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil {
		return l, wrongUsage(`--lot %q can not be read; write such as "585 yellow:22g"`, text)
	}
	l.Name = m[1]
	if strings.Contains(text, ":") {
		if l.Limit, err = weightFlag("--lot "+l.Name+":", m[2]); err != nil {
			return l, err
		}
		l.Limited = true
	}
	if strings.Contains(text, "=") {
		for _, part := range strings.Split(m[3], ",") {
			c := contentForm.FindStringSubmatch(part)
			if c == nil || !isElement(c[1]) {
				return l, wrongUsage("--lot %q: %q is not an element with its ‰; write such as =Au417,Ag100,Cu483", text, part)
			}
			p, err := perMille(c[2])
			if err != nil {
				return l, wrongUsage("--lot %q: %q is not in ‰ with at most three decimals", text, c[2])
			}
			l.Comp = append(l.Comp, mix.Content{Element: elementSymbol(c[1]), PerMille: p})
		}
		return l, nil
	}
	return l, h.identify(w, b, &l)
}

// identify finds out what a lot holds that is only named: a lot of the book, an
// alloy, or a bare fineness.
func (h *house) identify(w mix.Want, b *book.Book, l *mix.Lot) error {
	if b != nil {
		if k, ok := b.Lot(l.Name); ok {
			if !l.Limited || l.Limit > k.Grams {
				l.Limit, l.Limited = k.Grams, true
			}
			return h.booked(b, l, k)
		}
	}
	if a, ok := h.alloys.Find(l.Name); ok {
		l.Comp = contents(a.Composition)
		return nil
	}
	number, name, _ := strings.Cut(l.Name, " ")
	p, err := perMille(number)
	if err != nil || p.Sign() == 0 || name != "" && name != "stamp" && !isElement(name) {
		_, err := h.alloy(l.Name)
		return err
	}
	element := w.Metal
	if isElement(name) {
		element = elementSymbol(name)
	}
	l.Comp = []mix.Content{{Element: element, PerMille: p}}
	l.Partial, l.StampOnly = name != "stamp", name == "stamp"
	return nil
}

// booked takes fineness and recipe from the book and the alloy's name.
func (h *house) booked(b *book.Book, l *mix.Lot, k book.Holding) error {
	a, err := h.alloy(k.Alloy)
	if err != nil {
		return err
	}
	l.StampOnly, l.Soldered = k.From == book.StampOnly, tree.Soldered(b, k.Lot)
	l.Comp = contents(a.Composition)
	if a.Noble() != "" {
		l.Comp = mix.Rescaled(l.Comp, string(a.Noble()), big.NewRat(int64(k.Fineness), 1000))
	}
	return nil
}

// ownersApart refuses lots of two customers in one melt, and reminds of a
// customer's beside the house's.
func ownersApart(s *streams, b *book.Book, lots []mix.Lot) error {
	if b == nil {
		return nil
	}
	customer, others := "", false
	for _, l := range lots {
		k, ok := b.Lot(l.Name)
		switch {
		case !ok || k.Owner == "":
			others = true
		case customer != "" && customer != k.Owner:
			return refused(fmt.Errorf("lot %s is %s's, and another lot is %s's: a customer's metal is never melted with another's", l.Name, k.Owner, customer))
		default:
			customer = k.Owner
		}
	}
	if customer != "" && others {
		fmt.Fprintf(s.err, "some of it is %s's own metal and some is the house's: melt them together only where it was agreed\n", customer)
	}
	return nil
}
