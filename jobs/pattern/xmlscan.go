package pattern

import (
	"bytes"
	"errors"
	"fmt"
)

// A tags scanner walks through the tags of an XML text. It knows what a 3MF
// model needs and is several times faster than a general decoder: no entities
// in the attributes that matter, no document type. A model of a million faces
// is 70 MB of tags.
type tags struct {
	data  []byte
	at    int
	line  int
	open  [][]byte // names of the elements that are open
	name  []byte   // of the current tag
	attrs []attribute
	end   bool // the current tag closes an element
	empty bool // <name/>
}

type attribute struct{ name, value []byte }

var errXMLEnd = errors.New("end")

// deepest bounds the nesting of elements.
const deepest = 64

// next goes to the next tag; an element written as <name/> comes once, with
// empty set. errXMLEnd tells the end of a complete document.
func (t *tags) next() error {
	if t.empty {
		t.open = t.open[:len(t.open)-1]
		t.empty = false
	}
	for {
		i := bytes.IndexByte(t.data[t.at:], '<')
		if i < 0 {
			t.skip(len(t.data) - t.at)
			if len(t.open) > 0 {
				return fmt.Errorf("the text ends inside <%s>", clip(t.open[len(t.open)-1]))
			}
			return errXMLEnd
		}
		t.skip(i)
		rest := t.data[t.at:]
		var closing string
		switch {
		case bytes.HasPrefix(rest, []byte("<!--")):
			closing = "-->"
		case bytes.HasPrefix(rest, []byte("<![CDATA[")):
			closing = "]]>"
		case bytes.HasPrefix(rest, []byte("<?")):
			if err := t.declaration(rest); err != nil {
				return err
			}
			closing = "?>"
		case bytes.HasPrefix(rest, []byte("<!")):
			return errors.New("a document type is not allowed in a 3MF model")
		default:
			return t.tag()
		}
		j := bytes.Index(rest, []byte(closing))
		if j < 0 {
			return fmt.Errorf("%q is never closed", clip(rest[:min(len(rest), 9)]))
		}
		t.skip(j + len(closing))
	}
}

// declaration refuses any encoding but UTF-8.
func (t *tags) declaration(rest []byte) error {
	head := bytes.ToLower(rest[:min(len(rest), 200)])
	if i := bytes.IndexByte(head, '>'); i >= 0 {
		head = head[:i]
	}
	if i := bytes.Index(head, []byte("encoding")); bytes.HasPrefix(head, []byte("<?xml")) && i >= 0 && !bytes.Contains(head[i:], []byte("utf-8")) {
		return errors.New("the text is not in UTF-8")
	}
	return nil
}

func (t *tags) skip(n int) {
	t.line += bytes.Count(t.data[t.at:t.at+n], []byte{'\n'})
	t.at += n
}

func space(c byte) bool { return c == ' ' || c == '\t' || c == '\r' || c == '\n' }

// tag reads one tag from < to >.
func (t *tags) tag() error {
	d, i := t.data, t.at+1
	t.end = i < len(d) && d[i] == '/'
	if t.end {
		i++
	}
	start := i
	for i < len(d) && !space(d[i]) && d[i] != '>' && d[i] != '/' && d[i] != '<' {
		i++
	}
	t.name, t.attrs = d[start:i], t.attrs[:0]
	if len(t.name) == 0 {
		return errors.New("a tag has no name")
	}
	for {
		for i < len(d) && space(d[i]) {
			if d[i] == '\n' {
				t.line++
			}
			i++
		}
		if i >= len(d) {
			return fmt.Errorf("<%s> is never closed", clip(t.name))
		}
		if d[i] == '>' {
			t.at = i + 1
			return t.nest()
		}
		if d[i] == '/' && i+1 < len(d) && d[i+1] == '>' && !t.end {
			t.empty, t.at = true, i+2
			return t.nest()
		}
		n, err := t.attribute(d, i)
		if err != nil {
			return err
		}
		i = n
	}
}

// attribute reads name="value" at i.
func (t *tags) attribute(d []byte, i int) (int, error) {
	start := i
	for i < len(d) && d[i] != '=' && !space(d[i]) && d[i] != '>' && d[i] != '<' {
		i++
	}
	name := d[start:i]
	for i < len(d) && space(d[i]) {
		i++
	}
	if i >= len(d) || d[i] != '=' || len(name) == 0 {
		return 0, fmt.Errorf("<%s> is malformed near %q", clip(t.name), clip(name))
	}
	i++
	for i < len(d) && space(d[i]) {
		i++
	}
	if i >= len(d) || d[i] != '"' && d[i] != '\'' {
		return 0, fmt.Errorf("the value of %s in <%s> is not in quotes", clip(name), clip(t.name))
	}
	quote := d[i]
	n := bytes.IndexByte(d[i+1:], quote)
	if n < 0 {
		return 0, fmt.Errorf("the value of %s in <%s> is never closed", clip(name), clip(t.name))
	}
	value := d[i+1 : i+1+n]
	for _, a := range t.attrs {
		if bytes.Equal(a.name, name) {
			return 0, fmt.Errorf("<%s> states %s twice", clip(t.name), clip(name))
		}
	}
	t.attrs = append(t.attrs, attribute{name, value})
	return i + n + 2, nil
}

// nest keeps track of what is open.
func (t *tags) nest() error {
	if !t.end {
		if len(t.open) >= deepest {
			return errors.New("elements are nested too deep")
		}
		t.open = append(t.open, t.name)
		return nil
	}
	if len(t.open) == 0 || !bytes.Equal(t.open[len(t.open)-1], t.name) {
		return fmt.Errorf("</%s> closes nothing", clip(t.name))
	}
	t.open = t.open[:len(t.open)-1]
	return nil
}

// get is the value of an attribute of the current tag, nil if it has none.
func (t *tags) get(name string) []byte {
	for i := range t.attrs {
		if string(t.attrs[i].name) == name {
			return t.attrs[i].value
		}
	}
	return nil
}
