package page

import "strings"

// before is the width of a number up to its decimal mark: digits of equal
// worth stand below each other by placing each number at its point, since the
// point of the faces is narrower than a digit.
func (s Style) before(number string) float64 {
	number = normal(number)
	if i := strings.IndexAny(number, ".,"); i >= 0 {
		return s.Width(number[:i])
	}
	return s.Width(number)
}

// NumberAt writes a number with its decimal mark at x; one without a mark ends
// there.
func (l *Leaf) NumberAt(x, y float64, s Style, number string) {
	l.Text(x-s.before(number), y, s, number)
}
