package treemap

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"castweek/metal/measure"
	"castweek/sheets/internal/reading"
	"castweek/sheets/internal/trial"
	"castweek/tree"
)

// anyTree is a tree of so many castings of a few jobs on a few levels, drawn as
// small triangles round the trunk.
func anyTree(r func(lo, hi int) int) tree.Tree {
	n, levels := r(1, 60), r(1, 6)
	t := trial.Cast().Trees[0]
	t.Castings, t.Drawing = nil, tree.Drawing{}
	t.FlaskMM = tree.FlaskSize{Diameter: measure.MM(r(50, 140)), Height: measure.MM(r(70, 240))}
	d := &t.Drawing
	d.Half, d.Bottom, d.Top = t.FlaskMM.Diameter/2-8, 3, t.FlaskMM.Height-30
	d.TrunkDiameter, d.TrunkLength = 8, measure.MM(10*levels)
	d.Trunk = tree.Strokes{{{-4, 0}, {4, 0}, {4, 10 * float64(levels)}, {-4, 10 * float64(levels)}, {-4, 0}}}
	for l := 1; l <= levels; l++ {
		d.Levels = append(d.Levels, tree.LevelDrawing{Number: l, Height: measure.MM(10 * l)})
	}
	words := []string{"ring", "a band with a word for each of the many things that were said of it when it was ordered", ""}
	for i := range n {
		l := i * levels / n
		h := tree.Hanging{Casting: fmt.Sprintf("K-%d/%d", 100+i%r(1, 5), i+1), Design: "design", Part: words[r(0, 2)], Feeders: fmt.Sprintf("1 x 3 x %d mm", r(8, 9)),
			Metal: measure.Milligram(r(1, 99_999)), Level: l + 1, Hour: float64(i%48+1) / 4, Tilt: 45}
		h.Job, _, _ = strings.Cut(h.Casting, "/")
		x, y := float64(r(-30, 30)), float64(10*l+15)
		s := tree.Shape{Casting: h.Casting, Hour: h.Hour, X: measure.MM(x), Y: measure.MM(y), Behind: r(0, 1) == 1, Lines: tree.Strokes{{{x, y}, {x + 3, y}, {x, y + 5}, {x, y}}}}
		t.Castings = append(t.Castings, h)
		d.Side = append(d.Side, s)
		d.Levels[l].Shapes = append(d.Levels[l].Shapes, s)
	}
	return t
}

// Whatever hangs, nothing is written off the paper, and every casting stands in a
// side view, in its level and in the list.
func TestAnyTree(t *testing.T) {
	if reading.UnderRace {
		t.Skip("one goroutine, and slow under the race detector")
	}
	seen := 0
	rapid.Check(t, func(rt *rapid.T) {
		c := trial.Cast()
		c.House.Series = rapid.SampledFrom([]string{"A", "letter"}).Draw(rt, "paper")
		c.Trees = []tree.Tree{anyTree(func(lo, hi int) int { return rapid.IntRange(lo, hi).Draw(rt, "n") })}
		pdf, remarks, err := Print(c, Options{})
		if err != nil || len(remarks) > 0 {
			rt.Fatalf("%v, %v", err, remarks)
		}
		if seen++; seen > 5 { // the outside reader is slow
			return
		}
		found := map[string]int{}
		for _, w := range strings.Fields(strings.Join(reading.Pages(t, pdf), "\n")) {
			found[w]++
		}
		for _, h := range c.Trees[0].Castings {
			if n := found[h.Casting]; n < 3 || n > 4 { // once more where ids name a kind
				rt.Errorf("%s stands %d times", h.Casting, n)
			}
		}
	})
}
