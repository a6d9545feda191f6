package source

import (
	"bytes"
	"errors"
	"fmt"
	"strings"

	"castweek/metal/problem"

	"go.yaml.in/yaml/v4"
)

// ErrNotInPlace says that a value can not be changed without touching its
// neighbours: it is spread over several lines, or the file has changed since it
// was read.
var ErrNotInPlace = errors.New("this value cannot be changed in its place; change it by hand")

// Replace gives the file's bytes with one scalar changed to text and every
// other byte as it was. The text is quoted only where it has to be. The result
// is read again: unless it differs in that one value only, the bytes are
// refused.
func Replace(data []byte, v Value, text string) ([]byte, error) {
	start, end, ok := v.span(data)
	if !ok {
		return nil, ErrNotInPlace
	}
	for _, written := range []string{text, "'" + strings.ReplaceAll(text, "'", "''") + "'"} {
		out := bytes.Join([][]byte{data[:start], []byte(written), data[end:]}, nil)
		if v.alone(data, out, text) {
			return out, nil
		}
	}
	return nil, fmt.Errorf("%q cannot stand as a value on one line", text)
}

// span finds the bytes of a scalar on its line, quotes included.
func (v Value) span(data []byte) (start, end int, ok bool) {
	start = v.doc.offset(v.node.Line, v.node.Column)
	if start >= len(data) || !bytes.Equal(data[v.doc.mark:], v.doc.data) {
		return 0, 0, false
	}
	rest, _, _ := bytes.Cut(data[start:], []byte("\n"))
	switch {
	case v.node.Style&yaml.SingleQuotedStyle != 0:
		end = closing(rest, '\'')
	case v.node.Style&yaml.DoubleQuotedStyle != 0:
		end = closing(rest, '"')
	case v.node.Style&(yaml.LiteralStyle|yaml.FoldedStyle) == 0 && bytes.HasPrefix(rest, []byte(v.node.Value)):
		end = len(v.node.Value)
	}
	return start, start + end, end > 0
}

// closing finds the end of a quoted scalar on one line; 0 when it does not end
// there.
func closing(rest []byte, quote byte) int {
	for i := 1; i < len(rest); i++ {
		switch {
		case rest[i] == '\\' && quote == '"':
			i++
		case rest[i] == quote && quote == '\'' && i+1 < len(rest) && rest[i+1] == quote:
			i++
		case rest[i] == quote:
			return i + 1
		}
	}
	return 0
}

// alone tells whether two files hold the same values but for one.
func (v Value) alone(before, after []byte, text string) bool {
	var ignored problem.List
	a, okA := Parse("", before, &ignored)
	found := len(ignored)
	b, okB := Parse("", after, &ignored)
	if !okA || !okB || len(ignored) != 2*found {
		return false
	}
	return same(a.node, b.node, v.node, text)
}

func same(a, b, spot *yaml.Node, text string) bool {
	if a.Kind != b.Kind || len(a.Content) != len(b.Content) {
		return false
	}
	if a.Kind == yaml.ScalarNode {
		if a.Line == spot.Line && a.Column == spot.Column {
			return b.Value == text && !isNull(b)
		}
		return a.Value == b.Value
	}
	for i := range a.Content {
		if !same(a.Content[i], b.Content[i], spot, text) {
			return false
		}
	}
	return true
}
