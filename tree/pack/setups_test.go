package pack

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// readSetups reads the set-up format: items, classes, capacity, cost of a bin;
// by class the set-up cost (stored negative), weight and number of items; then
// the weights, class by class.
func readSetups(text []byte) (Setups, error) {
	nums, err := numbers(strings.Fields(string(text)))
	if err != nil {
		return Setups{}, err
	}
	if len(nums) < 4 || nums[0] < 0 || nums[1] < 0 || nums[1] > 1000 || int64(len(nums)) != 4+3*nums[1]+nums[0] {
		return Setups{}, fmt.Errorf("%d numbers do not hold the classes and items", len(nums))
	}
	q := Setups{Capacity: nums[2], Bin: nums[3]}
	head, rest := nums[4:4+3*nums[1]], nums[4+3*nums[1]:]
	for ; len(head) > 0; head = head[3:] {
		if head[2] < 0 || head[2] > int64(len(rest)) {
			return Setups{}, fmt.Errorf("a class of %d items", head[2])
		}
		q.Classes = append(q.Classes, SetupClass{Cost: max(head[0], -head[0]), Weight: head[1], Items: rest[:head[2]]})
		rest = rest[head[2]:]
	}
	if len(rest) > 0 {
		return Setups{}, fmt.Errorf("%d items are in no class", len(rest))
	}
	return q, nil
}

// checkSetups works the value out anew.
func checkSetups(q *Setups, a *SetupAnswer) error {
	load := make([]int64, a.Bins)
	value := int64(a.Bins) * q.Bin
	for c, class := range q.Classes {
		open := map[int]bool{}
		for i, w := range class.Items {
			b := a.In[c][i]
			load[b] += w
			if !open[b] {
				open[b] = true
				load[b] += class.Weight
				value += class.Cost
			}
		}
	}
	for b, l := range load {
		if l > q.Capacity {
			return fmt.Errorf("bin %d holds %d of %d", b, l, q.Capacity)
		}
	}
	if value != a.Value || a.Bound > a.Value {
		return fmt.Errorf("value %d, stated %d, bound %d", value, a.Value, a.Bound)
	}
	return nil
}

func publishedSetups(t *testing.T, dir string) {
	best := optima(t, dir)
	n, solved, proved := 0, 0, 0
	for _, name := range files(t, dir) {
		text, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		q, err := readSetups(text)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		a, err := SolveSetups(q)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if err := checkSetups(&q, &a); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		optimum, known := best[name]
		if known && (a.Value < int64(optimum) || a.Bound > int64(optimum)) {
			t.Errorf("%s: value %d, bound %d, but the optimum is %d", name, a.Value, a.Bound, optimum)
		}
		free := q.Bin == 1 && strings.Contains(name, "f0")
		if known && free && a.Value > int64(optimum)+1 {
			t.Errorf("%s: %d bins, the optimum is %d", name, a.Value, optimum)
		}
		n++
		if known && a.Value == int64(optimum) {
			solved++
		}
		if a.Bound == a.Value {
			proved++
		}
		if *dataLoud {
			fmt.Printf("  %-60s value %4d bound %4d optimum %4d\n", name, a.Value, a.Bound, optimum)
		}
	}
	fmt.Printf("%s solved %d of %d proved %d\n", filepath.Base(dir), solved, n, proved)
}

func TestSetups(t *testing.T) {
	// By hand: two classes of two items; with the set-ups only whole classes fit
	// two bins of 10.
	q := Setups{Capacity: 10, Bin: 10, Classes: []SetupClass{{2, 1, []int64{4, 4}}, {1, 3, []int64{5, 4}}}}
	a, err := SolveSetups(q)
	if err != nil || a.Value != 24 || a.Bound != 24 || checkSetups(&q, &a) != nil {
		t.Errorf("%+v %v", a, err)
	}
	q.Classes[0].Items[0] = 9
	if _, err := SolveSetups(q); err == nil {
		t.Error("an item that does not fit beside its set-up is taken")
	}
}

func FuzzReadSetups(f *testing.F) {
	f.Add("4\t2\t10\t1\n-1\t2\t2\n0\t1\t2\n4\n4\n5\n4\n")
	f.Fuzz(func(t *testing.T, text string) {
		q, err := readSetups([]byte(text))
		if err != nil || len(text) > 200 {
			return
		}
		for _, c := range q.Classes {
			for _, w := range append([]int64{c.Weight, q.Capacity, q.Bin, c.Cost}, c.Items...) {
				if w < 0 || w > 1000 {
					return
				}
			}
		}
		if a, err := SolveSetups(q); err == nil {
			if err := checkSetups(&q, &a); err != nil {
				t.Error(err)
			}
		}
	})
}
