package pattern

// A Mesh is a pattern as read: points in mm, equal points joined, and faces
// that name three points each, anticlockwise seen from outside.
type Mesh struct {
	Name   string
	Points [][3]float64
	Faces  [][3]int32

	format     string
	unit       Unit
	body       []int32 // body of each face; nil when there is only one
	bodies     int
	degenerate int // faces that name a point twice; dropped
	grain      float64
	forward    int // stated normals looked at that agree with the order of the points
	backward   int // and that do not
	notes      []note
}

// A note is a remark of the reader, kept until the report is made.
type note struct{ code, message, remedy string }

// Unit is the unit that the file's numbers were taken to be in.
func (m *Mesh) Unit() Unit { return m.unit }

// Box is the outer box of all points in use.
func (m *Mesh) Box() Box { return boxOf(m.Points) }

func boxOf(points [][3]float64) Box {
	if len(points) == 0 {
		return Box{}
	}
	b := Box{Point(points[0]), Point(points[0])}
	for _, p := range points[1:] {
		for k, v := range p {
			b.Min[k], b.Max[k] = min(b.Min[k], v), max(b.Max[k], v)
		}
	}
	return b
}

// signedVolume is the sum of the tetrahedra between each face and c: the
// volume inside a closed surface, negative when it is inside out
// (divergence theorem; any c gives the same when the surface closes).
func signedVolume(points [][3]float64, faces [][3]int32, c Point) float64 {
	sum := 0.0
	for _, f := range faces {
		sum += tetra(points, f, c)
	}
	return sum / 6
}

// tetra is six times the signed volume between the face and c.
func tetra(points [][3]float64, f [3]int32, c Point) float64 {
	p, q, r := &points[f[0]], &points[f[1]], &points[f[2]]
	ax, ay, az := p[0]-c[0], p[1]-c[1], p[2]-c[2]
	bx, by, bz := q[0]-c[0], q[1]-c[1], q[2]-c[2]
	cx, cy, cz := r[0]-c[0], r[1]-c[1], r[2]-c[2]
	return ax*(by*cz-bz*cy) + ay*(bz*cx-bx*cz) + az*(bx*cy-by*cx)
}

// areaVector is the normal of the face, as long as the face is large.
func areaVector(points [][3]float64, f [3]int32) Point {
	p, q, r := Point(points[f[0]]), Point(points[f[1]]), Point(points[f[2]])
	return q.sub(p).cross(r.sub(p)).scale(0.5)
}
