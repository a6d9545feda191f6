package pattern

import (
	"bytes"
	"fmt"
	"math"
	"path"
	"strings"

	"castweek/metal/problem"
)

const (
	// largest is the largest coordinate that is believed, in the file's unit.
	largest = 1e7
	// leastSize is the smallest longest side, in mm, that is taken for a
	// pattern at all.
	leastSize = 1e-4
	// mostSize is the largest longest side in mm: no flask holds a metre, but a
	// model in a wrong unit should still be measured, so that the unit can be
	// proposed.
	mostSize = 1e6
)

// reader collects what one file holds.
type reader struct {
	welder
	name   string
	data   []byte
	opt    Options
	format string
	mesh   Mesh
}

// Read reads an STL, 3MF or OBJ file, whose format is told from the content
// and then from the name. An error is a [problem.Problem] with the file and,
// in texts, the line. Data is not kept.
func Read(name string, data []byte, opt Options) (*Mesh, error) {
	r := &reader{name: name, data: data, opt: opt.filled()}
	unit := r.opt.Unit
	if unit.MM() == 0 {
		return nil, r.fail("mesh-unit", "write one of mm, inch, cm, m, micron, foot", "%q is not a unit of length that is known here", unit)
	}
	ext := strings.ToLower(path.Ext(name))
	var err error
	switch {
	case len(data) == 0:
		err = r.fail("mesh-empty", "export or copy the pattern again", "the file is empty")
	case bytes.HasPrefix(data, []byte("PK\x03\x04")) || ext == ".3mf":
		err = r.read3MF()
	case ext == ".obj":
		err = r.readOBJ()
	case ext == ".stl":
		err = r.readSTL()
	default:
		err = r.fail("mesh-format", "export the pattern as STL, 3MF or OBJ", "the name ends with %q, which is no format that is read here", ext)
	}
	if err != nil {
		return nil, err
	}
	return r.finish()
}

// finish scales to mm and refuses what cannot be a pattern.
func (r *reader) finish() (*Mesh, error) {
	m := &r.mesh
	m.Name, m.Points, m.format = r.name, r.points, r.format
	if m.unit == "" {
		m.unit = r.opt.Unit
	}
	if len(m.Faces) == 0 {
		if m.degenerate > 0 {
			return nil, r.fail("mesh-empty", "export the pattern again", "all %d faces are without extent", m.degenerate)
		}
		return nil, r.fail("mesh-empty", "export the pattern again, with the solid selected", "the file holds no faces")
	}
	if m.bodies < 2 {
		m.bodies, m.body = 1, nil
	}
	m.dropUnused()
	k := m.unit.MM()
	b := m.Box()
	for i := range 3 {
		if !(math.Max(math.Abs(b.Min[i]), math.Abs(b.Max[i])) <= largest) {
			return nil, r.fail("mesh-size", "check the export: a pattern is a few centimetres large", "coordinates reach %.3g, which is not plausible", math.Max(math.Abs(b.Min[i]), math.Abs(b.Max[i])))
		}
	}
	if l := b.longest() * k; l < leastSize || l > mostSize {
		return nil, r.fail("mesh-size", "check the export and the unit: a pattern is a few centimetres large", "the longest side is %.3g mm, which is not plausible", l)
	}
	if k != 1 {
		for i := range m.Points {
			p := &m.Points[i]
			p[0], p[1], p[2] = p[0]*k, p[1]*k, p[2]*k
		}
		m.grain *= k
	}
	return m, nil
}

// dropUnused drops points that no face names, which would widen the box.
func (m *Mesh) dropUnused() {
	number := make([]int32, len(m.Points))
	for _, f := range m.Faces {
		number[f[0]], number[f[1]], number[f[2]] = 1, 1, 1
	}
	kept := 0
	for i, used := range number {
		if used == 1 {
			m.Points[kept], number[i] = m.Points[i], int32(kept)
			kept++
		}
	}
	if kept == len(m.Points) {
		return
	}
	m.Points = m.Points[:kept]
	for i := range m.Faces {
		for k, p := range m.Faces[i] {
			m.Faces[i][k] = number[p]
		}
	}
}

// triangle adds a face; one that names a point twice is only counted.
func (r *reader) triangle(a, b, c [3]float64) {
	r.face(r.add(a), r.add(b), r.add(c))
}

func (r *reader) face(a, b, c int32) {
	if a == b || b == c || c == a {
		r.mesh.degenerate++
		return
	}
	r.mesh.Faces = append(r.mesh.Faces, [3]int32{a, b, c})
}

func (r *reader) tooMany(count int) error {
	if count <= r.opt.MostFaces {
		return nil
	}
	return r.fail("mesh-too-large", "export the pattern with a coarser mesh", "the file has more than %d faces", r.opt.MostFaces)
}

func (r *reader) fail(code, remedy, format string, args ...any) error {
	return problem.Problem{Code: code, Kind: problem.Error, Place: problem.Place{File: r.name}, Message: fmt.Sprintf(format, args...), Remedy: remedy}
}

func (r *reader) failAt(w *words, code, format string, args ...any) error {
	return r.failLine(w.line, code, format, args...)
}

func (r *reader) failLine(line int, code, format string, args ...any) error {
	return problem.Problem{Code: code, Kind: problem.Error, Place: problem.Place{File: r.name, Line: line},
		Message: fmt.Sprintf(format, args...), Remedy: "export the pattern again, as binary STL if the program can"}
}

func (r *reader) note(code, remedy, message string) {
	r.mesh.notes = append(r.mesh.notes, note{code, message, remedy})
}

// atLine adds the line within a part of a package.
func atLine(err error, part string, line int) error {
	p, ok := err.(problem.Problem)
	if ok {
		p.Message = fmt.Sprintf("%s, line %d: %s", part, line, p.Message)
		return p
	}
	return err
}
