package mark

import (
	"fmt"

	"castweek/metal/measure"
	"castweek/metal/problem"
)

// A Weight is that of metal alone. A predicted one is known to ± Band; a
// weighed one is exact.
type Weight struct {
	At      measure.Milligram
	Band    measure.Milligram
	Weighed bool
}

// Weighed is a weight read off a scale.
func Weighed(m measure.Milligram) Weight { return Weight{At: m, Weighed: true} }

// Predicted is a weight that was worked out.
func Predicted(m, band measure.Milligram) Weight { return Weight{At: m, Band: band} }

// plus adds weights; bands add up too, since the worst case counts.
func (w Weight) plus(o Weight) Weight {
	return Weight{At: w.At + o.At, Band: w.Band + o.Band, Weighed: w.Weighed && o.Weighed}
}

func (w Weight) low() measure.Milligram  { return max(0, w.At-w.Band) }
func (w Weight) high() measure.Milligram { return w.At + w.Band }

func (w Weight) String() string {
	if w.Band == 0 {
		return w.At.String()
	}
	return w.At.String() + " ± " + w.Band.String()
}

// Metal is one alloy of an article, without stones and findings.
type Metal struct {
	Metal    Element // by which it is named; Base or its symbol for a base metal
	Fineness Parts   // the true one; 0 for a base metal
	Finished Weight
}

// A Finding is a bought-in component. Its own mark does not take it off the
// scale.
type Finding struct {
	Name     string
	Metal    Element
	Fineness Parts // 0: not known
	Weight   measure.Milligram
	Marked   bool
}

// Article is what is sold as one thing.
type Article struct {
	Metals   []Metal
	Findings []Finding
	Pair     bool // sold as a pair: earrings, cufflinks
}

// heaviest bounds a weight, so that sums cannot run over: a ton.
const heaviest measure.Milligram = 1_000_000_000

// most bounds how many metals and findings an article has.
const most = 10_000

// MetalOnly takes the stones off a weight with stones: net = gross - carats ×
// 200 mg. The stones' share is rounded down, so that the metal is rather too
// heavy and never exempt by rounding. Stones as heavy as the whole are an error
// of type [problem.Problem].
func MetalOnly(gross measure.Milligram, stones measure.Carat) (measure.Milligram, error) {
	off := stones.Weight().RoundDown(1)
	if !(stones >= 0) || stones.Weight() > heaviest.Gram() || gross < 1 || gross > heaviest || off >= gross {
		return 0, problem.Problem{Code: "mark-stones", Message: fmt.Sprintf("stones of %s cannot be in an article of %s", stones, gross), Remedy: "weigh again: grams for the article, carats for the stones"}
	}
	return gross - off, nil
}

// check collects what makes an article impossible to judge.
func (a Article) check() problem.List {
	var l problem.List
	var nowhere problem.Place
	if len(a.Metals) == 0 {
		l.Add(nowhere, "mark-empty", "name at least one metal with its weight", "the article has no metal")
	}
	if len(a.Metals)+len(a.Findings) > most {
		l.Add(nowhere, "mark-many", "judge one article at a time", "the article has %d metals and findings", len(a.Metals)+len(a.Findings))
		return l
	}
	for i, m := range a.Metals {
		at := fmt.Sprintf("metal %d (%s)", i+1, m.Metal.Name())
		fineness(&l, at, m.Metal, m.Fineness, true)
		w := m.Finished
		switch {
		case w.At < 1 || w.At > heaviest || w.Band < 0 || w.Band > heaviest:
			l.Add(nowhere, "mark-weight", "give a weight above 0 g and a band that is not negative", "%s cannot weigh %s", at, w)
		case w.Weighed && w.Band != 0:
			l.Add(nowhere, "mark-band", "a weighed weight has no band", "%s is said to be weighed and has a band of %s", at, w.Band)
		case !w.Weighed && w.Band == 0:
			l.Add(nowhere, "mark-band", "give the band of the prediction, or weigh the piece", "%s has a predicted weight without a band", at)
		}
	}
	for i, f := range a.Findings {
		at := fmt.Sprintf("finding %d (%s)", i+1, f.Name)
		fineness(&l, at, f.Metal, f.Fineness, false)
		if f.Weight < 1 || f.Weight > heaviest {
			l.Add(nowhere, "mark-weight", "give the weight of the finding", "%s cannot weigh %s", at, f.Weight)
		}
	}
	return l
}

// fineness judges metal and fineness of one entry; only a finding may leave it
// open.
func fineness(l *problem.List, at string, metal Element, p Parts, needed bool) {
	var nowhere problem.Place
	switch {
	case !metal.readable():
		l.Add(nowhere, "mark-metal", "name the metal Au, Ag, Pt or Pd, and any other base", "%s has no metal that is known here", at)
	case p < 0 || p > Whole:
		l.Add(nowhere, "mark-fineness", "give at most 1000 ‰", "%s cannot have a fineness of %s", at, p)
	case needed && metal.Precious() && p == 0:
		l.Add(nowhere, "mark-fineness", "give the true fineness, from a certificate or an assay", "%s has no fineness", at)
	}
}
