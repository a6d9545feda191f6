// Package source reads the YAML of a job folder strictly. The library parses
// into nodes only; shapes, keys and values are judged here, so that every
// mistake of a file is found in one run and has its file, line, column (in
// characters) and line text.
//
// Every scalar is the text that was typed: 0412, N, 12:30, 1e3 and yes stay
// what they are. Nothing is ever written back by dumping nodes; [Replace]
// changes the bytes of one scalar and leaves the rest of the file alone.
package source

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"unicode/utf8"

	"castweek/metal/problem"

	"go.yaml.in/yaml/v4"
)

// MaxBytes bounds a file: a job of a thousand stones takes a tenth of it.
const MaxBytes = 1 << 20

// maxDepth bounds how deep maps and lists may stand in each other; the job
// file needs five.
const maxDepth = 20

// Parse reads one document whose top is a map. What is wrong with the bytes,
// the syntax or the structure is added to problems; ok is false when no map
// could be read at all. The caller asks for the keys and then calls [Map.Done].
//
// Codes: file-too-large, text-encoding, text-control, tab-indent, yaml-syntax,
// file-empty, second-document, yaml-feature, too-deep, key-double, key-form,
// value-empty, value-shape.
func Parse(file string, data []byte, problems *problem.List) (m *Map, ok bool) {
	whole := problem.Place{File: file}
	if len(data) > MaxBytes {
		problems.Add(whole, "file-too-large", "split it, or remove what does not belong here", "the file is larger than %d KiB", MaxBytes>>10)
		return nil, false
	}
	if utf16(data) {
		problems.Add(whole, "text-encoding", "save it as UTF-8", "the file is UTF-16, of which no line can be read here")
		return nil, false
	}
	d := newDocument(file, data, problems)
	if !d.checkBytes() {
		return nil, false
	}
	root := d.load()
	if root == nil {
		return nil, false
	}
	if root.Kind != yaml.MappingNode {
		problems.Add(d.place(root), "value-shape", "begin with a key and a colon, such as number: K-204", "the file is %s, not keys with values", kindName(root))
		return nil, false
	}
	d.walk(root, 1)
	return d.newMap(root), true
}

// load runs the library and turns its complaints into problems. The library is
// young, so a panic inside it becomes a problem of the file, too.
func (d *document) load() (root *yaml.Node) {
	defer func() {
		if r := recover(); r != nil {
			d.fault(problem.Place{File: d.file}, "yaml-syntax", "simplify the file step by step", "the file cannot be read as YAML; this may hide other mistakes")
			root = nil
		}
	}()
	loader, err := yaml.NewLoader(bytes.NewReader(d.data))
	if err != nil {
		d.syntax(err)
		return nil
	}
	var first, second yaml.Node
	if err := loader.Load(&first); err != nil {
		d.syntax(err)
		return nil
	}
	switch err := loader.Load(&second); {
	case err == nil:
		d.fault(d.at(d.marker(), 1), "second-document", "put it into a file of its own, or remove the --- or ... line", "a second document begins here; a file holds one")
	case !errors.Is(err, io.EOF):
		d.syntax(err)
	}
	if first.Kind != yaml.DocumentNode || len(first.Content) != 1 || isNull(first.Content[0]) {
		d.fault(problem.Place{File: d.file}, "file-empty", "fill it, or remove it", "the file is empty")
		return nil
	}
	return first.Content[0]
}

// syntax reports what the library could not parse.
func (d *document) syntax(err error) {
	if errors.Is(err, io.EOF) {
		d.fault(problem.Place{File: d.file}, "file-empty", "fill it, or remove it", "the file is empty")
		return
	}
	at, message := problem.Place{File: d.file}, err.Error()
	var one *yaml.LoadError
	var many *yaml.LoadErrors
	if errors.As(err, &many) && len(many.Errors) > 0 {
		one = many.Errors[0]
	}
	if one != nil || errors.As(err, &one) {
		message = one.Message
		if one.Mark.Line > 0 {
			at = d.at(one.Mark.Line, one.Mark.Column)
			if last := len(d.starts); one.Mark.Line > last { // behind a last line without an end
				at = d.at(last, utf8.RuneCountInString(d.line(last))+1)
			}
		}
	}
	remedy := syntaxRemedy(message)
	if n := d.hardSpace(at.Line); n > 0 {
		remedy = fmt.Sprintf("the space behind the colon on line %d is a no-break space: type it again", n)
	}
	d.fault(at, "yaml-syntax", remedy, "the file cannot be read further (%s); this may hide other mistakes", message)
}

// syntaxRemedies answers the complaints that people meet most.
var syntaxRemedies = []struct{ part, remedy string }{
	{"mapping values are not allowed", "check the indentation of this line, and put text with a colon in it between quotes"},
	{"tab character", "indent with spaces"},
	{"could not find expected ':'", "write a colon and a space after the key"},
	{"did not find expected node content", "write a value between the commas and brackets, and close every bracket"},
	{"did not find expected ',' or", "put a comma between the items, and close every bracket"},
	{"did not find expected key", "check the indentation of this line and of the one before"},
	{"found character that cannot start any token", "put the text between quotes"},
	{"end of stream", "close the quote"},
	{"unknown anchor", "write the value itself"},
	{"did not find expected alphabetic or numeric character", "put the text between quotes"},
}

func syntaxRemedy(message string) string {
	for _, r := range syntaxRemedies {
		if bytes.Contains([]byte(message), []byte(r.part)) {
			return r.remedy
		}
	}
	return "check indentation, colons, quotes and brackets here and on the line before"
}

func kindName(n *yaml.Node) string {
	switch n.Kind {
	case yaml.MappingNode:
		return "keys with values"
	case yaml.SequenceNode:
		return "a list"
	case yaml.AliasNode:
		return "an alias"
	case yaml.ScalarNode:
		return "one text"
	}
	return fmt.Sprintf("a thing of kind %d", n.Kind)
}
