package tree

import (
	"testing"

	"castweek/metal/measure"
)

// 6.407 g ± 3 % is 6.21479 to 6.59921 g: inside on a scale of 0.01 g.
func TestBuiltWithin(t *testing.T) {
	tr := Tree{Name: "2026-W49-C", Before: []MaterialWeight{{Material: "resin", Weight: 1896}, {Material: "wax", Weight: 4511}}}
	low, high := tr.BuiltWithin(House{ScaleStep: 10})
	if tr.Built() != 6407 || low != 6220 || high != 6590 {
		t.Errorf("built %v within %v to %v", tr.Built(), low, high)
	}
	low, high = tr.BuiltWithin(House{ScaleStep: 1, Recount: 10})
	if low != measure.Milligram(5767) || high != 7047 {
		t.Errorf("within %v to %v at 10 %%", low, high)
	}
	if tr.Letter() != "C" || !tr.Pourable() {
		t.Errorf("letter %q", tr.Letter())
	}
}
