package tree

import (
	"fmt"
	"strings"

	"castweek/tree/mount"
)

// notesOf says what was mounted otherwise than the rules would have it, each
// thing once with all castings that it is true of.
func notesOf(castings []Hanging, remarks []mount.Remark) []BuildNote {
	type note struct{ message, remedy string }
	var order []note
	details := map[note][]string{}        // in their order
	ids := map[note]map[string][]string{} // by detail
	for _, r := range remarks {
		n := note{r.Message, r.Remedy}
		if ids[n] == nil {
			order = append(order, n)
			ids[n] = map[string][]string{}
		}
		if ids[n][r.Detail] == nil {
			details[n] = append(details[n], r.Detail)
		}
		ids[n][r.Detail] = append(ids[n][r.Detail], r.ID)
	}
	var out []BuildNote
	for _, n := range order {
		var parts []string
		for _, d := range details[n] {
			parts = append(parts, namesOf(castings, ids[n][d])+" ("+d+")")
		}
		out = append(out, BuildNote{n.message + ": " + strings.Join(parts, ", "), n.remedy})
	}
	return out
}

// mixedSections says of castings that are heavier than the finest of their tree
// that the tree is poured for that one. Heavy sections that are poured hotter than
// they need come out porous (common practice, no source).
func mixedSections(items []*item) (out []mount.Remark) {
	fine := finest(items)
	for _, it := range items {
		if it.section != fine {
			out = append(out, mount.Remark{ID: it.casting.ID, Detail: it.section,
				Message: "Sections are mixed, and all are poured at the temperature of the " + fine + " ones",
				Remedy:  "look at the heavier ones for pores when they are cleaned"})
		}
	}
	return out
}

// namesOf names some castings of a tree, those of one part of a job in one word
// where they are all that the tree has of it.
func namesOf(castings []Hanging, ids []string) string {
	type part struct{ job, name string }
	at := map[string]part{}
	all := map[part]int{}
	for _, h := range castings {
		p := part{h.Job, h.Part}
		at[h.Casting] = p
		all[p]++
	}
	var order []part
	named := map[part][]string{}
	for _, id := range ids {
		p := at[id]
		if named[p] == nil {
			order = append(order, p)
		}
		named[p] = append(named[p], id)
	}
	const few = 2 // ids that are as short as the words that would replace them
	var out []string
	for _, p := range order {
		if n := len(named[p]); n > few && n == all[p] {
			out = append(out, strings.TrimSpace(fmt.Sprintf("all %d of %s %s", n, p.job, p.name)))
			continue
		}
		out = append(out, named[p]...)
	}
	return strings.Join(out, ", ")
}
