package pattern

import (
	"bytes"
	"math"
)

// words walks through a text word by word and counts lines; a line ends with
// LF, CR or CR LF.
type words struct {
	data []byte
	at   int
	line int
}

func (w *words) next() []byte {
	d := w.data
	for w.at < len(d) && d[w.at] <= ' ' {
		if d[w.at] == '\n' || d[w.at] == '\r' && (w.at+1 >= len(d) || d[w.at+1] != '\n') {
			w.line++
		}
		w.at++
	}
	start := w.at
	for w.at < len(d) && d[w.at] > ' ' {
		w.at++
	}
	return d[start:w.at]
}

func is(word []byte, want string) bool {
	return len(word) == len(want) && bytes.EqualFold(word, []byte(want))
}

// readASCIISTL reads every solid of the file.
func (r *reader) readASCIISTL() error {
	r.format = "ASCII STL"
	w := &words{data: bytes.TrimPrefix(r.data, []byte("\xef\xbb\xbf")), line: 1}
	for {
		word := w.next()
		if len(word) == 0 {
			break
		}
		if !is(word, "solid") {
			return r.failAt(w, "mesh-syntax", "the word solid or the end of the file should stand here")
		}
		if err := r.solid(w); err != nil {
			return err
		}
	}
	return nil
}

// solid reads the name, which may be any words, and the facets after it.
func (r *reader) solid(w *words) error {
	line := w.line
	word := w.next()
	for w.line == line && len(word) > 0 && !r.nameEnds(w, word) {
		word = w.next()
	}
	for is(word, "facet") {
		if err := r.facet(w); err != nil {
			return err
		}
		word = w.next()
	}
	if len(word) == 0 {
		return r.failAt(w, "mesh-damaged", "the file ends before endsolid: it is damaged or not copied whole")
	}
	if !is(word, "endsolid") {
		return r.failAt(w, "mesh-syntax", "facet or endsolid should stand here, not %q", clip(word))
	}
	// The name may follow, up to the end of the line or the next solid.
	for save := *w; ; save = *w {
		word := w.next()
		if len(word) == 0 {
			return nil
		}
		if w.line != save.line || is(word, "solid") && r.nameStarts(w) {
			*w = save
			return nil
		}
	}
}

// nameEnds tells whether the word, on the line of the name, begins the facets:
// some files stand on a single line.
func (r *reader) nameEnds(w *words, word []byte) bool {
	if !is(word, "facet") {
		return false
	}
	ahead := *w
	if !is(ahead.next(), "normal") {
		return false
	}
	_, ok := parseNumber(ahead.next())
	return ok
}

// nameStarts tells whether a solid that stands on one line with the endsolid
// before it is a new solid, not a part of the name.
func (r *reader) nameStarts(w *words) bool {
	ahead := *w
	for range 64 {
		word := ahead.next()
		if len(word) == 0 || ahead.line != w.line {
			return false
		}
		if r.nameEnds(&ahead, word) {
			return true
		}
	}
	return false
}

func (r *reader) facet(w *words) error {
	var v [4]Point
	if err := r.expect(w, "normal"); err != nil {
		return err
	}
	// A normal that is no number says nothing, but hurts nobody: the order of
	// the points decides.
	normal := true
	for k := range 3 {
		n, ok := parseNumber(w.next())
		normal = normal && ok
		v[0][k] = n
	}
	for _, want := range []string{"outer", "loop"} {
		if err := r.expect(w, want); err != nil {
			return err
		}
	}
	for c := 1; c <= 3; c++ {
		if err := r.expect(w, "vertex"); err != nil {
			return err
		}
		for k := range 3 {
			n, err := r.coordinate(w)
			if err != nil {
				return err
			}
			v[c][k] = n
			r.mesh.grain = math.Max(r.mesh.grain, math.Abs(n)/(1<<24))
		}
	}
	for _, want := range []string{"endloop", "endfacet"} {
		if err := r.expect(w, want); err != nil {
			return err
		}
	}
	r.triangle(v[1], v[2], v[3])
	if normal {
		r.storedNormal(v[0], v[1], v[2], v[3])
	}
	return r.tooMany(len(r.mesh.Faces))
}

func (r *reader) expect(w *words, want string) error {
	word := w.next()
	if is(word, want) {
		return nil
	}
	if len(word) == 0 {
		return r.failAt(w, "mesh-damaged", "the file ends where %s should stand: it is damaged or not copied whole", want)
	}
	return r.failAt(w, "mesh-syntax", "%s should stand here, not %q (face %d)", want, clip(word), len(r.mesh.Faces)+r.mesh.degenerate+1)
}

// coordinate reads one number of a corner.
func (r *reader) coordinate(w *words) (float64, error) {
	word := w.next()
	v, ok := parseNumber(word)
	if ok {
		return v, nil
	}
	if bytes.IndexByte(word, ',') >= 0 {
		return 0, r.failAt(w, "mesh-number", "%q has a decimal comma: export the pattern with decimal points", clip(word))
	}
	return 0, r.failAt(w, "mesh-number", "%q is not a number (face %d)", clip(word), len(r.mesh.Faces)+r.mesh.degenerate+1)
}

// clip shortens a word for a message.
func clip(word []byte) string {
	if len(word) > 40 {
		return string(word[:40]) + "…"
	}
	return string(word)
}
