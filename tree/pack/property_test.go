package pack

import (
	"encoding/json"
	"math/rand/v2"
	"runtime"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// drawQuestion draws a question without wishes, of one kind of bin and up to
// three dimensions.
func drawQuestion(t *rapid.T) Question {
	dims := rapid.IntRange(1, 3).Draw(t, "dims")
	q := Question{Bins: []Bin{{Name: "standard"}}, Limit: 20_000_000}
	for range dims {
		q.Bins[0].Capacity = append(q.Bins[0].Capacity, rapid.Int64Range(5, 60).Draw(t, "capacity"))
	}
	for range rapid.IntRange(1, 25).Draw(t, "items") {
		it := Item{Job: rapid.SampledFrom([]string{"", "a", "b", "c"}).Draw(t, "job")}
		for _, c := range q.Bins[0].Capacity {
			it.Size = append(it.Size, rapid.Int64Range(0, c).Draw(t, "size"))
		}
		q.Items = append(q.Items, it)
	}
	return q
}

func rapidSolve(t *rapid.T, q Question) Answer {
	a, fs := Solve(q)
	if fs != nil {
		t.Fatal(fs)
	}
	if err := Check(&q, &a); err != nil {
		t.Fatal(err)
	}
	return a
}

// cross holds two answers against each other of which the first may not need
// more bins than the second.
func cross(t *rapid.T, what string, fewer, more Answer) {
	if fewer.Bound > len(more.Groups) {
		t.Fatalf("%s: the bound %d passes a packing of %d", what, fewer.Bound, len(more.Groups))
	}
	if fewer.Proved && more.Proved && len(fewer.Groups) > len(more.Groups) {
		t.Fatalf("%s: %d bins proved where %d do", what, len(fewer.Groups), len(more.Groups))
	}
}

func TestPropertyOrderAndScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := drawQuestion(t)
		a := rapidSolve(t, q)
		turned := q
		turned.Items = rapid.Permutation(q.Items).Draw(t, "order")
		b := rapidSolve(t, turned)
		cross(t, "items turned", a, b)
		cross(t, "items turned", b, a)

		flipped := q
		flipped.Bins = []Bin{{Name: "standard", Capacity: slices.Clone(q.Bins[0].Capacity)}}
		slices.Reverse(flipped.Bins[0].Capacity)
		flipped.Items = slices.Clone(q.Items)
		for i := range flipped.Items {
			flipped.Items[i].Size = slices.Clone(flipped.Items[i].Size)
			slices.Reverse(flipped.Items[i].Size)
		}
		b = rapidSolve(t, flipped)
		cross(t, "dimensions turned", a, b)
		cross(t, "dimensions turned", b, a)

		scaled := q
		times := rapid.Int64Range(2, 1000).Draw(t, "times")
		scaled.Bins = []Bin{{Name: "standard"}}
		for _, c := range q.Bins[0].Capacity {
			scaled.Bins[0].Capacity = append(scaled.Bins[0].Capacity, c*times)
		}
		scaled.Items = nil
		for _, it := range q.Items {
			s := Item{Job: it.Job}
			for _, v := range it.Size {
				s.Size = append(s.Size, v*times)
			}
			scaled.Items = append(scaled.Items, s)
		}
		b = rapidSolve(t, scaled)
		cross(t, "scaled", a, b)
		cross(t, "scaled", b, a)
	})
}

func TestPropertyMoreAndLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := drawQuestion(t)
		a := rapidSolve(t, q)

		roomy := q
		roomy.Bins = []Bin{{Name: "standard", Capacity: slices.Clone(q.Bins[0].Capacity)}}
		roomy.Bins[0].Capacity[0] += rapid.Int64Range(1, 20).Draw(t, "more room")
		cross(t, "more room", rapidSolve(t, roomy), a)

		fewer := q
		fewer.Items = q.Items[:len(q.Items)-1]
		cross(t, "fewer items", rapidSolve(t, fewer), a)

		doubled := q
		doubled.Items = append(slices.Clone(q.Items), q.Items...)
		b := rapidSolve(t, doubled)
		if b.Bound > 2*len(a.Groups) {
			t.Fatalf("doubled: bound %d, but twice %d do", b.Bound, len(a.Groups))
		}

		tied := q
		x, y := rapid.IntRange(0, len(q.Items)-1).Draw(t, "x"), rapid.IntRange(0, len(q.Items)-1).Draw(t, "y")
		if x == y {
			return
		}
		tied.Apart = []Apart{{[]int{x}, []int{y}}}
		cross(t, "apart", a, rapidSolve(t, tied))
		tied.Apart, tied.Together = nil, [][]int{{x, y}}
		if b, fs := Solve(tied); fs == nil {
			cross(t, "together", a, b)
		}

		two := q
		two.Bins = append(slices.Clone(q.Bins), Bin{Name: "other", Capacity: slices.Clone(q.Bins[0].Capacity), Metal: 5})
		two.Bins[1].Capacity[0] /= 2
		cross(t, "another kind of bin", rapidSolve(t, two), a)
	})
}

// firstFit is the plainest packing, and the oracle for "never worse".
func firstFit(q *Question) int {
	var loads [][]int64
	for _, it := range q.Items {
		placed := false
		for _, l := range loads {
			ok := true
			for d, v := range it.Size {
				ok = ok && l[d]+v <= q.Bins[0].Capacity[d]
			}
			if ok {
				for d, v := range it.Size {
					l[d] += v
				}
				placed = true
				break
			}
		}
		if !placed {
			loads = append(loads, slices.Clone(it.Size))
		}
	}
	return len(loads)
}

func TestPropertyNoWorseThanFirstFit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := drawQuestion(t)
		slices.SortFunc(q.Items, func(a, b Item) int { return int(b.Size[0] - a.Size[0]) })
		if a := rapidSolve(t, q); len(a.Groups) > firstFit(&q) {
			t.Fatalf("%d bins, first fit needs %d", len(a.Groups), firstFit(&q))
		}
	})
}

// TestKnownByConstruction cuts full bins into items: the sum is the bound, and
// the number cut is the optimum.
func TestKnownByConstruction(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	proved, all := 0, 0
	for range 60 {
		dims, k := 1+rng.IntN(2), 2+rng.IntN(8)
		q := Question{Bins: []Bin{{Name: "standard"}}}
		for range dims {
			q.Bins[0].Capacity = append(q.Bins[0].Capacity, 1000)
		}
		for range k {
			parts := 2 + rng.IntN(6)
			cuts := make([][]int64, dims)
			for d := range dims {
				cuts[d] = []int64{0, 1000}
				for range parts - 1 {
					cuts[d] = append(cuts[d], int64(rng.IntN(1001)))
				}
				slices.Sort(cuts[d])
			}
			for p := range parts {
				it := Item{}
				for d := range dims {
					it.Size = append(it.Size, cuts[d][p+1]-cuts[d][p])
				}
				q.Items = append(q.Items, it)
			}
		}
		a := solved(t, q)
		all++
		if a.Bound != k {
			t.Errorf("bound %d, cut out of %d", a.Bound, k)
		}
		if a.Proved {
			proved++
		}
	}
	t.Logf("cut full bins: %d of %d proved", proved, all)
	if proved < all*9/10 {
		t.Errorf("only %d of %d proved", proved, all)
	}

	// Items just over a half need a bin each, just over a third two to a bin.
	half, third := line(100), line(100)
	for range 21 {
		half.Items = append(half.Items, Item{Size: []int64{51}})
		third.Items = append(third.Items, Item{Size: []int64{34}})
	}
	if a := solved(t, half); !a.Proved || len(a.Groups) != 21 {
		t.Errorf("over a half: %d, bound %d", len(a.Groups), a.Bound)
	}
	if a := solved(t, third); !a.Proved || len(a.Groups) != 11 {
		t.Errorf("over a third: %d, bound %d", len(a.Groups), a.Bound)
	}
}

// TestSameBytes solves twice, with one and with two processors.
func TestSameBytes(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	was := runtime.GOMAXPROCS(0)
	defer runtime.GOMAXPROCS(was)
	for range 200 {
		q := randomQuestion(rng)
		var first []byte
		for _, procs := range []int{1, 2, 2} {
			runtime.GOMAXPROCS(procs)
			a, fs := Solve(q)
			text, err := json.Marshal([]any{a, fs})
			if err != nil {
				t.Fatal(err)
			}
			if first == nil {
				first = text
			}
			if string(first) != string(text) {
				t.Fatalf("%s\n%s", first, text)
			}
		}
	}
}

// TestThoroughIsNoWorse compares both answers in the order of the goals.
func TestThoroughIsNoWorse(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	for n := range 300 {
		q := randomQuestion(rng)
		a, fs := Solve(q)
		if fs != nil {
			continue
		}
		q.Thorough = true
		b, _ := Solve(q)
		if compare(&a, &b) < 0 || b.Bound < a.Bound && slices.Equal(a.Left, b.Left) {
			t.Errorf("case %d: thorough is worse: %+v, %+v", n, a, b)
		}
		if err := Check(&q, &b); err != nil {
			t.Errorf("case %d: %v", n, err)
		}
	}
}

// TestLimits solves with next to no work and next to no questions: whatever
// comes out is complete, and its bound is true.
func TestLimits(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 10))
	for n := range 500 {
		q := randomQuestion(rng)
		full, fs := Solve(q)
		if fs != nil {
			continue
		}
		for _, limit := range []int64{1, 1000, 30_000} {
			q.Limit, q.Asks = limit, int(limit/100)+1
			a, fs := Solve(q)
			if fs != nil {
				t.Fatalf("case %d, limit %d: %v", n, limit, fs)
			}
			if err := Check(&q, &a); err != nil {
				t.Fatalf("case %d, limit %d: %v", n, limit, err)
			}
			if slices.Equal(a.Left, full.Left) && a.Bound > len(full.Groups) {
				t.Fatalf("case %d, limit %d: bound %d, but %d do", n, limit, a.Bound, len(full.Groups))
			}
		}
	}
}
