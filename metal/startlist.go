package metal

import "castweek/metal/measure"

// masterFamily is the family of gold-free master alloys.
const masterFamily = "master"

// replaceable closes the source of every recipe that is no standard: the
// alloy's own maker knows better.
const replaceable = "; replace by the maker's sheet"

// StartList is what a workshop knows before it writes down its own alloys.
// Recipes are in thousandths by mass. "GOST 30649-99" is the Russian standard
// for jewellery alloys, of which the nominal values are taken and the last
// element is the balance; densities follow from the rule of mixtures, which
// meets that standard's data sheets within 0.3 %.
func StartList() Alloys {
	base := Alloys{
		gold("375 yellow", "recipe table for 9 carat, weak source"+replaceable, 0, 0, "Au", 375, "Ag", 121, "Cu", 444, "Zn", 60),
		gold("375 red", "GOST 30649-99, 375-100", 925, 940, "Au", 375, "Ag", 100, "Cu", 525),
		gold("585 yellow", "GOST 30649-99, 585-300", 835, 880, "Au", 585, "Ag", 300, "Cu", 115),
		gold("585 red", "GOST 30649-99, 585-80", 880, 905, "Au", 585, "Ag", 80, "Cu", 335),
		gold("585 white", "GOST 30649-99 by designation, palladium white"+replaceable, 0, 0, "Au", 585, "Ag", 287, "Pd", 100, "Zn", 28),
		gold("750 yellow", "GOST 30649-99, 750-125; colour 3N of ISO 8654", 0, 0, "Au", 750, "Ag", 125, "Cu", 125),
		gold("750 red", "colour 5N of ISO 8654 as recapped second hand"+replaceable, 0, 0, "Au", 750, "Ag", 45, "Cu", 205),
		gold("750 white", "watch maker's manual, nickel-free palladium white"+replaceable, 0, 0, "Au", 750, "Ag", 40, "Cu", 40, "Pd", 170),
		gold("916 yellow", "refiner's sheet for 917 yellow"+replaceable, 950, 990, "Au", 917, "Ag", 45, "Cu", 38),
		alloy("925 silver", "silver", "ISO 9202 fineness; copper balance, special metals maker's data sheet", 788, 891, "Ag", 925, "Cu", 75),
		alloy("958 silver", "silver", "958.4 as in the older British standard, copper balance, second hand"+replaceable, 0, 0, "Ag", 958.4, "Cu", 41.6),
		alloy("950 platinum", "platinum", "sold as 952/48 ruthenium, platinum maker's list"+replaceable, 0, 0, "Pt", 952, "Ru", 48),
		alloy("950 palladium", "palladium", "sold as 952/48 ruthenium, weak source"+replaceable, 0, 0, "Pd", 952, "Ru", 48),
		alloy("999.9 gold", "gold", "fine gold", 1064, 1064, "Au", 999.9),
		alloy("999 silver", "silver", "fine silver", 962, 962, "Ag", 999),
		alloy("copper", "copper", "pure copper", 1085, 1085, "Cu", 1000),
	}
	out := base
	for _, a := range base {
		if m, ok := a.master(); ok {
			out = append(out, m)
		}
	}
	return out
}

func gold(name, source string, solidus, liquidus measure.Celsius, shares ...any) Alloy {
	return alloy(name, "gold", source, solidus, liquidus, shares...)
}

// alloy builds one row of the table from alternating symbols and thousandths.
func alloy(name, family, source string, solidus, liquidus measure.Celsius, shares ...any) Alloy {
	a := Alloy{Name: name, Family: family, Source: source, Solidus: solidus, Liquidus: liquidus}
	for i := 0; i+1 < len(shares); i += 2 {
		var v measure.PerMille
		switch n := shares[i+1].(type) {
		case int:
			v = measure.PerMille(n)
		case float64:
			v = measure.PerMille(n)
		}
		a.Composition = append(a.Composition, Share{Element(shares[i].(string)), PartsOf(v)})
	}
	return a
}

// master is the gold-free part of a gold alloy as a metal of its own: what has
// to be added to fine gold to make that alloy. Shares are scaled to 1000 ‰ and
// the last one takes the rounding.
func (a Alloy) master() (Alloy, bool) {
	rest := a.Composition.Sum() - a.Composition.Of("Au")
	if a.Family != "gold" || len(a.Composition) < 2 || rest <= 0 {
		return Alloy{}, false
	}
	m := Alloy{Name: "master " + a.Name, Family: masterFamily, Source: "the gold-free part of " + a.Name}
	left := Whole
	for _, s := range a.Composition {
		if s.Element == "Au" {
			continue
		}
		p := (s.Parts*Whole + rest/2) / rest
		m.Composition = append(m.Composition, Share{s.Element, p})
		left -= p
	}
	m.Composition[len(m.Composition)-1].Parts += left
	return m, true
}
