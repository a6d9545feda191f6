package pack

import "slices"

// slacker fills one bin at a time: the biggest class that is left stays in, and
// a search of at most cap nodes looks for what leaves the least room beside it
// (minimum bin slack; Gupta and Ho 1999, Fleszar and Hindi 2002, from memory).
type slacker struct {
	s       *space
	classes []class
	left    []int // by class
	kind    int
	room    []int64
	picked  []int
	best    []int
	slack   float64 // of best, in shares of the limits
	nodes   int
}

// minSlack packs the classes, counts of which are left, into the stock; nil if
// it runs out. The result is classes by bin, and the kind of each bin.
func (s *space) minSlack(cs []class, left []int, stock, prefer []int, most, nodes int) (bins [][]int, kinds []int) {
	m := &slacker{s: s, classes: cs, left: slices.Clone(left)}
	stock = slices.Clone(stock)
	for {
		seed := slices.IndexFunc(m.left, func(n int) bool { return n > 0 })
		if seed < 0 {
			return bins, kinds
		}
		m.kind = -1
		for _, k := range prefer {
			if stock[k] > 0 && cs[seed].size[k] != nil {
				m.kind = k
				break
			}
		}
		if m.kind < 0 || len(bins) >= most {
			return nil, nil
		}
		stock[m.kind]--
		m.room = slices.Clone(s.q.Bins[m.kind].Capacity)
		m.picked, m.best, m.slack, m.nodes = nil, nil, 1e18, nodes
		m.take(seed)
		m.walk(seed)
		if !s.spend(int64(nodes-m.nodes) * 20) {
			return nil, nil
		}
		for _, c := range m.best {
			m.left[c]--
		}
		bins = append(bins, m.best)
		kinds = append(kinds, m.kind)
		for _, c := range m.picked {
			m.left[c]++ // the search's own seed
		}
	}
}

func (m *slacker) take(c int) {
	m.left[c]--
	m.picked = append(m.picked, c)
	for d, v := range m.classes[c].size[m.kind] {
		m.room[d] -= v
	}
}

func (m *slacker) drop(c int) {
	m.left[c]++
	m.picked = m.picked[:len(m.picked)-1]
	for d, v := range m.classes[c].size[m.kind] {
		m.room[d] += v
	}
}

func (m *slacker) walk(from int) {
	sum := 0.0
	for d, r := range m.room {
		if c := m.s.q.Bins[m.kind].Capacity[d]; c > 0 {
			sum += share(r, c)
		}
	}
	if sum < m.slack {
		m.slack = sum
		m.best = slices.Clone(m.picked)
	}
	for c := from; c < len(m.classes) && m.slack > 0 && m.nodes > 0; c++ {
		if m.left[c] == 0 || !m.fits(c) {
			continue
		}
		m.nodes--
		m.take(c)
		m.walk(c)
		m.drop(c)
	}
}

func (m *slacker) fits(c int) bool {
	size := m.classes[c].size[m.kind]
	return size != nil && fits(size, m.room) && !slices.ContainsFunc(m.picked, m.classes[c].hates)
}

// unpack turns bins of classes back into trays of units, lowest unit first.
func (s *space) unpack(units []unit, cs []class, bins [][]int, kinds []int) *filling {
	f := &filling{s: s, units: units}
	next := make([]int, len(cs))
	for b, bin := range bins {
		t := f.open(kinds[b])
		for _, c := range bin {
			if next[c] < len(cs[c].units) {
				f.add(t, cs[c].units[next[c]])
				next[c]++
			}
		}
	}
	return f
}
