// Package stone knows what the bench has to know of stones: how heavy one of a
// kind, cut and size is likely to be, how deep it is when nobody measured it,
// what it does not stand, and in which order stones are set.
//
// A weight from here is an estimate, to stand beside a box for the weighed one.
// Where sources part, both values are given; where they part over care, the
// stricter is.
package stone

import (
	"strings"

	"castweek/metal/measure"
)

// A Kind is a species or material. The zero SG means that none is known, and
// then there is no estimate of a weight.
type Kind struct {
	Name    string
	Known   bool // false: not in the table; the most delicate is assumed
	SG      measure.GramPerCC
	SGRange string // as printed in gem tables
	Mohs    string
	Care    Care // the stricter, where sources part
	Milder  Care // what the milder source says; zero where they agree
	Notes   []Note
	// Heat places the kind in the order of setting: 1 is set first, the highest
	// last. See [HeatRank].
	Heat   int
	Source string // of the numbers
}

// A Note is a sentence for the bench and where it is from.
type Note struct{ Text, Source string }

// Find gives the kind of a name as it is typed: "sapphire", "blue sapphire",
// "CZ". A name that is not in the table gives a Kind that is not Known, whose
// care is that of the most delicate stone.
func Find(name string) Kind {
	n := plain(name)
	if alias, ok := aliases[n]; ok {
		n = alias
	}
	words := strings.Fields(n)
	for i := range words {
		if k, ok := byName(strings.Join(words[i:], " ")); ok {
			return k
		}
		// Only a word for colour or origin may be dropped: a Herkimer diamond is
		// a quartz, and a smoky topaz too.
		if !qualifiers[words[i]] {
			break
		}
	}
	return Kind{Name: strings.TrimSpace(name), Care: mostDelicate(), Heat: lastOfAll, Notes: []Note{noteUnknown}, Source: unknownSource}
}

func plain(name string) string { return strings.ToLower(strings.Join(strings.Fields(name), " ")) }

func byName(n string) (Kind, bool) {
	if k, ok := table[n]; ok {
		k.Name, k.Known = n, true
		return k, true
	}
	return Kind{}, false
}

// aliases are other names of the same kind.
var aliases = map[string]string{
	"cz": "cubic zirconia", "zirconia": "cubic zirconia", "almandine": "almandine garnet", "rhodolite": "rhodolite garnet",
	"pyrope": "pyrope garnet", "spessartine": "spessartine garnet", "lapis": "lapis lazuli",
	"diamonds": "diamond", "rubies": "ruby", "sapphires": "sapphire", "pearls": "pearl", "opals": "opal", "emeralds": "emerald",
}

// qualifiers are the words that may stand before a kind without changing it.
var qualifiers = map[string]bool{
	"white": true, "black": true, "grey": true, "gray": true, "blue": true, "pink": true, "yellow": true, "green": true, "red": true,
	"orange": true, "purple": true, "violet": true, "brown": true, "champagne": true, "cognac": true, "teal": true,
	"natural": true, "lab-grown": true, "lab": true, "grown": true, "synthetic": true, "cultured": true, "freshwater": true, "akoya": true,
	"star": true, "fire": true, "water": true,
}

// Names lists the kinds of the table, in alphabetical order.
func Names() []string { return sortedNames }
