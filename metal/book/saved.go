package book

import (
	"encoding/csv"
	"slices"
	"strings"
)

// cells parts a line as a spreadsheet saves it. Where the header has so many
// empty cells after the last column, a line with as many has them left off.
func cells(line string, spare int) (fields []string, r *csv.Reader, err error) {
	r = csv.NewReader(strings.NewReader(line))
	r.FieldsPerRecord = -1
	if fields, err = r.Read(); err != nil {
		return nil, r, err
	}
	if n := len(columns); spare > 0 && len(fields) == n+spare && blank(strings.Join(fields[n:], "")) {
		fields = fields[:n]
	}
	return fields, r, nil
}

// blank tells whether a line has no cell with anything in it.
func blank(line string) bool { return strings.Trim(line, ",") == "" }

// isHeader tells whether a line is the header, and how many empty cells it has
// after the last column.
func isHeader(line string) (spare int, yes bool) {
	fields, _, err := cells(line, 0)
	if n := len(columns); err == nil && len(fields) >= n && slices.Equal(fields[:n], columns) && blank(strings.Join(fields[n:], "")) {
		return len(fields) - n, true
	}
	return 0, false
}

// headerRemedy says what to do with a first line that is not the header. A file
// with another separator is not guessed at: its numbers may have commas.
func headerRemedy(line string) string {
	for _, s := range []string{";", "\t"} {
		r := csv.NewReader(strings.NewReader(line))
		r.Comma = rune(s[0])
		if fields, err := r.Read(); err == nil && slices.Equal(fields, columns) {
			return "save it again with a comma between the fields and a point in the numbers, or take a copy"
		}
	}
	return "the first line is " + strings.TrimSuffix(string(Header()), "\n")
}
