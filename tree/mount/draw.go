package mount

import (
	"math"
	"sort"

	"castweek/metal/measure"
)

// A Spot is a point of a drawing in millimetres, in the tree's own scale.
type Spot struct{ X, Y measure.MM }

// A Silhouette is one casting as a drawing shows it: closed polygons of the casting
// and of its feeders (empty when the feeder is part of the mesh).
type Silhouette struct {
	ID      string
	Level   int
	Hour    float64
	Outline []Spot
	Feeder  []Spot
	Middle  Spot       // of the outline, where an id may stand
	Depth   measure.MM // of the casting's middle towards the viewer; negative behind the trunk
}

// A LevelPlan is one level seen from the top: 12 o'clock is +Y, 3 o'clock +X.
type LevelPlan struct {
	Level
	Castings []Silhouette
}

// drawSlices is the number of slices across a casting from which a silhouette is
// drawn, and tidy how far a corner may lie off a straight line to be left out, mm.
const (
	drawSlices = 28
	tidy       = 0.05
)

// Side gives the silhouettes as seen from an hour mark, those farthest from the
// viewer first. X runs to the viewer's right from the axis of the trunk, Y up the
// trunk from the button.
func (t Tree) Side(from float64) []Silhouette {
	s, c := math.Sincos(from * math.Pi / 6)
	right, front := vec{-c, s, 0}, vec{s, c, 0}
	out := make([]Silhouette, len(t.Placements))
	for i := range t.Placements {
		out[i] = t.silhouette(i, right, vec{0, 0, 1}, front)
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Depth < out[j].Depth })
	return out
}

// Plans gives every level as seen from the top.
func (t Tree) Plans() []LevelPlan {
	out := make([]LevelPlan, len(t.Levels))
	for i, l := range t.Levels {
		out[i].Level = l
		for k, p := range t.Placements {
			if p.Level == l.Number {
				out[i].Castings = append(out[i].Castings, t.silhouette(k, vec{1, 0, 0}, vec{0, 1, 0}, vec{0, 0, 1}))
			}
		}
	}
	return out
}

// TrunkSide is the trunk seen from the side, in the coordinates of [Tree.Side].
func (t Tree) TrunkSide() []Spot {
	r := t.TrunkDiameter / 2
	return []Spot{{-r, 0}, {r, 0}, {r, t.TrunkLength}, {-r, t.TrunkLength}}
}

// Limits gives, in the coordinates of [Tree.Side], the box that no casting leaves:
// half its width and its lower and upper edge.
func (t Tree) Limits() (half, bottom, top measure.MM) {
	return measure.MM(t.room.outer), measure.MM(t.room.bottom), measure.MM(t.room.top)
}

// silhouette projects casting i on the plane of the directions x and y.
func (t Tree) silhouette(i int, x, y, front vec) Silhouette {
	p, h := t.Placements[i], t.hung[i]
	m := p.Transform
	project := func(q vec) [2]float64 {
		at := vec{}
		for k := range 3 {
			at[k] = m[k][0]*q[0] + m[k][1]*q[1] + m[k][2]*q[2] + m[k][3]
		}
		return [2]float64{at.dot(x), at.dot(y)}
	}
	sin, cos := math.Sincos(p.Hour * math.Pi / 6)
	world := func(q vec) vec {
		return vec{q[0]*sin - q[1]*cos, q[0]*cos + q[1]*sin, q[2] + float64(p.Height)}
	}
	u, _, _ := axes(h.tilt)
	along := world(u).sub(world(vec{}))
	s := Silhouette{ID: p.ID, Level: p.Level, Hour: p.Hour, Depth: measure.MM(world(h.middle).dot(front))}
	b := h.body
	if len(b.Faces) > 0 {
		points := make([][2]float64, len(b.Points))
		for k, q := range b.Points {
			points[k] = project(q)
		}
		s.Outline = sliced(points, b.Faces, [2]float64{along.dot(x), along.dot(y)})
	} else {
		var points [][2]float64
		for _, q := range b.traced.whole.corners {
			points = append(points, project(q))
		}
		s.Outline = around(points)
	}
	lo, hi := s.Outline[0], s.Outline[0]
	for _, q := range s.Outline {
		lo, hi = Spot{min(lo.X, q.X), min(lo.Y, q.Y)}, Spot{max(hi.X, q.X), max(hi.Y, q.Y)}
	}
	s.Middle = Spot{(lo.X + hi.X) / 2, (lo.Y + hi.Y) / 2}
	if !p.FeederInMesh {
		var points [][2]float64
		for _, c := range h.feeder.corners {
			q := world(c)
			for k := range 12 { // round ends, drawn as far as the eye can tell
				es, ec := math.Sincos(float64(k) * math.Pi / 6)
				points = append(points, [2]float64{q.dot(x) + h.feeder.pad*ec, q.dot(y) + h.feeder.pad*es})
			}
		}
		s.Feeder = around(points)
	}
	return s
}

// sliced is the outline of a projected mesh as slices across a direction show it:
// in every slice from its least to its greatest extent. It holds the projection to
// within a slice's thickness; a hole is filled.
func sliced(points [][2]float64, faces [][3]int32, e [2]float64) []Spot {
	l := math.Hypot(e[0], e[1])
	if l < 0.2 { // the casting points at the viewer
		e, l = [2]float64{0, 1}, 1
	}
	e = [2]float64{e[0] / l, e[1] / l}
	at := func(p [2]float64) (along, across float64) { return p[0]*e[0] + p[1]*e[1], p[1]*e[0] - p[0]*e[1] }
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range points {
		a, _ := at(p)
		lo, hi = math.Min(lo, a), math.Max(hi, a)
	}
	step := math.Max((hi-lo)/drawSlices, 1e-6)
	var left, right [drawSlices + 1]float64
	for k := range left {
		left[k], right[k] = math.Inf(1), math.Inf(-1)
	}
	mark := func(k int, across float64) {
		left[k], right[k] = math.Min(left[k], across), math.Max(right[k], across)
	}
	for _, f := range faces {
		for k := range 3 {
			a0, c0 := at(points[f[k]])
			a1, c1 := at(points[f[(k+1)%3]])
			mark(int(math.Round((a0-lo)/step)), c0) // a corner belongs to the nearest slice
			if a0 > a1 {
				a0, c0, a1, c1 = a1, c1, a0, c0
			}
			for n := int(math.Ceil((a0 - lo) / step)); n <= drawSlices && lo+float64(n)*step <= a1; n++ {
				if a1 > a0 {
					mark(n, c0+(c1-c0)*(lo+float64(n)*step-a0)/(a1-a0))
				}
			}
		}
	}
	var out []Spot
	spot := func(n int, across float64) {
		a := lo + float64(n)*step
		out = append(out, Spot{measure.MM(a*e[0] - across*e[1]), measure.MM(a*e[1] + across*e[0])})
	}
	for n := 0; n <= drawSlices; n++ {
		if right[n] >= left[n] {
			spot(n, right[n])
		}
	}
	for n := drawSlices; n >= 0; n-- {
		if right[n] >= left[n] {
			spot(n, left[n])
		}
	}
	return straighten(out)
}

// around is the convex polygon round points, against the clock (A. M. Andrew,
// Another efficient algorithm for convex hulls in two dimensions, 1979).
func around(points [][2]float64) []Spot {
	p := append([][2]float64(nil), points...)
	sort.Slice(p, func(i, j int) bool {
		if p[i][0] != p[j][0] {
			return p[i][0] < p[j][0]
		}
		return p[i][1] < p[j][1]
	})
	half := func(step int) []Spot {
		var h [][2]float64
		for k := range p {
			q := p[k]
			if step < 0 {
				q = p[len(p)-1-k]
			}
			for n := len(h); n >= 2; n = len(h) {
				a, b := h[n-2], h[n-1]
				if (b[0]-a[0])*(q[1]-a[1])-(b[1]-a[1])*(q[0]-a[0]) > 0 {
					break
				}
				h = h[:n-1]
			}
			h = append(h, q)
		}
		var out []Spot
		for _, q := range h[:max(1, len(h)-1)] {
			out = append(out, Spot{measure.MM(q[0]), measure.MM(q[1])})
		}
		return out
	}
	return append(half(1), half(-1)...)
}

// straighten leaves out corners that lie on a straight line between their neighbours.
func straighten(in []Spot) []Spot {
	var out []Spot
	for i, q := range in {
		a, b := in[(i+len(in)-1)%len(in)], in[(i+1)%len(in)]
		if len(out) > 0 {
			a = out[len(out)-1]
		}
		dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
		off := math.Abs(dx*float64(q.Y-a.Y) - dy*float64(q.X-a.X))
		if l := math.Hypot(dx, dy); l == 0 || off > tidy*l {
			out = append(out, q)
		}
	}
	if len(out) < 3 {
		return in
	}
	return out
}
