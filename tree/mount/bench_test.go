package mount

import (
	"encoding/json"
	"fmt"
	"os"
	"sort"
	"testing"

	"castweek/metal/measure"
)

// week reads an invented week (testdata/README.md) as plain bands of its outer
// diameters and widths, in groups of one alloy, material and section.
func week(b testing.TB, name string) [][]Body {
	b.Helper()
	raw, err := os.ReadFile("testdata/" + name)
	if err != nil {
		b.Fatal(err)
	}
	var w struct {
		Patterns []struct {
			ID, Alloy, Section string
			Material           string  `json:"pattern_material"`
			Metal              float64 `json:"metal_mg"`
			Outer              float64 `json:"outer_diameter_um"`
			Width              float64 `json:"shank_width_um"`
		}
	}
	if err := json.Unmarshal(raw, &w); err != nil {
		b.Fatal(err)
	}
	groups := map[string][]Body{}
	patterns := map[[2]float64]Body{} // equal pieces of a job come from one pattern file
	for _, p := range w.Patterns {
		size := [2]float64{p.Outer / 1000, p.Width / 1000}
		body, ok := patterns[size]
		if !ok {
			body = ringBody("", size[0], size[1], 0)
			patterns[size] = body
		}
		body.ID = p.ID
		body.Weight = measure.Gram(p.Metal / 1000)
		k := p.Alloy + p.Material + p.Section
		groups[k] = append(groups[k], body)
	}
	var keys []string
	for k := range groups {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	var out [][]Body
	for _, k := range keys {
		out = append(out, groups[k])
	}
	return out
}

var weekFlask = Flask{InnerDiameter: 102, Height: 152, TrunkDiameter: 10, ButtonHeight: 15}

// trees deals a group out evenly over as many trees as its shares ask for, as a
// grouping would.
func trees(group []Body, f Flask, g Gaps) [][]Body { return treesOfFill(group, f, g, 1) }

func treesOfFill(group []Body, f Flask, g Gaps, fill float64) [][]Body {
	need := 0.0
	for _, b := range group {
		n := Estimate(f, g, b, Options{})
		need += float64(n.Share / n.Roots)
	}
	k := int(need/fill) + 1
	out := make([][]Body, k)
	for i, b := range group {
		out[i%k] = append(out[i%k], b)
	}
	return out
}

func benchWeek(b *testing.B, name string, traced bool) {
	groups := week(b, name)
	for _, g := range groups {
		for i := range g {
			if traced {
				g[i] = g[i].Traced()
			}
		}
	}
	var all [][]Body
	for _, g := range groups {
		all = append(all, trees(g, weekFlask, testGaps)...)
	}
	b.ResetTimer()
	hang, castings, steps := 0, 0, 0
	for range b.N {
		hang, castings, steps = 0, 0, 0
		for _, t := range all {
			tree, v := Place(weekFlask, testGaps, t, Options{})
			if v.Outcome == Hangs {
				hang++
			}
			castings += len(tree.Placements)
			steps += v.Steps
		}
	}
	b.ReportMetric(float64(len(all)), "trees")
	b.ReportMetric(float64(hang), "hang")
	b.ReportMetric(float64(castings), "castings")
	b.ReportMetric(float64(steps), "pairs")
}

func BenchmarkWeek(b *testing.B) {
	for _, n := range []int{50, 200, 1000} {
		for _, traced := range []bool{true, false} {
			// "traced" leaves out the time to measure the outlines.
			b.Run(fmt.Sprintf("%d/traced=%v", n, traced), func(b *testing.B) { benchWeek(b, fmt.Sprintf("week-%04d.json", n), traced) })
		}
	}
}

// BenchmarkOverfull asks for trees that are mostly too full to hang, as a grouping
// does that looks for the fewest trees: each set once by itself, and all sets with
// one memory.
func BenchmarkOverfull(b *testing.B) {
	f := Flask{InnerDiameter: 80, Height: 110, TrunkDiameter: 9, ButtonHeight: 14}
	var all [][]Body
	for _, g := range week(b, "week-0200.json") {
		for i := range g {
			g[i] = g[i].Traced()
		}
		for _, t := range treesOfFill(g, f, testGaps, 1.3) {
			if len(t) > 8 {
				all = append(all, t)
			}
		}
	}
	for _, shared := range []bool{false, true} {
		b.Run(fmt.Sprintf("memory=%v", shared), func(b *testing.B) {
			failed, steps := 0, 0
			o := Options{}
			if shared {
				o.Memory = NewMemory()
			}
			for range b.N {
				failed, steps = 0, 0
				for _, t := range all {
					_, v := Place(f, testGaps, t, o)
					if v.Outcome != Hangs {
						failed++
					}
					steps += v.Steps
				}
			}
			b.ReportMetric(float64(len(all)), "trees")
			b.ReportMetric(float64(failed), "fail")
			b.ReportMetric(float64(steps), "pairs")
		})
	}
}

func BenchmarkTrace(b *testing.B) {
	for _, n := range []int{48, 1250, 5000} {
		body := ringBody("R", 22, 4, 6)
		body.Points, body.Faces = band(22, 4, 1.8, n)
		b.Run(fmt.Sprintf("%d-corners", len(body.Points)), func(b *testing.B) {
			for range b.N {
				body.Traced()
			}
		})
	}
}
