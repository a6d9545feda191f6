package book

import (
	"slices"
	"sort"
	"strings"

	"castweek/metal/measure"
	"castweek/metal/problem"
)

// weighingSlack is how much more may come off a tree than went into it before
// the book calls it a mistake: a few steps of a 0.01 g scale over the weighings
// of one tree. Common practice, no source.
const weighingSlack measure.Milligram = 50

// A Holding is what is on hand of one lot.
type Holding struct {
	Lot, Alloy, Owner string
	Form              Form
	Fineness          Parts
	From              Origin
	Grams             measure.Milligram
	// Melts counts how often the metal was cast: that of the lots it was
	// joined from, the highest, plus one. 0 is fresh.
	Melts int
}

// A TreeAccount is the metal of one tree. What was charged and did not come
// off it was lost, or is not booked yet.
type TreeAccount struct {
	Tree, Alloy, Owner                 string
	Charged, Button, Castings, Filings measure.Milligram
	FineIn                             Fine // charged
	Melts                              int  // the highest of the lots charged
	Stamped                            bool // the fineness of some of it is known by a stamp only
}

// Open is what was charged and is not accounted for.
func (t TreeAccount) Open() measure.Milligram {
	return t.Charged - t.Button - t.Castings - t.Filings
}

// Fineness of the melt, rounded down.
func (t TreeAccount) Fineness() Parts {
	if t.Charged == 0 {
		return 0
	}
	return Parts(int64(t.FineIn) / int64(t.Charged))
}

type melt struct {
	in, out measure.Milligram
	melts   int
	stamped bool
	owner   string // of the metal; the house's may be added to a customer's
}

// state is the book summed up to some line.
type state struct {
	lots  map[string]*Holding
	trees map[string]*TreeAccount
	melts map[string]*melt
}

// replay sums the book up line by line and says at which line something can not
// be. A reversed line and its reversal count as if neither were there.
func (b *Book) replay(l *problem.List) {
	b.reversed = map[int]bool{}
	for i, m := range b.Movements {
		if m.ID != i+1 {
			what := "a line is missing before it, or was put in"
			if slices.ContainsFunc(b.Movements[:i], func(o Movement) bool { return o.ID == m.ID }) {
				what = "this id is there twice"
			}
			l.Add(m.Place, "book-id", "ids count from 1 without a gap; take the lines from a copy", "id %d stands where %d should: %s", m.ID, i+1, what)
			return
		}
		if m.Kind == Reversal {
			b.reverse(m, l)
		}
	}
	b.state = state{map[string]*Holding{}, map[string]*TreeAccount{}, map[string]*melt{}}
	for _, m := range b.Movements {
		if b.Stands(m) {
			b.state.apply(m, l)
		}
	}
}

func (b *Book) reverse(m Movement, l *problem.List) {
	o := b.Movements[m.Reverses-1]
	switch {
	case o.Kind == Reversal:
		l.Add(m.Place, "book-reverses", "book the movement anew instead", "line %d is itself a reversal", m.Reverses)
	case b.reversed[o.ID]:
		l.Add(m.Place, "book-reverses", "it needs no more than one", "line %d was taken back before", m.Reverses)
	case o.Lot != m.Lot || o.Alloy != m.Alloy || o.Grams != m.Grams || o.Owner != m.Owner || o.Form != m.Form || o.Fineness != m.Fineness || o.Tree != m.Tree:
		l.Add(m.Place, "book-reverses", "a line is taken back whole: same lot, alloy, fineness, grams, owner, form and tree", "it does not match line %d: %s, %v of %s", m.Reverses, o.Kind, o.Grams, o.Lot)
	default:
		b.reversed[o.ID], b.reversed[m.ID] = true, true
	}
}

// apply adds one movement.
func (s *state) apply(m Movement, l *problem.List) {
	wrong := func(code, remedy, format string, args ...any) { l.Add(m.Place, code, remedy, format, args...) }
	r := rules[m.Kind]
	var h *Holding
	if r.lot != 0 {
		h = s.lots[m.Lot]
		if h == nil {
			if r.lot < 0 {
				wrong("book-lot-unknown", "check the lot's name; see what is on hand", "lot %s is not in the book before this line", m.Lot)
				return
			}
			h = &Holding{Lot: m.Lot, Alloy: m.Alloy, Owner: m.Owner, Form: m.Form, Fineness: m.Fineness, From: m.From}
			s.lots[m.Lot] = h
		}
		if h.Alloy != m.Alloy || h.Owner != m.Owner || h.Form != m.Form || h.Fineness != m.Fineness || h.From != m.From {
			wrong("book-lot-differs", "give it a lot number of its own", "lot %s is %s, %v by %s, %s%s: this line says otherwise", m.Lot, h.Alloy, h.Fineness, h.From, h.Form, owned(h.Owner))
			return
		}
		if r.lot < 0 && m.Grams > h.Grams {
			wrong("book-lot-out", "check the weight and the lot; see what is on hand", "lot %s has %v left, %v can not go out", m.Lot, h.Grams, m.Grams)
			return
		}
		h.Grams += measure.Milligram(r.lot) * m.Grams
	}
	switch m.Kind {
	case Opening, CustomerIn:
		h.Melts = max(h.Melts, m.Melts)
	case ToTree:
		s.charge(m, h, l)
	case ButtonBack, CastingsOut, Filings:
		s.comeOff(m, h, l)
	case ToMelt:
		if m.Into == m.Lot {
			wrong("book-melt", "give what the melt makes a lot number of its own", "lot %s can not be melted into itself", m.Lot)
			return
		}
		t := s.melts[m.Into]
		if t == nil {
			t = &melt{}
			s.melts[m.Into] = t
		}
		if t.owner != "" && m.Owner != "" && t.owner != m.Owner {
			wrong("book-two-owners", "a customer's metal is never melted with another's", "the melt of %s has metal of %s, lot %s is %s's", m.Into, t.owner, m.Lot, m.Owner)
			return
		}
		if m.Owner != "" {
			t.owner = m.Owner
		}
		t.in, t.melts, t.stamped = t.in+m.Grams, max(t.melts, h.Melts), t.stamped || h.From == StampOnly
	case FromMelt:
		t := s.melts[m.Lot]
		if t == nil || t.out+m.Grams > t.in+weighingSlack {
			wrong("book-melt", "book first what went into the melt", "more came from the melt of %s than went into it", m.Lot)
			return
		}
		if t.owner != m.Owner {
			wrong("book-two-owners", "name the owner of what was melted, or nobody where it was the house's", "the melt of %s has metal of %s, this line says of %s", m.Lot, whose(t.owner), whose(m.Owner))
			return
		}
		if t.stamped && m.From == OwnMelt {
			wrong("book-stamp", stampRemedy, "what was melted to make %s was partly known by a stamp only: melting does not make that known", m.Lot)
			return
		}
		t.out += m.Grams
		h.Melts = max(h.Melts, t.melts+1)
	}
}

func owned(owner string) string {
	if owner == "" {
		return ""
	}
	return ", owned by " + owner
}

const stampRemedy = "write stamp only as where its fineness is from, or have it assayed"

func whose(owner string) string {
	if owner == "" {
		return "the house"
	}
	return owner
}

// charge puts metal on a tree: one alloy, and no two customers'. House metal
// may top up a customer's where that was agreed.
func (s *state) charge(m Movement, h *Holding, l *problem.List) {
	t := s.trees[m.Tree]
	if t == nil {
		t = &TreeAccount{Tree: m.Tree, Alloy: m.Alloy}
		s.trees[m.Tree] = t
	}
	switch {
	case t.Alloy != m.Alloy:
		l.Add(m.Place, "book-two-alloys", "never two alloys in a pour; mix them in a melt of its own", "tree %s is %s, lot %s is %s", m.Tree, t.Alloy, m.Lot, m.Alloy)
	case t.Owner != "" && m.Owner != "" && t.Owner != m.Owner:
		l.Add(m.Place, "book-two-owners", "a customer's metal is never melted with another's", "tree %s has metal of %s, lot %s is %s's", m.Tree, t.Owner, m.Lot, m.Owner)
	default:
		if m.Owner != "" {
			t.Owner = m.Owner
		}
		t.Charged += m.Grams
		t.FineIn += Of(m.Grams, m.Fineness)
		t.Stamped = t.Stamped || m.From == StampOnly
		t.Melts = max(t.Melts, h.Melts)
	}
}

// comeOff takes metal off a tree, as a button, castings or filings. Filings
// without a tree came from finishing and count as melted once.
func (s *state) comeOff(m Movement, h *Holding, l *problem.List) {
	if m.Tree == "" {
		h.Melts = max(h.Melts, 1)
		return
	}
	t := s.trees[m.Tree]
	switch {
	case t == nil:
		l.Add(m.Place, "book-tree", "book first what was weighed out to it", "nothing was weighed out to tree %s", m.Tree)
		return
	case t.Alloy != m.Alloy:
		l.Add(m.Place, "book-two-alloys", "check the tree and the alloy", "tree %s is %s, not %s", m.Tree, t.Alloy, m.Alloy)
		return
	case m.Owner != "" && m.Owner != t.Owner:
		l.Add(m.Place, "book-two-owners", "check the tree and the owner", "tree %s has no metal of %s", m.Tree, m.Owner)
		return
	case t.Stamped && m.From == OwnMelt:
		l.Add(m.Place, "book-stamp", stampRemedy, "what was weighed out to tree %s was partly known by a stamp only: casting does not make that known", m.Tree)
		return
	case m.Grams > t.Open()+weighingSlack:
		l.Add(m.Place, "book-tree-out", "check the weight and the tree", "of tree %s %v are still out, %v can not have come off it", m.Tree, t.Open(), m.Grams)
		return
	}
	switch m.Kind {
	case ButtonBack:
		t.Button += m.Grams
	case CastingsOut:
		t.Castings += m.Grams
	default:
		t.Filings += m.Grams
	}
	if h != nil {
		h.Melts = max(h.Melts, t.Melts+1)
	}
}

// OnHand lists every lot that ever was, by name, L2 before L10; a lot that ran
// out has 0 g.
func (b *Book) OnHand() (out []Holding) {
	for _, h := range b.state.lots {
		out = append(out, *h)
	}
	sort.Slice(out, func(i, j int) bool { return before(out[i].Lot, out[j].Lot) })
	return out
}

// before orders names of lots as a person counts them: runs of digits by their
// value, all else by its signs.
func before(a, b string) bool {
	x, y := a, b
	for x != "" && y != "" {
		p, q := number(x), number(y)
		if p > 0 && q > 0 {
			u, v := strings.TrimLeft(x[:p], "0"), strings.TrimLeft(y[:q], "0")
			if len(u) != len(v) {
				return len(u) < len(v)
			}
			if u != v {
				return u < v
			}
			x, y = x[p:], y[q:]
			continue
		}
		if x[0] != y[0] {
			return x[0] < y[0]
		}
		x, y = x[1:], y[1:]
	}
	if x == "" && y == "" {
		return a < b // 01 and 1
	}
	return x == ""
}

// number is how many digits a text begins with.
func number(s string) (n int) {
	for n < len(s) && s[n] >= '0' && s[n] <= '9' {
		n++
	}
	return n
}

// Lot finds one lot.
func (b *Book) Lot(name string) (Holding, bool) {
	if h, ok := b.state.lots[name]; ok {
		return *h, true
	}
	return Holding{}, false
}

// Trees lists the trees that metal went to, sorted by name.
func (b *Book) Trees() (out []TreeAccount) {
	for _, t := range b.state.trees {
		out = append(out, *t)
	}
	sort.Slice(out, func(i, j int) bool { return out[i].Tree < out[j].Tree })
	return out
}

// A Sum is what is on hand of one alloy, owner and form.
type Sum struct {
	Alloy, Owner string
	Form         Form
	Grams        measure.Milligram
	Fine         Fine
}

// Sums adds the lots up per alloy, owner and form, sorted in that order.
func (b *Book) Sums() (out []Sum) {
	for _, h := range b.OnHand() {
		i := slices.IndexFunc(out, func(s Sum) bool { return s.Alloy == h.Alloy && s.Owner == h.Owner && s.Form == h.Form })
		if i < 0 {
			i, out = len(out), append(out, Sum{Alloy: h.Alloy, Owner: h.Owner, Form: h.Form})
		}
		out[i].Grams += h.Grams
		out[i].Fine += Of(h.Grams, h.Fineness)
	}
	sort.Slice(out, func(i, j int) bool {
		a, b := out[i], out[j]
		switch {
		case a.Alloy != b.Alloy:
			return a.Alloy < b.Alloy
		case a.Owner != b.Owner:
			return a.Owner < b.Owner
		}
		return a.Form < b.Form
	})
	return out
}
