package pattern

// duplicates counts faces that repeat another one, with the same points and
// the same side outward.
func (c *chain) duplicates() (int, []Point) {
	n := 0
	var at []Point
	c.eachDuplicate(func(face int32) {
		n++
		if len(at) < 1000 {
			at = append(at, c.middle(face))
		}
	})
	return n, at
}

func (c *chain) middle(face int32) Point {
	f := c.faces[face]
	return Point(c.points[f[0]]).add(c.points[f[1]]).add(c.points[f[2]]).scale(1. / 3)
}

// turned writes the face with its lowest point first, keeping the side.
func turned(f [3]int32) [3]int32 {
	switch min(f[0], f[1], f[2]) {
	case f[1]:
		return [3]int32{f[1], f[2], f[0]}
	case f[2]:
		return [3]int32{f[2], f[0], f[1]}
	}
	return f
}

// eachDuplicate walks the faces in lists by their lowest point, so that only
// faces of one list are compared.
func (c *chain) eachDuplicate(do func(face int32)) {
	head := make([]int32, len(c.points))
	next := make([]int32, len(c.faces))
	for i := range c.faces {
		f := turned(c.faces[i])
		steps := 0
		for j := head[f[0]]; j > 0; j = next[j-1] {
			if g := turned(c.faces[j-1]); g == f && c.bodyOf(int(j-1)) == c.bodyOf(i) {
				do(int32(i))
				break
			}
			// A hub of thousands of faces is not searched to the end.
			if steps++; steps > 512 {
				break
			}
		}
		next[i] = head[f[0]]
		head[f[0]] = int32(i) + 1
	}
}

// dropDuplicates drops groups of double faces that touch an unbalanced edge. A
// doubled solid, which closes, is left alone: the union counts it once anyway.
func (c *chain) dropDuplicates(t *edgeTable) bool {
	double := make([]bool, len(c.faces))
	c.eachDuplicate(func(face int32) { double[face] = true })
	group := newUnions(len(c.faces))
	t.each(func(_ int32, uses []edgeUse) {
		first := int32(-1)
		for _, u := range uses {
			if f := u.face(); double[f] {
				if first < 0 {
					first = f
				} else {
					group.join(first, f)
				}
			}
		}
	})
	drop := map[int32]bool{}
	t.each(func(_ int32, uses []edgeUse) {
		if net(uses) == 0 {
			return
		}
		for _, u := range uses {
			if double[u.face()] {
				drop[group.find(u.face())] = true
			}
		}
	})
	if len(drop) == 0 {
		return false
	}
	kept := make([][3]int32, 0, len(c.faces))
	var body []int32
	for i, f := range c.faces {
		if double[i] && drop[group.find(int32(i))] {
			continue
		}
		kept = append(kept, f)
		if c.body != nil {
			body = append(body, c.body[i])
		}
	}
	c.faces, c.body = kept, body
	return true
}

// turnFlipped gives each connected piece of skin one orientation: neighbours
// across an edge that just two faces use must run along it in opposite
// directions. The smaller part of a piece that disagrees is turned.
func (c *chain) turnFlipped(t *edgeTable, s *soundness) {
	p := parities{root: newUnions(len(c.faces)), odd: make([]bool, len(c.faces))}
	t.each(func(_ int32, uses []edgeUse) {
		if len(uses) == 2 && !p.join(uses[0].face(), uses[1].face(), uses[0].forward() == uses[1].forward()) {
			s.oneSided++
		}
	})
	var even, odd = make([]int32, len(c.faces)), make([]int32, len(c.faces))
	for i := range c.faces {
		root, o := p.find(int32(i))
		if o {
			odd[root]++
		} else {
			even[root]++
		}
	}
	faces := append([][3]int32(nil), c.faces...)
	for i := range faces {
		root, o := p.find(int32(i))
		if odd[root] == 0 || even[root] == 0 || o != (odd[root] <= even[root]) {
			continue
		}
		faces[i][1], faces[i][2] = faces[i][2], faces[i][1]
		s.flipped++
		if len(s.flippedAt) < 1000 {
			s.flippedAt = append(s.flippedAt, c.middle(int32(i)))
		}
	}
	c.faces = faces
}

// parities is a union-find that also knows whether a member is turned against
// its root.
type parities struct {
	root unions
	odd  []bool
}

func (p parities) find(a int32) (int32, bool) {
	odd := false
	for p.root[a] != a {
		up := p.root[a]
		// Halve the path: the parity against the grandparent is the sum.
		if p.root[up] != up {
			p.odd[a] = p.odd[a] != p.odd[up]
			p.root[a] = p.root[up]
		}
		odd = odd != p.odd[a]
		a = p.root[a]
	}
	return a, odd
}

// join says whether the two faces can agree.
func (p parities) join(a, b int32, differ bool) bool {
	ra, oa := p.find(a)
	rb, ob := p.find(b)
	if ra == rb {
		return (oa != ob) == differ
	}
	if ra > rb {
		ra, rb = rb, ra
	}
	p.root[rb] = ra
	p.odd[rb] = (oa != ob) != differ
	return true
}

// withoutCopies leaves out shells that repeat another one face by face. The
// union does not need them, and what is left out costs no accuracy.
func (c *chain) withoutCopies(s *soundness) *chain {
	if s.duplicates == 0 {
		return c
	}
	double := make([]int, len(s.shells))
	c.eachDuplicate(func(face int32) { double[s.shellOf[face]]++ })
	out := chain{points: c.points}
	var shellOf []int32
	for i, f := range c.faces {
		k := s.shellOf[i]
		if double[k] == s.shells[k].faces {
			continue
		}
		out.faces = append(out.faces, f)
		shellOf = append(shellOf, k)
		if c.body != nil {
			out.body = append(out.body, c.body[i])
		}
	}
	if len(out.faces) == len(c.faces) {
		return c
	}
	s.shellOf = shellOf
	return &out
}
