package workbook

import (
	"fmt"
	"math"
	"strings"
	"time"
	"unicode/utf16"
	"unicode/utf8"

	"castweek/metal/measure"
	"castweek/metal/problem"
)

// longest is how many characters a cell holds (counted as the file format
// counts them, in UTF-16 units). The library cuts what is longer in silence;
// here it is cut with a note in the cell and a remark.
const longest = 32767

// dash stands where a column does not apply: an empty cell would leave open
// whether somebody forgot it.
const dash = "-"

// plain makes a text safe for a cell: broken UTF-8 and control characters
// become a visible box, and what is too long is cut and says so.
func (b *book) plain(at, s string) string {
	boxed := 0
	s = strings.Map(func(r rune) rune {
		if r == utf8.RuneError || (r < ' ' && r != '\n' && r != '\t') || r == 0x7f || r == 0xfffe || r == 0xffff || r == literal {
			boxed++
			return '□'
		}
		return r
	}, strings.ReplaceAll(s, "\r\n", "\n"))
	if boxed > 0 {
		b.problems.Remark(problem.Place{File: FileName}, "text-control", "type the text anew where it comes from",
			"%s holds %d characters that cannot be shown; each is a box", at, boxed)
	}
	units := utf16.Encode([]rune(s))
	if len(units) <= longest {
		return s
	}
	note := fmt.Sprintf("\n[cut here: %d of %d characters are shown]", longest-60, len(units))
	kept := string(utf16.Decode(units[:longest-60]))
	b.problems.Remark(problem.Place{File: FileName}, "text-cut", "read it whole in the job file, or shorten it",
		"%s is too long for a cell and is cut after %d characters", at, longest-60)
	return strings.TrimSuffix(kept, "\uFFFD") + note
}

// A word is one of the catalogue's, by its key under "book.say.".
type word string

// A phrase is a word with its place {of} filled.
type phrase struct {
	key word
	of  string
}

func (b *book) say(w word) string { return b.words.Say("book.say." + string(w)) }

// content turns a value of the plan into what a cell holds: a text, a number,
// or nil for an open cell. Weights are in grams, as the headers say.
func (b *book) content(at string, v any) any {
	switch x := v.(type) {
	case nil:
		return dash
	case word:
		return b.say(x)
	case phrase:
		return b.words.With("book.say."+string(x.key), "of", x.of)
	case string:
		if x == "" {
			return dash
		}
		return b.plain(at, x)
	case bool:
		if x {
			return b.say("yes")
		}
		return b.say("no")
	case int:
		return float64(x)
	case measure.Milligram:
		return float64(x) / 1000
	case measure.MM:
		return b.known(at, float64(x))
	case measure.CubicMM:
		return b.finite(at, float64(x))
	case measure.GramPerCC:
		return b.known(at, float64(x))
	case measure.Carat:
		return b.known(at, float64(x))
	case measure.Gram:
		return b.finite(at, float64(x))
	case measure.Percent:
		return b.finite(at, float64(x))
	case time.Time:
		if x.IsZero() {
			return dash
		}
		return serial(x)
	case float64:
		return b.finite(at, x)
	}
	b.problems.Remark(problem.Place{File: FileName}, "value-unknown", "report this", "%s holds a %T, which no cell can show", at, v)
	return b.say("unknown")
}

// known writes a quantity of which 0 means that nobody has given it.
func (b *book) known(at string, v float64) any {
	if v == 0 {
		return dash
	}
	return b.finite(at, v)
}

// finite keeps NaN and infinities out: the library would store them as texts.
func (b *book) finite(at string, v float64) any {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		b.problems.Remark(problem.Place{File: FileName}, "value-not-finite", "check the figures that it is worked out from", "%s is no number", at)
		return b.say("notanumber")
	}
	return v
}

// serial is the day number of a spreadsheet, counted from 1899-12-30, of the
// wall clock that t shows in its own zone. It is rounded up to a hundred
// millionth of a day, under a millisecond: a spreadsheet cuts what is below the
// minute, and 10:00 would be shown as 09:59.
func serial(t time.Time) float64 {
	wall := time.Date(t.Year(), t.Month(), t.Day(), t.Hour(), t.Minute(), 0, 0, time.UTC)
	days := wall.Sub(time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)).Hours() / 24
	return math.Ceil(days*1e8) / 1e8
}
