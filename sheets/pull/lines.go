package pull

import (
	"sort"
	"strings"

	"castweek/tree"
)

// A line is stones of one sort from one parcel, for all bags that need them.
type line struct {
	stone  *tree.BagStone // what they are; counts are those of the line
	count  int
	spares int
	jobs   []string
}

// take is what leaves the drawer.
func (l *line) take() int { return l.count + l.spares }

// drawer is what tells one place in the drawers from another, without the
// size: the name of the stone, then whatever makes it another stone.
func drawer(s *tree.BagStone) string {
	return strings.Join([]string{s.Kind, s.Cut, s.Origin, s.Treatment}, "\x00")
}

// lines adds up the stones of all bags by what they are and where they lie, in
// the order of the drawers: kind, cut, then size. Stones of different owners
// are never one line.
func lines(bags []*tree.Bag) []*line {
	byKey := map[string]*line{}
	var out []*line
	for _, b := range bags {
		for k := range b.Stones {
			s := &b.Stones[k]
			key := strings.Join([]string{drawer(s), s.Length.String(), s.Width.String(), s.Owner, s.Parcel, s.Ordered}, "\x00")
			if s.Here {
				key += "\x00here"
			}
			l := byKey[key]
			if l == nil {
				l = &line{stone: s}
				byKey[key] = l
				out = append(out, l)
			}
			l.count += s.Count
			l.spares += s.Spares
			if n := len(l.jobs); n == 0 || l.jobs[n-1] != b.Job {
				l.jobs = append(l.jobs, b.Job)
			}
		}
	}
	sort.SliceStable(out, func(a, b int) bool {
		x, y := out[a].stone, out[b].stone
		switch {
		case drawer(x) != drawer(y):
			return drawer(x) < drawer(y)
		case x.Length != y.Length:
			return x.Length < y.Length
		case x.Width != y.Width:
			return x.Width < y.Width
		case x.Owner != y.Owner:
			return x.Owner < y.Owner
		}
		return x.Parcel < y.Parcel
	})
	return out
}
