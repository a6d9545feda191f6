package source

import (
	"fmt"
	"sort"

	"castweek/metal/problem"

	"go.yaml.in/yaml/v4"
)

// A Map is keys with values. It remembers which keys were asked for, so that
// [Map.Done] can report the others.
type Map struct {
	doc    *document
	node   *yaml.Node
	keys   map[string]*yaml.Node // of the first of each name
	values map[string]*yaml.Node
	asked  map[string]bool
}

func (d *document) newMap(n *yaml.Node) *Map {
	m := &Map{d, n, map[string]*yaml.Node{}, map[string]*yaml.Node{}, map[string]bool{}}
	for i := 0; i+1 < len(n.Content); i += 2 {
		key := n.Content[i]
		if _, double := m.keys[key.Value]; !double && !d.broken[key] {
			m.keys[key.Value], m.values[key.Value] = key, n.Content[i+1]
		}
	}
	return m
}

// At is where the map begins.
func (m *Map) At() problem.Place { return m.doc.place(m.node) }

// Place is where the value of a key stands, or the map where there is none.
func (m *Map) Place(key string) problem.Place {
	switch v := m.values[key]; {
	case v == nil:
		return m.At()
	case isNull(v):
		return m.doc.place(m.keys[key])
	default:
		return m.doc.place(v)
	}
}

// Has tells whether a key is there, even with a broken value.
func (m *Map) Has(key string) bool { return m.values[key] != nil }

// Bad adds an error at the value of a key.
func (m *Map) Bad(key, code, remedy, format string, args ...any) {
	m.doc.fault(m.Place(key), code, remedy, format, args...)
}

// Remark adds a remark at the value of a key.
func (m *Map) Remark(key, code, remedy, format string, args ...any) {
	m.doc.add(problem.Problem{Code: code, Kind: problem.Remark, Place: m.Place(key), Message: fmt.Sprintf(format, args...), Remedy: remedy})
}

// Wrong adds an error at the map as a whole.
func (m *Map) Wrong(code, remedy, format string, args ...any) {
	m.doc.fault(m.At(), code, remedy, format, args...)
}

// Missing reports a key that must be there.
func (m *Map) Missing(key string) {
	m.doc.fault(m.At(), "key-missing", "add a line "+key+": …", "%q is missing", key)
}

// get finds the value of a key. usable is false when there is none, or when
// what is wrong with it has been reported.
func (m *Map) get(key string) (v *yaml.Node, usable bool) {
	m.asked[key] = true
	v = m.values[key]
	return v, v != nil && !m.doc.broken[v]
}

// shaped is get for a value that must be of one kind.
func (m *Map) shaped(key string, kind yaml.Kind, want string) (*yaml.Node, bool) {
	v, ok := m.get(key)
	if ok && v.Kind != kind {
		m.doc.refuse(v, "value-shape", "write "+want, "%q needs %s; here is %s", key, want, kindName(v))
		return v, false
	}
	return v, ok
}

// Map reads the map under a key; nil when there is none.
func (m *Map) Map(key string) *Map {
	if v, ok := m.shaped(key, yaml.MappingNode, "keys with values below it"); ok {
		return m.doc.newMap(v)
	}
	return nil
}

// Maps reads the list of maps under a key.
func (m *Map) Maps(key string) []*Map {
	var out []*Map
	list, ok := m.shaped(key, yaml.SequenceNode, "a list, each item on a line with a dash")
	if !ok {
		return nil
	}
	for _, item := range list.Content {
		switch {
		case m.doc.broken[item]:
		case item.Kind != yaml.MappingNode:
			m.doc.refuse(item, "value-shape", "write keys with values after the dash", "an item of %q needs keys with values; here is %s", key, kindName(item))
		default:
			out = append(out, m.doc.newMap(item))
		}
	}
	return out
}

// Lists reads a list of lists of texts under a key.
func (m *Map) Lists(key string) [][]Value {
	var out [][]Value
	list, ok := m.shaped(key, yaml.SequenceNode, "a list of lists in brackets")
	if !ok {
		return nil
	}
	for _, item := range list.Content {
		switch {
		case m.doc.broken[item]:
		case item.Kind != yaml.SequenceNode:
			m.doc.refuse(item, "value-shape", "write a list in brackets", "an item of %q needs a list; here is %s", key, kindName(item))
		default:
			out = append(out, m.doc.texts(key, item))
		}
	}
	return out
}

// Values reads the list of texts under a key, with their places.
func (m *Map) Values(key string) []Value {
	list, ok := m.shaped(key, yaml.SequenceNode, "a list, such as [a, b]")
	if !ok {
		return nil
	}
	return m.doc.texts(key, list)
}

func (d *document) texts(key string, list *yaml.Node) []Value {
	var out []Value
	for _, item := range list.Content {
		switch {
		case d.broken[item]:
		case item.Kind != yaml.ScalarNode:
			d.refuse(item, "value-shape", "write one text", "an item of %q needs one text; here is %s", key, kindName(item))
		default:
			out = append(out, d.value(item))
		}
	}
	return out
}

// Done reports the keys that nobody asked for, each with the known key that
// looks most like it.
func (m *Map) Done() {
	known := make([]string, 0, len(m.asked))
	for k := range m.asked {
		known = append(known, k)
	}
	sort.Strings(known)
	var unknown []string
	for k := range m.keys {
		if !m.asked[k] {
			unknown = append(unknown, k)
		}
	}
	sort.Strings(unknown)
	for _, k := range unknown {
		remedy := "remove it"
		if near, ok := Nearest(k, known); ok {
			remedy = "write " + near
		}
		m.doc.fault(m.doc.place(m.keys[k]), "key-unknown", remedy, "%q is not a key that is read here", k)
	}
}
