package mount

import (
	"fmt"
	"math"
	"testing"

	"castweek/tree/internal/meshes"
)

// The referee knows nothing of the search: it takes the meshes as given, moves
// them by the printed transforms, draws the feeders from the printed numbers, and
// measures triangle against triangle.

type tri [3]vec

func plainTriangles(a []tri) []meshes.Triangle {
	out := make([]meshes.Triangle, len(a))
	for i, t := range a {
		out[i] = meshes.Triangle{t[0], t[1], t[2]}
	}
	return out
}

func triangleDistance(a, b tri) float64 {
	t := plainTriangles([]tri{a, b})
	return meshes.Distance(t[0], t[1])
}

func segmentDistance(p, q, r, s vec) float64 { return meshes.Segments(p, q, r, s) }

func pointSegment(p, a, b vec) float64 { return meshes.ToSegment(p, a, b) }

// atLeast looks for two triangles nearer than gap.
func atLeast(a, b []tri, gap float64) (float64, bool) {
	return meshes.Apart(plainTriangles(a), plainTriangles(b), gap)
}

// solid gives the triangles of a body in the tree's frame, in float arithmetic of
// its own.
func solid(b Body, m [3][4]float64) []tri {
	points, faces := b.Points, b.Faces
	if len(points) == 0 {
		l, w, h := float64(b.Size.Length)/2, float64(b.Size.Width)/2, float64(b.Size.Height)/2
		points, faces = block(nil, nil, vec{-l, -w, -h}, vec{l, w, h})
	}
	at := make([]vec, len(points))
	for i, p := range points {
		for k := range 3 {
			at[i][k] = m[k][0]*p[0] + m[k][1]*p[1] + m[k][2]*p[2] + m[k][3]
		}
	}
	var out []tri
	for _, f := range faces {
		out = append(out, tri{at[f[0]], at[f[1]], at[f[2]]})
	}
	return out
}

// feederLine is the axis of a casting's feeder, from the printed numbers.
func feederLine(t Tree, p Placement) (vec, vec) {
	s, c := math.Sincos(p.Hour * math.Pi / 6)
	ts, tc := math.Sincos(p.TiltDeg * math.Pi / 180)
	r, l := float64(t.TrunkDiameter)/2, float64(p.FeederLength)
	from := vec{r * s, r * c, float64(p.Height)}
	return from, from.add(vec{l * ts * s, l * ts * c, l * tc})
}

// slackOfReferee takes the rounding of the referee's own arithmetic.
const slackOfReferee = 1e-6

// judge checks everything that is promised of a tree.
func judge(t *testing.T, f Flask, g Gaps, bodies []Body, tree Tree) {
	t.Helper()
	if err := verdictOfReferee(f, g, bodies, tree); err != nil {
		t.Fatal(err)
	}
}

func verdictOfReferee(f Flask, g Gaps, bodies []Body, tree Tree) error {
	by := map[string]Body{}
	for _, b := range bodies {
		by[b.ID] = b
	}
	seen := map[string]bool{}
	for _, p := range tree.Placements {
		if _, ok := by[p.ID]; !ok || seen[p.ID] {
			return fmt.Errorf("%s hangs twice or was never given", p.ID)
		}
		seen[p.ID] = true
	}
	for _, id := range tree.Left {
		if _, ok := by[id]; !ok || seen[id] {
			return fmt.Errorf("%s is left over and hangs, or was never given", id)
		}
		seen[id] = true
	}
	if len(seen) != len(bodies) {
		return fmt.Errorf("%d of %d castings are told of", len(seen), len(bodies))
	}
	wall := g.Wall
	if g.Resin {
		wall = max(wall, g.WallResin)
	}
	offTrunk := g.Trunk
	if offTrunk == 0 {
		offTrunk = g.Between
	}
	outer := float64(f.InnerDiameter/2 - wall)
	inner := float64(f.TrunkDiameter/2 + offTrunk)
	top := float64(f.Height - f.ButtonHeight - g.Top)
	gap := float64(g.Between) - slackOfReferee
	solids := make([][]tri, len(tree.Placements))
	for i, p := range tree.Placements {
		b := by[p.ID]
		solids[i] = solid(b, p.Transform)
		clearOf := solids[i]
		if b.Feeders.InMesh { // what is nearer to the trunk than the feeder's end is feeder
			clearOf = nil
			for _, x := range solids[i] {
				if !inFeeder(x, p, float64(tree.TrunkDiameter)/2, float64(b.Feeders.Length)) {
					clearOf = append(clearOf, x)
				}
			}
		}
		for _, x := range solids[i] {
			for _, c := range x {
				if r := math.Hypot(c[0], c[1]); r > outer+slackOfReferee {
					return fmt.Errorf("%s reaches out to %v, allowed %v", p.ID, r, outer)
				}
				if c[2] > top+slackOfReferee || c[2] < float64(g.Between)-slackOfReferee {
					return fmt.Errorf("%s at height %v, allowed %v to %v", p.ID, c[2], g.Between, top)
				}
			}
		}
		axis := []tri{{{0, 0, -50}, {0, 0, 500}, {0, 0, 500}}}
		if d, ok := atLeast(clearOf, axis, inner-slackOfReferee); !ok {
			return fmt.Errorf("%s is %v from the axis of the trunk, least %v", p.ID, d, inner)
		}
		if p.Height > tree.TrunkLength || float64(tree.TrunkLength) > top+slackOfReferee {
			return fmt.Errorf("%s at %v on a trunk of %v, limit %v", p.ID, p.Height, tree.TrunkLength, top)
		}
		if err := meets(tree, p, solids[i]); err != nil {
			return err
		}
	}
	for i, p := range tree.Placements {
		for j, q := range tree.Placements {
			if i < j {
				if d, ok := atLeast(solids[i], solids[j], gap); !ok {
					return fmt.Errorf("%s and %s are %v apart, least %v", p.ID, q.ID, d, g.Between)
				}
				if wp, wq := by[p.ID].Weight, by[q.ID].Weight; (p.Level < q.Level && wp < (1-WeightBand)*wq) || (q.Level < p.Level && wq < (1-WeightBand)*wp) {
					return fmt.Errorf("%s of %v on level %d, %s of %v on level %d", p.ID, wp, p.Level, q.ID, wq, q.Level)
				}
			}
			if i != j && !q.FeederInMesh {
				a, b := feederLine(tree, q)
				if d, ok := atLeast([]tri{{a, b, b}}, solids[i], gap+float64(q.FeederDiameter)/2); !ok {
					return fmt.Errorf("feeder of %s is %v from %s", q.ID, d, p.ID)
				}
				if !p.FeederInMesh && i < j {
					c, e := feederLine(tree, p)
					if d := segmentDistance(a, b, c, e); d < float64(p.FeederDiameter+q.FeederDiameter)/2-slackOfReferee {
						return fmt.Errorf("feeders of %s and %s are %v apart", p.ID, q.ID, d)
					}
				}
			}
		}
	}
	return nil
}

// meets checks that the feeder ends at the casting that it feeds: its end lies
// within a millimetre of the mesh.
func meets(tree Tree, p Placement, s []tri) error {
	_, end := feederLine(tree, p)
	if d, ok := atLeast([]tri{{end, end, end}}, s, 1); ok && !p.FeederInMesh {
		return fmt.Errorf("feeder of %s ends %v from it", p.ID, d)
	}
	return nil
}

func inFeeder(x tri, p Placement, trunk, length float64) bool {
	s, c := math.Sincos(p.Hour * math.Pi / 6)
	ts, tc := math.Sincos(p.TiltDeg * math.Pi / 180)
	u := vec{ts * s, ts * c, tc}
	root := vec{trunk * s, trunk * c, float64(p.Height)}
	for _, v := range x {
		if v.sub(root).dot(u) < length-slackOfReferee {
			return true
		}
	}
	return false
}
