package tree

import (
	"regexp"
	"slices"
	"strings"

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

// benchRemarks are the remarks of a job that go with its pieces, once each. The
// hand at the bench knows parts, not files.
func benchRemarks(j *jobs.Job) []string {
	var out []string
	for _, r := range j.Remarks {
		if !slices.Contains(benchCodes, r.Code) {
			continue
		}
		text := from.ReplaceAllString(r.Message, "$1")
		for _, p := range j.Parts {
			if mesh := p.Pattern.Mesh; mesh != "" {
				part, pattern := partsOf(j, mesh)
				text = strings.Replace(strings.Replace(text, mesh+": ", part, 1), mesh, pattern, 1)
			}
		}
		if !slices.Contains(out, text) {
			out = append(out, text)
		}
	}
	return out
}

// partsOf names the parts that are cast from a mesh, in front of a remark and
// within one. Of a mirrored part left and right are the other way about.
func partsOf(j *jobs.Job, mesh string) (before, within string) {
	if len(j.Parts) == 1 {
		return "", "the pattern"
	}
	var names []string
	for _, p := range j.Parts {
		switch {
		case p.Pattern.Mesh != mesh:
		case p.Pattern.Mirrored:
			names = append(names, p.Name+" (mirrored)")
		default:
			names = append(names, p.Name)
		}
	}
	all := strings.Join(names, ", ")
	return all + ": ", "the pattern of " + all
}
