// Package problem describes what is wrong with something a person wrote:
// where, under which stable code, in which words, and what to do about it.
// Problems are collected, never thrown one at a time.
package problem

import (
	"fmt"
	"sort"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Kind tells an error, which holds back what it speaks of, from a remark,
// which only wants to be read.
type Kind int

const (
	Error Kind = iota
	Remark
)

func (k Kind) String() string {
	if k == Remark {
		return "remark"
	}
	return "error"
}

// A Place is a spot in a file. Line and Column count from 1, columns in
// characters; 0 means the file as a whole. Text is the line itself.
type Place struct {
	File   string
	Line   int
	Column int
	Text   string
}

// String writes FILE:LINE:COL, without the parts that are not known.
func (p Place) String() string {
	s := p.File
	if p.Line > 0 {
		s += ":" + strconv.Itoa(p.Line)
		if p.Column > 0 {
			s += ":" + strconv.Itoa(p.Column)
		}
	}
	return s
}

// A Problem is one thing that is wrong or worth reading. Code is stable and
// names the rule; Remedy says what to do.
type Problem struct {
	Code    string
	Kind    Kind
	Place   Place
	Message string
	Remedy  string
}

// Error lets a Problem be returned as an error.
func (p Problem) Error() string { return p.Place.String() + ": " + p.Message }

// List is a collection of problems.
type List []Problem

// Add appends an error.
func (l *List) Add(at Place, code, remedy, format string, args ...any) {
	*l = append(*l, Problem{code, Error, at, fmt.Sprintf(format, args...), remedy})
}

// Remark appends a remark.
func (l *List) Remark(at Place, code, remedy, format string, args ...any) {
	*l = append(*l, Problem{code, Remark, at, fmt.Sprintf(format, args...), remedy})
}

// Errors are those of the list that hold something back.
func (l List) Errors() List { return l.only(Error) }

// Remarks are those of the list that only want to be read.
func (l List) Remarks() List { return l.only(Remark) }

func (l List) only(k Kind) List {
	var out List
	for _, p := range l {
		if p.Kind == k {
			out = append(out, p)
		}
	}
	return out
}

// Sort orders the list by file, line, column and code, so that a run prints
// the same on every machine.
func (l List) Sort() {
	sort.SliceStable(l, func(i, j int) bool {
		a, b := l[i], l[j]
		switch {
		case a.Place.File != b.Place.File:
			return a.Place.File < b.Place.File
		case a.Place.Line != b.Place.Line:
			return a.Place.Line < b.Place.Line
		case a.Place.Column != b.Place.Column:
			return a.Place.Column < b.Place.Column
		}
		return a.Code < b.Code
	})
}

// widest is how much of a long source line is shown on either side of the spot.
const widest = 60

// String writes the problem for a terminal:
//
//	jobs/K-204.yaml:7:8: error: unknown alloy "750 yelow" [unknown-alloy]
//	   7 | alloy: 750 yelow
//	     |        ^
//	  write 750 yellow
func (p Problem) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %s: %s [%s]\n", Printable(p.Place.String()), p.Kind, printable(p.Message), p.Code)
	if p.Place.Line > 0 && p.Place.Text != "" {
		text, col := excerpt(p.Place.Text, p.Place.Column)
		fmt.Fprintf(&b, "%5d | %s\n", p.Place.Line, text)
		if col > 0 {
			fmt.Fprintf(&b, "      | %s^\n", strings.Repeat(" ", col-1))
		}
	}
	if p.Remedy != "" {
		fmt.Fprintf(&b, "  %s\n", printable(p.Remedy))
	}
	return b.String()
}

// excerpt cuts a long line around its column and makes it safe to print.
func excerpt(text string, column int) (string, int) {
	r := []rune(printable(strings.ReplaceAll(text, "\t", " ")))
	if column > len(r)+1 {
		column = len(r) + 1
	}
	start := 0
	if column > widest {
		start = column - widest
	}
	end := min(len(r), start+2*widest)
	out := string(r[start:end])
	if start > 0 {
		out, column = "…"+out, column-start+1
	}
	if end < len(r) {
		out += "…"
	}
	return out, column
}

// Printable is a name on one line that can not steer the terminal: of a file,
// which may hold any character.
func Printable(name string) string {
	return printable(strings.ReplaceAll(name, "\n", "·"))
}

// printable replaces control characters and broken UTF-8, so that a file can
// not steer the terminal.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		if r == utf8.RuneError || r < ' ' && r != '\n' || r == 0x7f || (r >= 0x80 && r < 0xa0) || (r >= 0x202a && r <= 0x202e) || (r >= 0x2066 && r <= 0x2069) {
			return '·'
		}
		return r
	}, s)
}
