package main

import (
	"fmt"

	"github.com/spf13/cobra"
)

// checkAnswer is the JSON answer of the verb.
type checkAnswer struct {
	Schema   int           `json:"schema"`
	Problems []problemJSON `json:"problems"`
}

func checkCmd(s *streams) *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "check FOLDER",
		Short: "read and judge the job files; nothing is written",
		Args:  oneFolder,
		RunE: func(_ *cobra.Command, args []string) error {
			o, err := open(s, args[0])
			if err != nil {
				return err
			}
			if asJSON {
				if err := writeJSON(s.out, checkAnswer{schemaVersion, problemsJSON(o.problems)}); err != nil {
					return err
				}
			} else {
				o.tellCheck(s)
			}
			if err := o.refusal(); err != nil {
				return err
			}
			if len(o.folder.Held) > 0 {
				return told(exitIncomplete)
			}
			return nil
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "answer as JSON")
	return c
}

// tellCheck writes the problems to the result, since they are what was asked
// for, and closes with one line.
func (o *opened) tellCheck(s *streams) {
	tellProblems(&streams{err: s.out}, o.problems)
	errors, remarks := len(o.problems.Errors()), len(o.problems.Remarks())
	switch {
	case o.folder.Refused:
		fmt.Fprintf(s.out, "%s: nothing can be planned until this is mended\n", count(errors, "error"))
	case errors > 0:
		fmt.Fprintf(s.out, "%s sound, %d held (%s, %s)\n", count(len(o.folder.Jobs), "job"), len(o.folder.Held), count(errors, "error"), count(remarks, "remark"))
	default:
		fmt.Fprintf(s.out, "%s sound (%s)\n", count(len(o.folder.Jobs), "job"), count(remarks, "remark"))
	}
}
