package workshop

import (
	"fmt"
	"strings"

	"castweek/jobs/source"
	"castweek/metal/burnout"
	"castweek/metal/measure"
)

// readRoom reads how many flasks one load of the kiln takes: of any size, of
// each size alone, or both. A list of sizes names every flask of the house, so
// that none is left to a guess.
func readRoom(m *source.Map, flasks []Flask) burnout.Room {
	var r burnout.Room
	r.Flasks = source.Maybe(m, "flasks", 0, source.Within(measure.Whole, 1, 200))
	if !m.Has("sizes") {
		return r
	}
	r.Sizes = map[string]int{}
	seen := map[string]bool{}
	names := map[string]bool{}
	for _, f := range flasks {
		names[f.Name] = true
	}
	whole := true
	for _, v := range m.Values("sizes") {
		number, size, ok := strings.Cut(v.Text, " of ")
		n, err := source.Within(measure.Whole, 0, 200)(strings.TrimSpace(number))
		size = strings.TrimSpace(size)
		switch {
		case !ok || err != nil:
			whole = false
			v.Bad("kiln-form", "write a number and a flask, such as 9 of 65 x 90; 0 of a size that does not go in", "%q is not a number of flasks", v.Text)
		case !names[size]:
			v.Bad("kiln-flask", "write the name of one of the flasks", "%q is not a flask of the house", size)
		case seen[size]:
			v.Bad("name-double", "write each flask once", "%q is listed before", size)
		default:
			r.Sizes[size] = n
		}
		seen[size] = true
	}
	var missing []string
	for _, f := range flasks {
		if whole && !seen[f.Name] && f.Name != "" {
			missing = append(missing, f.Name)
		}
	}
	if len(missing) > 0 {
		m.Bad("sizes", "kiln-flask", fmt.Sprintf("add a line for each, such as 4 of %s", missing[0]), "nothing is said about %s", strings.Join(missing, ", "))
	}
	return r
}
