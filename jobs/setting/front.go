package setting

import (
	"slices"
	"strings"

	"castweek/jobs/stone"
)

// front writes what comes before every style: the stones are counted, looked
// at and measured before a tool touches anything.
func (w *writer) front() {
	w.step("front.count", "practice", w.all())
	w.step("front.loupe", "front")
	if w.s.DepthAssumed {
		w.warn(cautionWords["assumed"])
	}
	depth := length("depth", about(w.s.Depth)).assumed(w.s.DepthAssumed)
	if w.s.Length == w.s.Width {
		w.step("front.measure.round", "front", length("size", about(w.s.Length)), depth)
	} else {
		w.step("front.measure.long", "front", length("length", about(w.s.Length)), length("width", about(w.s.Width)), depth)
	}
	if w.s.Count > 1 {
		w.step("front.sort", "front")
	}
	if w.in.Ring {
		w.step("front.ring", "front")
	} else {
		w.step("front.under", "front")
	}
	w.seatAsCast()
	w.metal()
	w.order()
	w.step("front.hold", "practice")
}

// all counts the stones of the line in the bag.
func (w *writer) all() Number { return count("count", w.s.Count*max(1, w.in.Pieces)) }

// metal writes the step that the metal asks for.
func (w *writer) metal() {
	if w.in.InWax {
		return
	}
	if key := "metal." + strings.ReplaceAll(string(w.in.Metal), " ", "-"); catalogue[key].text != "" {
		w.step(key, "practice")
	}
}

// order says which stones of the piece are set before this line and which
// after, and what is to be covered: heat-sensitive stones come last.
func (w *writer) order() {
	var before, after []string
	own := rank(w.s)
	for _, o := range w.in.Others {
		switch {
		case rank(o) < own:
			before = append(before, named(o))
		case rank(o) > own:
			after = append(after, named(o))
		}
	}
	if len(before) > 0 {
		w.sentence("front.after", "order", map[string]string{"others": strings.Join(before, ", ")})
		w.sentence("front.protect", "front", map[string]string{"others": strings.Join(before, ", ")})
	}
	if len(after) > 0 {
		w.sentence("front.before", "order", map[string]string{"others": strings.Join(after, ", ")})
	}
}

// rank is the place of a line in the order of setting.
func rank(l Line) int { return stone.HeatRank(l.Kind, l.Treatment) }

// Order gives the indexes of the lines of a piece in the order they are set,
// heat-sensitive stones last; equal ones keep their order.
func Order(lines []Line) []int {
	order := make([]int, len(lines))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return rank(lines[a]) - rank(lines[b]) })
	return order
}

// sentence adds a step whose sentence holds words instead of numbers.
func (w *writer) sentence(key, source string, with map[string]string) {
	e := catalogue[key]
	w.steps = append(w.steps, Step{Key: key, Text: fill(e.text, with), Tool: e.tool, Source: sources[source], Caution: w.caution, Tick: true})
	w.caution = ""
}

func named(l Line) string {
	if l.Place == "" {
		return l.Kind.Name
	}
	return l.Kind.Name + " (" + l.Place + ")"
}

// care gives the care of the stone under its treatment.
func (w *writer) care() stone.Care {
	c, _ := stone.CareOf(w.s.Kind, w.s.Treatment)
	return c
}

// place warns of what the stone does not stand; it goes before the step in
// which the stone enters the metal, after which no torch comes near.
func (w *writer) place() {
	if c := w.care(); slices.ContainsFunc(c.Cells(), func(c stone.Cell) bool { return c.Level == stone.KeepAway }) {
		w.warn(fill(cautionWords["care"], map[string]string{"kind": w.s.Kind.Name, "care": c.String()}))
	}
}

// fragile is a stone that a hammer or a hard push may break: what must not see
// the torch for its cleavage or softness is taken for it, as is any unknown
// kind. Garnet and quartz fear heat, not the hammer. Common practice, no source.
func (w *writer) fragile() bool {
	switch w.s.Kind.Name {
	case "garnet", "almandine garnet", "rhodolite garnet", "pyrope garnet", "spessartine garnet", "amethyst", "citrine":
		return false
	}
	return w.care().Torch == stone.KeepAway
}

// cleaning is the care of all stones that may be in the piece by now: this line
// and every line that is not set later.
func (w *writer) cleaning() stone.Care {
	c := w.care()
	for _, o := range w.in.Others {
		if rank(o) <= rank(w.s) {
			other, _ := stone.CareOf(o.Kind, o.Treatment)
			c = c.Stricter(other)
		}
	}
	return c
}

// finish writes what comes after every style.
func (w *writer) finish() {
	w.step("end.test", "test")
	c := w.cleaning()
	switch {
	case c.Ultrasonic == stone.KeepAway && c.Steam == stone.KeepAway:
		w.step("end.clean.damp", "care")
	case c.Ultrasonic == stone.Tolerated && c.Steam == stone.Tolerated:
		w.step("end.clean.bath", "care")
	case c.Ultrasonic == stone.KeepAway:
		w.step("end.clean.brush", "care")
	default:
		w.step("end.clean.short", "care")
	}
	w.step("end.count", "practice", w.all())
}
