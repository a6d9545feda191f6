package pattern

import "math"

// soundness is what the repair of a surface found.
type soundness struct {
	open, nonManifold      int
	duplicates, flipped    int
	joined, holes          int
	junctions              int
	junctionAt             []Point
	oneSided               int // edges at which no orientation can be right
	patched, patchRoom     float64
	asCuts                 float64 // volume if all that may be cuts are
	openAt, manyAt         []Point // middles of the faulty edges
	flippedAt, duplicateAt []Point
	shells                 []shell
	shellOf                []int32
}

// repair makes the surface close, in the order that guesses least: join
// points that are all but equal, drop double faces, cut faces at corners that
// lie on their sides, turn flipped faces, cover holes. Each step is taken only when edges are still unbalanced.
func (c *chain) repair(s *soundness, grain float64) *edgeTable {
	t := newEdgeTable(c)
	s.duplicates, s.duplicateAt = c.duplicates()
	if c.unbalanced(t) > 0 {
		if s.joined = c.joinNear(t, grain); s.joined > 0 {
			t = newEdgeTable(c)
		}
	}
	if s.duplicates > 0 && c.unbalanced(t) > 0 && c.dropDuplicates(t) {
		t = newEdgeTable(c)
	}
	if c.unbalanced(t) > 0 {
		if s.junctions, s.junctionAt = c.splitJunctions(t, grain); s.junctions > 0 {
			t = newEdgeTable(c)
		}
	}
	if c.unbalanced(t) > 0 {
		if c.turnFlipped(t, s); s.flipped > 0 {
			t = newEdgeTable(c)
		}
	}
	s.count(c, t)
	if s.open > 0 {
		c.coverHoles(t, s)
		t = newEdgeTable(c)
	}
	return t
}

// unbalanced counts the edges whose net use is not zero.
func (c *chain) unbalanced(t *edgeTable) int {
	n := 0
	t.each(func(_ int32, uses []edgeUse) {
		if net(uses) != 0 {
			n++
		}
	})
	return n
}

// count finds the edges that stay faulty after all that could be put right
// exactly.
func (s *soundness) count(c *chain, t *edgeTable) {
	t.each(func(low int32, uses []edgeUse) {
		middle := func() Point { return Point(c.points[low]).add(c.points[uses[0].high]).scale(0.5) }
		if net(uses) != 0 {
			s.open++
			s.openAt = append(s.openAt, middle())
		}
		if len(uses) > 2 {
			s.nonManifold++
			s.manyAt = append(s.manyAt, middle())
		}
	})
}

// coverHoles closes each connected group of unbalanced edges with a cone to
// its centroid. The unbalanced edges always form closed cycles, because the
// boundary of a boundary is zero, so no loop has to be traced.
func (c *chain) coverHoles(t *edgeTable, s *soundness) {
	type rim struct {
		from, to, body int32
		times          int
	}
	var rims []rim
	group := newUnions(len(c.points))
	t.each(func(low int32, uses []edgeUse) {
		n := net(uses)
		if n == 0 {
			return
		}
		r := rim{uses[0].high, low, c.bodyOf(int(uses[0].face())), n}
		if n < 0 {
			r.from, r.to, r.times = low, uses[0].high, -n
		}
		rims = append(rims, r)
		group.join(low, uses[0].high)
	})
	type hole struct {
		centre Point
		weight float64
		point  int32
		area   float64
	}
	index := map[int32]int{}
	var holes []hole
	for _, r := range rims {
		g := group.find(r.from)
		k, ok := index[g]
		if !ok {
			k = len(holes)
			index[g] = k
			holes = append(holes, hole{})
		}
		a, b := Point(c.points[r.from]), Point(c.points[r.to])
		w := a.distance(b)
		holes[k].centre = holes[k].centre.add(a.add(b).scale(w / 2))
		holes[k].weight += w
	}
	c.points = append([][3]float64(nil), c.points...)
	for k := range holes {
		h := &holes[k]
		h.centre = h.centre.scale(1 / h.weight)
		h.point = int32(len(c.points))
		c.points = append(c.points, h.centre)
	}
	faces := append(make([][3]int32, 0, len(c.faces)+len(rims)), c.faces...)
	for _, r := range rims {
		h := &holes[index[group.find(r.from)]]
		f := [3]int32{r.from, r.to, h.point}
		h.area += areaVector(c.points, f).length() * float64(r.times)
		for range r.times {
			faces = append(faces, f)
			if c.body != nil {
				c.body = append(c.body, r.body)
			}
		}
	}
	c.faces = faces
	s.holes = len(holes)
	for _, h := range holes {
		s.patched += h.area
		// What the lost skin did over the hole is unknown; it is taken to be no
		// more hollow or proud than half a ball: 2/3 r A with A = pi r².
		s.patchRoom += 2. / 3 * h.area * math.Sqrt(h.area/math.Pi)
	}
}
