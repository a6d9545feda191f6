package mark

import (
	"sort"

	"castweek/metal/problem"
)

// Role is where a part of metal ends up.
type Role string

const (
	Post   Role = "post"   // goes through a pierced part of the body
	Skin   Role = "skin"   // long against the skin: ring, chain, earring, bracelet
	Away   Role = "away"   // not against the skin for long
	Filler Role = "filler" // brazing filler, solder
)

// Roles lists them.
func Roles() []Role { return []Role{Post, Skin, Away, Filler} }

// A Part is metal in its role. Shares are parts per million by element; one
// that is not named counts as nothing, which a composition can only promise
// and an analysis would show.
type Part struct {
	Name   string
	Role   Role
	Shares map[Element]Parts
	Place  problem.Place
}

// Limits on what metal may hold, in the EU and the United Kingdom.
const (
	// CadmiumFrom is the share from which cadmium is forbidden in each metal
	// part of jewellery and in brazing filler: 0.01 % (REACH, annex XVII,
	// entry 23, paragraphs 8 and 10).
	CadmiumFrom Parts = 100
	// LeadFrom is the share from which lead is forbidden in each part: 0.05 %
	// (REACH, annex XVII, entry 63; from memory).
	LeadFrom Parts = 500
)

// Remarks says what the nickel, cadmium and lead of a part mean for its sale.
//
// Nickel: how much a part gives off cannot be worked out from its composition,
// so any nickel is a remark with the limit that holds for the role: 0.2
// µg/cm²/week for posts in pierced parts, 0.5 for what is long against the
// skin; what is coated must hold that for two years of normal use (REACH,
// annex XVII, entry 27; test EN 1811). A share or a role that cannot be is an
// error beside the remarks, which are made all the same.
func Remarks(p Part) problem.List {
	var l problem.List
	sound(p, &l)
	if p.Shares["Ni"] > 0 {
		switch p.Role {
		case Away, Filler:
		case Skin:
			l.Remark(p.Place, "nickel-skin", "use an alloy without nickel, or have it tested by EN 1811; a coating must last two years of normal use",
				"%s holds %s of nickel: against the skin not more than 0.5 µg/cm²/week may be given off", p.Name, p.Shares["Ni"])
		default: // Post, and the stricter limit for a role that is not known
			l.Remark(p.Place, "nickel-post", "make the post of an alloy without nickel, or have it tested by EN 1811",
				"%s holds %s of nickel: a post in a pierced part may give off less than 0.2 µg/cm²/week", p.Name, p.Shares["Ni"])
		}
	}
	if s := p.Shares["Cd"]; s >= CadmiumFrom {
		what := "each metal part of jewellery must hold less than 0.1 ‰"
		if p.Role == Filler {
			what = "brazing filler with 0.1 ‰ or more may not be sold"
		}
		l.Remark(p.Place, "cadmium", "do not use it; do not melt it: cadmium fumes are a poison", "%s holds %s of cadmium: %s", p.Name, s, what)
	}
	if s := p.Shares["Pb"]; s >= LeadFrom {
		l.Remark(p.Place, "lead", "do not use it", "%s holds %s of lead: each part must hold less than 0.5 ‰", p.Name, s)
	}
	return l
}

// sound collects what is wrong with the part itself.
func sound(p Part, l *problem.List) {
	known := false
	for _, r := range Roles() {
		known = known || p.Role == r
	}
	if !known {
		l.Add(p.Place, "mark-role", "use post, skin, away or filler", "%s has the unknown role %q", p.Name, string(p.Role))
	}
	var symbols []string
	for e := range p.Shares {
		symbols = append(symbols, string(e))
	}
	sort.Strings(symbols)
	sum := Parts(0)
	for _, e := range symbols {
		s := p.Shares[Element(e)]
		if s < 0 || s > Whole {
			l.Add(p.Place, "mark-share", "give shares between 0 and 1000 ‰", "%s cannot hold %s of %s", p.Name, s, Element(e).Name())
			continue
		}
		sum += s
	}
	// Printed recipes are rounded to whole thousandths: 1 ‰ either way.
	if len(symbols) == 0 || sum < Whole-perMille || sum > Whole+perMille {
		l.Add(p.Place, "mark-sum", "give the whole composition", "the shares of %s add up to %s", p.Name, sum)
	}
}
