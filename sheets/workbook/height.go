package workbook

import (
	"strings"
	"unicode/utf8"
)

// Heights of rows are set here, since not every program makes a row as high as
// its words: one that does not prints them over each other.

// height of a row in points for so many lines of the sheet's type; a
// spreadsheet knows no row above 409.
func height(lines int) float64 { return min(float64(13*lines+3), 409) }

// roomier is how many more letters of running text than digits, which widths
// count, a column takes; measured on Arial, a little under to be safe.
const roomier = 1.25

// linesIn is how many lines words take in a column of a width.
func linesIn(text string, width float64) int {
	room := max(int((width-1)*roomier), 1)
	lines := 0
	for _, para := range strings.Split(text, "\n") {
		lines++
		used := 0
		for _, word := range strings.Fields(para) {
			n := utf8.RuneCountInString(word)
			if used > 0 && used+1+n > room {
				lines, used = lines+1, 0
			}
			for n > room { // a word longer than the line is cut
				lines, n = lines+1, n-room
			}
			used += n + 1
		}
	}
	return lines
}

// linesOf is the most lines that a cell of row r takes.
func (b *book) linesOf(t *table, r int) int {
	lines := 1
	for i := range t.columns {
		c := &t.columns[i]
		if c.format != prose || c.input != nil {
			continue
		}
		v := t.rows[r][c.key]
		if f, ok := v.(live); ok {
			v = f.value
		}
		switch x := v.(type) {
		case string:
			lines = max(lines, linesIn(x, c.width))
		case word:
			lines = max(lines, linesIn(b.say(x), c.width))
		case phrase:
			lines = max(lines, linesIn(b.say(x.key), c.width))
		}
	}
	return lines
}
