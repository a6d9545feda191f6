package jobs

import (
	"strings"

	"castweek/jobs/source"
	"castweek/jobs/stone"
	"castweek/metal/measure"
)

// stoneRules judges one line of stones against the job and the house.
func (r *reader) stoneRules(s *source.Map, j *Job, x Stone) {
	if x.Owner != House && !s.Has("risk") {
		s.Bad("owner", "risk-missing", "add risk: … with who answers for breakage", "the stone is %s's, and nothing says who carries the risk of setting it", x.Owner)
	}
	kind := stone.Find(x.Kind)
	if !kind.Known && x.Kind != "" {
		s.Remark("kind", "stone-unknown", "ask for its care; the bag prints that of the most delicate stone", "%q is not in the table of stones", x.Kind)
	}
	if x.InWax {
		r.inWax(s, j, x, kind)
	}
	r.seats(s, j, x)
	r.bench(s, j, x)
}

// seats: where stones sit can be drawn only on a pattern that has a mesh, and
// only when it is told of each.
func (r *reader) seats(s *source.Map, j *Job, x Stone) {
	if !s.Has("sits") || x.Part >= len(j.Parts) {
		return
	}
	switch {
	case j.Parts[x.Part].Pattern.Mesh == "":
		s.Bad("sits", "seats-no-mesh", "remove it, or give the pattern's mesh", "the pattern has no mesh to draw the stones on")
	case len(x.Sits) != x.Count && x.Count > 0:
		s.Bad("sits", "seats-count", "tell the place of each stone, or of none", "%d places are told, and count is %d", len(x.Sits), x.Count)
	}
}

// parseSeat reads a view and a place in it, such as "top 1.6 x 3.1 mm".
func parseSeat(text string) (Seat, error) {
	wrong := &measure.SyntaxError{Code: "seat-form", Message: "\"" + text + "\" does not tell where a stone sits",
		Remedy: "write a view (front, side or top) and how far from its left and its lower edge, such as top 1.6 x 3.1 mm"}
	view, rest, _ := strings.Cut(strings.TrimSpace(text), " ")
	if view != "front" && view != "side" && view != "top" {
		return Seat{}, wrong
	}
	l, err := measure.ParseLengths(rest)
	if err != nil {
		return Seat{}, err
	}
	if len(l) != 2 || l[0] < 0 || l[1] < 0 || l[0] > maxOuter || l[1] > maxOuter {
		return Seat{}, wrong
	}
	return Seat{view, l[0], l[1]}, nil
}

// inWax: cast in place is for few stones, and never with resin, whose burnout
// is hotter than stones stand.
func (r *reader) inWax(s *source.Map, j *Job, x Stone, kind stone.Kind) {
	level, note := stone.CastInPlace(kind, x.Origin)
	switch level {
	case stone.KeepAway:
		s.Bad("set", "stone-not-in-wax", "write set: after casting", "%s does not stand being cast in place (%s)", x.Kind, note.Source)
	case stone.NotSaid:
		s.Remark("set", "stone-in-wax-unsaid", "try one first, or write set: after casting", "no source says whether %s stands casting in place", x.Kind)
	}
	if r.shop == nil || x.Part >= len(j.Parts) {
		return
	}
	if m, ok := r.shop.Material(j.Parts[x.Part].Pattern.Material); ok && m.Resin {
		s.Bad("set", "stone-in-resin", "write set: after casting, or make the pattern in wax", "stones are never cast in place in a resin pattern: its burnout is too hot for them")
	}
}
