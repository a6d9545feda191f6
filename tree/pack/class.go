package pack

import (
	"encoding/binary"
	"slices"
)

// A class is units that are alike in everything: their sizes in each kind of
// bin and whom they may not meet. Searches count classes, or they would look at
// every exchange of equal units. Units of one class may always meet: of two
// that may not, each is in the other's list and not in its own.
type class struct {
	units []int
	size  [][]int64 // by kind, as in unit
	foes  []int     // classes that may not be met, rising
}

// classes merges equal units, the biggest first.
func classes(units []unit) []class {
	at := map[string]int{}
	of := make([]int, len(units))
	var cs []class
	for _, u := range order(units) {
		var key []byte
		for _, size := range units[u].size {
			key = binary.AppendVarint(key, int64(len(size)))
			for _, v := range size {
				key = binary.AppendVarint(key, v)
			}
		}
		for _, v := range units[u].foes {
			key = binary.AppendVarint(key, int64(v))
		}
		c, seen := at[string(key)]
		if !seen {
			c = len(cs)
			at[string(key)] = c
			cs = append(cs, class{size: units[u].size})
		}
		of[u] = c
		cs[c].units = append(cs[c].units, u)
	}
	for c := range cs {
		for _, v := range units[cs[c].units[0]].foes {
			cs[c].foes = append(cs[c].foes, of[v])
		}
		slices.Sort(cs[c].foes)
		cs[c].foes = slices.Compact(cs[c].foes)
	}
	return cs
}

func (c *class) hates(other int) bool {
	if len(c.foes) == 0 {
		return false
	}
	_, found := slices.BinarySearch(c.foes, other)
	return found
}
