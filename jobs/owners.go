package jobs

import (
	"slices"

	"castweek/jobs/source"
)

// nearOwners remarks on names of customers that may be one customer's, typed in
// two ways: each name has trees and metal of its own.
func nearOwners(all []*fileJob) {
	names := []string{House}
	first := map[string]*Job{House: {}}
	for _, f := range all {
		j := f.job
		if j == nil || !j.Active() || j.Owner == "" || first[j.Owner] != nil {
			continue
		}
		if near, ok := source.Nearest(j.Owner, names); ok {
			other := "that of " + first[near].Number
			if near == House {
				other = "other jobs'"
			}
			f.problems.Remark(j.OwnerAt, "owner-near", "write the same name, if the same is meant",
				"%q owns the metal here and %q %s: each has trees of its own, and its own metal only", j.Owner, near, other)
		}
		first[j.Owner] = j
		names = append(names, j.Owner)
		slices.Sort(names)
	}
}
