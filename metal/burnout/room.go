package burnout

import "fmt"

// Room is how many flasks one load of the kiln takes. A Room that nobody wrote
// down holds all of them.
type Room struct {
	Flasks int            // of any size; 0 not known
	Sizes  map[string]int // of one size alone; 0 when that size does not go in
}

// Known tells whether the house wrote down what its kiln takes.
func (r Room) Known() bool { return r.Flasks > 0 || len(r.Sizes) > 0 }

// takes refuses a flask that does not go into the kiln at all.
func (r Room) takes(f Flask) *Refusal {
	if n, listed := r.Sizes[f.Size]; len(r.Sizes) > 0 && (!listed || n < 1) {
		return &Refusal{"burnout-room", fmt.Sprintf("no flask of %s goes into the kiln", f.Size), "cast it in another flask"}
	}
	return nil
}

// has tells whether a load has room for one flask more. Where sizes are mixed,
// each takes its share of the kiln: one of the 4 large flasks that fill it
// leaves room for 6 of the 9 small ones. That is common practice, no source; a
// load that keeps to it may still have to be tried in the cold kiln.
func (r Room) has(load []Flask, more Flask) bool {
	if r.Flasks > 0 && len(load) >= r.Flasks {
		return false
	}
	if len(r.Sizes) == 0 {
		return true
	}
	full := 1 / float64(r.Sizes[more.Size])
	for _, f := range load {
		full += 1 / float64(r.Sizes[f.Size])
	}
	const dust = 1e-9 // thirds add up to a little more than 1
	return full <= 1+dust
}
