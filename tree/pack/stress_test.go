package pack

import (
	"os"
	"path/filepath"
	"testing"
)

// stressed cuts the limits of a group so that k bins hold it just so: the sum
// in each dimension by k and by how full they are to be, rounded down.
func stressed(q Question, k int, metal, height float64) Question {
	var sum [2]int64
	for _, it := range q.Items {
		sum[0] += it.Size[0]
		sum[1] += it.Size[1]
	}
	out := q
	out.Bins = []Bin{{Name: q.Bins[0].Name, Capacity: []int64{
		int64(float64(sum[0]) / (float64(k) * metal)), int64(float64(sum[1]) / (float64(k) * height))}}}
	out.Items = nil
	for _, it := range q.Items {
		out.Items = append(out.Items, Item{ID: it.ID, Job: it.Job, Size: it.Size[:2]})
	}
	return out
}

// stressGroups are the groups of the two larger weeks with enough patterns for k trees.
func stressGroups(t testing.TB, k int) (out []Question) {
	for _, name := range []string{"week-0200.json", "week-1000.json"} {
		text, err := os.ReadFile(filepath.Join("testdata", "weeks", name))
		if err != nil {
			t.Fatal(err)
		}
		w, err := readWeek(text)
		if err != nil {
			t.Fatal(err)
		}
		for _, rule := range []string{"ams", "am"} {
			for _, q := range w.groups(rule) {
				if len(q.Items) >= 12*k {
					out = append(out, q)
				}
			}
		}
	}
	return out
}

// TestStress fills the groups of the weeks to the edge, in metal alone and in metal and
// height: up to 99 % every one must be packed in k trees.
func TestStress(t *testing.T) {
	fulls := []float64{0.99}
	if *dataLong {
		fulls = []float64{0.95, 0.97, 0.98, 0.99, 0.995, 0.999}
	}
	for _, full := range fulls {
		for _, both := range []bool{false, true} {
			cases, reached, splits := 0, 0, 0
			for _, k := range []int{2, 3, 5}[:max(3/slowdown, 1)] {
				for _, q := range stressGroups(t, k) {
					height := 0.93 * full
					if both {
						height = full
					}
					q = stressed(q, k, full, height)
					q.Limit = 50_000_000
					a := solved(t, q)
					cases++
					splits += a.Splits - a.SplitsBound
					if len(a.Groups) == k && a.Proved {
						reached++
					} else if full <= 0.99 {
						t.Errorf("%s, %d trees at %v: %d, bound %d", q.Bins[0].Name, k, full, len(a.Groups), a.Bound)
					}
				}
			}
			t.Logf("full %.3f, both dimensions %v: %d of %d at the bound, %d splits above theirs", full, both, reached, cases, splits)
		}
	}
}
