package stone

import "sort"

// HeatOrder gives the indexes of kinds in the order of setting: what stands
// heat first, what does not last, so that a repair with the torch never meets a
// delicate stone ("diamonds first, heat-sensitive stones last", bench article
// on bead setting; the order in between follows the torch column of the table,
// common practice). Equal ones keep their order.
func HeatOrder(kinds []Kind) []int {
	order := make([]int, len(kinds))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return kinds[order[a]].Heat < kinds[order[b]].Heat })
	return order
}

// CastInPlace says whether a stone may be set in the wax and cast in place.
// Tolerated is never the answer: the burnout is hard on every stone. NotSaid
// means that no source speaks of the kind.
//
// From a casting house's page; it is parted from by a page that calls
// tourmaline good and by a school that calls zirconia and garnet delicate, and
// the stricter answer is given.
func CastInPlace(k Kind, origin string) (Level, Note) {
	switch k.Name {
	case "diamond", "ruby", "sapphire":
		return WithCare, noteInPlace
	case "garnet", "almandine garnet", "rhodolite garnet", "pyrope garnet", "spessartine garnet", "cubic zirconia":
		return WithCare, noteInPlaceDelicate
	case "tourmaline":
		return KeepAway, noteInPlaceDisputed
	case "emerald", "opal", "jade", "amethyst", "topaz", "peridot", "coral", "aquamarine", "pearl", "lapis lazuli", "turquoise", "onyx":
		return KeepAway, noteNotInPlace
	case "spinel":
		if plain(origin) == "lab-grown" {
			return WithCare, noteInPlaceLab
		}
	}
	if k.Care.Torch == KeepAway {
		return KeepAway, noteNotInPlaceHeat
	}
	return NotSaid, noteInPlaceUnknown
}
