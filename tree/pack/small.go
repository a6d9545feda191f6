package pack

// A smallSearch tries every way to put a few units into the bins of a
// composition, asking CanHang of each complete one. Exhausted, it proves that
// the composition cannot hold them.
type smallSearch struct {
	*filling
	order []int
	like  []int // by place in the order: the place of an equal unit before it, or -1
	in    []int // by place: the tray
	nodes int
}

// mostSmall is how many units are few, and smallNodes how many nodes a search
// of them may take.
const (
	mostSmall  = 24
	smallNodes = 100_000
)

// small searches; refuted is true only if no packing was cut off by a refusal
// that is not proved.
func (s *space) small(units []unit, kinds []int) (f *filling, refuted bool) {
	most := int(max(0, min(smallNodes, (s.limit-s.work)/50)))
	m := &smallSearch{filling: &filling{s: s, units: units}, order: order(units), nodes: most}
	for _, k := range kinds {
		m.open(k)
	}
	of := make([]int, len(units))
	for i, c := range classes(units) {
		for _, u := range c.units {
			of[u] = i
		}
	}
	for at, u := range m.order {
		m.like = append(m.like, -1)
		for b := at - 1; b >= 0 && m.like[at] < 0; b-- {
			// With refusals two equal units are not the same any more.
			if of[m.order[b]] == of[u] && s.hang == nil {
				m.like[at] = b
			}
		}
	}
	m.in = make([]int, len(units))
	found := m.walk(0)
	s.spend(int64(most-m.nodes) * 50)
	if found {
		return m.filling, false
	}
	return nil, m.nodes > 0 && !s.hang.spent() && !s.hang.unsure()
}

func (m *smallSearch) walk(at int) bool {
	if m.nodes <= 0 || m.s.hang.spent() {
		return false
	}
	m.nodes--
	if at == len(m.order) {
		return m.allHang()
	}
	u := m.order[at]
	from := 0
	if m.like[at] >= 0 {
		from = m.in[m.like[at]]
	}
	for t := from; t < len(m.trays); t++ {
		// Of empty trays of one kind only the first is worth a try.
		if len(m.trays[t].units) == 0 && t > 0 && m.trays[t-1].kind == m.trays[t].kind && len(m.trays[t-1].units) == 0 {
			continue
		}
		if !m.admits(t, u) {
			continue
		}
		m.add(t, u)
		m.in[at] = t
		if m.walk(at + 1) {
			return true
		}
		m.remove(t, u)
	}
	return false
}

func (m *smallSearch) allHang() bool {
	for t := range m.trays {
		if items := m.items(t); len(items) > 0 && m.s.hang.ask(m.trays[t].kind, items) != Hangs {
			return false
		}
	}
	return true
}

// unsure tells whether some refusal is not proved.
func (h *hanging) unsure() bool { return h != nil && h.doubts > 0 }
