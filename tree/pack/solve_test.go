package pack

import (
	"strings"
	"testing"
)

// line makes a question of one kind of bin and one dimension.
func line(capacity int64, sizes ...int64) Question {
	q := Question{Bins: []Bin{{Name: "standard", Capacity: []int64{capacity}}}}
	for _, s := range sizes {
		q.Items = append(q.Items, Item{ID: "i", Size: []int64{s}})
	}
	return q
}

func solved(t *testing.T, q Question) Answer {
	t.Helper()
	a, fs := Solve(q)
	if fs != nil {
		t.Fatalf("faults: %v", fs)
	}
	if err := Check(&q, &a); err != nil {
		t.Fatal(err)
	}
	return a
}

func TestOneKind(t *testing.T) {
	a := solved(t, line(10, 6, 4, 5, 5, 10))
	if len(a.Groups) != 3 || !a.Proved || a.Fullest != 1_000_000 {
		t.Errorf("%+v", a)
	}
	if a := solved(t, line(10)); len(a.Groups) != 0 || !a.Proved {
		t.Errorf("nothing to pack: %+v", a)
	}
	a = solved(t, line(10, 3, 11, 0))
	if len(a.Groups) != 1 || len(a.Left) != 1 || a.Left[0] != (Left{1, TooBig, 0}) {
		t.Errorf("too big: %+v", a)
	}
}

func TestWishesAtOdds(t *testing.T) {
	for _, c := range []struct {
		name string
		edit func(q *Question)
		code string
		want string
	}{
		{"together and apart", func(q *Question) {
			q.Together = [][]int{{0, 1}, {1, 2}}
			q.Apart = []Apart{{[]int{0}, []int{2}}}
		}, WishesAtOdds, "apart 0, together 0, together 1"},
		{"two fixed bins", func(q *Question) {
			q.Fixed = []Group{{Items: []int{0}}, {Items: []int{0, 1}}}
		}, WishesAtOdds, "fixed 0, fixed 1"},
		{"fixed tears a set", func(q *Question) {
			q.Fixed = []Group{{Items: []int{0}}}
			q.Together = [][]int{{1, 0}}
		}, WishesAtOdds, "together 0, fixed 0"},
		{"fixed holds a pair apart", func(q *Question) {
			q.Fixed = []Group{{Items: []int{0, 1}}}
			q.Apart = []Apart{{[]int{1}, []int{0}}}
		}, WishesAtOdds, "apart 0, fixed 0"},
		{"set too big", func(q *Question) { q.Together = [][]int{{0, 1}, {2, 3}, {1, 2}} },
			TogetherTooBig, "together 0, together 1, together 2"},
		{"fixed too full", func(q *Question) { q.Fixed = []Group{{Items: []int{0, 1, 2, 3}}} },
			FixedUnfit, "fixed 0"},
		{"more fixed than there are", func(q *Question) {
			q.Bins[0].Available = 1
			q.Fixed = []Group{{Items: []int{0}}, {Items: []int{1}}}
		}, FixedRunsOut, "fixed 1"},
		{"no such item", func(q *Question) { q.Together = [][]int{{0, 9}} }, BadNumber, "together 0"},
	} {
		q := line(10, 3, 3, 3, 3)
		c.edit(&q)
		_, fs := Solve(q)
		if len(fs) == 0 || fs[0].Code != c.code || !strings.HasPrefix(strings.Join(fs[0].Wishes, ", "), c.want) {
			t.Errorf("%s: %+v", c.name, fs)
		}
	}
}
