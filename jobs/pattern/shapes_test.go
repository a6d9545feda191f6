package pattern

import (
	"encoding/binary"
	"math"
	"testing"
)

// A body under test: a closed set of faces on points of its own.
type solid struct {
	points [][3]float64
	faces  [][3]int32
}

// sweepTube sweeps a circle of radius r(s) along a path; closed joins the end
// to the start, otherwise flat caps close it.
func sweepTube(path func(s float64) (Point, float64), along, around int, closed bool, axis Point) solid {
	var b solid
	rows := along
	if !closed {
		rows++
	}
	for i := range rows {
		s := float64(i) / float64(along)
		p, r := path(s)
		const e = 1e-5
		q, _ := path(s + e)
		o, _ := path(s - e)
		t := q.sub(o).unit()
		u := axis.sub(t.scale(axis.dot(t))).unit()
		v := t.cross(u)
		for j := range around {
			sin, cos := math.Sincos(2 * math.Pi * float64(j) / float64(around))
			b.points = append(b.points, p.add(u.scale(r*cos)).add(v.scale(r*sin)))
		}
	}
	at := func(i, j int) int32 { return int32(i%rows*around + j%around) }
	for i := range along {
		for j := range around {
			b.faces = append(b.faces, [3]int32{at(i, j), at(i, j+1), at(i+1, j+1)}, [3]int32{at(i, j), at(i+1, j+1), at(i+1, j)})
		}
	}
	if !closed {
		for _, end := range []int{0, rows - 1} {
			p, _ := path(float64(end) / float64(along))
			m := int32(len(b.points))
			b.points = append(b.points, p)
			for j := range around {
				f := [3]int32{m, at(end, j+1), at(end, j)}
				if end > 0 {
					f[1], f[2] = f[2], f[1]
				}
				b.faces = append(b.faces, f)
			}
		}
	}
	return b.outward()
}

// outward turns the whole solid so that its volume is positive.
func (b solid) outward() solid {
	if signedVolume(b.points, b.faces, Point{}) < 0 {
		return b.inverted()
	}
	return b
}

func (b solid) inverted() solid {
	out := solid{b.points, nil}
	for _, f := range b.faces {
		out.faces = append(out.faces, [3]int32{f[0], f[2], f[1]})
	}
	return out
}

func torus(R, r float64, along, around int) solid {
	return sweepTube(func(s float64) (Point, float64) {
		sin, cos := math.Sincos(2 * math.Pi * s)
		return Point{R * cos, R * sin, 0}, r
	}, along, around, true, Point{0, 0, 1})
}

// ball is a sphere of parallels and meridians.
func ball(r float64, at Point, bands, around int) solid {
	var b solid
	b.points = append(b.points, at.add(Point{0, 0, r}))
	for i := 1; i < bands; i++ {
		s, c := math.Sincos(math.Pi * float64(i) / float64(bands))
		for j := range around {
			y, x := math.Sincos(2 * math.Pi * float64(j) / float64(around))
			b.points = append(b.points, at.add(Point{r * s * x, r * s * y, r * c}))
		}
	}
	b.points = append(b.points, at.sub(Point{0, 0, r}))
	row := func(i, j int) int32 { return int32(1 + (i-1)*around + j%around) }
	last := int32(len(b.points) - 1)
	for j := range around {
		b.faces = append(b.faces, [3]int32{0, row(1, j), row(1, j+1)}, [3]int32{last, row(bands-1, j+1), row(bands-1, j)})
		for i := 1; i < bands-1; i++ {
			b.faces = append(b.faces, [3]int32{row(i, j), row(i+1, j), row(i+1, j+1)}, [3]int32{row(i, j), row(i+1, j+1), row(i, j+1)})
		}
	}
	return b.outward()
}

func box(lo, hi Point) solid {
	var b solid
	for i := range 8 {
		p := lo
		for k := range 3 {
			if i>>k&1 == 1 {
				p[k] = hi[k]
			}
		}
		b.points = append(b.points, p)
	}
	for _, q := range [][4]int32{{0, 2, 3, 1}, {4, 5, 7, 6}, {0, 1, 5, 4}, {2, 6, 7, 3}, {0, 4, 6, 2}, {1, 3, 7, 5}} {
		b.faces = append(b.faces, [3]int32{q[0], q[1], q[2]}, [3]int32{q[0], q[2], q[3]})
	}
	return b.outward()
}

func (b solid) moved(f func(Point) Point) solid {
	out := solid{nil, b.faces}
	for _, p := range b.points {
		out.points = append(out.points, f(p))
	}
	return out
}

func (b solid) shifted(by Point) solid { return b.moved(by.add) }

func (b solid) spun(i, j int, angle float64) solid {
	s, c := math.Sincos(angle)
	return b.moved(func(p Point) Point {
		p[i], p[j] = c*p[i]-s*p[j], s*p[i]+c*p[j]
		return p
	})
}

// ring is a shank, a collar, a bearer and four claws, all closed and run into
// each other without being united. About 92 n² + … faces.
func ring(n int) []solid {
	parts := []solid{torus(9.6, 1.1, 24*n, 8*n)}
	parts = append(parts, sweepTube(func(s float64) (Point, float64) { return Point{0, 9.6 + 2.2*s, 0}, 2.2 + 0.5*s }, 4*n, 10*n, false, Point{0, 0, 1}))
	parts = append(parts, sweepTube(func(s float64) (Point, float64) {
		y, x := math.Sincos(2 * math.Pi * s)
		return Point{2.8 * x, 12.6, 2.8 * y}, 0.5
	}, 14*n, 5*n, true, Point{0, 1, 0}))
	for k := range 4 {
		y, x := math.Sincos(math.Pi/4 + math.Pi/2*float64(k))
		parts = append(parts, sweepTube(func(s float64) (Point, float64) {
			return Point{x * (2.3 + 0.9*s), 10.5 + 4.5*s, y * (2.3 + 0.9*s)}, 0.6 - 0.1*s
		}, 8*n, 4*n, false, Point{x, 0, y}))
	}
	return parts
}

// stlOf writes the solids as one binary STL, as a modeller would.
func stlOf(parts ...solid) []byte {
	n := 0
	for _, p := range parts {
		n += len(p.faces)
	}
	out := make([]byte, 84, 84+50*n)
	copy(out, "solid parts of a pattern")
	binary.LittleEndian.PutUint32(out[80:], uint32(n))
	for _, p := range parts {
		for _, f := range p.faces {
			out = appendFacet(out, Point(p.points[f[0]]), Point(p.points[f[1]]), Point(p.points[f[2]]))
		}
	}
	return out
}

func appendFacet(out []byte, a, b, c Point) []byte {
	n := b.sub(a).cross(c.sub(a)).unit()
	for _, p := range []Point{n, a, b, c} {
		for _, v := range p {
			out = binary.LittleEndian.AppendUint32(out, math.Float32bits(float32(v)))
		}
	}
	return append(out, 0, 0)
}

func mustMeasure(t testing.TB, opt Options, parts ...solid) Report {
	t.Helper()
	r, err := Measure("test.stl", stlOf(parts...), opt)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func closeTo(t testing.TB, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s = %.6f, want %.6f ± %.6f", what, got, want, within)
	}
}
