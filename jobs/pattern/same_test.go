package pattern

import (
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
