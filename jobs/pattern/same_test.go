package pattern

import (
	"bytes"
	"encoding/json"
	"reflect"
	"runtime"
	"testing"
)

// The same mesh gives the same report, to the last bit, on any number of cores.
func TestSameOnAnyNumberOfCores(t *testing.T) {
	data := stlOf(ring(4)...)
	opt := ringOptions()
	opt.Grid = 128
	var want Report
	for i, n := range []int{1, 2, 5, 2} {
		old := runtime.GOMAXPROCS(n)
		r, err := Measure("t.stl", data, opt)
		runtime.GOMAXPROCS(old)
		if err != nil {
			t.Fatal(err)
		}
		if i == 0 {
			want = r
		} else if !reflect.DeepEqual(r, want) {
			t.Errorf("on %d cores: %+v\nand on one: %+v", n, r, want)
		}
	}
}

// A report that was written as JSON and read again is the same report: it is
// kept from run to run.
func TestReportGoesThroughJSON(t *testing.T) {
	t.Parallel()
	parts := append(ring(4), box(Point{30, 0, 0}, Point{34, 4, 0.5}))
	opt := ringOptions()
	opt.Grid = 128
	want := mustMeasure(t, opt, parts...)
	data, err := json.Marshal(want)
	if err != nil {
		t.Fatal(err)
	}
	var got Report
	if err := json.Unmarshal(data, &got); err != nil {
		t.Fatal(err)
	}
	if again, err := json.Marshal(got); err != nil || !bytes.Equal(again, data) || !reflect.DeepEqual(got.Frame, want.Frame) || len(got.Problems) != len(want.Problems) || got.Thinnest == nil {
		t.Errorf("%v\n%+v\n%+v", err, got, want)
	}
}
