package pack

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

var (
	dataDir   = flag.String("data", "testdata", "folder of published instances")
	dataLimit = flag.Int64("limit", 15_000_000_000, "units of work for each published instance")
	dataOnly  = flag.String("only", "", "of the published instances, those whose name holds this")
	dataLong  = flag.Bool("long", false, "run the longer tables as well")
	dataLoud  = flag.Bool("each", false, "print a line for each published instance")
)

// dataRoot is the folder of -data. A relative one may be named from the top of the
// module, where the tests are started, though they run in this folder.
func dataRoot() string {
	if _, err := os.Stat(*dataDir); err != nil && !filepath.IsAbs(*dataDir) {
		return filepath.Join("..", "..", *dataDir)
	}
	return *dataDir
}

// TestPublished solves every instance in the folder of -data and holds it
// against the optimum known for it. A packing better than the optimum, or a bound
// above it, is wrong. For the folders see testdata/README.md.
func TestPublished(t *testing.T) {
	entries, err := os.ReadDir(dataRoot())
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		dir := filepath.Join(dataRoot(), e.Name())
		switch e.Name() {
		case "weeks":
			publishedWeeks(t, dir)
		case "bpps_setups":
			publishedSetups(t, dir)
		default:
			if e.IsDir() {
				published(t, dir)
			}
		}
	}
}

func published(t *testing.T, dir string) {
	best := optima(t, dir)
	n, solved, proved := 0, 0, 0
	for _, name := range files(t, dir) {
		if !strings.Contains(name, *dataOnly) {
			continue
		}
		q := read(t, filepath.Join(dir, name))
		q.Limit = *dataLimit
		start := time.Now()
		a, fs := Solve(q)
		took := time.Since(start)
		if fs != nil {
			t.Fatalf("%s: %v", name, fs)
		}
		if err := Check(&q, &a); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		optimum, known := best[name]
		if known && (len(a.Groups) < optimum || a.Bound > optimum) {
			t.Errorf("%s: %d bins, bound %d, but the optimum is %d", name, len(a.Groups), a.Bound, optimum)
		}
		n++
		if known && len(a.Groups) == optimum || !known && a.Proved {
			solved++
		}
		if a.Proved {
			proved++
		} else if mustProve(filepath.Base(dir)) && len(q.Items) <= 250 {
			t.Errorf("%s: %d bins, bound %d: not proved", name, len(a.Groups), a.Bound)
		}
		if *dataLoud {
			fmt.Printf("  %-28s n %4d bins %3d bound %3d optimum %3d %-5v %8.4f s work %6.3f e9 %s\n", name, len(q.Items),
				len(a.Groups), a.Bound, optimum, a.Proved, took.Seconds(), float64(a.Work)/1e9, a.Step)
		}
	}
	fmt.Printf("%s solved %d of %d proved %d\n", filepath.Base(dir), solved, n, proved)
}

// mustProve tells whether a folder is of a uniform or a triplet class.
func mustProve(folder string) bool {
	return strings.HasPrefix(folder, "falkenauer") || strings.HasPrefix(folder, "triplet")
}

// weekTrees is the proven fewest trees of each week under each rule: sums of
// sum bounds that a packing meets.
var weekTrees = map[string]int{
	"week-0050 a": 3, "week-0050 am": 5, "week-0050 ams": 11, "week-0050 amsd": 18,
	"week-0200 a": 7, "week-0200 am": 9, "week-0200 ams": 21, "week-0200 amsd": 41,
	"week-1000 a": 26, "week-1000 am": 30, "week-1000 ams": 44, "week-1000 amsd": 91,
}

func publishedWeeks(t *testing.T, dir string) {
	n, solved, proved := 0, 0, 0
	for _, name := range files(t, dir) {
		text, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		w, err := readWeek(text)
		if err != nil {
			t.Fatal(err)
		}
		for _, rule := range []string{"a", "am", "ams", "amsd"} {
			n++
			start := time.Now()
			trees, bound := publishedWeek(t, name+" "+rule, w.groups(rule))
			if *dataLoud {
				fmt.Printf("  %s %s: trees %d bound %d %.3f ms\n", name, rule, trees, bound, float64(time.Since(start).Microseconds())/1000)
			}
			known, is := weekTrees[strings.TrimSuffix(name, ".json")+" "+rule]
			if is && (trees < known || bound > known) {
				t.Errorf("%s %s: %d trees, bound %d, but the optimum is %d", name, rule, trees, bound, known)
			}
			if trees == bound {
				proved++
			}
			if is && trees == known || !is && trees == bound {
				solved++
			}
		}
	}
	fmt.Printf("%s solved %d of %d proved %d\n", filepath.Base(dir), solved, n, proved)
	if proved < n {
		t.Errorf("%d weeks of %d are proved", proved, n)
	}
}

func publishedWeek(t *testing.T, name string, qs []Question) (trees, bound int) {
	for _, q := range qs {
		a, fs := Solve(q)
		if fs != nil {
			t.Fatalf("%s: %v", name, fs)
		}
		if err := Check(&q, &a); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		trees += len(a.Groups)
		bound += a.Bound
		if a.Splits != 0 {
			t.Errorf("%s: %d jobs split in %s", name, a.Splits, q.Bins[0].Name)
		}
		even := sumFill(&q, len(a.Groups)) + 20_000
		if strings.HasSuffix(name, "ams") && a.Fullest > even {
			t.Errorf("%s: the fullest tree of %s is at %d, more than %d", name, q.Bins[0].Name, a.Fullest, even)
		}
	}
	return trees, bound
}

// sumFill is how full the fullest of k bins is at least, in millionths.
func sumFill(q *Question, k int) int64 {
	var most int64
	for d, c := range q.Bins[0].Capacity {
		var sum int64
		for _, it := range q.Items {
			sum += it.Size[d]
		}
		most = max(most, millionths(sum, c*int64(k)))
	}
	return most
}
