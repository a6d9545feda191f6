package main

import (
	"errors"

	"castweek/tree"

	"github.com/spf13/cobra"
)

// planFlags are the flags of the verb plan.
type planFlags struct {
	asJSON, dryRun, thorough bool
	date, out                string
}

func planCmd(s *streams) *cobra.Command {
	var f planFlags
	c := &cobra.Command{
		Use:   "plan FOLDER",
		Short: "plan the next cast and print its sheets",
		Example: `  castweek plan samples/saltmarsh
  castweek plan samples/saltmarsh --date "2026-12-07 08:00" --out /tmp/sheets
  castweek plan samples/saltmarsh --json --dry-run`,
		Args: oneFolder,
		RunE: func(_ *cobra.Command, args []string) error {
			o, p, err := makePlan(s, args[0], f)
			if err != nil {
				return err
			}
			var wrote written
			if !f.dryRun {
				o.keep()
				wrote, err = writeSheets(o.out(f.out), &p.Cast)
				if err != nil {
					return err
				}
			}
			tellProblems(s, wrote.remarks)
			if f.asJSON {
				err = writeJSON(s.out, planJSON(p))
			} else {
				err = tellPlan(s, o, p, wrote)
			}
			if err != nil {
				return err
			}
			if wrote.kept != nil {
				return failed(wrote.kept)
			}
			if !p.Cast.Fine() {
				return told(exitIncomplete)
			}
			return nil
		},
	}
	c.Flags().BoolVar(&f.asJSON, "json", false, "answer as JSON; the sheets are written too")
	c.Flags().BoolVarP(&f.dryRun, "dry-run", "n", false, "write nothing")
	c.Flags().BoolVar(&f.thorough, "thorough", false, "search longer for a better plan")
	c.Flags().StringVar(&f.date, "date", "", "moment of planning, such as \"2026-11-30 08:00\"")
	c.Flags().StringVar(&f.out, "out", "", "folder for the sheets (default FOLDER/sheets)")
	return c
}

// makePlan reads the folder and plans. Problems are told on the way.
func makePlan(s *streams, dir string, f planFlags) (*opened, *tree.Plan, error) {
	o, err := open(s, dir)
	if err != nil {
		return nil, nil, err
	}
	tellProblems(s, o.problems)
	if err := o.refusal(); err != nil {
		return nil, nil, err
	}
	at, err := o.moment(s, f.date)
	if err != nil {
		return nil, nil, err
	}
	p, err := tree.Make(tree.Input{Folder: o.folder, Records: o.records, AsOf: at, Thorough: f.thorough})
	var wishes tree.Refusal
	switch {
	case errors.As(err, &wishes):
		tellProblems(s, wishes.Problems)
		return nil, nil, told(exitRefused)
	case err != nil:
		return nil, nil, refused(err)
	}
	return o, p, nil
}
