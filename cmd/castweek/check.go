package main

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"

	"castweek/cmd/castweek/save"
	"castweek/metal/book"

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
		Short: "read and judge the job files and the metal's book; nothing is written",
		Args:  oneFolder,
		RunE: func(_ *cobra.Command, args []string) error {
			o, err := open(s, args[0])
			if err != nil {
				return err
			}
			if err := o.checkBook(); err != nil {
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

// checkBook judges the metal's book with the rest: nothing is planned on a wrong
// one.
func (o *opened) checkBook() error {
	data, err := save.Read(filepath.Join(o.dir, bookFile))
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return refused(err)
	}
	_, problems := book.Read(bookFile, data)
	o.problems = append(o.problems, problems...)
	o.folder.Refused = o.folder.Refused || len(problems.Errors()) > 0
	return nil
}

// tellCheck writes the problems to the result, since they are what was asked
// for, and closes with one line.
func (o *opened) tellCheck(s *streams) {
	tellProblems(&streams{err: s.out}, o.problems)
	bad, remarks := len(o.problems.Errors()), len(o.problems.Remarks())
	switch {
	case o.folder.Refused:
		fmt.Fprintf(s.out, "%s: nothing can be planned until this is mended\n", count(bad, "error"))
	case bad > 0:
		fmt.Fprintf(s.out, "%s sound, %d held (%s, %s)\n", count(len(o.folder.Jobs), "job"), len(o.folder.Held), count(bad, "error"), count(remarks, "remark"))
	default:
		fmt.Fprintf(s.out, "%s sound (%s)\n", count(len(o.folder.Jobs), "job"), count(remarks, "remark"))
	}
}
