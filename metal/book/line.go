package book

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"castweek/metal/measure"
	"castweek/metal/problem"
)

// columns is the header, in order.
var columns = []string{"id", "at", "who", "movement", "lot", "alloy", "fineness", "from", "grams", "owner", "form", "melts", "tree", "into", "job", "note", "reverses"}

// Header is the first line of the file, with its line end.
func Header() []byte { return []byte(strings.Join(columns, ",") + "\n") }

// guard keeps a spreadsheet from running a text as a formula: one that begins
// with = + - @ or a tab or carriage return gets an apostrophe before it, and so
// does one that begins with an apostrophe, so that reading is exact.
func guard(s string) string {
	if s != "" && strings.ContainsRune("=+-@\t\r'", rune(s[0])) {
		return "'" + s
	}
	return s
}

func unguard(s string) string { return strings.TrimPrefix(s, "'") }

// encode writes the movement as one line with its end. Its texts must have no
// line break.
func encode(m Movement) ([]byte, error) {
	number := func(n int, has bool) string {
		if !has {
			return ""
		}
		return strconv.Itoa(n)
	}
	fineness := ""
	if m.Fineness != 0 {
		fineness = m.Fineness.number()
	}
	fields := []string{
		strconv.Itoa(m.ID), m.At.Format(time.RFC3339), guard(m.Who), string(m.Kind), guard(m.Lot), guard(m.Alloy),
		fineness, string(m.From), m.Grams.Number(3), guard(m.Owner), string(m.Form), number(m.Melts, m.HasMelts),
		guard(m.Tree), guard(m.Into), guard(m.Job), guard(m.Note), number(m.Reverses, m.Reverses != 0),
	}
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	if err := w.Write(fields); err != nil {
		return nil, err
	}
	w.Flush()
	return b.Bytes(), w.Error()
}

// fieldReader takes the fields of one line and collects what is wrong.
type fieldReader struct {
	place  problem.Place
	fields []string
	column []int // of each field, in characters
	list   *problem.List
	bad    bool
}

func (f *fieldReader) at(name string) problem.Place {
	p := f.place
	p.Column = f.column[slices.Index(columns, name)]
	return p
}

func (f *fieldReader) raw(name string) string { return f.fields[slices.Index(columns, name)] }

func (f *fieldReader) wrong(name, code, remedy, format string, args ...any) {
	f.bad = true
	f.list.Add(f.at(name), code, remedy, format, args...)
}

func (f *fieldReader) text(name string) string {
	s := unguard(f.raw(name))
	if w := badText(s); w != "" {
		f.wrong(name, "book-text", "write plain text", "the %s has %s", name, w)
	}
	return s
}

// badText names what a text of one line may not hold.
func badText(s string) string {
	if !utf8.ValidString(s) {
		return "characters that are not UTF-8"
	}
	if strings.ContainsFunc(s, func(r rune) bool { return r < ' ' && r != '\t' && r != '\r' || r == 0x7f }) {
		return "a line break or another control character"
	}
	return ""
}

// count reads a whole number; "" is none.
func (f *fieldReader) count(name string) (n int, has bool) {
	s := f.raw(name)
	if s == "" {
		return 0, false
	}
	n, err := measure.Whole(s)
	if err != nil {
		f.wrong(name, "book-number", "write a whole number", "%q is not a whole number", s)
	}
	return n, true
}

func word[T ~string](f *fieldReader, name string, known []T) T {
	w := T(f.raw(name))
	if w != "" && !slices.Contains(known, w) {
		f.wrong(name, "book-word", "write one of: "+list(known), "%q is not known as %s", string(w), name)
	}
	return w
}

func list[T ~string](words []T) string {
	var s []string
	for _, w := range words {
		s = append(s, string(w))
	}
	return strings.Join(s, ", ")
}

// decode reads one line without its end, see [cells]. The movement counts only when true.
func decode(line string, spare int, place problem.Place, l *problem.List) (Movement, bool) {
	place.Text = line
	fields, r, err := cells(line, spare)
	if err != nil {
		var p *csv.ParseError
		if errors.As(err, &p) {
			place.Column, err = characters(line, p.Column), p.Err
		}
		l.Add(place, "book-line", "take the line from a copy; quotes around a field come in pairs", "the line can not be read: %v", err)
		return Movement{}, false
	}
	if len(fields) != len(columns) {
		l.Add(place, "book-fields", "the fields are "+strings.Join(columns, ","), "the line has %d fields, not %d", len(fields), len(columns))
		return Movement{}, false
	}
	f := &fieldReader{place: place, fields: fields, list: l}
	for i := range fields {
		_, col := r.FieldPos(i)
		f.column = append(f.column, characters(line, col))
	}
	m := Movement{Place: place, Who: f.text("who"), Lot: f.text("lot"), Alloy: f.text("alloy"), Owner: f.text("owner"),
		Tree: f.text("tree"), Into: f.text("into"), Job: f.text("job"), Note: f.text("note")}
	m.ID, _ = f.count("id")
	m.Reverses, _ = f.count("reverses")
	m.Melts, m.HasMelts = f.count("melts")
	m.Kind = word(f, "movement", kinds)
	m.From = word(f, "from", origins)
	m.Form = word(f, "form", forms)
	if m.At, err = time.Parse(time.RFC3339, f.raw("at")); err != nil {
		f.wrong("at", "book-time", "write it as 2026-11-25T16:05:00+01:00", "%q is not a moment", f.raw("at"))
	}
	if mg, err := thousandths(f.raw("grams")); err != nil {
		f.wrong("grams", "book-weight", "write grams with at most three decimals, such as 32.200", "%q is not a weight: %v", f.raw("grams"), err)
	} else {
		m.Grams = measure.Milligram(mg)
	}
	if s := f.raw("fineness"); s != "" {
		if p, err := thousandths(s); err != nil {
			f.wrong("fineness", "book-fineness", "write parts per thousand with at most three decimals, such as 751.2", "%q is not a fineness: %v", s, err)
		} else {
			m.Fineness = Parts(p)
		}
	}
	for _, p := range judge(m) {
		f.wrong(p.column, p.code, p.remedy, "%s", p.message)
	}
	return m, !f.bad
}

// characters turns a csv column, in bytes from 1, into one in characters.
func characters(line string, col int) int {
	return utf8.RuneCountInString(line[:min(max(col-1, 0), len(line))]) + 1
}

// thousandths reads a decimal with up to three decimals as a whole number of
// thousandths, without a detour over floats.
func thousandths(s string) (int64, error) {
	if strings.HasPrefix(s, "-") {
		return 0, errors.New("it is negative")
	}
	if _, err := measure.Number(s); err != nil || strings.TrimSpace(s) != s {
		return 0, errors.New("digits and at most one decimal point")
	}
	whole, frac, _ := strings.Cut(s, ".")
	if len(frac) > 3 {
		return 0, fmt.Errorf("%d decimals", len(frac))
	}
	return strconv.ParseInt(whole+(frac + "000")[:3], 10, 64)
}
