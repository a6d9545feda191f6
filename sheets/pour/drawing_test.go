package pour

import (
	"strings"
	"testing"

	"castweek/sheets/internal/reading"
	"castweek/sheets/internal/trial"
	"castweek/tree"
)

// A tree that was kept with its drawing shows every casting once from the side,
// and in its level where the page has room; one without has no such part.
func TestDrawingShowsEveryCasting(t *testing.T) {
	count := func(c *tree.Cast) map[string]int {
		pdf, _, err := Print(c, Options{})
		if err != nil {
			t.Fatal(err)
		}
		out := map[string]int{"How it hangs": 0}
		for _, w := range strings.Fields(strings.ReplaceAll(strings.Join(reading.Pages(t, pdf), "\n"), "How it hangs", "How_it_hangs")) {
			out[strings.ReplaceAll(w, "_", " ")]++
		}
		return out
	}
	bare := count(trial.Cast())
	c := trial.Cast()
	poured := 0
	for i := range c.Trees {
		drawn(&c.Trees[i])
		if c.Trees[i].Pourable() {
			poured++
		}
	}
	full := count(c)
	if bare["How it hangs"] != 0 || full["How it hangs"] != poured || poured == 0 {
		t.Errorf("the part stands %d times without drawings, %d times with, for %d trees", bare["How it hangs"], full["How it hangs"], poured)
	}
	for _, tr := range c.Trees {
		for _, h := range tr.Castings {
			if more := full[h.Casting] - bare[h.Casting]; tr.Pourable() && more != 1 && more != 2 {
				t.Errorf("%s stands %d times more with a drawing", h.Casting, more)
			}
		}
	}
}

// drawn gives a tree a drawing of as many castings round one level.
func drawn(t *tree.Tree) {
	d := &t.Drawing
	d.Half, d.Bottom, d.Top = t.FlaskMM.Diameter/2-6, 3, t.FlaskMM.Height-30
	d.TrunkDiameter, d.TrunkLength = 8, 40
	d.Trunk = tree.Strokes{{{-4, 0}, {4, 0}, {4, 40}, {-4, 40}, {-4, 0}}}
	lv := tree.LevelDrawing{Number: 1, Height: 10}
	for i, h := range t.Castings {
		x := float64(i%5)*6 - 12
		s := tree.Shape{Casting: h.Casting, Hour: float64(i%12 + 1), X: 0, Y: 20, Behind: i%2 == 1,
			Lines: tree.Strokes{{{x, 15}, {x + 4, 15}, {x + 4, 25}, {x, 15}}}}
		d.Side = append(d.Side, s)
		lv.Shapes = append(lv.Shapes, s)
	}
	d.Levels = []tree.LevelDrawing{lv}
}
