package pack

import "slices"

// A hanging remembers what CanHang said. Sets that it refused are barred, and
// so is each set that contains one, in the same kind of bin.
type hanging struct {
	q      *Question
	said   map[string]Verdict
	refuse [][]refusal // by kind of bin
	asked  int
	gaveUp int
	most   int
}

type refusal struct {
	items  []int // rising
	proved bool
}

func newHanging(q *Question) *hanging {
	h := &hanging{q: q, said: map[string]Verdict{}, refuse: make([][]refusal, len(q.Bins)), most: q.Asks}
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
	key := make([]byte, 0, 4*len(items)+4)
	key = append(key, byte(kind), byte(kind>>8))
	for _, i := range items {
		key = append(key, byte(i), byte(i>>8), byte(i>>16))
	}
	v, known := h.said[string(key)]
	if !known {
		v = h.q.CanHang(kind, slices.Clone(items))
		h.said[string(key)] = v
		h.asked++
		if v == GaveUp {
			h.gaveUp++
		}
		if v != Hangs {
			h.bar(kind, items, v == Cannot)
		}
	}
	return v
}

// spent tells whether CanHang has been asked as often as it may be.
func (h *hanging) spent() bool { return h != nil && h.asked >= h.most }

func (h *hanging) bar(kind int, items []int, proved bool) {
	kept := h.refuse[kind][:0]
	for _, r := range h.refuse[kind] {
		if !(within(items, r.items) && (proved || !r.proved)) {
			kept = append(kept, r)
		}
	}
	h.refuse[kind] = append(kept, refusal{slices.Clone(items), proved})
}

// barred tells whether a set (rising) contains one that was refused.
func (h *hanging) barred(kind int, items []int) bool {
	if h == nil {
		return false
	}
	for _, r := range h.refuse[kind] {
		if within(r.items, items) {
			return true
		}
	}
	return false
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
