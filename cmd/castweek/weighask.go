package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"

	"castweek/metal/book"
	"castweek/metal/measure"
	"castweek/tree"
)

// An asker asks a person at the bench, one line each, and asks again until the
// answer can be taken.
type asker struct {
	in  *bufio.Reader
	out io.Writer
}

// ask puts the answer to a question into to, unless a flag gave it already.
// check says what is wrong with an answer; nil takes every one.
func (a *asker) ask(to *string, question string, check func(string) error) error {
	for *to == "" {
		fmt.Fprintf(a.out, "%s: ", question)
		line, err := a.in.ReadString('\n')
		answer := strings.TrimSpace(line)
		if err != nil && answer == "" {
			fmt.Fprintln(a.out)
			return refused(errors.New("the answers ended before the movement was whole; nothing was booked"))
		}
		if answer == "" {
			continue
		}
		if check != nil {
			if bad := check(answer); bad != nil {
				fmt.Fprintf(a.out, "  %v\n", bad)
				continue
			}
		}
		*to = answer
	}
	return nil
}

// maybe asks a question that may be left without an answer.
func (a *asker) maybe(to *string, question string) error {
	if *to != "" {
		return nil
	}
	fmt.Fprintf(a.out, "%s: ", question)
	line, _ := a.in.ReadString('\n')
	*to = strings.TrimSpace(line)
	return nil
}

// choose lists the answers with numbers; a number or the words themselves are
// taken. more says what each is; where other is true, another answer is taken
// too.
func (a *asker) choose(to *string, question string, list, more []string, other bool) error {
	if *to != "" {
		return nil
	}
	for i, x := range list {
		if more != nil && more[i] != "" {
			x += "  " + more[i]
		}
		fmt.Fprintf(a.out, "  %2d %s\n", i+1, x)
	}
	number := func(answer string) (string, bool) {
		if n, err := strconv.Atoi(answer); err == nil && n >= 1 && n <= len(list) {
			return list[n-1], true
		}
		return "", false
	}
	err := a.ask(to, question, func(answer string) error {
		for _, x := range list {
			if answer == x {
				return nil
			}
		}
		if _, ok := number(answer); ok || other {
			return nil
		}
		return fmt.Errorf("%q is none of them; type its number or its words", answer)
	})
	for _, x := range list {
		if *to == x {
			return err
		}
	}
	if x, ok := number(*to); ok {
		*to = x
	}
	return err
}

// melted says how often metal was cast before.
func melted(n int) string {
	if n == 0 {
		return "fresh"
	}
	return "melted " + count(n, "time")
}

func texts[T ~string](list []T) (out []string) {
	for _, x := range list {
		out = append(out, string(x))
	}
	return out
}

// askMissing asks for what the movement needs and no flag gave.
func (h *house) askMissing(s *streams, b *book.Book, f *weighFlags) error {
	a := &asker{bufio.NewReader(s.in), s.err}
	if f.reverse != 0 {
		return a.ask(&f.who, "who", nil)
	}
	kinds := book.Kinds()
	if err := a.choose(&f.movement, "movement", texts(kinds[:len(kinds)-1]), nil, false); err != nil {
		return err
	}
	steps := []func() error{
		func() error { return a.ask(&f.who, "who", nil) },
		func() error { return h.askTree(a, b, f) },
		func() error { return h.askLot(a, b, f) },
		func() error { return h.askKind(a, b, f) },
		func() error {
			return a.ask(&f.grams, "grams", func(t string) error { _, err := weightFlag("grams", t); return err })
		},
		func() error {
			k, form := book.Kind(f.movement), book.Form(f.form)
			if (k == book.Opening || k == book.CustomerIn) && (form == book.Button || form == book.Scrap || form == book.Powder) {
				return a.ask(&f.melts, "how often melted before", func(t string) error { _, err := measure.Whole(t); return err })
			}
			return nil
		},
	}
	for _, step := range steps {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

// askTree asks for the tree that metal goes to or comes off, with those that
// are waiting for it.
func (h *house) askTree(a *asker, b *book.Book, f *weighFlags) error {
	var list, more []string
	switch book.Kind(f.movement) {
	case book.ToTree:
		last, err := h.lastTrees()
		if err != nil {
			return err
		}
		for i := range last {
			if t := &last[i]; t.Pourable() {
				list, more = append(list, t.Name), append(more, strings.TrimPrefix(progressOf(b, t), t.Name+": ")+", "+t.Alloy)
			}
		}
	case book.ButtonBack, book.CastingsOut:
		for _, t := range b.Trees() {
			if t.Open() > 0 {
				list, more = append(list, t.Tree), append(more, fmt.Sprintf("%s out, %s", t.Open(), t.Alloy))
			}
		}
	case book.Filings:
		if f.lot == "" && f.alloy == "" {
			return a.maybe(&f.tree, "tree (nothing when they are from finishing)")
		}
		return nil
	default:
		return nil
	}
	asked := f.tree == ""
	if err := a.choose(&f.tree, "tree", list, more, true); err != nil {
		return err
	}
	if asked && book.Kind(f.movement) == book.CastingsOut {
		return a.maybe(&f.job, "job (nothing for several)")
	}
	return nil
}

// askLot asks which lot metal is taken from, with those that are on hand of the
// tree's alloy and what the plan takes of them.
func (h *house) askLot(a *asker, b *book.Book, f *weighFlags) error {
	k := book.Kind(f.movement)
	switch k {
	case book.ToTree, book.ToRefiner, book.GivenBack, book.ToMelt:
	case book.FromMelt:
		return a.ask(&f.lot, "lot that the melt made", nil)
	default:
		return nil
	}
	var t *tree.Tree
	if f.tree != "" {
		var err error
		if t, err = h.acceptedTree(f.tree); err != nil {
			return err
		}
	}
	var list, more []string
	for _, l := range b.OnHand() {
		if l.Grams == 0 || t != nil && l.Alloy != t.Alloy || k == book.GivenBack && l.Owner == "" {
			continue
		}
		text := fmt.Sprintf("%s of %s%s, %s, %s, %s", l.Grams, l.Alloy, of(l.Owner), l.Fineness, l.Form, melted(l.Melts))
		if t != nil {
			for _, x := range t.Lots.Takes {
				if x.Lot == l.Lot {
					text += ", planned " + x.Weight.String()
				}
			}
		}
		list, more = append(list, l.Lot), append(more, text)
	}
	known := func(name string) error {
		if _, ok := b.Lot(name); !ok {
			return fmt.Errorf("lot %q is not in the book", name)
		}
		return nil
	}
	if len(list) == 0 {
		return a.ask(&f.lot, "lot", known)
	}
	if err := a.choose(&f.lot, "lot", list, more, false); err != nil {
		return err
	}
	if k == book.ToMelt {
		return a.ask(&f.into, "lot that the melt makes", nil)
	}
	return nil
}

// askKind asks what metal it is that comes in, where the book does not know.
func (h *house) askKind(a *asker, b *book.Book, f *weighFlags) error {
	k := book.Kind(f.movement)
	_, known := b.Lot(f.lot)
	if known || !(k == book.Opening || k == book.Bought || k == book.CustomerIn || k == book.FromMelt || k == book.Filings && f.tree == "") {
		return nil
	}
	if err := a.ask(&f.alloy, "alloy", func(t string) error { _, err := h.alloy(t); return err }); err != nil {
		return err
	}
	if err := a.ask(&f.fineness, "fineness in ‰", func(t string) error { _, err := exactly(t); return err }); err != nil {
		return err
	}
	if err := a.choose(&f.from, "fineness from", texts(book.Origins()), nil, false); err != nil {
		return err
	}
	if k != book.Filings {
		if err := a.choose(&f.form, "form", texts(book.Forms()), nil, false); err != nil {
			return err
		}
	}
	if k == book.CustomerIn {
		return a.ask(&f.owner, "customer", nil)
	}
	return nil
}

// person tells whether somebody is at a terminal to be asked.
func (s *streams) person() bool {
	f, ok := s.in.(*os.File)
	return ok && isTerminal(f)
}
