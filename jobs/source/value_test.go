package source

import (
	"strings"
	"testing"

	"castweek/metal/measure"
	"castweek/metal/problem"
)

// Each row is read as if it were a job file with a count, a length, a text, a
// yes-or-no, a list and a map, none of which has to be there. What YAML would
// guess (numbers, dates, truth, octal) must not be guessed, and what could be
// misread must be refused.
func TestTypedAsItIs(t *testing.T) {
	for _, c := range []struct{ input, got, codes string }{
		{"n: 3", "n=3", ""},
		{"n: '3'", "n=3", ""},
		{"n: 3 # c", "n=3", ""},
		{"n: 2.5", "", "count-whole"},
		{"n: 2.0", "", "count-whole"},
		{"n: 1_000", "", "count-whole"},
		{"n: 0123", "", "count-whole"},
		{"n: 0o17", "", "count-whole"},
		{"n: 0x1F", "", "count-whole"},
		{"n: -1", "", "count-whole"},
		{"n: 1e3", "", "count-whole"},
		{"n: 99999999999999999999", "", "number-range"},
		{"n:", "", "value-empty"},
		{"f: 1.5 mm", "f=1.50 mm", ""},
		{"f: '1.5 mm'", "f=1.50 mm", ""},
		{"f: 1.5", "", "number-bare"},
		{"f: 1,5 mm", "", "number-comma"},
		{"{f: 1,3 mm, n: 1}", "", "number-comma"},
		{"f: 1e400 mm", "", "number-form"},
		{"f: .nan", "", "number-form"},
		{"f: -.inf", "", "number-form"},
		{"f: -1 mm", "", "number-form"},
		{"f: 1.0#x", "", "unit-unknown"},
		{"f: 1 in", "", "unit-unknown"},
		{"s: 1.30", "s=1.30", ""},
		{"s: 0123", "s=0123", ""},
		{"s: 0412", "s=0412", ""},
		{"s: 1e3", "s=1e3", ""},
		{"s: N", "s=N", ""},
		{"s: Y", "s=Y", ""},
		{"s: yes", "s=yes", ""},
		{"s: no", "s=no", ""},
		{"s: true", "s=true", ""},
		{"s: 12:30", "s=12:30", ""},
		{"s: 2026-11-26", "s=2026-11-26", ""},
		{"s: 0x1F", "s=0x1F", ""},
		{"s: .nan", "s=.nan", ""},
		{"s: =", "s==", ""},
		{"s: 'null'", "s=null", ""},
		{"s: null", "", "value-empty"},
		{"s: ~", "", "value-empty"},
		{"s: ''", "", "value-empty"},
		{"s: '  '", "", "value-empty"},
		{"s: [a]", "", "value-shape"},
		{"s: {a: b}", "", "value-shape"},
		{"s: *x", "", "yaml-syntax"},
		{"s: !!binary aGk=", "", "yaml-feature"},
		{"s: !!str 5", "", "yaml-feature"},
		{"<<: {s: R9}", "", "yaml-feature"},
		{"b: yes", "b=true", ""},
		{"b: no", "b=false", ""},
		{"b: y", "", "word-unknown"},
		{"b: 'true'", "", "word-unknown"},
		{"b: on", "", "word-unknown"},
		{"l: [a, 0412, ~]", "", "value-empty"},
		{"l: [a, 0412]", "l=a|0412", ""},
		{"l: 5", "", "value-shape"},
		{"l: [[a]]", "", "value-shape"},
		{"l: [1,,2]", "", "yaml-syntax"},
		{"m: {a: 1, a: 2}", "m", "key-double"},
		{"m: [a]", "", "value-shape"},
		{"N: 3", "", "key-unknown"},
		{"\ufeffn: 3\r\ns: x\r\n", "n=3 s=x", ""},
		{"n: 2.5\nf: 1,5 mm\ns: ~\nx: 1\nn: 3", "", "value-empty key-double count-whole number-comma key-unknown"},
		{"s: |\n  two\n  lines\n", "s=two\nlines", ""},
		{"s: two\n  lines\n", "s=two lines", ""},
	} {
		var problems problem.List
		var got []string
		if m, ok := Parse("f.yaml", []byte(c.input), &problems); ok {
			if v := Maybe(m, "n", -1, measure.Whole); v >= 0 {
				got = append(got, "n="+strings.TrimSuffix(measure.Percent(v).String(), " %"))
			}
			if v := Maybe(m, "f", -1, measure.ParseMM); v >= 0 {
				got = append(got, "f="+v.String())
			}
			if v := Maybe(m, "s", "", Text); v != "" {
				got = append(got, "s="+v)
			}
			if b := Maybe(m, "b", false, YesNo); b || m.Has("b") && len(problems) == 0 {
				got = append(got, "b="+map[bool]string{true: "true", false: "false"}[b])
			}
			if l := Each(m, "l", Text); len(l) > 0 && len(problems) == 0 {
				got = append(got, "l="+strings.Join(l, "|"))
			}
			if s := m.Map("m"); s != nil {
				Maybe(s, "a", "", Text)
				s.Done()
				got = append(got, "m")
			}
			m.Done()
		}
		var codes []string
		for _, p := range problems {
			codes = append(codes, p.Code)
		}
		if g := strings.Join(codes, " "); g != c.codes {
			t.Errorf("%q: got %q, want %q\n%v", c.input, g, c.codes, problems)
		}
		if g := strings.Join(got, " "); c.got != "" && g != c.got {
			t.Errorf("%q: read %q, want %q", c.input, g, c.got)
		}
	}
}

func TestNearest(t *testing.T) {
	known := []string{"cut_off", "design", "due", "wax", "750 yellow"}
	for typed, want := range map[string]string{"cut-off": "cut_off", "Cut_Off": "cut_off", "desing": "design", "designs": "design", "du": "due", "750 yelow": "750 yellow", "wxx": "wax", "xyz": "", "waxing": "", strings.Repeat("x", 5000): ""} {
		if got, _ := Nearest(typed, known); got != want {
			t.Errorf("%.20q: %q, want %q", typed, got, want)
		}
	}
}

// Replace changes the bytes of one value and leaves every other byte alone:
// comments, blank lines, odd indentation, line ends, the byte-order mark.
func TestReplace(t *testing.T) {
	for _, c := range []struct{ file, key, text, want string }{
		{"# top\n\na:   1.2 mm   # why\n\n\nb: 2\n", "a", "1.3 mm", "# top\n\na:   1.3 mm   # why\n\n\nb: 2\n"},
		{"\ufeffü: 'é'\r\na: x\r\n", "ü", "ö", "\ufeffü: ö\r\na: x\r\n"},
		{"a: \"q\\\"q\" # c\n", "a", "plain", "a: plain # c\n"},
		{"a: 'it''s'\n", "a", "it's not: that", "a: 'it''s not: that'\n"},
		{"{a: 1, b: 2}\n", "a", "x, y", "{a: 'x, y', b: 2}\n"},
		{"a: 1\n", "a", "~", "a: '~'\n"},
		{"a: 1\n", "a", "# no comment", "a: '# no comment'\n"},
		{"a: 1\n", "a", "&x", "a: '&x'\n"},
		{"a: 1", "a", "2", "a: 2"},
		{"a: |\n  block\n", "a", "x", ""},
		{"a: over\n  lines\n", "a", "x", ""},
		{"a: 1\n", "a", "two\nlines", ""},
	} {
		var problems problem.List
		m, ok := Parse("f.yaml", []byte(c.file), &problems)
		if !ok {
			t.Fatal(problems)
		}
		v, _ := m.Value(c.key)
		out, err := Replace([]byte(c.file), v, c.text)
		if (err != nil) != (c.want == "") || string(out) != c.want {
			t.Errorf("%q with %q: got %q, %v", c.file, c.text, out, err)
		}
	}
	var problems problem.List
	m, _ := Parse("f.yaml", []byte("a: 1\n"), &problems)
	v, _ := m.Value("a")
	if _, err := Replace([]byte("aa: 1\n"), v, "2"); err == nil {
		t.Error("a file that has changed since was changed")
	}
}

// FuzzParse: whatever the bytes, there is no panic, each problem has a place
// within the file, and what is replaced reads back.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"a: 1\nb: [x, y]\n", "a: &x 1\nb: *x\n", "? [a]\n: b\n", "a: |\n  x\n", "\ufeffa: 'x'\r\n", "a: \xff", "%YAML 1.1\n--- !x\na: 1\n...\n---\n", "- [{a: 1}]", "a: \"\\u2028\"\n"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		var problems problem.List
		m, ok := Parse("f.yaml", data, &problems)
		lines := strings.Count(string(data), "\n") + 1
		for _, p := range problems {
			if p.Place.Line > lines || p.Place.Line < 0 || p.Code == "" || p.Remedy == "" {
				t.Errorf("%+v", p)
			}
			_ = p.String()
		}
		if !ok {
			if len(problems.Errors()) == 0 {
				t.Error("refused without a problem")
			}
			return
		}
		if v, ok := m.Value("a"); ok && len(problems) == 0 {
			if out, err := Replace(data, v, "new: text"); err == nil {
				var none problem.List
				again, ok := Parse("f.yaml", out, &none)
				if !ok || len(none) > 0 {
					t.Fatalf("%q became %q: %v", data, out, none)
				}
				if w, _ := again.Value("a"); w.Text != "new: text" {
					t.Fatalf("%q became %q", data, out)
				}
			}
		}
		m.Maps("b")
		m.Lists("b")
		m.Done()
	})
}
