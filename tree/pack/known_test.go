package pack

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
)

// A made question is cut out of bins that are known to hold it.
type made struct {
	q     Question
	bins  [][]int // the items of each bin
	kinds []int
	metal int64
	short bool // the cut bins themselves do not hang
}

// makeKnown cuts k bins of up to four kinds into items, leaving so much of each
// limit free. Jobs run along the cut, so that no job need be split.
func makeKnown(rng *rand.Rand, k, kinds int, free float64) made {
	var m made
	for i := range kinds {
		grow := int64(4 + 3*i)
		m.q.Bins = append(m.q.Bins, Bin{
			Name:     fmt.Sprint("flask ", i),
			Capacity: []int64{70_000 * grow / 4, 60_000 * grow / 5, 100},
			Metal:    18_000 + 9_000*int64(i),
		})
	}
	for range k {
		kind := rng.IntN(kinds)
		m.kinds = append(m.kinds, kind)
		m.metal += m.q.Bins[kind].Metal
		parts := 6 + rng.IntN(14)
		var bin []int
		cut := func(d int) []int64 {
			c := int64(float64(m.q.Bins[kind].Capacity[d]) * (1 - free))
			at := []int64{0, c}
			for p := range parts - 1 {
				at = append(at, c*int64(p+1)/int64(parts)+rng.Int64N(c/int64(parts)))
			}
			slices.Sort(at)
			return at
		}
		a, b := cut(0), cut(1)
		job := ""
		for p := range parts {
			if rng.IntN(3) == 0 || p == 0 {
				job = fmt.Sprint("job ", len(m.q.Items))
			}
			bin = append(bin, len(m.q.Items))
			m.q.Items = append(m.q.Items, Item{ID: fmt.Sprint(len(m.q.Items)), Job: job,
				Size: []int64{a[p+1] - a[p], b[p+1] - b[p], 1}})
		}
		m.bins = append(m.bins, bin)
	}
	return m
}

// stock limits the kinds to what the cut bins used.
func (m *made) stock() {
	for k := range m.q.Bins {
		m.q.Bins[k].Available = -1
	}
	for _, k := range m.kinds {
		m.q.Bins[k].Available = max(m.q.Bins[k].Available, 0) + 1
	}
}

// wish adds sets to be kept together, pairs to be kept apart and a bin as it
// was, all of which the cut bins keep.
func (m *made) wish(rng *rand.Rand) {
	pick := func(bin []int) int { return bin[rng.IntN(len(bin))] }
	for range 3 {
		b := m.bins[1+rng.IntN(len(m.bins)-1)]
		m.q.Together = append(m.q.Together, []int{pick(b), pick(b), pick(b)})
		c, d := rng.IntN(len(m.bins)), rng.IntN(len(m.bins))
		if c != d {
			m.q.Apart = append(m.q.Apart, Apart{[]int{pick(m.bins[c]), pick(m.bins[c])}, []int{pick(m.bins[d])}})
		}
	}
	m.q.Fixed = []Group{{Bin: m.kinds[0], Items: m.bins[0]}}
}

// girth adds a limit that only CanHang knows, and which every cut bin fills but
// for the slack: a further size, cut like the others.
func (m *made) girth(rng *rand.Rand, slack float64) {
	m.short = slack < 0
	girth := make([]int64, len(m.q.Items))
	room := func(kind int) int64 { return 10_000 * int64(4+3*kind) }
	for b, bin := range m.bins {
		full := int64(float64(room(m.kinds[b])) * (1 - slack))
		at := []int64{0, full}
		for p := range len(bin) - 1 {
			at = append(at, full*int64(p+1)/int64(len(bin))+rng.Int64N(full/int64(len(bin))))
		}
		slices.Sort(at)
		for n, i := range bin {
			girth[i] = at[n+1] - at[n]
		}
	}
	m.q.CanHang = func(kind int, items []int) Verdict {
		var sum int64
		for _, i := range items {
			sum += girth[i]
		}
		if sum <= room(kind) {
			return Hangs
		}
		return Cannot
	}
}

// tally counts what was reached over many made questions.
type tally struct{ cases, pours, proved, metal, metalProved, splits, asked, over int }

func (y *tally) add(t testing.TB, m *made) {
	a, fs := Solve(m.q)
	if fs != nil {
		t.Fatal(fs)
	}
	if err := Check(&m.q, &a); err != nil {
		t.Fatal(err)
	}
	if !m.short && a.Bound > len(m.bins) {
		t.Errorf("bound %d, but the cut bins are %d", a.Bound, len(m.bins))
	}
	if !m.short && len(a.Groups) == len(m.bins) && a.MetalBound > m.metal {
		t.Errorf("metal bound %d, but the cut bins tie up %d", a.MetalBound, m.metal)
	}
	y.cases++
	y.over += len(a.Groups) - len(m.bins)
	if len(a.Groups) <= len(m.bins) {
		y.pours++
		if len(a.Groups) < len(m.bins) || a.Metal <= m.metal {
			y.metal++
		}
		if a.Splits == 0 {
			y.splits++
		}
	}
	if a.Proved {
		y.proved++
	}
	if a.Metal == a.MetalBound {
		y.metalProved++
	}
	y.asked += a.Asked
}

func (y tally) String() string {
	return fmt.Sprintf("%d cases: pours as cut or fewer %d, pours proved %d, metal as cut or less %d, metal proved %d, no job split %d, sets asked %d, pours over the cut %d",
		y.cases, y.pours, y.proved, y.metal, y.metalProved, y.splits, y.asked/max(y.cases, 1), y.over)
}

// TestKnownFlasksAndWishes reports how often the plan is proved where no
// published instances exist: mixed flasks, metal tied up, wishes, and sets that
// cannot be mounted. The cut bins show what is possible.
func TestKnownFlasksAndWishes(t *testing.T) {
	cases := max(10/slowdown, 3)
	if *dataLong {
		cases = 200
	}
	for _, c := range []struct {
		name  string
		edit  func(m *made, rng *rand.Rand)
		kinds int
		free  float64
		pours int // of a hundred: least share with as few pours as cut
	}{
		{"three flasks, stock as cut", func(m *made, _ *rand.Rand) { m.stock() }, 3, 0.03, 95},
		{"three flasks, as many as wanted", func(*made, *rand.Rand) {}, 3, 0.03, 95},
		{"three flasks, stock as cut, tight", func(m *made, _ *rand.Rand) { m.stock() }, 3, 0.01, 90},
		{"one flask, wishes", func(m *made, rng *rand.Rand) { m.wish(rng) }, 1, 0.03, 90},
		{"three flasks, stock as cut, wishes", func(m *made, rng *rand.Rand) { m.stock(); m.wish(rng) }, 3, 0.03, 90},
		{"one flask, mounting 5 % roomy", func(m *made, rng *rand.Rand) { m.girth(rng, 0.05) }, 1, 0.03, 80},
		{"one flask, mounting 2 % roomy", func(m *made, rng *rand.Rand) { m.girth(rng, 0.02) }, 1, 0.03, 50},
		{"one flask, mounting 10 % short", func(m *made, rng *rand.Rand) { m.girth(rng, -0.1) }, 1, 0.03, 0},
		{"three flasks, mounting 10 % short", func(m *made, rng *rand.Rand) { m.girth(rng, -0.1) }, 3, 0.03, 0},
		{"three flasks, mounting 5 % roomy", func(m *made, rng *rand.Rand) { m.girth(rng, 0.05) }, 3, 0.03, 50},
	} {
		rng := rand.New(rand.NewPCG(13, 14))
		var y tally
		for range cases {
			m := makeKnown(rng, 2+rng.IntN(5), c.kinds, c.free)
			c.edit(&m, rng)
			m.q.Limit = 300_000_000
			y.add(t, &m)
		}
		t.Logf("%s: %v", c.name, y)
		if y.pours*100 < y.cases*c.pours {
			t.Errorf("%s: as few pours as cut in %d of %d only", c.name, y.pours, y.cases)
		}
	}
}
