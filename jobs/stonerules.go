package jobs

import (
	"castweek/jobs/source"
	"castweek/jobs/stone"
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
	r.bench(s, j, x)
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
