package words

import (
	"strconv"
	"strings"
	"time"

	"castweek/metal/measure"
)

// Spaces that keep things together: a number and its unit, and the gap between
// thousands (SI: a space, never comma or point).
const (
	NoBreak  = "\u00a0"
	Thousand = "\u202f"
)

// Figures writes numbers for paper: with the house's decimal mark, thousands
// set apart by a gap, a true minus, and the unit after a space.
type Figures struct {
	Words *Words
	Comma bool
}

// FiguresOf takes the decimal mark of a house: "comma" or "point".
func FiguresOf(w *Words, decimal string) Figures { return Figures{w, decimal == "comma"} }

// number dresses the digits of a plain number.
func (f Figures) number(s string) string {
	whole, frac, point := strings.Cut(s, ".")
	sign := ""
	if rest, minus := strings.CutPrefix(whole, "-"); minus {
		sign, whole = "\u2212", rest
	}
	if len(whole) > 4 {
		var b strings.Builder
		for i, r := range whole {
			if i > 0 && (len(whole)-i)%3 == 0 {
				b.WriteString(Thousand)
			}
			b.WriteRune(r)
		}
		whole = b.String()
	}
	if !point {
		return sign + whole
	}
	return sign + whole + f.Mark() + frac
}

// Mark is the decimal mark.
func (f Figures) Mark() string {
	if f.Comma {
		return ","
	}
	return "."
}

// Fixed writes a measured value with a fixed count of decimals, for columns
// that are compared: "12.40".
func (f Figures) Fixed(v float64, decimals int) string {
	return f.number(measure.Decimals(v, decimals))
}

// Set writes a value that is set, without zeros at its end: "5", "0.5".
func (f Figures) Set(v float64, decimals int) string {
	s := measure.Decimals(v, decimals)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return f.number(s)
}

// Count writes a count.
func (f Figures) Count(n int) string { return f.number(strconv.Itoa(n)) }

// Castings writes "1 casting" or "28 castings".
func (f Figures) Castings(n int) string {
	if n == 1 {
		return f.Words.Say("castings.one")
	}
	return f.Words.With("castings.many", "n", f.Count(n))
}

// MM writes a length to the hundredth, with its unit.
func (f Figures) MM(v measure.MM) string {
	return f.Set(float64(v), 2) + NoBreak + f.Words.Say("unit.mm")
}

// Decimals is how many decimals of a gram a scale with a step shows.
func Decimals(step measure.Milligram) int {
	switch {
	case step <= 0 || step%10 != 0:
		return 3
	case step%100 != 0:
		return 2
	case step%1000 != 0:
		return 1
	}
	return 0
}

// Grams writes a weight as the scale shows it, without its unit: the column's
// head has it.
func (f Figures) Grams(m, step measure.Milligram) string { return f.number(m.Number(Decimals(step))) }

// Range writes "940 to 960", or one value where both are alike.
func (f Figures) Range(low, high string) string {
	if low == high {
		return low
	}
	return f.Words.With("to", "low", low, "high", high)
}

// Carat writes an estimate between two figures without its unit. Small stones
// keep three decimals, larger two.
func (f Figures) Carat(low, high measure.Carat) string {
	n := 2
	if high < 0.1 {
		n = 3
	}
	return f.Range(f.Fixed(float64(low), n), f.Fixed(float64(high), n))
}

// Day writes "Wed 25 Nov 2026".
func (f Figures) Day(t time.Time) string {
	day, month := f.Words.Say("day."+strconv.Itoa(int(t.Weekday()))), f.Words.Say("month."+strconv.Itoa(int(t.Month())))
	return day + " " + strconv.Itoa(t.Day()) + NoBreak + month + NoBreak + strconv.Itoa(t.Year())
}

// Moment writes "Wed 25 Nov 2026 14:30".
func (f Figures) Moment(t time.Time) string { return f.Day(t) + " " + t.Format("15:04") }

// Text gives running text its decimal mark: a point between digits becomes the
// house's where a unit of measure follows, and nowhere else, so that codes,
// names of alloys and times stay as they are.
func (f Figures) Text(s string) string {
	if !f.Comma || !strings.Contains(s, ".") {
		return s
	}
	out := []byte(s)
	for i := 1; i+1 < len(s); i++ {
		if s[i] == '.' && digit(s[i-1]) && digit(s[i+1]) && measured(s[i+1:]) {
			out[i] = ','
		}
	}
	return string(out)
}

func digit(b byte) bool { return b >= '0' && b <= '9' }

// measured tells whether the digits at the start of s end in a unit, or in
// "x", "×" or "to" and another number that does.
func measured(s string) bool {
	s = strings.TrimLeft(s, "0123456789")
	s = strings.TrimLeft(strings.TrimPrefix(s, NoBreak), " ")
	for _, join := range []string{"x ", "× ", "to ", "x", "×"} {
		if rest, ok := strings.CutPrefix(s, join); ok {
			rest = strings.TrimLeft(rest, " ")
			if rest != "" && digit(rest[0]) {
				return measured(strings.TrimLeft(rest, "0123456789."))
			}
		}
	}
	for _, unit := range []string{"mm²", "mm³", "cm³", "mm", "g", "ct", "°C", "%", "‰", "cm", "mg", "ml", "min", "h"} {
		if rest, ok := strings.CutPrefix(s, unit); ok && (rest == "" || !letter(rest[0])) {
			return true
		}
	}
	return false
}

func letter(b byte) bool { return b >= 'a' && b <= 'z' || b >= 'A' && b <= 'Z' || b >= 0x80 }
