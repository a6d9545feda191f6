package problem

import (
	"strings"
	"testing"
)

// The mark stands below the character that is meant, however wide the bytes
// before it are, and where a long line is cut.
func TestTheMarkStandsBelowItsCharacter(t *testing.T) {
	long := strings.Repeat("é", 200)
	for _, c := range []struct {
		text   string
		column int
		want   rune
	}{
		{"alloy: 750 yelow", 8, '7'},
		{"für: Zoë Ω", 10, 'Ω'},
		{"日本: 語", 5, '語'},
		{long + "Ω" + long, 201, 'Ω'},
		{"a\tΩ", 3, 'Ω'},
		{"e\u0301Ω", 3, 'Ω'},
	} {
		lines := strings.Split(Problem{Place: Place{"f", 1, c.column, c.text}, Message: "m"}.String(), "\n")
		mark := len([]rune(lines[2])) - 1
		if got := []rune(lines[1])[mark]; got != c.want {
			t.Errorf("%.20q column %d: the mark is below %q, want %q\n%s\n%s", c.text, c.column, got, c.want, lines[1], lines[2])
		}
	}
}

// Neither a file's name nor its text may steer the terminal.
func TestNothingSteersTheTerminal(t *testing.T) {
	hostile := "a\x1b[31m\u202eb\x9bc\rd\x00"
	s := Problem{Place: Place{hostile + "\nerror: forged", 1, 1, hostile}, Message: hostile, Remedy: hostile}.String()
	for _, r := range s {
		if r < ' ' && r != '\n' || r >= 0x7f && r < 0xa0 || r == 0x202e {
			t.Errorf("%q got through: %q", r, s)
		}
	}
	if strings.HasPrefix(strings.Split(s, "\n")[1], "error") {
		t.Errorf("a name forged a line: %q", s)
	}
}

func TestSort(t *testing.T) {
	l := List{{Code: "b", Place: Place{File: "f", Line: 2}}, {Code: "a", Place: Place{File: "f", Line: 2}}, {Code: "z", Place: Place{File: "e", Line: 9}}, {Code: "c", Place: Place{File: "f", Line: 1, Column: 7}}}
	l.Sort()
	got := ""
	for _, p := range l {
		got += p.Code
	}
	if got != "zcab" {
		t.Error(got)
	}
}
