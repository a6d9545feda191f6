package mount

import "math"

// A piece is a convex body: the hull of its corners, padded all round by pad.
type piece struct {
	corners []vec
	pad     float64
	middle  vec     // of the sphere that holds the corners
	radius  float64 // of that sphere
	volume  float64 // of the hull of the corners
	surface float64
	long    float64 // from end to end of the corners
}

func newPiece(corners []vec, pad float64) piece {
	p := piece{corners: corners, pad: pad}
	lo, hi := corners[0], corners[0]
	for _, c := range corners {
		for k := range c {
			lo[k], hi[k] = math.Min(lo[k], c[k]), math.Max(hi[k], c[k])
		}
	}
	p.middle = lo.add(hi).times(0.5)
	for _, c := range corners {
		p.radius = math.Max(p.radius, c.sub(p.middle).length())
	}
	return p
}

// facet is a triangle of a growing hull. outside holds the points that lie
// beyond its plane and were given to it; next are the facets across its edges.
type facet struct {
	a, b, c int
	normal  vec
	offset  float64
	next    [3]int // across ab, bc, ca
	outside []int
	far     float64 // of the points outside from the triangle, once it is settled
	gone    bool
}

// A hull is the convex hull of points, coarsened: every point lies within pad of
// the hull of corners.
type hull struct {
	corners []vec
	faces   [][3]int
	pad     float64
}

func (h hull) piece() piece {
	p := newPiece(h.corners, h.pad)
	p.volume, p.surface, p.long = h.volume(), h.surface(), diameterOf(h.corners)
	return p
}

// Points nearer to a facet than hullRoundOff times the size of the body count as
// lying on it.
const hullRoundOff = 1e-10

// hullOf grows the hull from a tetrahedron, each time by the point farthest
// beyond a facet (Barber, Dobkin and Huhdanpaa, The quickhull algorithm for
// convex hulls, ACM TOMS 22 (1996)), and leaves out points within coarse of it.
// Points in one plane, on a line or at one spot give their bounding box.
func hullOf(points []vec, coarse float64) hull {
	g, ok := startHull(points)
	if !ok {
		return boxHull(points)
	}
	for i := 0; i < len(g.facets); i++ {
		if eye := g.farOutside(i, coarse); eye >= 0 && !g.grow(i, eye) {
			return boxHull(points) // an outline of facets that is not one ring: round-off won
		}
	}
	return g.result()
}

type growingHull struct {
	points []vec
	facets []facet
	eps    float64
}

// startHull finds four corners that are far from lying in a plane.
func startHull(points []vec) (*growingHull, bool) {
	var ends [6]int
	for i, p := range points {
		for k := range 3 {
			if p[k] < points[ends[2*k]][k] {
				ends[2*k] = i
			}
			if p[k] > points[ends[2*k+1]][k] {
				ends[2*k+1] = i
			}
		}
	}
	a, b, far := 0, 0, 0.0
	for _, i := range ends {
		for _, j := range ends {
			if d := points[i].sub(points[j]).length(); d > far {
				a, b, far = i, j, d
			}
		}
	}
	g := &growingHull{points: points, eps: hullRoundOff * far}
	flat := 1e-6 * far
	if far == 0 {
		return nil, false
	}
	ab := points[b].sub(points[a]).unit()
	c, wide := farthestOf(points, func(p vec) float64 { return p.sub(points[a]).cross(ab).length() })
	if wide <= flat {
		return nil, false
	}
	n := ab.cross(points[c].sub(points[a])).unit()
	d, high := farthestOf(points, func(p vec) float64 { return math.Abs(p.sub(points[a]).dot(n)) })
	if high <= flat {
		return nil, false
	}
	if points[d].sub(points[a]).dot(n) > 0 {
		b, c = c, b
	}
	for _, t := range [][3]int{{a, b, c}, {a, d, b}, {b, d, c}, {c, d, a}} {
		g.facets = append(g.facets, g.newFacet(t[0], t[1], t[2]))
	}
	for i, n := range [][3]int{{1, 2, 3}, {3, 2, 0}, {1, 3, 0}, {2, 1, 0}} {
		g.facets[i].next = n
	}
	all := make([]int, len(points))
	for i := range all {
		all[i] = i
	}
	g.share(all, 0)
	return g, true
}

func farthestOf(points []vec, far func(vec) float64) (int, float64) {
	best, most := 0, -1.0
	for i, p := range points {
		if d := far(p); d > most {
			best, most = i, d
		}
	}
	return best, most
}

func (g *growingHull) newFacet(a, b, c int) facet {
	pa := g.points[a]
	n := g.points[b].sub(pa).cross(g.points[c].sub(pa)).unit()
	return facet{a: a, b: b, c: c, normal: n, offset: n.dot(pa)}
}

// share gives each point to the first facet from the one given that it lies beyond.
func (g *growingHull) share(points []int, from int) {
	for _, i := range points {
		p := g.points[i]
		for j := from; j < len(g.facets); j++ {
			f := &g.facets[j]
			if f.normal.dot(p)-f.offset > g.eps {
				f.outside = append(f.outside, i)
				break
			}
		}
	}
}

// farOutside is the point farthest beyond a facet, or -1 when all its points are
// within coarse of the triangle itself. The distance to the plane alone would not
// do: near a sharp edge a point may be close to both planes and far from the body.
func (g *growingHull) farOutside(i int, coarse float64) int {
	f := &g.facets[i]
	if f.gone {
		return -1
	}
	eye, far := -1, 0.0
	for _, k := range f.outside {
		if d := f.normal.dot(g.points[k]) - f.offset; d > far {
			eye, far = k, d
		}
	}
	if far > coarse {
		return eye
	}
	f.far = 0
	for _, k := range f.outside {
		if f.far = math.Max(f.far, g.apartFrom(f, k)); f.far > coarse {
			return eye
		}
	}
	return -1
}

func (g *growingHull) apartFrom(f *facet, k int) float64 {
	p := g.points[k]
	s := simplex{n: 3}
	s.at[0], s.at[1], s.at[2] = g.points[f.a].sub(p), g.points[f.b].sub(p), g.points[f.c].sub(p)
	return s.nearest().length()
}

// grow replaces the facets that the eye sees by a cone from their outline.
func (g *growingHull) grow(first, eye int) bool {
	p := g.points[eye]
	seen := []int{first}
	g.facets[first].gone = true
	type edge struct{ from, to, across int }
	var rim []edge
	for k := 0; k < len(seen); k++ {
		f := g.facets[seen[k]]
		ends := [4]int{f.a, f.b, f.c, f.a}
		for e, n := range f.next {
			switch o := &g.facets[n]; {
			case o.gone:
			case o.normal.dot(p)-o.offset > g.eps:
				o.gone = true
				seen = append(seen, n)
			default:
				rim = append(rim, edge{ends[e], ends[e+1], n})
			}
		}
	}
	// A facet met as unseen may have been taken later: its edges are no rim then.
	kept := rim[:0]
	for _, e := range rim {
		if !g.facets[e.across].gone {
			kept = append(kept, e)
		}
	}
	rim = kept
	begin := len(g.facets)
	startsAt := make(map[int]int, len(rim))
	for k, e := range rim {
		if _, twice := startsAt[e.from]; twice {
			return false
		}
		startsAt[e.from] = k
	}
	for _, e := range rim {
		f := g.newFacet(e.from, e.to, eye)
		after, ok := startsAt[e.to]
		if !ok {
			return false
		}
		f.next = [3]int{e.across, begin + after, -1}
		g.facets = append(g.facets, f)
		o := &g.facets[e.across]
		ends := [4]int{o.a, o.b, o.c, o.a}
		for x := range o.next {
			if ends[x] == e.to && ends[x+1] == e.from {
				o.next[x] = len(g.facets) - 1
			}
		}
	}
	for k, e := range rim {
		g.facets[begin+startsAt[e.to]].next[2] = begin + k
	}
	for _, k := range seen {
		g.share(g.facets[k].outside, begin)
		g.facets[k].outside = nil
	}
	return true
}

// result renumbers the corners in use and measures how far a point lies outside.
func (g *growingHull) result() hull {
	var h hull
	number := make(map[int]int)
	at := func(i int) int {
		n, ok := number[i]
		if !ok {
			n = len(h.corners)
			number[i] = n
			h.corners = append(h.corners, g.points[i])
		}
		return n
	}
	for i := range g.facets {
		f := &g.facets[i]
		if f.gone {
			continue
		}
		h.faces = append(h.faces, [3]int{at(f.a), at(f.b), at(f.c)})
		h.pad = math.Max(h.pad, f.far)
	}
	return h
}

// boxHull is the bounding box of the points, thickened by a hair where it is flat.
func boxHull(points []vec) hull {
	lo, hi := points[0], points[0]
	for _, c := range points {
		for k := range c {
			lo[k], hi[k] = math.Min(lo[k], c[k]), math.Max(hi[k], c[k])
		}
	}
	const hair = 1e-3
	for k := range lo {
		if hi[k]-lo[k] < hair {
			lo[k], hi[k] = lo[k]-hair/2, hi[k]+hair/2
		}
	}
	return box(lo, hi)
}

// box is the hull with the corners lo and hi.
func box(lo, hi vec) hull {
	h := hull{corners: make([]vec, 8)}
	for i := range h.corners {
		for k := range 3 {
			h.corners[i][k] = lo[k]
			if i>>k&1 == 1 {
				h.corners[i][k] = hi[k]
			}
		}
	}
	for _, q := range [][4]int{{0, 2, 3, 1}, {4, 5, 7, 6}, {0, 1, 5, 4}, {2, 6, 7, 3}, {0, 4, 6, 2}, {1, 3, 7, 5}} {
		h.faces = append(h.faces, [3]int{q[0], q[1], q[2]}, [3]int{q[0], q[2], q[3]})
	}
	return h
}
