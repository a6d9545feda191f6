package tree

import (
	"fmt"
	"strings"

	"castweek/tree/mount"
)

// notesOf says what was mounted otherwise than the rules would have it, once
// for all castings that it is true of.
func notesOf(castings []Hanging, remarks []mount.Remark) []BuildNote {
	type note struct{ message, remedy string }
	var order []note
	of := map[note][]string{}
	for _, r := range remarks {
		n := note{r.Message, r.Remedy}
		if of[n] == nil {
			order = append(order, n)
		}
		of[n] = append(of[n], r.ID)
	}
	var out []BuildNote
	for _, n := range order {
		out = append(out, BuildNote{namesOf(castings, of[n]) + ": " + n.message, n.remedy})
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
