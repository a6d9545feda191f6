package pattern

// A shell is a connected piece of closed skin: one solid, or the skin of a
// hollow.
type shell struct {
	body   int32
	faces  int
	volume float64 // signed, after turning
	box    Box
	turned bool
	cavity bool
	// buried is the share of its skin that lies inside solids of the same body.
	buried float64
	unsure bool
}

// leastShell is the share of the outer box below which a closed piece is
// taken for scrap, such as two faces back to back, and not for a solid.
const leastShell = 1e-10

// split finds the shells. At an edge that more than two faces use, the first
// forward use is paired with the first backward one and so on, in the order of
// the file, so that solids that touch along an edge, or lie on top of each
// other, stay apart and each closes by itself.
func (c *chain) split(t *edgeTable, s *soundness) {
	group := newUnions(len(c.faces))
	t.each(func(_ int32, uses []edgeUse) {
		if len(uses) == 2 {
			group.join(uses[0].face(), uses[1].face())
			return
		}
		back := 0
		for _, u := range uses {
			if !u.forward() {
				continue
			}
			for back < len(uses) && uses[back].forward() {
				back++
			}
			if back < len(uses) {
				group.join(u.face(), uses[back].face())
				back++
			}
		}
	})
	centre := boxOf(c.points).centre()
	s.shellOf = make([]int32, len(c.faces))
	for i, f := range c.faces {
		root := group.find(int32(i))
		if root == int32(i) {
			s.shellOf[i] = int32(len(s.shells))
			p := Point(c.points[f[0]])
			s.shells = append(s.shells, shell{body: c.bodyOf(i), box: Box{p, p}})
		} else {
			s.shellOf[i] = s.shellOf[root]
		}
		h := &s.shells[s.shellOf[i]]
		h.faces++
		h.volume += tetra(c.points, f, centre) / 6
		for _, p := range f {
			for k, v := range c.points[p] {
				h.box.Min[k] = min(h.box.Min[k], v)
				h.box.Max[k] = max(h.box.Max[k], v)
			}
		}
	}
}

// turn turns all faces of the marked shells, and their volume with them.
func (c *chain) turn(s *soundness, which []bool) {
	faces := append([][3]int32(nil), c.faces...)
	for i := range faces {
		if which[s.shellOf[i]] {
			faces[i][1], faces[i][2] = faces[i][2], faces[i][1]
		}
	}
	c.faces = faces
	for k, w := range which {
		if w {
			s.shells[k].volume = -s.shells[k].volume
			s.shells[k].turned = !s.shells[k].turned
		}
	}
}
