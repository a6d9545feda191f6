package stone

// HeatRank places a stone in the order of setting: 1 is set first, the highest
// last, so that a repair with the torch never meets a delicate stone ("diamonds
// first, heat-sensitive stones last", bench article on bead setting; the order
// in between follows the torch column of the table, common practice). A
// treatment that forbids the torch moves a stone behind all that bear it.
func HeatRank(k Kind, treatment string) int {
	if care, _ := CareOf(k, treatment); care.Torch == KeepAway && k.Care.Torch != KeepAway {
		return lastOfAll
	}
	return k.Heat
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
