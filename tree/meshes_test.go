package tree

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"sync"
	"testing"

	"castweek/jobs"
	"castweek/jobs/workshop"
	"castweek/metal/measure"
	"castweek/tree/internal/meshes"
	"castweek/tree/mount"
)

// The judge of mounted trees knows nothing of how they were found: it moves the
// meshes by the transforms that are given, draws the feeders from the figures
// that are printed, and measures triangle against triangle.

var readSample = sync.OnceValues(func() (*jobs.Folder, error) {
	fsys := os.DirFS("../samples/saltmarsh")
	f, _ := jobs.ReadFolder(fsys, jobs.Options{})
	return f, jobs.ReadSkins(fsys, f.Jobs)
})

func sampleFolder(t testing.TB) *jobs.Folder {
	t.Helper()
	f, err := readSample()
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func hangAll(t testing.TB, f *jobs.Folder, thorough bool) Fit {
	t.Helper()
	in := Input{Folder: f, AsOf: f.Workshop.AsOf, Thorough: thorough}
	fit, err := newQueue(in, &Cast{}).fit(in)
	if err != nil {
		t.Fatal(err)
	}
	return fit
}

const judgeSlack = 1e-6 // of the judge's own arithmetic, mm

func place(m [3][4]float64, p meshes.Point) (out meshes.Point) {
	for k := range 3 {
		out[k] = m[k][0]*p[0] + m[k][1]*p[1] + m[k][2]*p[2] + m[k][3]
	}
	return out
}

// meshOf is a casting where it hangs: its mesh, or the box of its outer size.
func meshOf(it *item, p mount.Placement) []meshes.Triangle {
	var points []meshes.Point
	var faces [][3]int32
	if s := it.part.Pattern.Skin; s != nil {
		points, faces = s.Points, s.Faces
	} else if r := it.part.Pattern.Rod; r != nil && it.part.Feeders.Count == 0 {
		const n = 40 // corners on the round itself
		for i := range int32(n) {
			s, c := math.Sincos(2 * math.Pi * float64(i) / n)
			y, z := float64(r.Diameter)/2*c, float64(r.Diameter)/2*s
			points = append(points, meshes.Point{0, y, z}, meshes.Point{float64(r.Length), y, z})
			faces = append(faces, [3]int32{2 * i, 2*i + 1, (2*i + 2) % (2 * n)}, [3]int32{2*i + 1, (2*i + 3) % (2 * n), (2*i + 2) % (2 * n)})
		}
	} else {
		for i := range 8 {
			half := meshes.Point{float64(it.outer.Length) / 2, float64(it.outer.Width) / 2, float64(it.outer.Height) / 2}
			for k := range 3 {
				if i>>k&1 == 0 {
					half[k] = -half[k]
				}
			}
			points = append(points, half)
		}
		faces = [][3]int32{{0, 1, 2}, {1, 2, 3}, {4, 5, 6}, {5, 6, 7}, {0, 1, 4}, {1, 4, 5}, {2, 3, 6}, {3, 6, 7}, {0, 2, 4}, {2, 4, 6}, {1, 3, 5}, {3, 5, 7}}
	}
	var out []meshes.Triangle
	for _, f := range faces {
		out = append(out, meshes.Triangle{place(p.Transform, points[f[0]]), place(p.Transform, points[f[1]]), place(p.Transform, points[f[2]])})
	}
	return out
}

// beyondStem is what of a casting is no feeder of its own.
func beyondStem(w *workshop.Workshop, it *item, p mount.Placement, all []meshes.Triangle) []meshes.Triangle {
	if !ownFeeder(it.part) {
		return all
	}
	r := *it.part.Pattern.Rod
	from, to := place(p.Transform, meshes.Point{float64(stem(r, w.Gaps.Neighbour))}), place(p.Transform, meshes.Point{float64(r.Length)})
	var out []meshes.Triangle
	const n = 40
	for i := range n { // a bundle of lines along the rod
		s, c := math.Sincos(2 * math.Pi * float64(i) / n)
		off := place(p.Transform, meshes.Point{0, float64(r.Diameter) / 2 * c, float64(r.Diameter) / 2 * s})
		for k, x := range place(p.Transform, meshes.Point{}) {
			off[k] -= x
		}
		a, b := from, to
		for k := range 3 {
			a[k], b[k] = a[k]+off[k], b[k]+off[k]
		}
		out = append(out, line(a, b)...)
	}
	return out
}

func line(a, b meshes.Point) []meshes.Triangle { return []meshes.Triangle{{a, b, b}} }

// feederOf is the axis of the feeder of a casting.
func feederOf(h hungTree, p mount.Placement) (from, to meshes.Point) {
	s, c := math.Sincos(p.Hour * math.Pi / 6)
	ts, tc := math.Sincos(p.TiltDeg * math.Pi / 180)
	r, l := float64(h.flask.TrunkDiameter)/2, float64(p.FeederLength)
	return meshes.Point{r * s, r * c, float64(p.Height)}, meshes.Point{(r + l*ts) * s, (r + l*ts) * c, float64(p.Height) + l*tc}
}

// judge checks a mounted tree, and says what it finds first.
func judge(w *workshop.Workshop, h hungTree) error {
	at := map[string]mount.Placement{}
	for _, p := range h.mount.Placements {
		at[p.ID] = p
	}
	if len(at) != len(h.items) || len(h.mount.Placements) != len(h.items) {
		return fmt.Errorf("%d places for %d castings", len(h.mount.Placements), len(h.items))
	}
	gap, wall := float64(w.Gaps.Neighbour), w.Gaps.Wall
	if h.group.resin {
		wall = w.Gaps.WallResin
	}
	outer := float64(h.flask.InnerDiameter/2 - wall)
	top := float64(h.flask.Height - buttonHeight(h.flask.ButtonCavity) - w.Gaps.Top)
	trunk := line(meshes.Point{}, meshes.Point{0, 0, float64(h.flask.Height)})
	solids := make([][]meshes.Triangle, len(h.items))
	for i, it := range h.items {
		p := at[it.casting.ID]
		solids[i] = meshOf(it, p)
		for _, t := range solids[i] {
			for _, c := range t {
				if r := math.Hypot(c[0], c[1]); r > outer+judgeSlack || c[2] > top+judgeSlack || c[2] < gap-judgeSlack {
					return fmt.Errorf("%s reaches %.3f mm out of %.3f, height %.3f of %.3f to %.3f", it.casting.ID, r, outer, c[2], gap, top)
				}
			}
		}
		if p.FeederInMesh {
			continue
		}
		if d, ok := meshes.Apart(solids[i], trunk, float64(h.flask.TrunkDiameter)/2+gap-judgeSlack); !ok {
			return fmt.Errorf("%s is %.3f mm from the axis of the trunk", it.casting.ID, d)
		}
		_, end := feederOf(h, p)
		if _, off := meshes.Apart(solids[i], line(end, end), 1); off {
			return fmt.Errorf("the feeder of %s does not reach it", it.casting.ID)
		}
	}
	for i, a := range h.items {
		p := at[a.casting.ID]
		for j, b := range h.items {
			q := at[b.casting.ID]
			if heavy, light := float64(a.metal()), float64(b.metal()); p.Level > q.Level && heavy*(1-mount.WeightBand) > light*(1+1e-3) {
				return fmt.Errorf("%s of %.2f g hangs above %s of %.2f g", a.casting.ID, heavy/1000, b.casting.ID, light/1000)
			}
			if i != j && p.Feeders == 1 && !p.FeederInMesh {
				from, to := feederOf(h, p)
				if d, ok := meshes.Apart(beyondStem(w, b, q, solids[j]), line(from, to), gap+float64(p.FeederDiameter)/2-judgeSlack); !ok {
					return fmt.Errorf("the feeder of %s is %.3f mm from %s", a.casting.ID, d, b.casting.ID)
				}
				if c, d := feederOf(h, q); q.Feeders == 1 && !q.FeederInMesh && meshes.Segments(from, to, c, d) < float64(p.FeederDiameter+q.FeederDiameter)/2-judgeSlack {
					return fmt.Errorf("the feeders of %s and %s meet", a.casting.ID, b.casting.ID)
				}
			}
			if i < j || i > j && (ownFeeder(a.part) || ownFeeder(b.part)) {
				if d, ok := meshes.Apart(beyondStem(w, a, p, solids[i]), solids[j], gap-judgeSlack); !ok {
					return fmt.Errorf("%s is %.3f mm from %s", a.casting.ID, d, b.casting.ID)
				}
			}
		}
	}
	return judgeMetal(w, h, at)
}

// judgeMetal adds up trunk and feeders as they are mounted: they are in the
// charge, and in the weight of the built tree.
func judgeMetal(w *workshop.Workshop, h hungTree, at map[string]mount.Placement) error {
	feeders, patterns := 0.0, 0.0
	for _, it := range h.items {
		p := at[it.casting.ID]
		if !p.FeederInMesh {
			feeders += float64(p.Feeders) * math.Pi / 4 * float64(p.FeederDiameter*p.FeederDiameter*p.FeederLength)
		}
		patterns += float64(it.volume) * float64(it.material.Density)
	}
	trunk := math.Pi / 4 * float64(h.flask.TrunkDiameter*h.flask.TrunkDiameter*h.mount.TrunkLength)
	t := buildTree(w, "T", h)
	density := float64(h.items[0].density)
	for what, c := range map[string][2]float64{
		"feeders": {float64(t.Charge.Feeders), feeders * density}, "trunk": {float64(t.Charge.Trunk), trunk * density},
	} {
		if c[0] < c[1]-1e-6 || c[0] > c[1]+2 { // whole milligrams, up
			return fmt.Errorf("%s in the charge: %v mg, mounted %v mg", what, c[0], c[1])
		}
	}
	wax, _ := w.Material(w.Trunk)
	if got, want := float64(t.Built()), patterns+(feeders+trunk)*float64(wax.Density); math.Abs(got-want) > float64(len(t.Before))*float64(w.ScaleStep) {
		return fmt.Errorf("the built tree is to weigh %v mg, its parts %v mg", got, want)
	}
	return nil
}

func TestSampleTreesHangApart(t *testing.T) {
	if underRace {
		t.Skip("one goroutine, and slow under the race detector")
	}
	f := sampleFolder(t)
	fits := []Fit{hangAll(t, f, false), hangAll(t, f, true)}
	if a, b := figures(f, fits[0]), figures(f, fits[1]); slices.Compare(b[:], a[:]) > 0 {
		t.Errorf("castings left, pours and metal tied up %v, thorough %v", a, b)
	}
	for thorough, fit := range fits {
		castings := 0
		for _, h := range fit.hung {
			castings += len(h.items)
			if err := judge(f.Workshop, h); err != nil {
				t.Errorf("search %d, a tree of %s: %v", thorough, h.group.alloy, err)
			}
		}
		if castings < 28 {
			t.Errorf("only %d castings hang", castings)
		}
	}
}

// figures are what a plan is judged by, the weightiest first: castings left,
// pours, and metal tied up.
func figures(f *jobs.Folder, fit Fit) [3]int {
	return [3]int{len(fit.left), len(fit.hung), int(tiedUp(f.Workshop, fit.hung))}
}

// randomWeek is the sample's jobs in random numbers and metals, some known by
// their outer size only, in a house of random gaps.
func randomWeek(f *jobs.Folder, r *rand.Rand) *jobs.Folder {
	w := *f.Workshop
	w.Gaps.Neighbour = measure.MM(1 + 3*r.Float64())
	w.Gaps.WallResin = w.Gaps.Wall + measure.MM(4*r.Float64())
	w.Sections.Mixing = []workshop.Mixing{workshop.MixAllow, workshop.MixAvoid}[r.IntN(2)]
	out := &jobs.Folder{Workshop: &w}
	for _, j := range f.Jobs {
		if r.IntN(2) == 0 {
			continue
		}
		k := *j
		k.Pieces, k.Owner = 1+r.IntN(5), jobs.House
		k.Parts = slices.Clone(j.Parts)
		for i := range k.Parts {
			p := &k.Parts[i]
			p.Alloy = []string{"925 silver", "750 yellow"}[r.IntN(2)]
			if r.IntN(5) == 0 {
				p.Pattern.Skin, p.Pattern.Measured = nil, nil
			}
		}
		out.Jobs = append(out.Jobs, &k)
	}
	return out
}

// Random weeks: what hangs keeps all gaps on its meshes, and the slower search
// never leaves more castings, needs more pours or ties up more metal.
func TestRandomWeeksHangApartAndThoroughIsNeverWorse(t *testing.T) {
	if underRace {
		t.Skip("one goroutine, and slow under the race detector")
	}
	f := sampleFolder(t)
	const weeks = 4
	trees, castings, better := 0, 0, 0
	for seed := range weeks {
		week := randomWeek(f, rand.New(rand.NewPCG(uint64(seed), 2)))
		quick, slow := hangAll(t, week, false), hangAll(t, week, true)
		for _, fit := range []Fit{quick, slow} {
			for _, h := range fit.hung {
				trees++
				castings += len(h.items)
				if err := judge(week.Workshop, h); err != nil {
					t.Errorf("week %d, a tree of %s: %v", seed, h.group.alloy, err)
				}
			}
		}
		a, b := figures(week, quick), figures(week, slow)
		if slices.Compare(b[:], a[:]) > 0 {
			t.Errorf("week %d: castings left, pours and metal tied up %v, thorough %v", seed, a, b)
		}
		if slices.Compare(b[:], a[:]) < 0 {
			better++
		}
	}
	t.Logf("%d trees of %d castings judged; the slower search is better in %d of %d weeks", trees, castings, better, weeks)
	if castings < 40*weeks {
		t.Errorf("only %d castings on %d trees: the weeks try little", castings, trees)
	}
}

// The judge itself must find what is wrong.
func TestTheJudgeFindsFaults(t *testing.T) {
	if underRace {
		t.Skip("one goroutine, and slow under the race detector")
	}
	f := sampleFolder(t)
	for _, h := range hangAll(t, f, false).hung {
		if len(h.items) < 4 {
			continue
		}
		for name, spoil := range map[string]func(p []mount.Placement){
			"out":       func(p []mount.Placement) { p[1].Transform[0][3] += 30 },
			"up":        func(p []mount.Placement) { p[0].Transform[2][3] += 9 },
			"one twice": func(p []mount.Placement) { p[1].ID = p[0].ID },
			"thicker":   func(p []mount.Placement) { p[2].FeederDiameter *= 2 },
			"reversed": func(p []mount.Placement) {
				light, heavy := 0, 0
				for i, it := range h.items {
					if it.metal() < h.items[light].metal() {
						light = i
					}
					if it.metal() > h.items[heavy].metal() {
						heavy = i
					}
				}
				of := func(item int) *mount.Placement {
					return &p[slices.IndexFunc(p, func(x mount.Placement) bool { return x.ID == h.items[item].casting.ID })]
				}
				of(light).Level, of(heavy).Level = 1, 99
			},
		} {
			bad := h
			bad.mount.Placements = slices.Clone(h.mount.Placements)
			spoil(bad.mount.Placements)
			if judge(f.Workshop, bad) == nil {
				t.Errorf("%s: a tree of %d castings passes", name, len(h.items))
			}
		}
	}
}
