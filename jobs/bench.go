package jobs

import (
	"fmt"
	"strings"

	"castweek/jobs/setting"
	"castweek/jobs/source"
	"castweek/jobs/stone"
	"castweek/metal/measure"
)

// bench judges what the setter will meet: claws, bezel and culet. Where a rule
// is broken that decides whether the stone can be held, the job is held; every
// other is a remark beside the rules and where they are from.
func (r *reader) bench(s *source.Map, j *Job, x Stone) {
	cut, ok := stone.CutOf(x.Cut)
	if !ok || x.Width <= 0 || x.Part >= len(j.Parts) {
		return
	}
	line := setting.Line{Place: x.Place, Kind: stone.Find(x.Kind), Cut: cut, Treatment: x.Treatment, Origin: x.Origin,
		Length: x.Length, Width: x.Width, Depth: x.Depth, DepthAssumed: x.Assumed, Count: x.Count}
	house := setting.DefaultHouse()
	if r.shop != nil {
		house = r.shop.Bench()
	}
	if j.Kind == Ring {
		if c, ok := setting.CuletClearance(line, x.Girdle, house); ok {
			judge(s, "girdle", c, "culet-in-finger", "culet-clearance", "raise the seat, or check girdle and depth", !c.Rules[0].Met)
		}
	}
	if c, ok := setting.BezelWall(x.Wall, house); ok {
		judge(s, "wall", c, "", "bezel-wall", "thicken it, or accept it", !c.Met())
	}
	r.cast(s, j, x, line)
	if x.Claws == nil {
		return
	}
	if c, ok := setting.ClawWire(x.Claws.Modelled, house); ok {
		judge(s, "claws", c, "", "claw-thin", "thicken the claws, or accept them", !c.Rules[0].Met)
	}
	if c, ok := setting.ModelledOverlap(x.Claws.Modelled, x.Claws.Overlap, house); ok {
		// The rules contradict each other; the remark is for what is above the
		// house's.
		judge(s, "claws", c, "", "claw-bite", "move the claws out, or accept it", !c.Rules[1].Met)
	}
	metal := setting.MetalOf(j.Parts[x.Part].Alloy)
	if c, ok := setting.ClawsBeforeSetting(setting.Style(x.Style), metal, line, x.Claws.Height); ok {
		judge(s, "claws", c, "claw-short", "claw-height", "lengthen the claws, or check their height", !c.Rules[0].Met && !c.Rules[1].Met)
	}
}

// cast judges what the pattern has for the stone as it comes out of the cast:
// a seat, and the metal that a flush stone is let into.
func (r *reader) cast(s *source.Map, j *Job, x Stone, line setting.Line) {
	if r.shop == nil {
		return
	}
	material, ok := r.shop.Material(j.Parts[x.Part].Pattern.Material)
	if !ok {
		return
	}
	how := func(modelled measure.MM) string {
		return fmt.Sprintf(" (%s modelled, %s %% shrinkage)", modelled, measure.Decimals(float64(material.Shrinkage), 2))
	}
	for _, v := range [][2]measure.MM{{x.Seat.Length, x.Length}, {x.Seat.Width, x.Width}} {
		if c, ok := setting.SeatAsCast(v[0], material.Shrinkage, v[1]); ok && !c.Met() {
			c.Name += how(v[0])
			judge(s, "seat", c, "", "seat-large", "model it smaller: what is too large can not be cut to fit", true)
			break
		}
	}
	if c, ok := setting.FlushMetal(setting.AsCast(x.Metal, material.Shrinkage), line, r.shop.Bench()); ok && x.Style == string(setting.Flush) {
		c.Name += how(x.Metal)
		judge(s, "metal", c, "", "flush-thin", "model it thicker, or choose a shallower stone", !c.Met())
	}
}

// judge adds a failed check as an error, and one that is to be remarked as a
// remark.
func judge(s *source.Map, key string, c setting.Check, failed, remarked, remedy string, remark bool) {
	switch {
	case c.Fails && failed != "":
		s.Bad(key, failed, remedy, "%s", checkText(c))
	case remark:
		s.Remark(key, remarked, remedy, "%s", checkText(c))
	}
}

// checkText writes a check with the rules that it breaks: "culet clearance
// 0.27 mm; wanted 0.50 mm or more (house limit)". A claw's overlap and height
// are written beside all of theirs, which contradict each other.
func checkText(c setting.Check) string {
	var b strings.Builder
	b.WriteString(c.Name + " " + c.Value.String())
	if c.Share > 0 {
		b.WriteString(", " + measure.Decimals(float64(c.Share), 0) + " %")
	}
	for _, rule := range c.Rules {
		if rule.Met && c.Key != "overlap" && c.Key != "claw-height" {
			continue
		}
		b.WriteString("; wanted ")
		switch {
		case rule.High == 0:
			b.WriteString(rule.Low.String() + " or more")
		case rule.Low == 0:
			b.WriteString("at most " + rule.High.String())
		default:
			b.WriteString(rule.Low.String() + " to " + rule.High.String())
		}
		b.WriteString(" (" + rule.Source + ")")
	}
	return b.String()
}
