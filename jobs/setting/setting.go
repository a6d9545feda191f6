// Package setting writes the steps by which a stone is set, style by style and
// filled with the numbers of the job, and judges whether claws, bezels and
// culets leave the setter enough room.
//
// A limit belongs to the style or metal for which its source gives it, and
// every step and check says where its limit is from. The steps are for a
// trained setter: they remind, they do not teach.
package setting

import (
	"strings"

	"castweek/jobs/stone"
	"castweek/metal/measure"
)

// A Style is a way of holding a stone, by its trade name.
type Style string

const (
	Claw    Style = "claw"
	Bezel   Style = "bezel"
	Bead    Style = "bead"    // single stones or a row, each with its own beads
	Pave    Style = "pave"    // a field of stones that share beads
	Channel Style = "channel" // a row between two walls
	Flush   Style = "flush"   // let into the metal, burnished round
	Points  Style = "points"  // V-claws over pointed corners
)

// Styles lists the styles in the order they are shown.
func Styles() []Style { return []Style{Claw, Bezel, Bead, Pave, Channel, Flush, Points} }

// StyleOf finds a style by its name; "pavé" is the same as "pave".
func StyleOf(name string) (Style, bool) {
	n := strings.ReplaceAll(strings.ToLower(strings.TrimSpace(name)), "é", "e")
	for _, s := range Styles() {
		if n == string(s) {
			return s, true
		}
	}
	return "", false
}

// A Metal is what the setter feels under the tool.
type Metal string

const (
	YellowGold Metal = "yellow gold"
	RedGold    Metal = "red gold"
	WhiteGold  Metal = "white gold"
	Silver     Metal = "silver"
	Platinum   Metal = "platinum"
	Palladium  Metal = "palladium"
	OtherMetal Metal = "" // nothing special is known
)

// Metals lists the metals that are told apart.
func Metals() []Metal {
	return []Metal{YellowGold, RedGold, WhiteGold, Silver, Platinum, Palladium}
}

// MetalOf tells the metal from the name of an alloy such as "750 white" or
// "950 platinum", by its words. A name that says nothing gives [OtherMetal].
func MetalOf(alloy string) Metal {
	byWord := map[string]Metal{"yellow": YellowGold, "gold": YellowGold, "red": RedGold, "rose": RedGold, "white": WhiteGold,
		"silver": Silver, "platinum": Platinum, "palladium": Palladium}
	for _, word := range strings.Fields(strings.ToLower(alloy)) {
		if m, ok := byWord[word]; ok {
			return m
		}
	}
	return OtherMetal
}

// A Line is one line of a job's stones, as the setter meets it.
type Line struct {
	Place     string
	Kind      stone.Kind
	Cut       stone.Cut
	Treatment string
	Origin    string
	// Length and Width are equal for a round stone. A Depth of 0 is assumed from
	// the cut.
	Length, Width, Depth measure.MM
	DepthAssumed         bool
	Count                int // per piece
}

// Wires are the claws that hold one stone; a 0 is not known.
type Wires struct {
	Count              int
	Finished, Modelled measure.MM // wire diameter
	Overlap            measure.MM // of the modelled claw with the girdle
	Height             measure.MM // of the modelled claw above the girdle
	Shared             bool       // a claw holds two stones
}

// Input is all that the steps are written from. A 0 is not known.
type Input struct {
	Style  Style
	Metal  Metal
	Stone  Line
	Claws  Wires
	Wall   measure.MM // of a bezel, as modelled
	Girdle measure.MM // girdle plane above the inside of the shank
	// Seat and Thickness are of the pattern: the seat, and the metal that a flush
	// stone is let into. Shrinkage takes them to the casting.
	Seat      Seat
	Thickness measure.MM
	Shrinkage measure.Percent
	Ring      bool
	Placed    bool   // the job says where each stone sits, and a drawing shows it
	Pieces    int    // that share the bag, and so the count; 0: one
	InWax     bool   // set in the wax and cast in place
	Others    []Line // the other lines of stones on the same piece
	House     House
}

// A Seat is the opening for the girdle in a pattern; both are equal for a round
// stone.
type Seat struct{ Length, Width measure.MM }

// A Step is one thing to do.
type Step struct {
	Key     string   // stable name of the step, "claw.seat"
	Text    string   // a plain sentence with the numbers in it
	Numbers []Number // the same numbers, by name
	Tool    string
	Source  string // where the limits are from
	Caution string // to stand before the step, or ""
	Tick    bool   // has a box to tick
}

// A Stop is a line that says when to stop, or what decides. Now means that the
// job as it is written already calls for it.
type Stop struct {
	Code    string // stable
	Text    string
	Numbers []Number
	Source  string
	Now     bool
}
