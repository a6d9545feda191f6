package book

import (
	"bytes"
	"strings"

	"castweek/metal/problem"
)

// A Book is what was read, in the order of the file.
type Book struct {
	Movements []Movement
	// Torn is an unfinished last line that was set aside: it was never
	// confirmed to anybody.
	Torn     []byte
	reversed map[int]bool // IDs that a later line takes back, and those lines
	state    state
}

// Read reads the file's bytes. Every mistake is named with its line; a book
// with errors must not be planned on. An unfinished last line is a remark, and
// nothing before it is lost. Empty bytes are an empty book. What a spreadsheet
// makes of the file without changing what it says is read as it was: quotes
// around fields, rows of empty cells, empty cells after the last column.
func Read(file string, data []byte) (*Book, problem.List) {
	b, l := &Book{}, problem.List{}
	whole := data[:bytes.LastIndexByte(data, '\n')+1]
	if b.Torn = data[len(whole):]; len(b.Torn) > 0 {
		l.Remark(problem.Place{File: file, Line: 1 + bytes.Count(whole, []byte("\n")), Text: string(b.Torn)}, "book-torn",
			"end the line with Enter if it is whole; else weigh again and book it anew, if no line before has it", "the last line is unfinished and is set aside")
	}
	lines := strings.Split(strings.TrimPrefix(string(whole), "\ufeff"), "\n")
	spare := 0
	for i, line := range lines[:len(lines)-1] {
		line = strings.TrimSuffix(line, "\r")
		place := problem.Place{File: file, Line: i + 1}
		if i == 0 {
			var yes bool
			if spare, yes = isHeader(line); !yes {
				place.Text = line
				l.Add(place, "book-header", headerRemedy(line), "this is not a metal's book")
				return b, l
			}
			continue
		}
		if blank(line) {
			continue
		}
		m, ok := decode(line, spare, place, &l)
		if ok {
			b.Movements = append(b.Movements, m)
		}
	}
	if len(l.Errors()) > 0 {
		// What comes after a line that can not be read can not be judged.
		l.Sort()
		return b, l
	}
	b.replay(&l)
	l.Sort()
	return b, l
}

// AppendLine gives the bytes to append for one more movement to a file that
// holds old, an unfinished last line taken off. It gives the movement its ID,
// and refuses what the book as it stands does not allow. An empty file gets its
// header with it.
func AppendLine(file string, old []byte, m Movement) ([]byte, Movement, problem.List) {
	b, l := Read(file, old)
	if len(l.Errors()) > 0 {
		return nil, m, l
	}
	m.ID = len(b.Movements) + 1
	m.Place = problem.Place{File: file, Line: max(bytes.Count(old, []byte("\n")), 1) + 1}
	for _, s := range []string{m.Who, m.Lot, m.Alloy, m.Owner, m.Tree, m.Into, m.Job, m.Note} {
		if w := badText(s); w != "" {
			l.Add(m.Place, "book-text", "write plain text in one line", "%q has %s", s, w)
			return nil, m, l
		}
	}
	line, err := encode(m)
	if err != nil {
		l.Add(m.Place, "book-line", "write plain text", "the line can not be written: %v", err)
		return nil, m, l
	}
	// The line is judged as it will be read.
	out := line
	whole := old[:bytes.LastIndexByte(old, '\n')+1]
	if len(whole) == 0 {
		out = append(Header(), line...)
	}
	after, l := Read(file, append(bytes.Clone(whole), out...))
	if len(l.Errors()) > 0 {
		return nil, m, l.Errors()
	}
	return out, after.Movements[len(after.Movements)-1], l
}
