package mark

import (
	"fmt"
	"strings"

	"castweek/metal/problem"
)

// Decides is part of every verdict.
const Decides = "The assay office and local law decide; check with them before the article is sold."

// Kind is the verdict. The zero value asks.
type Kind int

const (
	AskOffice     Kind = iota // the assay office must say
	Needed                    // must be marked
	Exempt                    // need not be marked for its weight
	WeighFirst                // so near the limit that only the scale can tell
	NotCompulsory             // nobody need mark this metal here
)

func (k Kind) String() string {
	switch k {
	case Needed:
		return "needed"
	case Exempt:
		return "exempt by weight"
	case WeighFirst:
		return "weigh before deciding"
	case NotCompulsory:
		return "not compulsory"
	}
	return "ask the assay office"
}

// A Line is one precious metal of the article, held against its limit alone.
type Line struct {
	Metal  Element
	Mark   Mark   // of the lowest fineness of this metal
	On     Weight // what was put on the scale for it
	Basis  Basis
	Limit  Limit
	Kind   Kind
	Reason string
}

// A Verdict is hallmark or not, and why. Limit is that of the only precious
// metal; the zero Limit, not known, when there are several.
type Verdict struct {
	Kind    Kind
	Country string
	Reason  string
	Limit   Limit
	Lines   []Line
	Notes   []string
	Sources []string
	Checked string
	Decides string
}

// String always says who decides.
func (v Verdict) String() string {
	return fmt.Sprintf("%s: %s. %s", v.Kind, strings.TrimSuffix(v.Reason, "."), Decides)
}

// Judge says whether an article needs to be marked. It leans to the mark: the
// bands of all weights add up against exemption, a finding counts though it is
// marked itself, and whatever is not on file is asked about, never guessed.
//
// Several metals, or one metal with different marks, and pairs go to the assay
// office, since the published excerpts do not settle how they are weighed; the
// lines say how each metal stands. Bad input gives problems, and the verdict to
// ask.
func Judge(country string, a Article) (Verdict, problem.List) {
	v := Verdict{Country: country, Decides: Decides}
	c, ok := Find(country)
	if !ok {
		p := unknownCountry(country)
		v.Reason = p.Message
		return v, problem.List{p}
	}
	v.Country, v.Sources, v.Checked, v.Notes = c.Name, c.Sources, c.Checked, c.Notes
	if l := a.check(); len(l) > 0 {
		v.Reason = "the article cannot be judged as it is described: " + l[0].Message
		return v, l
	}
	for _, e := range precious {
		if fine, held := a.lowest(e); held {
			v.Lines = append(v.Lines, c.line(a, e, fine))
		}
	}
	c.settle(&v, a)
	return v, nil
}

// settle makes one verdict of the lines.
func (c Country) settle(v *Verdict, a Article) {
	if len(v.Lines) == 1 {
		v.Limit = v.Lines[0].Limit
	}
	all := len(v.Lines) > 0
	for _, l := range v.Lines {
		all = all && l.Kind == NotCompulsory
	}
	switch mixed := c.mixed(a); {
	case len(v.Lines) == 0:
		v.Kind, v.Reason = NotCompulsory, "there is no precious metal in the article; it may not be called one"
	case all && c.System == Voluntary:
		v.Kind, v.Reason = NotCompulsory, v.Lines[0].Reason
	case mixed != "":
		v.Kind, v.Reason = AskOffice, mixed+"; how that is weighed and marked is for the assay office to say"
	case a.Pair && v.Lines[0].Kind != NotCompulsory && v.Lines[0].Limit.Kind != EveryWeight:
		v.Kind, v.Reason = AskOffice, "whether a pair is weighed together or one by one is for the assay office to say"
	default:
		v.Kind, v.Reason = v.Lines[0].Kind, v.Lines[0].Reason
	}
}

// line judges one metal of an article by itself.
func (c Country) line(a Article, e Element, fine Parts) Line {
	r := c.Rule(e)
	l := Line{Metal: e, Basis: c.Basis, Limit: r.Limit, On: a.on(c.Basis, e)}
	if fine > 0 {
		l.Mark = c.mark(e, fine)
	} else {
		l.Mark = Mark{Country: c.Name, Metal: e, Reason: "the fineness is not known"}
	}
	switch {
	case c.System == Voluntary:
		l.Kind, l.Reason = NotCompulsory, fmt.Sprintf("no article has to be marked in %s", c.Name)
	case r.Limit.Kind == NeverCompulsory:
		l.Kind, l.Reason = NotCompulsory, fmt.Sprintf("%s need not be marked in %s", e.Name(), c.Name)
	case l.Mark.State == NoLaw:
		l.Kind, l.Reason = NotCompulsory, l.Mark.Reason
	case l.Mark.State == TooLow:
		l.Kind, l.Reason = AskOffice, l.Mark.Reason+"; no exemption by weight helps that"
	case r.Limit.Kind == EveryWeight:
		l.Kind, l.Reason = Needed, fmt.Sprintf("no weight of %s is exempt in %s: %s is needed", e.Name(), c.Name, c.System.Wanted())
	case r.Limit.Kind == LimitUnknown:
		l.Kind, l.Reason = AskOffice, fmt.Sprintf("what weight of %s is exempt in %s is not on file", e.Name(), c.Name)
	default:
		c.weigh(&l, a)
	}
	return l
}

// weigh holds a line against its limit. The metal concerned is the least that
// any law can put on the scale, so it decides upwards even where the basis is
// not known; downwards nothing does then.
func (c Country) weigh(l *Line, a Article) {
	limit := l.Limit
	switch {
	case !limit.exempts(l.On.low()):
		l.Kind = Needed
		l.Reason = fmt.Sprintf("%s of metal is not %s: %s is needed", l.On, limit, c.System.Wanted())
	case c.Basis == BasisUnknown:
		l.Kind = AskOffice
		l.Reason = fmt.Sprintf("exempt is %s of %s, but what is weighed for it in %s is not on file", limit, l.Metal.Name(), c.Name)
	case !limit.exempts(l.On.high()):
		l.Kind = WeighFirst
		l.Reason = fmt.Sprintf("the predicted %s lies around the limit of %s: finish and weigh the article first (%s)", l.On, limit.Weight, c.Basis)
	case !l.Mark.Sure:
		l.Kind = AskOffice
		l.Reason = "only a legal fineness can be exempt, and " + l.Mark.Reason
	case a.open(c.Basis, l.Metal) != "":
		l.Kind = AskOffice
		l.Reason = "only a legal fineness can be exempt, and that of " + a.open(c.Basis, l.Metal) + " is not known"
	default:
		l.Kind = Exempt
		l.Reason = fmt.Sprintf("%s is %s (%s); the fineness must be right all the same", l.On, limit, c.Basis)
		if c.Still != "" {
			l.Reason += ", and " + c.Still
		}
	}
}

// on is what is put on the scale for a metal. Where the basis is not known it
// is the metal concerned, which every basis includes.
func (a Article) on(b Basis, e Element) Weight {
	w := Weighed(0)
	for _, m := range a.Metals {
		if b == AllMetal || m.Metal == e {
			w = w.plus(m.Finished)
		}
	}
	for _, f := range a.Findings {
		if b == AllMetal || f.Metal == e {
			w = w.plus(Weighed(f.Weight))
		}
	}
	return w
}

// lowest is the lowest known fineness of a metal in the article, and whether
// the article holds that metal at all.
func (a Article) lowest(e Element) (fine Parts, held bool) {
	take := func(metal Element, p Parts) {
		if metal != e {
			return
		}
		held = true
		if p > 0 && (fine == 0 || p < fine) {
			fine = p
		}
	}
	for _, m := range a.Metals {
		take(m.Metal, m.Fineness)
	}
	for _, f := range a.Findings {
		take(f.Metal, f.Fineness)
	}
	return fine, held
}

// open names the first finding on the scale whose fineness is neither known
// nor vouched for by a mark of its own.
func (a Article) open(b Basis, e Element) string {
	for _, f := range a.Findings {
		if f.Metal.Precious() && f.Fineness == 0 && !f.Marked && (b == AllMetal || f.Metal == e) {
			if f.Name == "" {
				return "a finding"
			}
			return f.Name
		}
	}
	return ""
}

// mixed says what in the article is of several kinds; "" when nothing is.
func (c Country) mixed(a Article) string {
	type struck struct {
		metal Element
		mark  Parts
	}
	var first *struck
	found := ""
	see := func(metal Element, p Parts) {
		if found != "" {
			return
		}
		s := struck{metal: metal}
		if metal.Precious() && p > 0 {
			s.mark = p // without a figure the true fineness tells alloys apart
			if m := c.mark(metal, p); m.State == Legally {
				s.mark = m.Fineness
			}
		}
		switch {
		case first == nil:
			first = &s
		case first.metal != metal:
			found = fmt.Sprintf("the article is of %s and %s", first.metal.Name(), metal.Name())
		case first.mark > 0 && s.mark > 0 && first.mark != s.mark:
			found = fmt.Sprintf("the article is of %s of %s and of %s", metal.Name(), first.mark, s.mark)
		case first.mark == 0:
			first.mark = s.mark
		}
	}
	for _, m := range a.Metals {
		see(m.Metal, m.Fineness)
	}
	for _, f := range a.Findings {
		see(f.Metal, f.Fineness)
	}
	return found
}
