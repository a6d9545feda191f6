package pattern

import (
	"bytes"
	"math"
	"strconv"
	"strings"
)

const (
	coreSpace       = "http://schemas.microsoft.com/3dmanufacturing/core/"
	productionSpace = "http://schemas.microsoft.com/3dmanufacturing/production/"
	materialSpace   = "http://schemas.microsoft.com/3dmanufacturing/material/"
)

// A modelPart is one model of the package.
type modelPart struct {
	objects map[string]*object3MF
	items   []reference
	loading bool
}

// An object3MF has a mesh or components. Faces and instances are counted with
// all components expanded, so that a bomb is seen before it is built.
type object3MF struct {
	kind       string
	points     [][3]float64
	triangles  [][3]int32
	components []reference
	faces      uint64
	instances  uint64
}

type reference struct {
	object, path string
	transform    transform
}

// A transform is the 4x3 matrix of the standard; a row vector is multiplied
// from the left (3.3).
type transform [12]float64

var identity = transform{1, 0, 0, 0, 1, 0, 0, 0, 1}

func (t transform) apply(p [3]float64) [3]float64 {
	var q [3]float64
	for k := range q {
		q[k] = p[0]*t[k] + p[1]*t[3+k] + p[2]*t[6+k] + t[9+k]
	}
	return q
}

// then is t first and u after it.
func (t transform) then(u transform) transform {
	var out transform
	for row := range 4 {
		p := [3]float64(t[3*row : 3*row+3])
		q := u.apply(p)
		for k := range 3 {
			if row < 3 {
				q[k] -= u[9+k] // a direction is not shifted
			}
			out[3*row+k] = q[k]
		}
	}
	return out
}

func (t transform) determinant() float64 {
	a, b, c := Point(t[0:3]), Point(t[3:6]), Point(t[6:9])
	return a.dot(b.cross(c))
}

// modelReader reads one model part.
type modelReader struct {
	*tags
	p          *package3MF
	name       string
	part       *modelPart
	core       string // prefix of the core names, with its colon
	production string
	object     *object3MF
	id         string
}

// load reads a part once. Only the root part states items and may use other
// parts (Production Extension 2).
func (p *package3MF) load(name string, root bool) (*modelPart, error) {
	if part, ok := p.parts[name]; ok {
		if part.loading {
			return nil, p.fail("the part %s uses itself", name)
		}
		return part, nil
	}
	if len(p.parts) >= mostParts {
		return nil, p.fail("more than %d model parts", mostParts)
	}
	text, err := p.unpack(name)
	if err != nil {
		return nil, err
	}
	part := &modelPart{objects: map[string]*object3MF{}, loading: true}
	p.parts[name] = part
	text = bytes.TrimPrefix(text, []byte("\xef\xbb\xbf"))
	m := &modelReader{tags: &tags{data: text, line: 1}, p: p, name: name, part: part}
	if err := m.run(root); err != nil {
		return nil, err
	}
	part.loading = false
	return part, nil
}

func (m *modelReader) failf(format string, args ...any) error {
	e := m.p.fail(format, args...)
	return atLine(e, m.name, m.line)
}

// run reads the whole text.
func (m *modelReader) run(root bool) error {
	models, resources, builds := 0, 0, 0
	for {
		err := m.next()
		if err == errXMLEnd {
			break
		}
		if err != nil {
			return m.failf("%v", err)
		}
		if models == 0 {
			if err := m.model(root); err != nil {
				return err
			}
			models++
			continue
		}
		name, ok := strings.CutPrefix(string(m.tags.name), m.core)
		if !ok || m.core == "" && strings.Contains(name, ":") {
			continue // of an extension
		}
		if m.end {
			if name == "object" && m.object != nil {
				if err := m.closeObject(); err != nil {
					return err
				}
			}
			continue
		}
		switch name {
		case "model":
			return m.failf("a model inside the model")
		case "resources":
			resources++
		case "build":
			builds++
		default:
			if err := m.element(name); err != nil {
				return err
			}
		}
		if m.empty && name == "object" {
			if err := m.closeObject(); err != nil {
				return err
			}
		}
	}
	if models == 0 || resources != 1 || builds != 1 {
		return m.failf("a model needs one <resources> and one <build>; this one has %d and %d", resources, builds)
	}
	return nil
}

// model reads the root element: names of the vocabularies, unit, required
// extensions. An extension that is required and not known here must not be
// processed (3.4).
func (m *modelReader) model(root bool) error {
	spaces := map[string]string{}
	for _, a := range m.attrs {
		n := string(a.name)
		if n == "xmlns" {
			spaces[""] = string(a.value)
		} else if prefix, ok := strings.CutPrefix(n, "xmlns:"); ok {
			spaces[prefix] = string(a.value)
		}
	}
	found := false
	prefix, local, ok := strings.Cut(string(m.tags.name), ":")
	if !ok {
		prefix, local = "", prefix
	}
	if local == "model" && strings.HasPrefix(spaces[prefix], coreSpace) {
		found = true
		if ok {
			m.core = prefix + ":"
		}
	}
	if !found {
		return m.failf("the part does not begin with a 3MF <model>")
	}
	for _, e := range strings.Fields(string(m.get("requiredextensions"))) {
		switch space := spaces[e]; {
		case strings.HasPrefix(space, productionSpace), strings.HasPrefix(space, materialSpace):
			// Materials say how it looks, not where it is.
		case space == "":
			return m.failf("the required extension %q is not declared", e)
		default:
			return m.failf("the file requires the extension %s, which is not read here", space)
		}
	}
	for prefix, space := range spaces {
		if strings.HasPrefix(space, productionSpace) {
			m.production = prefix + ":"
		}
	}
	unit := string(m.get("unit"))
	if root {
		m.p.unit = unit
	} else if def(unit, "millimeter") != def(m.p.unit, "millimeter") {
		return m.failf("the part is in %q and the root model in %q", def(unit, "millimeter"), def(m.p.unit, "millimeter"))
	}
	return nil
}

func def(s, other string) string {
	if s == "" {
		return other
	}
	return s
}

// element reads what can stand inside resources and build.
func (m *modelReader) element(name string) error {
	switch name {
	case "object":
		if m.object != nil {
			return m.failf("an object inside an object")
		}
		m.id = string(m.get("id"))
		kind := string(m.get("type"))
		switch kind {
		case "", "model", "solidsupport", "support", "surface", "other":
		default:
			return m.failf("object %s is of type %q, which the standard does not know", m.id, kind)
		}
		if m.id == "" || m.part.objects[m.id] != nil || len(m.part.objects) >= mostObjects {
			return m.failf("the object id %q is missing or used twice", m.id)
		}
		m.object = &object3MF{kind: kind}
	case "vertex":
		return m.vertex()
	case "triangle":
		return m.triangle()
	case "component":
		return m.component()
	case "item":
		ref, err := m.reference()
		if err != nil {
			return err
		}
		m.part.items = append(m.part.items, ref)
	}
	return nil
}

func (m *modelReader) vertex() error {
	if m.object == nil {
		return nil
	}
	var p [3]float64
	for k, axis := range [3]string{"x", "y", "z"} {
		v, ok := parseNumber(bytes.TrimSpace(m.get(axis)))
		if !ok {
			return m.failf("%s=%q of vertex %d is not a number", axis, clip(m.get(axis)), len(m.object.points))
		}
		p[k] = v
	}
	m.object.points = append(m.object.points, p)
	return nil
}

func (m *modelReader) triangle() error {
	if m.object == nil {
		return nil
	}
	var t [3]int32
	for k, name := range [3]string{"v1", "v2", "v3"} {
		v, ok := index(m.get(name))
		if !ok || v >= len(m.object.points) {
			return m.failf("%s=%q of triangle %d names none of the %d vertices", name, clip(m.get(name)), len(m.object.triangles), len(m.object.points))
		}
		t[k] = int32(v)
	}
	m.object.triangles = append(m.object.triangles, t)
	return nil
}

// index reads a whole number of at most nine digits.
func index(b []byte) (int, bool) {
	if len(b) == 0 || len(b) > 9 {
		return 0, false
	}
	v := 0
	for _, c := range b {
		if c < '0' || c > '9' {
			return 0, false
		}
		v = v*10 + int(c-'0')
	}
	return v, true
}

// component counts what it brings. Objects are defined before they are used
// (4.2), so a cycle can not be written without being seen here.
func (m *modelReader) component() error {
	if m.object == nil {
		return m.failf("a component outside an object")
	}
	ref, err := m.reference()
	if err != nil {
		return err
	}
	part, err := m.p.other(m.part, ref.path)
	if err != nil {
		return err
	}
	if ref.path == "" && ref.object == m.id {
		return m.failf("object %s is a component of itself", m.id)
	}
	o := part.objects[ref.object]
	if o == nil {
		return m.failf("a component names object %s, which is not defined before it: a circle, or missing", ref.object)
	}
	m.object.components = append(m.object.components, ref)
	m.object.faces = addCapped(m.object.faces, o.faces)
	m.object.instances = addCapped(m.object.instances, o.instances)
	return nil
}

// addCapped adds without running over.
func addCapped(a, b uint64) uint64 {
	if a+b < a {
		return math.MaxUint64
	}
	return a + b
}

func (m *modelReader) closeObject() error {
	o := m.object
	o.faces = addCapped(o.faces, uint64(len(o.triangles)))
	o.instances = addCapped(o.instances, 1)
	m.part.objects[m.id] = o
	m.object = nil
	return nil
}

// reference reads objectid, transform and the path of the production extension.
func (m *modelReader) reference() (reference, error) {
	ref := reference{object: string(m.get("objectid")), transform: identity}
	if m.production != "" {
		ref.path = string(m.get(m.production + "path"))
	}
	if ref.object == "" {
		return ref, m.failf("<%s> names no object", clip(m.tags.name))
	}
	if text := m.get("transform"); text != nil {
		words := bytes.Fields(text)
		if len(words) != 12 {
			return ref, m.failf("a transform has %d numbers, not 12", len(words))
		}
		for k, w := range words {
			v, ok := parseNumber(w)
			if !ok {
				return ref, m.failf("%s of a transform is not a number", strconv.Quote(clip(w)))
			}
			ref.transform[k] = v
		}
	}
	return ref, nil
}
