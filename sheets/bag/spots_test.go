package bag

import (
	"fmt"
	"math"
	"testing"

	"castweek/metal/measure"
	"castweek/tree"
)

// TestMarksHaveRoom: on a drawing each mark stands by itself and near its
// stone, which stays where the job has it.
func TestMarksHaveRoom(t *testing.T) {
	row := func(n int, pitch, y measure.MM) (out []tree.Spot) {
		for i := range n {
			out = append(out, tree.Spot{Mark: fmt.Sprintf("A%d", i+1), X: 2 + measure.MM(i)*pitch, Y: y})
		}
		return out
	}
	for name, spots := range map[string][]tree.Spot{"one": row(1, 1, 3), "nine close by": row(9, 1.4, 1), "two on one place": append(row(1, 1, 1), tree.Spot{Mark: "B", X: 2, Y: 1}),
		"field": append(append(row(8, 1.6, 1), row(8, 1.6, 2.6)...), row(8, 1.6, 4.2)...)} {
		p := &tree.Picture{Part: "band", View: "top", Width: 20, Height: 6, Spots: spots}
		d := drawingOf(p, 118, 80)
		if !d.clear() {
			t.Errorf("%s: a mark has no room at %v times the size", name, d.scale)
		}
		if d.width() > 118 || d.height() > 80 {
			t.Errorf("%s: %.0f x %.0f mm", name, d.width(), d.height())
		}
		for i, m := range d.marks {
			if math.Abs(m.x-float64(spots[i].X)*d.scale) > 1e-9 || math.Abs(m.y-(6-float64(spots[i].Y))*d.scale) > 1e-9 {
				t.Errorf("%s: %s has moved", name, m.mark)
			}
			for k, o := range d.marks {
				w := (strong.Width(m.mark) + strong.Width(o.mark)) / 2
				if k != i && math.Abs(m.atX-o.atX) < w && math.Abs(m.atY-o.atY) < markHigh-0.1 {
					t.Errorf("%s: %s and %s lie on each other", name, m.mark, o.mark)
				}
			}
			if m.atX < -d.left || m.atY < -d.top {
				t.Errorf("%s: %s is cut off", name, m.mark)
			}
		}
	}
}
