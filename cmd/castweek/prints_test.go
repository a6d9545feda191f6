package main

import (
	"sync"
	"testing"
	"time"

	"castweek/tree"
	"castweek/tree/record"
)

// Of runs that print from one folder at once, no two count a print under the
// same number.
func TestPrintsAreCountedOneByOne(t *testing.T) {
	const runs = 12
	o := &opened{dir: t.TempDir()}
	c := &tree.Cast{Name: "2026-W49"}
	numbers := make([]int, runs)
	var all sync.WaitGroup
	for i := range numbers {
		all.Go(func() {
			defer o.alone()()
			prints, _ := o.prints(c)
			last, known := prints.Last("week")
			if !known {
				last = record.First("week", time.Time{}, true)
			} else {
				last.Number++
			}
			numbers[i] = last.Number
			prints.Keep(last)
			o.keepPrints(prints)
		})
	}
	all.Wait()
	seen := map[int]bool{}
	for _, n := range numbers {
		if n < 1 || n > runs || seen[n] {
			t.Fatalf("%v", numbers)
		}
		seen[n] = true
	}
}
