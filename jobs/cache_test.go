package jobs

import (
	"math"
	"reflect"
	"testing"

	"castweek/jobs/pattern"
	"castweek/metal/problem"
)

func TestKeptReports(t *testing.T) {
	k := ReadKept(nil)
	want := pattern.Report{File: "a.stl", Volume: 1.0 / 3, State: pattern.Patched, Finger: &pattern.Hole{Diameter: 17.2, Axis: pattern.Point{0, 0, 1}},
		Problems: problem.List{{Code: "x", Kind: problem.Remark, Message: "m"}}}
	k.Put("a", want)
	k.Put("b", pattern.Report{File: "b.stl"})
	k.Put("c", pattern.Report{Volume: 1, Bound: 2, Area: pattern.Report{}.Area, Thickest: 3, PatchedArea: 0, Box: pattern.Box{Max: pattern.Point{math.Inf(1)}}})
	data, changed := k.Bytes()
	if !changed {
		t.Error("new reports and nothing to write")
	}
	again := ReadKept(data)
	if got, ok := again.Get("a"); !ok || !reflect.DeepEqual(got, want) {
		t.Errorf("%+v", got)
	}
	if _, ok := again.Get("c"); ok {
		t.Error("a report that JSON cannot hold was kept")
	}
	// b was not asked for: it is dropped, and the file is to be written.
	fewer, changed := again.Bytes()
	if _, ok := ReadKept(fewer).Get("b"); ok || !changed {
		t.Error("what nobody uses is kept")
	}
	same := ReadKept(fewer)
	same.Get("a")
	if twice, changed := same.Bytes(); changed || string(twice) != string(fewer) {
		t.Error("the same run writes another file")
	}
	for i := range data {
		damaged := append([]byte(nil), data...)
		damaged[i] ^= 0x20
		if _, ok := ReadKept(damaged).Get("a"); ok {
			t.Fatalf("damaged at byte %d and used", i)
		}
	}
	if _, ok := ReadKept(data[:len(data)/2]).Get("a"); ok {
		t.Error("half a file was used")
	}
}
