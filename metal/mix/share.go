package mix

import (
	"math/big"
	"sort"

	"castweek/metal/measure"
	"castweek/metal/problem"
)

// A Pour is one tree's need of metal.
type Pour struct {
	Tree  string
	Alloy string
	// Grams is the whole charge, in whole steps of the scale.
	Grams measure.Milligram
	// Owner is the customer whose metal this is, "" for the house. A pour
	// takes metal of its own owner only.
	Owner string
	// MostReturned is the house share of returned metal for the alloy, 0 to
	// 1000 ‰; MostMelts the highest melt count that may go in again.
	MostReturned *big.Rat
	MostMelts    int
}

// Metal is a lot on hand that may be shared out.
type Metal struct {
	Name, Alloy, Owner string
	Grams              measure.Milligram
	// Melts counts how often it was cast; 0 is fresh.
	Melts int
	// Barred says why it may not be used ("soldered", "not assayed"); "" if
	// it may.
	Barred string
}

// A PourMetal is what one pour gets.
type PourMetal struct {
	Tree  string
	Takes []Take
	// Returned and Fresh add up to what the lots give; Short is what is still
	// to be bought, or to be brought by the customer.
	Returned, Fresh, Short measure.Milligram
}

// A Buy is metal of an alloy that no lot on hand can give.
type Buy struct {
	Alloy, Owner string
	Grams        measure.Milligram
}

// Shared is the metal on hand shared out over the pours.
type Shared struct {
	Pours    []PourMetal
	Buy      []Buy
	Left     []Take // what stays of each lot
	Problems problem.List
}

// Share gives the lots to the pours as one problem: the least metal is bought
// in all, and after that the most returned metal is used. No pour is short
// because another took what only it could have used. Amounts are whole steps.
//
// It is a greatest flow from lots over pours (L. R. Ford, D. R. Fulkerson,
// "Maximal flow through a network", Canadian Journal of Mathematics 8, 1956):
// returned lots are let in first, fresh ones after, and adding more flow never
// takes back what a lot gives.
func Share(pours []Pour, lots []Metal, step measure.Milligram) Shared {
	return share(pours, lots, step, nil)
}

// share is [Share] with some lots kept from some pours.
func share(pours []Pour, lots []Metal, step measure.Milligram, apart map[line]bool) Shared {
	s := Shared{Problems: judgeShare(pours, lots, step)}
	if len(s.Problems.Errors()) > 0 {
		return s
	}
	// Nodes: source, lots, each pour's returned part, each pour, sink.
	source, sink := 0, 1+len(lots)+2*len(pours)
	lotNode := func(i int) int { return 1 + i }
	returned := func(p int) int { return 1 + len(lots) + p }
	pour := func(p int) int { return 1 + len(lots) + len(pours) + p }
	n := newNetwork(sink + 1)
	for p, w := range pours {
		most := floor(mul(w.MostReturned, big.NewRat(int64(w.Grams/step), 1000)))
		n.connect(returned(p), pour(p), most)
		n.connect(pour(p), sink, int64(w.Grams/step))
	}
	for _, fresh := range []bool{false, true} {
		for i, l := range lots {
			if (l.Melts == 0) != fresh || l.Barred != "" {
				continue
			}
			n.connect(source, lotNode(i), int64(l.Grams/step))
			for p, w := range pours {
				if l.Alloy != w.Alloy || l.Owner != w.Owner || l.Melts > w.MostMelts && !fresh || apart[line{i, p}] {
					continue
				}
				to := returned(p)
				if fresh {
					to = pour(p)
				}
				n.connect(lotNode(i), to, int64(l.Grams/step))
			}
		}
		n.augment(source, sink)
	}
	s.read(pours, lots, step, func(i, p int) int64 {
		return n.flow(lotNode(i), returned(p)) + n.flow(lotNode(i), pour(p))
	})
	return s
}

func (s *Shared) read(pours []Pour, lots []Metal, step measure.Milligram, flow func(lot, pour int) int64) {
	left := make([]measure.Milligram, len(lots))
	for i, l := range lots {
		left[i] = l.Grams
	}
	type alloyOf struct{ alloy, owner string }
	buy := map[alloyOf]measure.Milligram{}
	for p, w := range pours {
		m := PourMetal{Tree: w.Tree, Short: w.Grams}
		for i, l := range lots {
			g := measure.Milligram(flow(i, p)) * step
			if g == 0 {
				continue
			}
			m.Takes = append(m.Takes, Take{i, l.Name, g})
			m.Short -= g
			left[i] -= g
			if l.Melts == 0 {
				m.Fresh += g
			} else {
				m.Returned += g
			}
		}
		if m.Short > 0 {
			buy[alloyOf{w.Alloy, w.Owner}] += m.Short
		}
		s.Pours = append(s.Pours, m)
	}
	for k, g := range buy {
		s.Buy = append(s.Buy, Buy{k.alloy, k.owner, g})
	}
	sort.Slice(s.Buy, func(a, b int) bool {
		if s.Buy[a].Alloy != s.Buy[b].Alloy {
			return s.Buy[a].Alloy < s.Buy[b].Alloy
		}
		return s.Buy[a].Owner < s.Buy[b].Owner
	})
	for i, l := range lots {
		s.Left = append(s.Left, Take{i, l.Name, left[i]})
	}
}

func judgeShare(pours []Pour, lots []Metal, step measure.Milligram) (l problem.List) {
	if step < 1 {
		l.Add(atMix, "mix-step", "give one step of the scale, such as 0.01 g", "the scale has no step")
		return l
	}
	for _, p := range pours {
		at := problem.Place{File: "tree " + p.Tree}
		if p.Grams <= 0 || p.Grams > largest || p.Grams%step != 0 {
			l.Add(at, "mix-grams", "round the charge up to the scale's step", "%v can not be weighed on a scale of %v", p.Grams, step)
		}
		if p.MostReturned == nil || p.MostReturned.Sign() < 0 || p.MostReturned.Cmp(thousand) > 0 {
			l.Add(at, "mix-returned-share", "give 0 to 1000 ‰", "the share of returned metal is not one")
		}
	}
	for _, m := range lots {
		if m.Grams < 0 || m.Grams > largest || m.Melts < 0 {
			l.Add(atLot(m.Name), "lot-weight", "see the metal's book", "%v, melted %d times, is not a lot", m.Grams, m.Melts)
		}
	}
	return l
}
