package tree

import (
	"regexp"
	"slices"

	"castweek/jobs"
)

// benchCodes are the remarks that a hand at the bench can do something about.
// Others speak to whoever draws the pattern or writes the job, or tell what the
// planner has done already.
var benchCodes = []string{
	"pattern-thin", "pattern-gap", "pattern-cavity", "pattern-patched", "finger-size-off", "size-band", "clean-up",
	"claw-thin", "claw-bite", "claw-height", "culet-clearance", "bezel-wall", "seat-large", "flush-thin",
}

// from is the source of a rule in a remark; the bag's steps list the sources.
var from = regexp.MustCompile(`(wanted [^;(]*) \([^)]*\)`)

// benchRemarks are the remarks of a job that go with its pieces, once each.
func benchRemarks(j *jobs.Job) []string {
	var out []string
	for _, r := range j.Remarks {
		if text := from.ReplaceAllString(r.Message, "$1"); slices.Contains(benchCodes, r.Code) && !slices.Contains(out, text) {
			out = append(out, text)
		}
	}
	return out
}
