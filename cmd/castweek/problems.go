package main

import (
	"fmt"

	"castweek/metal/problem"
)

// problemJSON is one problem for other programs.
type problemJSON struct {
	Code    string `json:"code"`
	Kind    string `json:"kind"`
	File    string `json:"file"`
	Line    int    `json:"line"`
	Column  int    `json:"column"`
	Message string `json:"message"`
	Remedy  string `json:"remedy"`
}

func problemsJSON(list problem.List) []problemJSON {
	out := []problemJSON{}
	for _, p := range list {
		out = append(out, problemJSON{p.Code, p.Kind.String(), p.Place.File, p.Place.Line, p.Place.Column, p.Message, p.Remedy})
	}
	return out
}

// mostShown caps how many problems of one kind are told.
const mostShown = 100

// tellProblems writes problems for a person, errors last: what ends on the
// screen is what has to be mended first.
func tellProblems(s *streams, list problem.List) {
	for _, part := range []problem.List{list.Remarks(), list.Errors()} {
		for i, p := range part {
			if i == mostShown {
				fmt.Fprintf(s.err, "and %d more of them\n\n", len(part)-mostShown)
				break
			}
			fmt.Fprintln(s.err, p.String())
		}
	}
}

// tellErrors writes the errors, and how many remarks there are beside them: a
// plan is read for the plan.
func tellErrors(s *streams, dir string, list problem.List) {
	tellProblems(s, list.Errors())
	if n := len(list.Remarks()); n > 0 {
		fmt.Fprintf(s.err, "%s on the job files; castweek check %s shows them\n\n", count(n, "remark"), dir)
	}
}

// count writes "1 job" or "3 jobs".
func count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}
