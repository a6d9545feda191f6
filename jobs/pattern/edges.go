package pattern

import "slices"

// A chain is a set of faces on numbered points: what the repairs work on.
type chain struct {
	points [][3]float64
	faces  [][3]int32
	body   []int32 // body of each face; nil when there is one
}

func (c *chain) bodyOf(face int) int32 {
	if c.body == nil {
		return 0
	}
	return c.body[face]
}

// edgeTable lists, for each undirected edge, the half-edges that use it.
// Half-edge 3f+k runs from corner k of face f to the next corner.
type edgeTable struct {
	start []uint32 // where the edges of each lower point begin in uses
	uses  []edgeUse
}

// edgeUse is one use of an edge: the edge's higher point, and the half-edge
// with the direction in its lowest bit (1: from the lower to the higher point).
type edgeUse struct {
	high int32
	half uint32
}

func (u edgeUse) face() int32   { return int32(u.half >> 1 / 3) }
func (u edgeUse) forward() bool { return u.half&1 == 1 }

// newEdgeTable sorts the half-edges by their lower point (counting sort), then
// each short list by the higher one.
func newEdgeTable(c *chain) *edgeTable {
	t := &edgeTable{start: make([]uint32, len(c.points)+1), uses: make([]edgeUse, 3*len(c.faces))}
	for _, f := range c.faces {
		t.start[min(f[0], f[1])]++
		t.start[min(f[1], f[2])]++
		t.start[min(f[2], f[0])]++
	}
	sum := uint32(0)
	for i, n := range t.start {
		sum += n
		t.start[i] = sum
	}
	for i := len(c.faces) - 1; i >= 0; i-- {
		f := &c.faces[i]
		for k := 2; k >= 0; k-- {
			a, b := f[k], f[(k+1)%3]
			half := uint32(3*i+k) << 1
			if a < b {
				half |= 1
			} else {
				a, b = b, a
			}
			t.start[a]--
			t.uses[t.start[a]] = edgeUse{b, half}
		}
	}
	inParallel(len(c.points), func(from, to int) {
		for p := from; p < to; p++ {
			sortUses(t.uses[t.start[p]:t.start[p+1]])
		}
	})
	return t
}

// sortUses orders by the higher point, then by half-edge. Most lists have
// about three entries; a hub of many spokes must not cost the square.
func sortUses(u []edgeUse) {
	less := func(a, b edgeUse) int {
		if a.high != b.high {
			return int(a.high) - int(b.high)
		}
		return int(a.half) - int(b.half)
	}
	if len(u) > 24 {
		slices.SortFunc(u, less)
		return
	}
	for i := 1; i < len(u); i++ {
		x := u[i]
		j := i
		for ; j > 0 && (u[j-1].high > x.high || u[j-1].high == x.high && u[j-1].half > x.half); j-- {
			u[j] = u[j-1]
		}
		u[j] = x
	}
}

// each calls do for every edge, in a fixed order.
func (t *edgeTable) each(do func(low int32, uses []edgeUse)) {
	for p := range len(t.start) - 1 {
		list := t.uses[t.start[p]:t.start[p+1]]
		for len(list) > 0 {
			n := 1
			for n < len(list) && list[n].high == list[0].high {
				n++
			}
			do(int32(p), list[:n])
			list = list[n:]
		}
	}
}

// net is how often the edge is used forward more than backward.
func net(uses []edgeUse) int {
	n := 0
	for _, u := range uses {
		if u.forward() {
			n++
		} else {
			n--
		}
	}
	return n
}

// unions is a union-find over faces or points.
type unions []int32

func newUnions(n int) unions {
	u := make(unions, n)
	for i := range u {
		u[i] = int32(i)
	}
	return u
}

func (u unions) find(a int32) int32 {
	for u[a] != a {
		u[a] = u[u[a]]
		a = u[a]
	}
	return a
}

// join keeps the lower number as the root, so that the result does not depend
// on the order.
func (u unions) join(a, b int32) {
	a, b = u.find(a), u.find(b)
	if a < b {
		u[b] = a
	} else {
		u[a] = b
	}
}
