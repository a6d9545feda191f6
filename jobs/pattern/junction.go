package pattern

import (
	"cmp"
	"math"
	"slices"
)

// seamShare is how near, as a share of the longest side, a corner must lie to
// an edge of another face to lie on it: 1 µm on a ring of 25 mm.
const seamShare = JoinLimit / 10

// splitJunctions mends T-junctions: a corner that lies on an open edge of
// another face. That face is cut in two there, which moves nothing and adds no
// skin. Edges are cut as long as fewer stay open, at most once a side of each
// face and round. It returns how many corners were met, and where.
func (c *chain) splitJunctions(t *edgeTable, grain float64) (int, []Point) {
	tol := max(seamShare*boxOf(c.points).longest(), 4*grain)
	met := map[int32]bool{}
	for range 3 { // a face has three sides
		trial, cut := c.splitRound(t, tol)
		if len(cut) == 0 {
			break
		}
		next := newEdgeTable(trial)
		if trial.unbalanced(next) >= c.unbalanced(t) {
			break
		}
		*c, t = *trial, next
		for _, p := range cut {
			met[p] = true
		}
	}
	points := make([]int32, 0, len(met))
	for p := range met {
		points = append(points, p)
	}
	slices.Sort(points)
	at := make([]Point, len(points))
	for i, p := range points {
		at[i] = c.points[p]
	}
	return len(points), at
}

// splitRound cuts each face along one of its open sides at the corners of other
// faces that lie on it.
func (c *chain) splitRound(t *edgeTable, tol float64) (*chain, []int32) {
	type side struct {
		low, high int32
		face      int32
	}
	var sides []side
	rim := map[int32]bool{}
	t.each(func(low int32, uses []edgeUse) {
		if net(uses) == 0 {
			return
		}
		rim[low], rim[uses[0].high] = true, true
		for _, u := range uses {
			sides = append(sides, side{low, u.high, u.face()})
		}
	})
	corners := make([]int32, 0, len(rim))
	for p := range rim {
		corners = append(corners, p)
	}
	slices.Sort(corners)
	near := newCorners(c, corners)
	cuts := map[int32][]int32{} // face: the corners on one of its sides, with the side's ends around them
	var cut []int32
	for _, s := range sides {
		if cuts[s.face] != nil {
			continue
		}
		on := near.along(s.low, s.high, c.bodyOf(int(s.face)), tol)
		// The third corner of a sliver lies on its own side.
		on = slices.DeleteFunc(on, func(p int32) bool { return slices.Contains(c.faces[s.face][:], p) })
		if len(on) > 0 {
			cuts[s.face] = append(append([]int32{s.low}, on...), s.high)
			cut = append(cut, on...)
		}
	}
	if len(cut) == 0 {
		return nil, nil
	}
	out := &chain{points: c.points, faces: make([][3]int32, 0, len(c.faces)+len(cut))}
	for i, f := range c.faces {
		parts := [][3]int32{f}
		if on := cuts[int32(i)]; on != nil {
			parts = fan(f, on)
		}
		out.faces = append(out.faces, parts...)
		if c.body != nil {
			for range parts {
				out.body = append(out.body, c.body[i])
			}
		}
	}
	return out, cut
}

// fan cuts a face from the corner opposite the side that the list runs along.
func fan(f [3]int32, on []int32) [][3]int32 {
	for f[0] == on[0] || f[0] == on[len(on)-1] {
		f = [3]int32{f[1], f[2], f[0]}
	}
	if f[1] != on[0] {
		slices.Reverse(on)
	}
	var out [][3]int32
	for i := 1; i < len(on); i++ {
		out = append(out, [3]int32{f[0], on[i-1], on[i]})
	}
	return out
}

// corners finds points near a line, by cells.
type corners struct {
	c    *chain
	size float64
	body []int32
	at   map[[3]int32][]int32
	left int // steps of the search that may still be taken
}

const (
	// cornerCells is how many cells span the longest side.
	cornerCells = 128
	// mostSteps bounds the search along all sides of a round: a soup of loose
	// faces must not cost minutes. Sides beyond it stay open.
	mostSteps = 500_000
)

func newCorners(c *chain, points []int32) *corners {
	n := &corners{c: c, size: boxOf(c.points).longest() / cornerCells, body: c.bodyOfPoints(), at: map[[3]int32][]int32{}, left: mostSteps}
	for _, p := range points {
		k := n.cell(c.points[p])
		n.at[k] = append(n.at[k], p)
	}
	return n
}

func (n *corners) cell(p Point) (k [3]int32) {
	for i, v := range p {
		k[i] = int32(math.Floor(v / n.size))
	}
	return k
}

// along lists the points within tol of the line between two others, in order
// from low to high.
func (n *corners) along(low, high, body int32, tol float64) []int32 {
	a, b := Point(n.c.points[low]), Point(n.c.points[high])
	d := b.sub(a)
	length := d.length()
	if length <= 2*tol {
		return nil
	}
	d = d.scale(1 / length)
	type found struct {
		p     int32
		along float64
	}
	var list []found
	seen := map[[3]int32]bool{}
	// Steps of half a cell, and the neighbours of each, miss no point that lies
	// within half a cell of the line.
	for s := 0.0; n.left > 0; s = min(s+n.size/2, length) {
		n.left--
		home := n.cell(a.add(d.scale(s)))
		for k := range 27 {
			cell := [3]int32{home[0] + int32(k%3) - 1, home[1] + int32(k/3%3) - 1, home[2] + int32(k/9) - 1}
			if seen[cell] {
				continue
			}
			seen[cell] = true
			for _, p := range n.at[cell] {
				v := Point(n.c.points[p]).sub(a)
				along := v.dot(d)
				if p == low || p == high || along <= tol || along >= length-tol || v.sub(d.scale(along)).length() > tol || n.body != nil && n.body[p] != body {
					continue
				}
				list = append(list, found{p, along})
			}
		}
		if s >= length {
			break
		}
	}
	slices.SortFunc(list, func(x, y found) int { return cmp.Or(cmp.Compare(x.along, y.along), cmp.Compare(x.p, y.p)) })
	out := make([]int32, 0, len(list))
	for _, f := range list {
		out = append(out, f.p)
	}
	return out
}
