package setting

import (
	"castweek/jobs/stone"
	"castweek/metal/measure"
)

// A Check is one measure of a piece beside the rules that speak of it. Value is
// the length that is judged, Share the same as a share of what the rules are
// written in, 0 where they are written in mm.
type Check struct {
	Key, Name string
	Value     measure.MM
	Share     measure.Percent
	Rules     []Rule
	// Fails marks what is more than a remark: the stone could not be held.
	Fails bool
}

// A Rule is a limit with its source; a side that is 0 is open.
type Rule struct {
	Low, High           measure.MM
	LowShare, HighShare measure.Percent // where the rule is a share
	Source              string
	Met                 bool
}

// Met says whether every rule is met. Rules of one check may contradict each
// other, so that none can be met by all: then each is shown for itself.
func (c Check) Met() bool {
	for _, r := range c.Rules {
		if !r.Met {
			return false
		}
	}
	return true
}

// edge keeps a value that was typed on the limit on its good side.
const edge = 1e-9

// add judges the value by a rule in mm.
func (c *Check) add(low, high measure.MM, source string) {
	met := c.Value >= low-edge && (high == 0 || c.Value <= high+edge)
	c.Rules = append(c.Rules, Rule{Low: low, High: high, Source: sources[source], Met: met})
}

// addShare judges the value by a rule in shares of whole.
func (c *Check) addShare(whole measure.MM, low, high measure.Percent, source string) {
	met := c.Share >= low-edge && (high == 0 || c.Share <= high+edge)
	c.Rules = append(c.Rules, Rule{share(whole, low), share(whole, high), low, high, sources[source], met})
}

func newCheck(key string, v measure.MM) Check {
	return Check{Key: key, Name: checkWords[key], Value: v}
}

func newShare(key string, v, whole measure.MM) Check {
	c := newCheck(key, v)
	c.Share = measure.Percent(v / whole * 100)
	return c
}

// ModelledOverlap judges how far a claw, as modelled, overlaps the girdle, as a
// share of the modelled wire. It is not the notch that the setter cuts: see
// [FinishedNotch]. False when a length is missing.
func ModelledOverlap(wire, overlap measure.MM, house House) (Check, bool) {
	if wire <= 0 || overlap <= 0 {
		return Check{}, false
	}
	c := newShare("overlap", overlap, wire)
	c.addShare(wire, 0, 25, "overlap-ideal")
	c.addShare(wire, 0, house.ClawOverlap, "overlap-most")
	c.addShare(wire, 30, 50, "bite-notes")
	c.addShare(wire, 50, 200.0/3, "bite-cover")
	return c, true
}

// NotchLimit is how much of the claw's depth the notch may take: a quarter of a
// claw that two stones share, about 40 % in platinum, else half.
func NotchLimit(metal Metal, shared bool) (measure.Percent, string) {
	switch {
	case shared:
		return 25, "notch-shared"
	case metal == Platinum:
		return 40, "notch-platinum"
	}
	return 50, "notch"
}

// FinishedNotch judges the depth of the notch in a finished claw.
func FinishedNotch(wire, notch measure.MM, metal Metal, shared bool) (Check, bool) {
	if wire <= 0 || notch <= 0 {
		return Check{}, false
	}
	c := newShare("notch", notch, wire)
	limit, source := NotchLimit(metal, shared)
	c.addShare(wire, 0, limit, source)
	if !shared {
		c.addShare(wire, 0, 25, "notch-findings")
	}
	return c, true
}

// FinishedHeight is the part of the way from girdle to table that a finished
// claw stands above the girdle, for a style and metal.
func FinishedHeight(style Style, metal Metal) (low, high measure.Percent, source string) {
	switch {
	case style == Points:
		return 90, 100, "height-points"
	case metal == Platinum:
		return 60, 80, "height-platinum"
	}
	return 70, 80, "height"
}

// A claw before setting stands so much above its finished height.
const rawLow, rawHigh measure.MM = 0.5, 1.0

// ClawsBeforeSetting judges how far a claw stands above the girdle before the
// stone is set, by both rules. Only a claw that does not reach its finished
// height fails.
func ClawsBeforeSetting(style Style, metal Metal, s Line, above measure.MM) (Check, bool) {
	h := heights(s)
	if above <= 0 || h.Crown <= 0 || h.Pavilion <= 0 {
		return Check{}, false
	}
	low, high, source := FinishedHeight(style, metal)
	c := newCheck("claw-height", above)
	c.add(h.Pavilion*(1-pavilionSlack), h.Pavilion*(1+pavilionSlack), "raw-pavilion")
	c.add(share(h.Crown, low)+rawLow, share(h.Crown, high)+rawHigh, "raw-height")
	c.add(share(h.Crown, low), 0, source)
	c.Fails = !c.Rules[2].Met
	return c, true
}

// pavilionSlack is what "about one pavilion depth" leaves on either side. House
// reading of the rule.
const pavilionSlack = 0.2

// CuletClearance judges how far the culet stays above the finger, from the
// height of the girdle plane above the inside of the shank. The girdle plane is
// taken as the middle of the girdle. A culet at or under the inside fails.
func CuletClearance(s Line, girdle measure.MM, house House) (Check, bool) {
	h := heights(s)
	if girdle <= 0 || h.Crown+h.Pavilion <= 0 {
		return Check{}, false
	}
	c := newCheck("culet", girdle-h.Girdle/2-h.Pavilion)
	c.add(house.Culet, 0, "house")
	c.add(0.5, 0, "culet-findings")
	c.add(1, 0, "culet-forum")
	c.add(1.7, 2.2, "culet-heads")
	c.add(s.Width/4, 0, "culet-practice")
	c.Fails = c.Value <= 0
	return c, true
}

// AsCast is what a modelled length comes to in the casting: modelled ×
// (1 − shrinkage).
func AsCast(modelled measure.MM, shrinkage measure.Percent) measure.MM {
	return modelled * measure.MM(1-shrinkage/100)
}

// SeatAsCast judges a seat that is in the pattern: its size after shrinkage,
// modelled × (1 - shrinkage), beside the stone's. A seat may be as large as the
// stone and no larger.
func SeatAsCast(modelled measure.MM, shrinkage measure.Percent, stoneSize measure.MM) (Check, bool) {
	if modelled <= 0 || stoneSize <= 0 || shrinkage < 0 || shrinkage >= 100 {
		return Check{}, false
	}
	c := newCheck("seat", AsCast(modelled, shrinkage))
	c.add(0, stoneSize, "seat-size")
	return c, true
}

// CleanUp judges whether a modelled diameter or thickness leaves the metal that
// finishing takes: leave is on the diameter, both sides together.
func CleanUp(finished, modelled, leave measure.MM) (Check, bool) {
	if finished <= 0 || modelled <= 0 || leave < 0 {
		return Check{}, false
	}
	c := newCheck("clean-up", modelled-finished)
	c.add(leave, 0, "clean-up")
	c.add(0.2, 0, "clean-up-findings")
	return c, true
}

// ClawWire judges the modelled wire of a claw.
func ClawWire(modelled measure.MM, house House) (Check, bool) {
	if modelled <= 0 {
		return Check{}, false
	}
	c := newCheck("claw-wire", modelled)
	c.add(house.ClawWire, 0, "wire-guide")
	c.add(1.2, 0, "wire-preferred")
	return c, true
}

// BezelWall judges the modelled wall of a bezel: 0.4 mm is to be left after
// burnishing, and finishing takes 0.1 mm from each face.
func BezelWall(modelled measure.MM, house House) (Check, bool) {
	if modelled <= 0 {
		return Check{}, false
	}
	c := newCheck("bezel-wall", modelled)
	c.add(house.BezelWall, 0, "bezel-model")
	return c, true
}

// FlushMetal judges the metal that a stone is let into, as cast: its depth and
// 0.2 mm, so that the culet stays inside.
func FlushMetal(thickness measure.MM, s Line, house House) (Check, bool) {
	if thickness <= 0 || depthOf(s) <= 0 {
		return Check{}, false
	}
	c := newCheck("flush-metal", thickness)
	c.add(depthOf(s)+house.FlushBelow, 0, "flush-metal")
	return c, true
}

// ChannelWidth is the width between the walls for stones of a width: 90 % under
// 3 mm, 90 to 95 % from there.
func ChannelWidth(width measure.MM) (low, high measure.MM, source string) {
	if width < 3 {
		return share(width, 90), share(width, 90), "channel-small"
	}
	return share(width, 90), share(width, 95), "channel-large"
}

// depthOf is the depth of a stone, assumed from the cut when not given.
func depthOf(s Line) measure.MM {
	if s.Depth > 0 || s.Width <= 0 {
		return s.Depth
	}
	d, _ := stone.AssumedDepth(s.Cut, s.Kind, s.Width)
	return d
}

func heights(s Line) stone.Heights { return stone.HeightsOf(s.Cut, depthOf(s)) }
