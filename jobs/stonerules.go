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
	r.culet(s, j, x)
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

// culet: what hangs below the girdle must clear the finger.
func (r *reader) culet(s *source.Map, j *Job, x Stone) {
	cut, ok := stone.CutOf(x.Cut)
	if j.Kind != Ring || x.Girdle <= 0 || x.Depth <= 0 || !ok || r.shop == nil {
		return
	}
	clear := x.Girdle - stone.HeightsOf(cut, x.Depth).Pavilion
	switch {
	case clear <= 0:
		s.Bad("girdle", "culet-in-finger", "raise the seat, or check girdle and depth", "the culet reaches %s below the inside of the shank", -clear)
	case clear < r.shop.Limits.Culet:
		s.Remark("girdle", "culet-clearance", "raise the seat, or accept it", "the culet clears the finger by %s; the house wants %s", clear, r.shop.Limits.Culet)
	}
}
