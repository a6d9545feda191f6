package tree

import (
	"fmt"

	"castweek/jobs"
	"castweek/jobs/workshop"
	"castweek/metal"
	"castweek/metal/mark"
	"castweek/metal/measure"
)

// Law is what the hallmark law on file says of a piece, from its predicted
// weight. The assay office and local law decide.
type Law struct {
	Country string
	Verdict string // "needed", "exempt by weight", "weigh before deciding", …
	Reason  string
	Decides string
}

// cleanedAway is the most that cleaning up takes of a casting's weight, in %,
// where its pattern was not measured: 16.5 % was measured (Teague, Santa Fe
// Symposium), rounded up.
const cleanedAway = 20

// predicted is the weight of a casting in the finished article: anywhere from
// the least that cleaning up leaves to the casting as it was cast.
func (k *BagCasting) predicted() (least, most measure.Milligram) {
	least = k.Cast - k.Cast*cleanedAway/100
	if k.Finished > 0 {
		least = (k.Finished.Gram() * measure.Gram(100-k.Band) / 100).RoundDown(1)
	}
	return min(least, k.Cast), max(k.Cast, k.Finished)
}

// lawOf judges one piece of a job by the castings of its bag. What is weighed
// is the finished article: neither spares nor a rod for a later sizing. Parts
// that go into another article are marked with it (Hallmarking Act 1973,
// schedule 1 part II, paragraph 7: goods for further manufacture).
func lawOf(w *workshop.Workshop, j *jobs.Job, b *Bag, pieces int) *Law {
	if pieces < 1 || j.Kind == jobs.LooseHead || j.Kind == jobs.ChainPart {
		return nil
	}
	a := mark.Article{Pair: j.Kind == jobs.Earrings || j.Kind == jobs.Cufflinks}
	least, most := map[string]measure.Milligram{}, map[string]measure.Milligram{}
	var order []string
	for i := range b.Castings {
		k := &b.Castings[i]
		if k.Spare || k.Rod {
			continue
		}
		if most[k.Alloy] == 0 {
			order = append(order, k.Alloy)
		}
		low, high := k.predicted()
		least[k.Alloy] += low
		most[k.Alloy] += high
	}
	for _, name := range order {
		alloy, _ := w.Alloys.Find(name)
		n := measure.Milligram(pieces)
		low, high := least[name]/n, (most[name]+n-1)/n
		band := (high - low + 1) / 2
		e, fine := lawMetal(alloy)
		a.Metals = append(a.Metals, mark.Metal{Metal: e, Fineness: fine, Finished: mark.Predicted(high-band, max(band, 1))})
	}
	for _, f := range j.Findings {
		alloy, _ := w.Alloys.Find(f.Alloy)
		e, fine := lawMetal(alloy)
		a.Findings = append(a.Findings, mark.Finding{Name: f.Name, Metal: e, Fineness: fine, Weight: measure.Milligram(f.Count) * f.Weight.RoundUp(1), Marked: f.Marked})
	}
	v, _ := mark.Judge(w.Stock.Country, a)
	return &Law{v.Country, v.Kind.String(), v.Reason, v.Decides}
}

// lawMetal is an alloy as the law names it.
func lawMetal(a metal.Alloy) (mark.Element, mark.Parts) {
	if e := mark.Element(a.Noble()); e.Precious() {
		return e, mark.Parts(a.Fineness())
	}
	return mark.Base, 0
}

// tellLaw puts what the law says on the bags, and remarks where a job wishes
// otherwise and where an alloy holds nickel, cadmium or lead.
func tellLaw(w *workshop.Workshop, c *Cast, list []*jobs.Job) {
	at := map[string]*jobs.Job{}
	for _, j := range list {
		at[j.Number] = j
	}
	said := map[string]bool{}
	for i := range c.Bags {
		b := &c.Bags[i]
		j := at[b.Job]
		if j == nil || len(b.Missing) > 0 || b.Piece == 0 && j.Bag != "together" {
			continue
		}
		pieces := 1
		if b.Piece == 0 {
			pieces = j.Pieces
		}
		b.Law = lawOf(w, j, b, pieces)
		if b.Law != nil && b.Law.Verdict == mark.Needed.String() && j.Hallmark == "not wanted" && !said[j.Number] {
			said[j.Number] = true
			c.Remarks = append(c.Remarks, Remark{j.Number, "hallmark-needed", fmt.Sprintf("no hallmark is wanted, but %s", b.Law.Reason), b.Law.Decides})
		}
		var touching []string
		for _, k := range b.Castings {
			touching = append(touching, k.Alloy)
		}
		for _, f := range j.Findings {
			touching = append(touching, f.Alloy)
		}
		for _, name := range touching {
			key := j.Number + "\x00" + name
			if said[key] {
				continue
			}
			said[key] = true
			c.Remarks = append(c.Remarks, metalRemarks(w, j, name)...)
		}
	}
}

// metalRemarks judges an alloy against the skin: earrings by the stricter limit
// for posts, since a job does not say which of its parts goes through the ear.
func metalRemarks(w *workshop.Workshop, j *jobs.Job, name string) (out []Remark) {
	a, _ := w.Alloys.Find(name)
	p := mark.Part{Name: name, Role: mark.Skin, Shares: map[mark.Element]mark.Parts{}}
	if j.Kind == jobs.Earrings {
		p.Role = mark.Post
	}
	for _, s := range a.Composition {
		p.Shares[mark.Element(s.Element)] = mark.Parts(s.Parts)
	}
	for _, x := range mark.Remarks(p).Remarks() {
		out = append(out, Remark{j.Number, x.Code, x.Message, x.Remedy})
	}
	return out
}
