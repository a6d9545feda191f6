package source

import (
	"strings"
	"testing"

	"castweek/metal/problem"
)

// mark reads an input in which ^ stands before the character where the problem
// must be found.
func mark(t *testing.T, input string) (data string, line, column int) {
	t.Helper()
	before, after, found := strings.Cut(input, "^")
	if !found {
		return input, 0, 0
	}
	last := before[strings.LastIndexByte(before, '\n')+1:]
	return before + after, strings.Count(before, "\n") + 1, len([]rune(strings.TrimPrefix(last, "\ufeff"))) + 1
}

// TestStructure gives one input a rule; the mark shows the place to be named,
// counted in characters.
func TestStructure(t *testing.T) {
	for _, c := range []struct{ input, codes string }{
		{"a: 1\nb: 2\n", ""},
		{"\ufeffa: 1\r\nb: 2\r\n", ""},
		{"---\na: 1\n", ""},
		{"a: 1 # c\nb: 1#x\n", ""},
		{"a:\tb\nb: 1\n", ""},
		{"ü: é\nñ: ^*x\n", "yaml-syntax"}, // unknown anchor
		{"ü: 'é'\nm: {ñ: 1, ^ñ: 2}\n", "key-double"},
		{"a: &x 1\nb: 2\n", "yaml-feature"},
		{"a: 1\nb: ^&x 2\n", "yaml-feature"},
		{"a: &x 1\nb: *x\n", "yaml-feature yaml-feature"},
		{"b: {k: 1}\n^<<: {a: 1}\n", "yaml-feature"},
		{"a: ^!!binary aGk=\n", "yaml-feature"},
		{"a: ^!foo b\n", "yaml-feature"},
		{"^a:\nb: 1\n", "value-empty"},
		{"b: 1\n^a: ~\n", "value-empty"},
		{"b: 1\n^a: null\n", "value-empty"},
		{"b: 1\n^a: NULL\n", "value-empty"},
		{"a: 'null'\n", ""},
		{"a: ^''\n", "value-empty"},
		{"a: ^[]\n", "value-empty"},
		{"a: ^{}\n", "value-empty"},
		{"l: [1,^,2]\n", "yaml-syntax"},
		{"m: {a: ^1, 3}\n", "number-comma"}, // what a decimal comma becomes
		{"m: {b: x, a: ^0,52 g, c: 1 mm}\n", "number-comma"},
		{"m: {a: ^0,52 g, c: 1,5 mm}\n", "number-comma number-comma"},
		{"m: {a: x, ^3}\n", "value-empty"},
		{"m: {a: 1 g, ^b}\n", "value-empty"},
		{"m:\n  a: 1\n  ^3:\n", "value-empty"},
		{"a: 1\n---\n^b: 2\n", "second-document"},
		{"a: 1\n...\nfoo\n", "second-document"},
		{"a: 1\n...\n", ""},
		{"a: 1\n^\tb: 2\n", "tab-indent"},
		{"a:\n  ^\tb: 2\n", "tab-indent"},
		{"a: ^\"x\\ty\"\n", "text-control"},
		{"a: 1\nb^: 2: 3\n", "yaml-syntax"},
		{"a: 1\n  b: 2\n", "yaml-syntax"},
		{"", "file-empty"},
		{"# only a comment\n", "file-empty"},
		{"~\n", "file-empty"},
		{"^- a\n- b\n", "value-shape"},
		{"^just text\n", "value-shape"},
		{"a: x^\xffy\n", "text-encoding"},
		{"ü: x^\x00y\n", "text-control"},
		{"a: x^\u0085y\n", "text-control"},
		{"a: x^\ry\n", "text-control"},
		{"a: x^\u202ey\n", "text-control"},                                      // turns what is printed behind it
		{"\xff\xfea\x00:\x00 \x001\x00\n\x00b\x00:\x00\n\x00", "text-encoding"}, // UTF-16, once and not a line
		{"\xfe\xff\x00a\x00:\x00 \x001\x00\n", "text-encoding"},
		{"a\x00:\x00 \x001\x00\n\x00", "text-encoding"},
		{"\x00a\x00:\x00 \x001\x00\n", "text-encoding"},
		{"? ^[a]\n: b\n", "key-form"},
		{"a: " + strings.Repeat("[", 30) + "1" + strings.Repeat("]", 30) + "\n", "too-deep"},
		{strings.Repeat("[", 20000), "yaml-syntax"},
		{"%YAML 1.2\n---\na: 1\n", "yaml-syntax"},
		{strings.Repeat("a", MaxBytes+1), "file-too-large"},
		{"a: [&a [x,x,x,x], &b [*a,*a,*a,*a], &c [*b,*b,*b,*b]]\n", "yaml-feature yaml-feature yaml-feature"},
	} {
		data, line, column := mark(t, c.input)
		var problems problem.List
		Parse("f.yaml", []byte(data), &problems)
		var codes []string
		for _, p := range problems {
			codes = append(codes, p.Code)
			if p.Remedy == "" || p.Place.File != "f.yaml" {
				t.Errorf("%.40q: no remedy or file in %+v", c.input, p)
			}
		}
		if got := strings.Join(codes, " "); got != c.codes {
			t.Errorf("%.40q: got %q, want %q\n%v", c.input, got, c.codes, problems)
			continue
		}
		if line > 0 && strings.Contains(c.input, "^") && c.codes != "second-document" && c.codes != "yaml-syntax" {
			if p := problems[0].Place; p.Line != line || p.Column != column {
				t.Errorf("%.40q: at %d:%d, want %d:%d", c.input, p.Line, p.Column, line, column)
			}
		}
	}
}

// A quoted text of any length leaves a message that can be read and printed.
func TestLongTextsAreCutInMessages(t *testing.T) {
	var problems problem.List
	m, ok := Parse("f.yaml", []byte("k: "+strings.Repeat("é", 5000)+"\n"+strings.Repeat("x", 5000)+": 1\n"), &problems)
	if !ok {
		t.Fatal(problems)
	}
	Need(m, "k", OneOf("ring"))
	m.Done()
	if len(problems) != 2 {
		t.Fatalf("%d problems", len(problems))
	}
	for _, p := range problems {
		if n := len([]rune(p.Message)); n > maxMessage+1 || !strings.Contains(p.Message, "…") {
			t.Errorf("%s: a message of %d characters", p.Code, n)
		}
	}
}

// The library complains a line late, and of something else.
func TestTheNoBreakSpaceIsNamed(t *testing.T) {
	var problems problem.List
	Parse("f.yaml", []byte("a: 1\nkind:\u00a0ring\npieces: 1\n"), &problems)
	if len(problems) != 1 || !strings.Contains(problems[0].Remedy, "on line 2 is a no-break space") {
		t.Error(problems)
	}
}
