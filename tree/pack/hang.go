package pack

import "slices"

// A hanging remembers what CanHang said. Sets that it refused are barred, and
// so is each set that contains one, in the same kind of bin; sets that are part
// of one that hangs hang.
type hanging struct {
	q          *Question
	said       map[string]Verdict
	hung       [][][]int   // by kind of bin
	refuse     [][]refusal // by kind of bin
	onlyProved bool        // look past refusals that are not proved
	asked      int
	gaveUp     int
	most       int
	units      int // refusals learned of one item or a pair
	doubts     int // refusals that were not proved
	until      int // asked: where the search for the number of bins at hand stops
}

type refusal struct {
	items  []int // rising
	proved bool
}

func newHanging(q *Question) *hanging {
	h := &hanging{q: q, said: map[string]Verdict{}, refuse: make([][]refusal, len(q.Bins)), hung: make([][][]int, len(q.Bins)), most: q.Asks}
	if h.most <= 0 {
		h.most = DefaultAsks
	}
	return h
}

// ask tells whether a set (rising) hangs. Each set is asked once.
func (h *hanging) ask(kind int, items []int) Verdict {
	if h == nil || h.q.CanHang == nil {
		return Hangs
	}
	key := setKey(kind, items)
	v, known := h.said[key]
	if known {
		return v
	}
	if !slices.ContainsFunc(h.hung[kind], func(whole []int) bool { return within(items, whole) }) {
		if h.barred(kind, items) {
			if h.onlyProved = true; h.barred(kind, items) {
				v = Cannot
			} else {
				v = GaveUp
			}
			h.onlyProved = false
			return v
		}
		if h.spent() {
			return GaveUp // and nothing is learned
		}
		v = h.q.CanHang(kind, slices.Clone(items))
		h.asked++
	}
	h.said[key] = v
	switch v {
	case Hangs:
		h.hung[kind] = append(h.hung[kind], slices.Clone(items))
	case GaveUp:
		h.gaveUp++
		h.doubts++
		h.bar(kind, items, false)
	default:
		h.bar(kind, items, true)
	}
	return v
}

func setKey(kind int, items []int) string {
	key := make([]byte, 0, 3*len(items)+2)
	key = append(key, byte(kind), byte(kind>>8))
	for _, i := range items {
		key = append(key, byte(i), byte(i>>8), byte(i>>16))
	}
	return string(key)
}

// remembered asks about no set twice, also when a question is solved twice.
func remembered(ask func(int, []int) Verdict) func(int, []int) Verdict {
	said := map[string]Verdict{}
	return func(kind int, items []int) Verdict {
		key := setKey(kind, items)
		v, known := said[key]
		if !known {
			v = ask(kind, items)
			said[key] = v
		}
		return v
	}
}

// spent tells whether CanHang has been asked as often as it may be, in all or
// for the number of bins at hand.
func (h *hanging) spent() bool {
	return h != nil && (h.asked >= h.most || h.until > 0 && h.asked >= h.until)
}

// allow sets the questions for one number of bins: a fourth of those that are
// left, so that some remain for the last resort.
func (h *hanging) allow() {
	if h != nil {
		h.until = h.asked + max(1, (h.most-h.asked)/4)
	}
}

func (h *hanging) allowAll() {
	if h != nil {
		h.until = 0
	}
}

// mostLarge is how many refused sets of more than a few items are compared
// with others, by kind of bin; all are remembered. A crowded bin that does not
// hang says little about the next one.
const mostLarge = 32

func (h *hanging) bar(kind int, items []int, proved bool) {
	if len(items) <= 2 {
		h.units++
	}
	kept := h.refuse[kind][:0]
	for _, r := range h.refuse[kind] {
		if !(within(items, r.items) && (proved || !r.proved)) {
			kept = append(kept, r)
		}
	}
	h.refuse[kind] = append(kept, refusal{slices.Clone(items), proved})
	large := 0
	for n := len(h.refuse[kind]) - 1; n >= 0; n-- {
		if len(h.refuse[kind][n].items) <= mostCulprits {
			continue
		}
		if large++; large > mostLarge {
			h.refuse[kind] = slices.Delete(h.refuse[kind], n, n+1)
		}
	}
}

// barred tells whether a set (rising) contains one that was refused.
func (h *hanging) barred(kind int, items []int) bool {
	if h == nil {
		return false
	}
	for _, r := range h.refuse[kind] {
		if (r.proved || !h.onlyProved) && within(r.items, items) {
			return true
		}
	}
	return false
}

// pairs are the items that item i shares no kind of bin with.
func (h *hanging) pairs(i int) []int {
	if h == nil {
		return nil
	}
	kinds := map[int]int{}
	var out []int
	for k := range h.refuse {
		for _, r := range h.refuse[k] {
			if len(r.items) != 2 || !r.proved && h.onlyProved || !slices.Contains(r.items, i) {
				continue
			}
			j := r.items[0] + r.items[1] - i
			if kinds[j]++; kinds[j] == len(h.refuse) {
				out = append(out, j)
			}
		}
	}
	return out
}

// unitsKnown counts the refusals that change the units: of one item or unit alone, or of a pair.
func (h *hanging) unitsKnown() int {
	if h == nil {
		return 0
	}
	return h.units
}

// within tells whether each of part is in whole, both rising.
func within(part, whole []int) bool {
	if len(part) > len(whole) {
		return false
	}
	k := 0
	for _, p := range part {
		for k < len(whole) && whole[k] < p {
			k++
		}
		if k == len(whole) || whole[k] != p {
			return false
		}
		k++
	}
	return true
}
