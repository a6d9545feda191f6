package source

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"

	"castweek/metal/problem"

	"go.yaml.in/yaml/v4"
)

// A document is one file while it is read.
type document struct {
	file     string
	data     []byte // without a byte-order mark
	text     string // the same; lines are cut from it, so that none is copied
	mark     int    // bytes of the byte-order mark
	starts   []int  // offset in data of each line
	problems *problem.List
	found    int
	broken   map[*yaml.Node]bool // reported already: readers keep quiet about it
}

// bom may stand at the front of what some editors save.
var bom = []byte("\ufeff")

func newDocument(file string, data []byte, problems *problem.List) *document {
	d := &document{file: file, data: bytes.TrimPrefix(data, bom), problems: problems, broken: map[*yaml.Node]bool{}}
	d.mark = len(data) - len(d.data)
	d.text = string(d.data)
	d.starts = []int{0}
	for i, b := range d.data {
		if b == '\n' {
			d.starts = append(d.starts, i+1)
		}
	}
	return d
}

// maxProblems is how many problems of one file are told. Who has more has
// another kind of file, or mends these first.
const maxProblems = 100

// maxMessage bounds what is told of one problem, in characters: it has to stand
// on a terminal and on paper, whatever text is quoted in it.
const maxMessage = 1000

// shortened cuts the middle out of a message that is too long.
func shortened(message string) string {
	r := []rune(message)
	if len(r) <= maxMessage {
		return message
	}
	return string(r[:maxMessage/2]) + "…" + string(r[len(r)-maxMessage/2:])
}

// add adds a problem of the file, up to the bound.
func (d *document) add(p problem.Problem) {
	d.found++
	p.Message, p.Remedy = shortened(p.Message), shortened(p.Remedy)
	switch {
	case d.found < maxProblems:
		*d.problems = append(*d.problems, p)
	case d.found == maxProblems:
		d.problems.Add(problem.Place{File: d.file}, "problems-many", "mend those that are shown, and check again", "the file has more problems than the %d that are shown", maxProblems-1)
	}
}

// fault adds an error.
func (d *document) fault(at problem.Place, code, remedy, format string, args ...any) {
	d.add(problem.Problem{Code: code, Kind: problem.Error, Place: at, Message: fmt.Sprintf(format, args...), Remedy: remedy})
}

// line gives the text of a line, counted from 1, without its end.
func (d *document) line(n int) string {
	if n < 1 || n > len(d.starts) {
		return ""
	}
	end := len(d.data)
	if n < len(d.starts) {
		end = d.starts[n] - 1
	}
	return strings.TrimSuffix(d.text[d.starts[n-1]:end], "\r")
}

// maxShown is the longest line that a problem shows, in bytes: nobody wrote a
// longer one by hand.
const maxShown = 2000

func (d *document) at(line, column int) problem.Place {
	text := d.line(line)
	if len(text) > maxShown {
		text = ""
	}
	return problem.Place{File: d.file, Line: line, Column: column, Text: text}
}

func (d *document) place(n *yaml.Node) problem.Place { return d.at(n.Line, n.Column) }

// offset is where a character stands in the file's bytes, the byte-order mark
// included.
func (d *document) offset(line, column int) int {
	if line < 1 || line > len(d.starts) {
		return d.mark + len(d.data)
	}
	i := d.starts[line-1]
	for c := 1; c < column && i < len(d.data); c++ {
		_, n := utf8.DecodeRune(d.data[i:])
		i += n
	}
	return d.mark + i
}

// marker is the line that ends the first document.
func (d *document) marker() int {
	begun := false
	for n := 1; n <= len(d.starts); n++ {
		text := d.line(n)
		switch {
		case strings.HasPrefix(text, "---") || strings.HasPrefix(text, "..."):
			if begun {
				return n
			}
		case strings.TrimSpace(text) != "" && text[0] != '#' && text[0] != '%':
			begun = true
		}
	}
	return 1
}

// checkBytes finds what must not stand in any text file of ours, before the
// library sees it. The library would stop at the first, some without a line.
func (d *document) checkBytes() bool {
	sound := true
	for n := 1; n <= len(d.starts); n++ {
		text := d.line(n)
		if tab := strings.IndexByte(text, '\t'); tab >= 0 && strings.TrimLeft(text[:tab], " ") == "" && strings.TrimSpace(text) != "" {
			d.fault(d.at(n, tab+1), "tab-indent", "indent with spaces", "a tab in the indentation")
			sound = false
		}
		column := 0
		for i, r := range text {
			column++
			if r == utf8.RuneError {
				if _, size := utf8.DecodeRuneInString(text[i:]); size == 1 {
					d.fault(d.at(n, column), "text-encoding", "save the file as UTF-8", "byte 0x%02X is not UTF-8 text", text[i])
					sound = false
					break
				}
			}
			if forbidden(r) {
				d.fault(d.at(n, column), "text-control", "remove it, and save the file as UTF-8 with ordinary line ends", "control character U+%04X", r)
				sound = false
				break
			}
		}
	}
	return sound
}

// utf16 tells a file of another encoding by its mark, or by the zeros between
// its letters.
func utf16(data []byte) bool {
	if len(data) < 4 {
		return false
	}
	return bytes.HasPrefix(data, []byte{0xff, 0xfe}) || bytes.HasPrefix(data, []byte{0xfe, 0xff}) ||
		data[0] == 0 && data[2] == 0 && data[1] != 0 || data[1] == 0 && data[3] == 0 && data[0] != 0
}

// hardSpace finds, up to a line, the last one with a no-break space behind a
// colon: it looks like a space, and the key is not seen.
func (d *document) hardSpace(upTo int) int {
	for n := min(upTo, len(d.starts)); n > 0; n-- {
		if strings.Contains(d.line(n), ":\u00a0") {
			return n
		}
	}
	return 0
}

// forbidden are control characters, those that turn the direction of writing
// among them, and the line ends that the library counts as lines and no editor
// does.
func forbidden(r rune) bool {
	return r < ' ' && r != '\t' || r >= 0x7f && r < 0xa0 || r == 0x2028 || r == 0x2029 || r == 0xfeff || r == 0xfffe || r == 0xffff || r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069
}
