package source

import (
	"errors"
	"fmt"
	"strings"

	"castweek/metal/measure"
	"castweek/metal/problem"

	"go.yaml.in/yaml/v4"
)

// A Value is one scalar: its text as typed, quotes and folding undone, and
// where it stands.
type Value struct {
	Text string
	At   problem.Place
	node *yaml.Node
	doc  *document
}

func (d *document) value(n *yaml.Node) Value {
	return Value{strings.TrimSpace(n.Value), d.place(n), n, d}
}

// Bad adds an error at the value.
func (v Value) Bad(code, remedy, format string, args ...any) {
	v.doc.fault(v.At, code, remedy, format, args...)
}

// Value finds the text under a key; ok is false when there is none that could
// be used.
func (m *Map) Value(key string) (Value, bool) {
	n, ok := m.shaped(key, yaml.ScalarNode, "one text")
	if !ok {
		return Value{}, false
	}
	return m.doc.value(n), true
}

// Need reads a value that must be there.
func Need[T any](m *Map, key string, parse func(string) (T, error)) T {
	if !m.Has(key) {
		m.asked[key] = true
		m.Missing(key)
	}
	var none T
	return Maybe(m, key, none, parse)
}

// Maybe reads a value that may be left out. A value that is there and wrong is
// reported; what it returns then is not used, since its file is held.
func Maybe[T any](m *Map, key string, otherwise T, parse func(string) (T, error)) T {
	v, ok := m.Value(key)
	if !ok {
		return otherwise
	}
	return parsed(v, key, otherwise, parse)
}

// Each reads a list of values that may be left out.
func Each[T any](m *Map, key string, parse func(string) (T, error)) []T {
	var out []T
	var none T
	for _, v := range m.Values(key) {
		out = append(out, parsed(v, key, none, parse))
	}
	return out
}

func parsed[T any](v Value, key string, otherwise T, parse func(string) (T, error)) T {
	got, err := parse(v.Text)
	if err == nil {
		return got
	}
	var s *measure.SyntaxError
	if errors.As(err, &s) {
		v.Bad(s.Code, s.Remedy, "%s: %s", key, s.Message)
	} else {
		v.Bad("value-form", "see the page of this file", "%s: %s", key, err)
	}
	return otherwise
}

// Text takes any text.
func Text(text string) (string, error) { return text, nil }

// maxLine bounds a text that has to stand on one line of a sheet.
const maxLine = 200

// Line takes a text of one line.
func Line(text string) (string, error) {
	if strings.Contains(text, "\n") || len([]rune(text)) > maxLine {
		return "", &measure.SyntaxError{Code: "text-long", Message: fmt.Sprintf("the text is longer than one line of %d characters", maxLine), Remedy: "shorten it; the rest goes into notes"}
	}
	return text, nil
}

// OneOf takes one of some fixed words.
func OneOf(words ...string) func(string) (string, error) {
	return func(text string) (string, error) {
		for _, w := range words {
			if text == w {
				return w, nil
			}
		}
		remedy := "write one of: " + strings.Join(words, ", ")
		if near, ok := Nearest(text, words); ok {
			remedy = "write " + near
		}
		return "", &measure.SyntaxError{Code: "word-unknown", Message: fmt.Sprintf("%q is not one of %s", text, strings.Join(words, ", ")), Remedy: remedy}
	}
}

// YesNo takes yes or no.
func YesNo(text string) (bool, error) {
	w, err := OneOf("yes", "no")(text)
	return w == "yes", err
}

// Positive refuses what a parser reads as nothing: no length, weight or count
// of 0 is meant where this is asked for.
func Positive[T ~float64 | ~int | ~int64](parse func(string) (T, error)) func(string) (T, error) {
	return func(text string) (T, error) {
		v, err := parse(text)
		if err == nil && v <= 0 {
			return v, &measure.SyntaxError{Code: "number-zero", Message: fmt.Sprintf("%q is nothing", text), Remedy: "write more than 0"}
		}
		return v, err
	}
}

// Within refuses what lies outside a range, both ends allowed. It catches a
// wrong unit or a slipped point before it reaches the scale.
func Within[T ~float64 | ~int | ~int64](parse func(string) (T, error), low, high T) func(string) (T, error) {
	return func(text string) (T, error) {
		v, err := parse(text)
		if err == nil && (v < low || v > high) {
			return v, &measure.SyntaxError{Code: "number-range", Message: fmt.Sprintf("%q is outside %v to %v", text, low, high), Remedy: "check the number and its unit"}
		}
		return v, err
	}
}
