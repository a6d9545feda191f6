package pattern

import (
	"bytes"
	"fmt"
	"math"
	"unicode/utf16"
)

// readOBJ reads the polygons of a Wavefront OBJ file: v and f lines, with
// indices from 1, or negative from the last point back (from memory of the
// format's published appendix). Names, normals, texture and materials say
// nothing about the volume; lines, points and free-form surfaces are no
// polygons and are left out with a remark.
func (r *reader) readOBJ() error {
	r.format = "OBJ"
	data := r.data
	switch {
	case bytes.HasPrefix(data, []byte{0xff, 0xfe}):
		data = fromUTF16(data[2:], 1, 0)
	case bytes.HasPrefix(data, []byte{0xfe, 0xff}):
		data = fromUTF16(data[2:], 0, 1)
	}
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	o := objReader{reader: r}
	for len(data) > 0 {
		var line []byte
		line, data = o.logicalLine(data)
		if err := o.read(line); err != nil {
			return err
		}
	}
	if o.left > 0 {
		r.note("pattern-left-out", "look whether the solid was exported as a mesh", fmt.Sprintf("%d lines, points or curved surfaces of the OBJ file were left out", o.left))
	}
	return nil
}

func fromUTF16(b []byte, high, low int) []byte {
	u := make([]uint16, len(b)/2)
	for i := range u {
		u[i] = uint16(b[2*i+high])<<8 | uint16(b[2*i+low])
	}
	return []byte(string(utf16.Decode(u)))
}

type objReader struct {
	*reader
	points []int32 // numbers of the joined points
	raw    [][3]float64
	line   int
	left   int
	long   []byte
}

// logicalLine cuts off a line; one that ends with a backslash goes on.
func (o *objReader) logicalLine(data []byte) (line, rest []byte) {
	o.long = o.long[:0]
	for {
		i := bytes.IndexAny(data, "\n\r")
		if i < 0 {
			i = len(data)
		}
		line, rest = data[:i], nil
		if i < len(data) {
			if data[i] == '\r' && i+1 < len(data) && data[i+1] == '\n' {
				i++
			}
			rest = data[i+1:]
		}
		o.line++
		body, more := bytes.CutSuffix(line, []byte{'\\'})
		if !more && len(o.long) == 0 {
			return line, rest
		}
		o.long = append(append(o.long, body...), ' ')
		if !more || len(rest) == 0 {
			return o.long, rest
		}
		data = rest
	}
}

func (o *objReader) read(line []byte) error {
	if i := bytes.IndexByte(line, '#'); i >= 0 {
		line = line[:i]
	}
	words := bytes.Fields(line)
	if len(words) == 0 {
		return nil
	}
	switch string(words[0]) {
	case "v":
		return o.vertex(words[1:])
	case "f", "fo":
		return o.polygon(words[1:])
	case "l", "p", "curv", "curv2", "surf":
		o.left++
	}
	return nil
}

func (o *objReader) vertex(words [][]byte) error {
	if len(words) < 3 {
		return o.failLine(o.line, "mesh-number", "a point has %d coordinates, not three", len(words))
	}
	var p [3]float64
	for k := range p {
		v, ok := parseNumber(words[k])
		if !ok {
			return o.failLine(o.line, "mesh-number", "%q is not a number", clip(words[k]))
		}
		p[k] = v
	}
	o.raw = append(o.raw, p)
	o.points = append(o.points, o.add(p))
	return nil
}

// polygon reads the corners a, a/b, a//c or a/b/c.
func (o *objReader) polygon(words [][]byte) error {
	if len(words) < 3 {
		return o.failLine(o.line, "mesh-syntax", "a face has %d corners", len(words))
	}
	corners := make([]int, 0, len(words))
	for _, w := range words {
		text := w
		if i := bytes.IndexByte(text, '/'); i >= 0 {
			text = text[:i]
		}
		digits, negative := bytes.CutPrefix(text, []byte{'-'})
		v, ok := index(digits)
		if negative {
			v = len(o.points) - v + 1
		}
		if !ok || v < 1 || v > len(o.points) {
			return o.failLine(o.line, "mesh-index", "%q names none of the %d points so far", clip(w), len(o.points))
		}
		corners = append(corners, v-1)
	}
	if err := o.tooMany(len(o.mesh.Faces) + len(corners)); err != nil {
		return err
	}
	for _, t := range triangulate(o.raw, corners) {
		o.face(o.points[t[0]], o.points[t[1]], o.points[t[2]])
	}
	return nil
}

// mostEars bounds the corners of a polygon that is cut ear by ear, which costs
// the square of their number; a longer one is cut as a fan, which keeps the
// volume but not the area of one that is not convex.
const mostEars = 2000

// triangulate cuts a polygon into triangles by cutting off ears, seen along
// its mean normal.
func triangulate(points [][3]float64, c []int) [][3]int {
	var normal Point // Newell's method
	for i := range c {
		p, q := Point(points[c[i]]), Point(points[c[(i+1)%len(c)]])
		normal = normal.add(p.cross(q))
	}
	var out [][3]int
	left := append([]int(nil), c...)
	for len(left) > 3 && len(c) <= mostEars {
		cut := -1
		for i := range left {
			if ear(points, left, i, normal) {
				cut = i
				break
			}
		}
		if cut < 0 {
			break
		}
		n := len(left)
		out = append(out, [3]int{left[(cut+n-1)%n], left[cut], left[(cut+1)%n]})
		left = append(left[:cut], left[cut+1:]...)
	}
	for i := 1; i+1 < len(left); i++ {
		out = append(out, [3]int{left[0], left[i], left[i+1]})
	}
	return out
}

// ear tells whether the corner is convex and holds no other corner.
func ear(points [][3]float64, c []int, i int, normal Point) bool {
	n := len(c)
	a, b, d := Point(points[c[(i+n-1)%n]]), Point(points[c[i]]), Point(points[c[(i+1)%n]])
	turn := func(p, q, r Point) float64 { return q.sub(p).cross(r.sub(p)).dot(normal) }
	if turn(a, b, d) <= 0 {
		return false
	}
	for k := range n {
		p := Point(points[c[k]])
		if p == a || p == b || p == d {
			continue
		}
		if turn(a, b, p) >= 0 && turn(b, d, p) >= 0 && turn(d, a, p) >= 0 {
			return false
		}
	}
	return !math.IsNaN(normal[0])
}
