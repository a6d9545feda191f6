package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"castweek/tree"
	"castweek/tree/record"

	"github.com/spf13/cobra"
)

// acceptAnswer is the JSON answer of accept and print.
type acceptAnswer struct {
	Schema int      `json:"schema"`
	Cast   string   `json:"cast"`
	Record string   `json:"record"`
	Sheets string   `json:"sheets"`
	Files  []string `json:"files"`
	DryRun bool     `json:"dry_run,omitempty"`
}

func printCmd(s *streams) *cobra.Command {
	var f planFlags
	c := &cobra.Command{
		Use:     "print FOLDER CAST",
		Short:   "print an accepted cast again from its record",
		Example: "  castweek print samples/saltmarsh 2026-W49",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) != 2 {
				return wrongUsage("a job folder and the name of an accepted cast are needed, such as: castweek print samples/saltmarsh 2026-W49")
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error {
			o, err := open(s, args[0])
			if err != nil {
				return err
			}
			var known []string
			for i := range o.records {
				if r := &o.records[i]; r.Cast == args[1] {
					chosen, err := choose(&r.Paper, f)
					if err != nil {
						return err
					}
					return newAcceptance(s, o, r, f).print(chosen)
				}
				known = append(known, o.records[i].Cast)
			}
			tellProblems(s, o.recordProblems()) // one of them may be the cast
			if len(known) == 0 {
				return refused(errors.New("no cast has been accepted in this folder"))
			}
			return refused(fmt.Errorf("no accepted cast is called %s; there are %s", args[1], strings.Join(known, ", ")))
		},
	}
	f.printing(c)
	return c
}

// An acceptance is an accepted cast on its way to paper.
type acceptance struct {
	s      *streams
	o      *opened
	cast   *tree.Cast
	prints *record.Prints
	path   string // of the record
	f      planFlags
}

func newAcceptance(s *streams, o *opened, r *castRecord, f planFlags) acceptance {
	return acceptance{s, o, &r.Paper, &record.Prints{Cast: r.Cast, List: slices.Clone(r.Prints)}, filepath.Join(o.dir, castsDir, r.Cast+".yaml"), f}
}

// dir is where its sheets go: a folder of the cast's name.
func (a acceptance) dir() string { return filepath.Join(a.o.out(a.f.out), a.cast.Name) }

// print prints the chosen sheets.
func (a acceptance) print(chosen selection) error {
	wrote, err := writeSheets(a.dir(), a.cast, chosen, a.prints)
	if err != nil {
		return err
	}
	tellProblems(a.s, wrote.remarks)
	if a.f.asJSON {
		if err := writeJSON(a.s.out, acceptAnswer{Schema: schemaVersion, Cast: a.cast.Name, Record: a.path, Sheets: wrote.dir, Files: wrote.names}); err != nil {
			return err
		}
	} else {
		fmt.Fprintf(a.s.out, "%s is accepted: %s\n", a.cast.Name, a.path)
		wrote.tell(a.s)
	}
	if wrote.kept != nil {
		return failed(wrote.kept)
	}
	return nil
}

// notPrinted says of a cast that became final that its paper did not: accepting
// it again would be wrong.
func (a acceptance) notPrinted(err error) error {
	return failed(fmt.Errorf("%s is accepted, but its sheets are not all printed: %w; then run castweek print %s %s", a.cast.Name, err, a.o.dir, a.cast.Name))
}

func (a acceptance) tellDry() error {
	if a.f.asJSON {
		return writeJSON(a.s.out, acceptAnswer{Schema: schemaVersion, Cast: a.cast.Name, Record: a.path, Sheets: a.dir(), Files: []string{}, DryRun: true})
	}
	fmt.Fprintf(a.s.out, "%s would be accepted with %s; nothing was written\n", a.cast.Name, count(len(a.cast.Trees), "tree"))
	return nil
}
