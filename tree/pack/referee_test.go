package pack

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"sort"
	"testing"
)

// A referee packs by trying every partition of the items into every kind of
// bin. It shares no code with the packer; it knows sets as bits.
type referee struct {
	q      *Question
	can    [][]bool // by kind, by set: may be a group
	weigh  [][]int64
	best   []int64 // bins, metal, splits, fullest; nil if there is none
	taken  []int   // sets of the partition at hand
	kinds  []int
	stock  []int
	splits bool
}

// judge finds the best packing of the items in all, beside the bins as they were.
// Sets that CanHang gives up count as hanging if hopeful is set.
func judge(q *Question, all int, hopeful bool) []int64 {
	r := &referee{q: q, splits: true}
	n := len(q.Items)
	for k, b := range q.Bins {
		r.stock = append(r.stock, b.Available)
		if b.Available == 0 {
			r.stock[k] = n + len(q.Fixed)
		}
		can, weigh := make([]bool, 1<<n), make([]int64, 1<<n)
		for set := 1; set < 1<<n; set++ {
			if set&^all == 0 {
				can[set], weigh[set] = r.group(k, set, hopeful)
			}
		}
		r.can, r.weigh = append(r.can, can), append(r.weigh, weigh)
	}
	for _, g := range q.Fixed {
		set := 0
		for _, i := range g.Items {
			set |= 1 << i
		}
		r.can[g.Bin][set], r.weigh[g.Bin][set] = true, r.metal(g.Bin, r.load(g.Bin, g.Items))
		r.stock[g.Bin]--
		r.taken, r.kinds = append(r.taken, set), append(r.kinds, g.Bin)
	}
	r.walk(all)
	return r.best
}

func (r *referee) members(set int) (items []int) {
	for i := range r.q.Items {
		if set>>i&1 == 1 {
			items = append(items, i)
		}
	}
	return items
}

func (r *referee) group(k, set int, hopeful bool) (bool, int64) {
	items := r.members(set)
	load := r.load(k, items)
	if load == nil {
		return false, 0
	}
	for d := range load {
		if load[d] > r.q.Bins[k].Capacity[d] {
			return false, 0
		}
	}
	for _, t := range r.q.Together {
		in := 0
		for _, i := range t {
			in += set >> i & 1
		}
		if in != 0 && in != len(t) {
			return false, 0
		}
	}
	for _, a := range r.q.Apart {
		for _, i := range a.A {
			for _, j := range a.B {
				if set>>i&1 == 1 && set>>j&1 == 1 {
					return false, 0
				}
			}
		}
	}
	if r.q.CanHang != nil {
		if v := r.q.CanHang(k, items); v == Cannot || v == GaveUp && !hopeful {
			return false, 0
		}
	}
	return true, r.metal(k, load)
}

// load is what a set takes; nil where an item never goes into that kind.
func (r *referee) load(k int, items []int) []int64 {
	load := make([]int64, len(r.q.Bins[k].Capacity))
	for _, i := range items {
		size := r.q.Items[i].Size
		if r.q.Items[i].SizeIn != nil {
			size = r.q.Items[i].SizeIn[k]
		}
		if size == nil {
			return nil
		}
		for d := range load {
			load[d] += size[d]
		}
	}
	return load
}

func (r *referee) metal(k int, load []int64) int64 {
	if r.q.Tied == nil {
		return r.q.Bins[k].Metal
	}
	return max(r.q.Bins[k].Metal, r.q.Tied(k, load))
}

func (r *referee) walk(rest int) {
	if rest == 0 {
		score := r.score()
		if r.best == nil || slices.Compare(score, r.best) < 0 {
			r.best = score
		}
		return
	}
	if r.best != nil && int64(len(r.taken)) >= r.best[0] {
		return
	}
	low := rest & -rest
	for sub := rest; sub > 0; sub = (sub - 1) & rest {
		if sub&low == 0 {
			continue
		}
		for k := range r.q.Bins {
			if r.stock[k] <= 0 || !r.can[k][sub] {
				continue
			}
			r.stock[k]--
			r.taken, r.kinds = append(r.taken, sub), append(r.kinds, k)
			r.walk(rest &^ sub)
			r.taken, r.kinds = r.taken[:len(r.taken)-1], r.kinds[:len(r.kinds)-1]
			r.stock[k]++
		}
	}
}

func (r *referee) score() []int64 {
	score := []int64{int64(len(r.taken)), 0, 0, 0}
	jobs := map[string]int{}
	for n, set := range r.taken {
		score[1] += r.weigh[r.kinds[n]][set]
		here := map[string]bool{}
		load := make([]int64, len(r.q.Bins[0].Capacity))
		for _, i := range r.members(set) {
			it := r.q.Items[i]
			if it.Job != "" {
				here[it.Job] = true
			}
			size := it.Size
			if it.SizeIn != nil {
				size = it.SizeIn[r.kinds[n]]
			}
			for d := range load {
				load[d] += size[d]
			}
		}
		for j := range here {
			if jobs[j]++; jobs[j] > 1 {
				score[2]++
			}
		}
		for d, c := range r.q.Bins[r.kinds[n]].Capacity {
			if load[d] > 0 {
				score[3] = max(score[3], (load[d]*1_000_000+c-1)/c)
			}
		}
	}
	return score
}

// randomQuestion makes a small question near the edge: items cut out of full
// bins, some a little larger or smaller, with some of the wishes.
func randomQuestion(rng *rand.Rand) Question {
	dims, kinds := 1+rng.IntN(3), 1+rng.IntN(3)
	var q Question
	for k := range kinds {
		b := Bin{Name: fmt.Sprint(k), Metal: int64(rng.IntN(4) * 10)}
		for range dims {
			b.Capacity = append(b.Capacity, int64(10+rng.IntN(20)))
		}
		if rng.IntN(3) == 0 {
			b.Available = 1 + rng.IntN(3)
		}
		q.Bins = append(q.Bins, b)
	}
	n := 1 + rng.IntN(8)
	parts := 1 + rng.IntN(4)
	for i := range n {
		it := Item{ID: fmt.Sprint(i)}
		if rng.IntN(4) > 0 {
			it.Job = fmt.Sprint("job ", rng.IntN(3))
		}
		from := q.Bins[rng.IntN(kinds)]
		size := func() (out []int64) {
			for _, c := range from.Capacity {
				v := c/int64(parts) + int64(rng.IntN(5)-2)
				if rng.IntN(10) == 0 {
					v = []int64{0, c, c + 1, c/2 + 1}[rng.IntN(4)]
				}
				out = append(out, max(v, 0))
			}
			return out
		}
		it.Size = size()
		if i > 0 && rng.IntN(4) == 0 {
			it.Size, it.SizeIn = q.Items[i-1].Size, q.Items[i-1].SizeIn
		} else if rng.IntN(6) == 0 {
			for range kinds {
				it.SizeIn = append(it.SizeIn, size())
			}
			if rng.IntN(3) == 0 {
				it.SizeIn[rng.IntN(kinds)] = nil
			}
		}
		q.Items = append(q.Items, it)
	}
	if rng.IntN(3) == 0 && n > 1 {
		q.Together = append(q.Together, rng.Perm(n)[:2])
	}
	for range rng.IntN(3) {
		if n > 2 && rng.IntN(2) == 0 {
			p := rng.Perm(n)
			cut := 1 + rng.IntN(2)
			q.Apart = append(q.Apart, Apart{p[:cut], p[cut : cut+1]})
		}
	}
	for range rng.IntN(3) * rng.IntN(2) {
		fix(rng, &q)
	}
	if rng.IntN(3) == 0 {
		q.Tied = func(kind int, load []int64) int64 {
			c := q.Bins[kind].Capacity[0]
			return q.Bins[kind].Metal + max(0, c/2-load[0])
		}
	}
	if rng.IntN(3) == 0 {
		hide(rng, &q, rng.IntN(3) == 0)
	}
	return q
}

// fix adds a bin as it was, of items that no other such bin holds. It may be
// empty, too full, or hold only some of those to be kept together, and is then
// refused.
func fix(rng *rand.Rand, q *Question) {
	taken := map[int]bool{}
	for _, g := range q.Fixed {
		for _, i := range g.Items {
			taken[i] = true
		}
	}
	g := Group{Bin: rng.IntN(len(q.Bins))}
	for _, i := range rng.Perm(len(q.Items))[:rng.IntN(min(4, len(q.Items)+1))] {
		if !taken[i] {
			g.Items = append(g.Items, i)
		}
	}
	q.Fixed = append(q.Fixed, g)
}

// hide sets a CanHang that knows a further size, and a pair that never shares
// a bin; with doubt, sets a little too large are given up and not refused.
func hide(rng *rand.Rand, q *Question, doubt bool) {
	n := len(q.Items)
	girth := make([]int, n)
	for i := range girth {
		girth[i] = rng.IntN(6)
	}
	room := 4 + rng.IntN(10)
	pair := rng.Perm(n)[:min(n, 2)]
	sort.Ints(pair)
	if rng.IntN(2) == 0 {
		pair = nil
	}
	q.CanHang = func(kind int, items []int) Verdict {
		sum := 0
		for _, i := range items {
			sum += girth[i]
		}
		switch {
		case len(pair) == 2 && slices.Contains(items, pair[0]) && slices.Contains(items, pair[1]):
			return Cannot
		case sum <= room+kind:
			return Hangs
		case doubt && sum <= room+kind+3:
			return GaveUp
		}
		return Cannot
	}
}

// TestReferee holds thousands of small questions against the referee.
func TestReferee(t *testing.T) {
	cases := 6000 / slowdown
	if *dataLong {
		cases = 300_000
	}
	rng := rand.New(rand.NewPCG(1, 2))
	count := map[string]int{}
	for n := range cases {
		q := randomQuestion(rng)
		a, fs := Solve(q)
		if fs != nil {
			if fs[0].Code == WrongAnswer {
				t.Fatalf("case %d: %v", n, fs)
			}
			count["faults"]++
			continue
		}
		if err := Check(&q, &a); err != nil {
			t.Fatalf("case %d: %v", n, err)
		}
		refereed(t, n, &q, &a, count)
		rough(t, n, q, count)
	}
	var names []string
	for name := range count {
		names = append(names, name)
	}
	sort.Strings(names)
	for _, name := range names {
		t.Logf("%-40s %d", name, count[name])
	}
	if missed := count["more than the fewest, sets given up"]; missed > cases/10_000 {
		t.Errorf("%d of %d need more bins than the fewest", missed, cases)
	}
	for _, name := range []string{"proved", "left too big", "left bins ran out", "left cannot hang", "left not hung", "gap", "refusals", "gave up", "bins as they were",
		"kinds mixed", "step every way", "step whole jobs, least loaded", "splits best", "metal best", "even best"} {
		if count[name] == 0 && slowdown == 1 {
			t.Errorf("no case reached %q", name)
		}
	}
}

func refereed(t *testing.T, n int, q *Question, a *Answer, count map[string]int) {
	all, fixed := 0, 0
	for _, g := range a.Groups {
		if g.Fixed {
			fixed++
			continue
		}
		for _, i := range g.Items {
			all |= 1 << i
		}
	}
	count["step "+a.Step]++
	for _, l := range a.Left {
		count["left "+l.Reason.String()]++
		if l.Reason == RanOut {
			if whole := judge(q, all|1<<l.Item, false); whole != nil && alone(q, l.Item) {
				count["left though there was room"]++
			}
		}
	}
	if fixed != len(q.Fixed) {
		t.Fatalf("case %d: %d bins as they were of %d", n, fixed, len(q.Fixed))
	}
	if fixed > 0 {
		count["bins as they were"]++
	}
	if all == 0 && fixed == 0 {
		return
	}
	hopeful, best := judge(q, all, true), judge(q, all, false)
	if hopeful == nil || best == nil {
		t.Fatalf("case %d: the referee finds no packing of a packed set: %+v\n%+v", n, q, a)
	}
	if int64(a.Bound) > hopeful[0] {
		t.Fatalf("case %d: bound %d, but %d bins do: %+v\n%+v", n, a.Bound, hopeful[0], q, a)
	}
	if k := int64(len(a.Groups)); k < best[0] {
		t.Fatalf("case %d: %d bins, fewer than the referee's %d", n, k, best[0])
	} else if k > best[0] && a.GaveUp > 0 && !a.Proved {
		count["more than the fewest, sets given up"]++
		return
	} else if k > best[0] {
		t.Errorf("case %d: %d bins, the referee has %d: %+v", n, k, best[0], q)
		return
	}
	if a.MetalBound > hopeful[1] && hopeful[0] == best[0] {
		t.Errorf("case %d: metal bound %d, but %d does", n, a.MetalBound, hopeful[1])
	}
	got := []int64{int64(len(a.Groups)), a.Metal, int64(a.Splits), a.Fullest}
	if slices.Compare(got, best) < 0 {
		t.Fatalf("case %d: %v is better than the referee's %v", n, got, best)
	}
	if a.GaveUp > 0 {
		count["gave up"]++
	}
	if a.Asked > len(a.Groups)-fixed {
		count["refusals"]++
	}
	if slices.ContainsFunc(a.Groups, func(g Group) bool { return g.Bin != a.Groups[0].Bin }) {
		count["kinds mixed"]++
	}
	if a.Proved {
		count["proved"]++
	} else {
		count["gap"]++
		if a.GaveUp == 0 {
			t.Errorf("case %d: not proved, bound %d of %d, though nothing was given up: %+v", n, a.Bound, len(a.Groups), q)
		}
	}
	for at, name := range []string{"", "metal", "splits", "even"} {
		if at == 0 {
			continue
		}
		if got[at] == best[at] {
			count[name+" best"]++
		} else {
			count[name+" worse"]++
			break
		}
	}
}

// rough holds the answer without columns against the referee: it may need more
// bins, and its bound is still none that can be passed.
func rough(t *testing.T, n int, q Question, count map[string]int) {
	q.Rough = true
	a, fs := Solve(q)
	if fs != nil {
		t.Fatalf("case %d: %v", n, fs)
	}
	if err := Check(&q, &a); err != nil {
		t.Fatalf("case %d: %v", n, err)
	}
	all := 0
	for _, g := range a.Groups {
		if !g.Fixed {
			for _, i := range g.Items {
				all |= 1 << i
			}
		}
	}
	if all == 0 {
		return
	}
	best := judge(&q, all, true)
	if best == nil || int64(a.Bound) > best[0] || a.Proved && int64(len(a.Groups)) != best[0] {
		t.Fatalf("case %d: %d bins, bound %d, the referee has %v: %+v\n%+v", n, len(a.Groups), a.Bound, best, q, a)
	}
	if int64(len(a.Groups)) > best[0] {
		count["rough needs more"]++
	}
}

// alone tells whether no wish ties an item to others.
func alone(q *Question, i int) bool {
	return !slices.ContainsFunc(q.Together, func(set []int) bool { return slices.Contains(set, i) })
}
