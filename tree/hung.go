package tree

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"castweek/jobs"
	"castweek/tree/record"
)

// hungs are the castings of accepted casts, by id without regard to case: a
// number that is typed anew in other letters is still the same job, and must
// not be cast again.
type hungs map[string]hungOnce

type hungOnce struct {
	casting, tree, alloy, owner string
	pour                        time.Time
}

func hungOn(records []record.Record[Cast]) hungs {
	out := hungs{}
	for _, r := range records {
		for _, t := range r.Trees {
			for _, c := range t.Castings {
				out[strings.ToLower(c)] = hungOnce{c, t.Name, t.Alloy, t.Owner, r.Pour}
			}
		}
	}
	return out
}

// of finds the tree of a casting.
func (h hungs) of(id string) (hungOnce, bool) {
	k, ok := h[strings.ToLower(id)]
	return k, ok
}

// contradictions says where a job's own word and the records disagree.
func (h hungs) contradictions(j *jobs.Job, cast []jobs.Casting, now time.Time) (out []Remark) {
	var states, metals []string
	poured := true
	for _, k := range cast {
		on, _ := h.of(k.ID)
		poured = poured && !on.pour.After(now)
		states = append(states, k.ID+" on "+on.tree)
		if part := j.Parts[k.Part]; part.Alloy != on.alloy || j.Owner != on.owner {
			metals = append(metals, fmt.Sprintf("%s on %s is %s of %s", k.ID, on.tree, on.alloy, on.owner))
		}
	}
	remedy := "take the pattern off that tree by hand, or correct the job's state"
	if poured {
		remedy = "settle what becomes of the casting, or correct the job's state"
	}
	switch {
	case len(cast) == 0:
	case j.State == jobs.Hold, j.State == jobs.Cancelled, j.State == jobs.Done && !poured:
		out = append(out, Remark{j.Number, "state-contradiction",
			fmt.Sprintf("is written down as %s, but an accepted cast holds %s", j.State, strings.Join(states, ", ")), remedy})
	}
	if len(metals) > 0 && j.Active() {
		out = append(out, Remark{j.Number, "metal-contradiction",
			"is written down in another metal than it was accepted in: " + strings.Join(metals, ", "), "correct the job's file, or take the pattern off that tree by hand before it is poured"})
	}
	return out
}

// strangers are castings of casts that are still to be poured, which no job of
// the folder makes any more. Of what is poured, the files may be put away.
func (h hungs) strangers(f *jobs.Folder, now time.Time) (out []Remark) {
	if len(f.Held) > 0 {
		return nil // whose castings those are is known when their files are mended
	}
	known := map[string]bool{}
	for _, j := range f.Jobs {
		for _, k := range j.Castings() {
			known[strings.ToLower(k.ID)] = true
		}
	}
	left := map[string][]string{} // by job
	for id, on := range h {
		if on.pour.After(now) && !known[id] {
			job, _, _ := strings.Cut(on.casting, "/")
			left[job] = append(left[job], on.casting+" on "+on.tree)
		}
	}
	for job, list := range left {
		slices.SortFunc(list, jobs.CompareNumbers)
		out = append(out, Remark{job, "job-gone", "no longer makes " + strings.Join(list, ", ") + ", which an accepted cast holds",
			"bring its file back, or take the pattern off that tree by hand"})
	}
	slices.SortFunc(out, func(a, b Remark) int { return jobs.CompareNumbers(a.Job, b.Job) })
	return out
}
