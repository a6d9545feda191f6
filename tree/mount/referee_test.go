package mount

import (
	"fmt"
	"math"
	"testing"
)

// The referee knows nothing of the search: it takes the meshes as given, moves
// them by the printed transforms, draws the feeders from the printed numbers, and
// measures triangle against triangle.

type tri [3]vec

func segmentDistance(p, q, r, s vec) float64 {
	// nearest points of two segments by trying the four ends and the two lines
	best := math.Min(math.Min(pointSegment(p, r, s), pointSegment(q, r, s)), math.Min(pointSegment(r, p, q), pointSegment(s, p, q)))
	d1, d2, w := q.sub(p), s.sub(r), p.sub(r)
	a, b, c, d, e := d1.dot(d1), d1.dot(d2), d2.dot(d2), d1.dot(w), d2.dot(w)
	if den := a*c - b*b; den > 1e-12*a*c {
		x, y := (b*e-c*d)/den, (a*e-b*d)/den
		if x >= 0 && x <= 1 && y >= 0 && y <= 1 {
			best = math.Min(best, p.along(x, d1).sub(r.along(y, d2)).length())
		}
	}
	return best
}

func pointSegment(p, a, b vec) float64 {
	d := b.sub(a)
	t := 0.0
	if l := d.dot(d); l > 0 {
		t = math.Max(0, math.Min(1, p.sub(a).dot(d)/l))
	}
	return p.sub(a.along(t, d)).length()
}

// pointTriangle is the distance of a point above a triangle, or infinite where its
// foot lies outside; the edges are looked at elsewhere.
func pointTriangle(p vec, t tri) float64 {
	n := t[1].sub(t[0]).cross(t[2].sub(t[0]))
	if n.length() < 1e-12 {
		return math.Inf(1)
	}
	n = n.unit()
	for k := range 3 {
		if t[(k+1)%3].sub(t[k]).cross(p.sub(t[k])).dot(n) < 0 {
			return math.Inf(1)
		}
	}
	return math.Abs(p.sub(t[0]).dot(n))
}

func crosses(p, q vec, t tri) bool {
	n := t[1].sub(t[0]).cross(t[2].sub(t[0]))
	a, b := p.sub(t[0]).dot(n), q.sub(t[0]).dot(n)
	if a*b > 0 || a == b {
		return false
	}
	x := p.along(a/(a-b), q.sub(p))
	for k := range 3 {
		if t[(k+1)%3].sub(t[k]).cross(x.sub(t[k])).dot(n) < 0 {
			return false
		}
	}
	return true
}

func triangleDistance(a, b tri) float64 {
	best := math.Inf(1)
	for i := range 3 {
		for j := range 3 {
			best = math.Min(best, segmentDistance(a[i], a[(i+1)%3], b[j], b[(j+1)%3]))
		}
		best = math.Min(best, math.Min(pointTriangle(a[i], b), pointTriangle(b[i], a)))
		if crosses(a[i], a[(i+1)%3], b) || crosses(b[i], b[(i+1)%3], a) {
			return 0
		}
	}
	return best
}

func (t tri) ball() (vec, float64) {
	m := t[0].add(t[1]).add(t[2]).times(1.0 / 3)
	return m, math.Max(t[0].sub(m).length(), math.Max(t[1].sub(m).length(), t[2].sub(m).length()))
}

func limits(a []tri) (lo, hi vec) {
	lo, hi = vec{math.Inf(1), math.Inf(1), math.Inf(1)}, vec{math.Inf(-1), math.Inf(-1), math.Inf(-1)}
	for _, x := range a {
		for _, c := range x {
			for k := range 3 {
				lo[k], hi[k] = math.Min(lo[k], c[k]), math.Max(hi[k], c[k])
			}
		}
	}
	return lo, hi
}

func reaches(m vec, r float64, lo, hi vec) bool {
	for k := range 3 {
		if m[k]+r < lo[k] || m[k]-r > hi[k] {
			return false
		}
	}
	return true
}

// atLeast looks for two triangles nearer than gap.
func atLeast(a, b []tri, gap float64) (float64, bool) {
	loA, hiA := limits(a)
	loB, hiB := limits(b)
	for k := range 3 {
		if loA[k] > hiB[k]+gap || loB[k] > hiA[k]+gap {
			return 0, true
		}
	}
	type ball struct {
		tri
		middle vec
		radius float64
	}
	var near []ball // those of b that can matter at all
	for _, y := range b {
		if m, r := y.ball(); reaches(m, r+gap, loA, hiA) {
			near = append(near, ball{y, m, r})
		}
	}
	for _, x := range a {
		mx, rx := x.ball()
		if !reaches(mx, rx+gap, loB, hiB) {
			continue
		}
		for _, y := range near {
			if d, far := mx.sub(y.middle), gap+rx+y.radius; d.dot(d) >= far*far {
				continue
			}
			if d := triangleDistance(x, y.tri); d < gap {
				return d, false
			}
		}
	}
	return 0, true
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
