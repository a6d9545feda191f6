package pack

import "fmt"

// A Fault is something in a question that cannot be answered: a number that
// makes no sense, or wishes that contradict each other. Wishes names them,
// such as "together 0" or "apart 2", by their place in the question.
type Fault struct {
	Code    string
	Wishes  []string
	Items   []int
	Message string
}

func (f Fault) Error() string { return f.Message + " [" + f.Code + "]" }

// Codes of faults. WrongAnswer is a mistake of this package and not of the
// question.
const (
	BadNumber      = "pack-number"       // a size, limit or index that cannot be
	WishesAtOdds   = "pack-wishes"       // two wishes contradict each other
	TogetherTooBig = "pack-together"     // a set to be kept together fits no bin
	FixedUnfit     = "pack-fixed"        // a bin as it was passes its limit
	FixedRunsOut   = "pack-fixed-number" // more bins as they were than there are
	WrongAnswer    = "pack-check"        // the answer failed its check
)

type faults []Fault

func (fs *faults) add(code string, wishes []string, items []int, format string, args ...any) {
	*fs = append(*fs, Fault{code, wishes, items, fmt.Sprintf(format, args...)})
}

// largest is the greatest size or limit that is taken: sums over a million
// items, and products with the scaled duals of columns.go, stay in 64 bits.
const largest = 1 << 38

// most items, for the same reason.
const mostItems = 1 << 20

// checkNumbers looks at everything that is counted or indexed.
func (q *Question) checkNumbers() (fs faults) {
	if len(q.Bins) == 0 {
		fs.add(BadNumber, nil, nil, "there is no kind of bin")
		return fs
	}
	if len(q.Items) > mostItems {
		fs.add(BadNumber, nil, nil, "%d items are more than %d", len(q.Items), mostItems)
	}
	d := len(q.Bins[0].Capacity)
	if d == 0 {
		fs.add(BadNumber, nil, nil, "bin %q has no limit in any dimension", q.Bins[0].Name)
	}
	for _, b := range q.Bins {
		if len(b.Capacity) != d {
			fs.add(BadNumber, nil, nil, "bin %q has %d limits where the first has %d", b.Name, len(b.Capacity), d)
		}
		for _, c := range b.Capacity {
			if c < 0 || c > largest {
				fs.add(BadNumber, nil, nil, "bin %q has the limit %d", b.Name, c)
			}
		}
		if b.Metal < 0 || b.Metal > largest {
			fs.add(BadNumber, nil, nil, "bin %q ties up %d", b.Name, b.Metal)
		}
	}
	for i, it := range q.Items {
		rows := [][]int64{it.Size}
		if it.SizeIn != nil {
			rows = it.SizeIn
			if len(rows) != len(q.Bins) {
				fs.add(BadNumber, nil, []int{i}, "item %q has sizes for %d kinds of bin out of %d", it.ID, len(rows), len(q.Bins))
			}
		}
		for _, row := range rows {
			if row == nil && it.SizeIn != nil {
				continue
			}
			if len(row) != d {
				fs.add(BadNumber, nil, []int{i}, "item %q has %d sizes where %d are wanted", it.ID, len(row), d)
			}
			for _, s := range row {
				if s < 0 || s > largest {
					fs.add(BadNumber, nil, []int{i}, "item %q has the size %d", it.ID, s)
				}
			}
		}
	}
	return append(fs, q.checkIndices()...)
}

func (q *Question) checkIndices() (fs faults) {
	look := func(wish string, items []int) {
		for _, i := range items {
			if i < 0 || i >= len(q.Items) {
				fs.add(BadNumber, []string{wish}, nil, "%s names item %d of %d", wish, i, len(q.Items))
			}
		}
	}
	for k, set := range q.Together {
		look(together(k), set)
	}
	for k, a := range q.Apart {
		look(apart(k), a.A)
		look(apart(k), a.B)
	}
	for k, g := range q.Fixed {
		look(fixed(k), g.Items)
		if g.Bin < 0 || g.Bin >= len(q.Bins) {
			fs.add(BadNumber, []string{fixed(k)}, nil, "%s names kind of bin %d of %d", fixed(k), g.Bin, len(q.Bins))
		}
	}
	return fs
}

func together(k int) string { return fmt.Sprintf("together %d", k) }
func apart(k int) string    { return fmt.Sprintf("apart %d", k) }
func fixed(k int) string    { return fmt.Sprintf("fixed %d", k) }
