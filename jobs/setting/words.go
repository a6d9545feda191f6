package setting

import (
	"strconv"
	"strings"

	"castweek/metal/measure"
)

// Everything a person reads from this package stands in this file and in the
// two beside it: the catalogue of steps and the list of sources. {name} is
// filled with the number of that name; {name|words} with the words when the
// number is not known.

// Label is the word for a style on paper.
func (s Style) Label() string { return styleWords[s] }

var styleWords = map[Style]string{Claw: "claw", Bezel: "bezel", Bead: "bead", Pave: "pavé", Channel: "channel", Flush: "flush", Points: "points"}

var numberWords = map[string]string{
	"count": "stones", "size": "size", "length": "length", "width": "width", "depth": "depth", "claws": "claws", "points": "points",
	"above": "claw above the seat", "bur": "bur", "drill": "drill", "hole": "hole", "notch": "notch at most", "reach": "claw over the stone",
	"leave": "leave above the girdle", "cup": "cup bur", "culet": "culet clearance at least", "clearance": "culet clearance", "room": "room below the girdle",
	"wall": "wall left", "lip": "wall over the stone", "apart": "between stones", "gap": "between stones", "pitch": "centre to centre",
	"bearing": "seat depth at most", "contact": "bead over the stone", "channel": "channel width", "deep": "channel depth", "line": "girdle line below the edge",
	"undercut": "undercut in each wall", "cover": "wall over the stone", "fits": "stones alike within", "metal": "metal at least", "seat": "girdle below the surface",
	"cast": "as cast", "castwidth": "width as cast", "modelled": "as modelled", "pavilion": "pavilion depth", "overlap": "claw over the girdle, as modelled", "wire": "claw wire, as modelled",
	"windows": "windows", "height": "claw height", "least": "at least",
}

var checkWords = map[string]string{
	"overlap": "claw over girdle, as modelled", "notch": "finished notch", "claw-height": "claw above girdle before setting", "culet": "culet clearance",
	"seat": "seat as cast", "clean-up": "metal to clean up", "claw-wire": "claw wire, as modelled", "bezel-wall": "bezel wall, as modelled", "flush-metal": "metal for a flush stone",
	"finished-claw": "finished claw above girdle", "contact": "claw over the stone", "bead-contact": "bead over the stone", "gap": "between stones",
}

var missingWords = map[string]string{
	"style": "the setting style", "cut": "the cut", "size": "the size of the stone", "depth": "the depth of the stone", "count": "how many stones", "house": "the house limits for stones",
}

// thing is the word for one and for several.
func thing(key string, n int) string {
	one := map[string]string{"count": "stone", "claws": "claw", "points": "point", "windows": "window"}[key]
	if n == 1 {
		return one
	}
	return one + "s"
}

var stopWords = map[string]string{
	"input":             "No steps can be written: {missing} is missing or cannot be right.",
	"size-fits.round":   "Measured {size}: it fits. Set it.",
	"size-fits.long":    "Measured {length} by {width}: it fits. Set it.",
	"size-cut.round":    "Else, still within {size}: cut the seat to the stone. Write the size, initial it.",
	"size-cut.long":     "Else, still within {length} by {width}: cut the seat to the stone. Write the size, initial it.",
	"size-return.round": "Stop outside {size}. The stone goes back to the scheduler.",
	"size-return.long":  "Stop outside {length} by {width}. The stone goes back to the scheduler.",
	"chip":              "Stop at a chip or crack. Tell of it before you touch the stone.",
	"count":             "Start only with {count} here.",
	"unknown-kind":      "This kind of stone is not known here. Treat it as the most delicate, and ask.",
	"style-cut":         "V-claws guard pointed corners, and this cut has none. Ask the scheduler.",
	"style-dome":        "A domed stone is rarely set this way. Ask the scheduler.",
	"fragile":           "Flush setting presses hard on the stone, and this one is fragile. Ask first.",
	"wax-kind":          "This stone does not stand casting in place. Do not set it in the wax.",
	"wax-ask":           "No source says that this stone stands casting in place. Ask before it goes into the wax.",
	"culet-out":         "The culet would come through to the finger. Do not set it. Ask the scheduler.",
	"culet-low":         "The culet would clear the finger by {clearance}; the house asks for {culet}. Ask first.",
	"claw-short":        "The claws stand {height} over the girdle; they need {least} to hold. Ask first.",
}

var cautionWords = map[string]string{
	"assumed":   "The depth is assumed from the cut. Measure it.",
	"care":      "{kind}: {care}. All soldering comes before.",
	"push":      "Fragile stone: no hammer near it.",
	"wax-hands": "A warm tool cracks a stone and melts its seat.",
	"no-quench": "Never quench a flask with stones in it. Leave it to cool.",
}

// String writes the number with its unit: "2.25 mm", "0.3 to 0.35 mm",
// "4 claws". A set value has no zeros at its end.
func (n Number) String() string {
	if n.Thing != "" {
		return strconv.Itoa(n.Count) + " " + n.Thing
	}
	low, high := short(n.Low), short(n.High)
	if low == high {
		return high + " mm"
	}
	return low + " to " + high + " mm"
}

func short(v measure.MM) string {
	s := measure.Decimals(float64(v), 2)
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}
