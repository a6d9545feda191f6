package main

import (
	"errors"
	"strings"

	"castweek/tree"

	"github.com/spf13/cobra"
)

// planFlags are the flags of the verb plan.
type planFlags struct {
	asJSON, dryRun, thorough bool
	date, out                string
	only, jobs               []string
	forms                    bagForms
}

// printing adds the flags of every verb that prints.
func (f *planFlags) printing(c *cobra.Command) {
	c.PreRunE = noEmptyFlag
	c.Flags().BoolVar(&f.asJSON, "json", false, "answer as JSON; the sheets are written too")
	c.Flags().StringVar(&f.out, "out", "", "folder for the sheets (default FOLDER/sheets)")
	c.Flags().StringSliceVar(&f.only, "only", nil, "print only these sheets: "+strings.Join(sheetNames(), ", "))
	c.Flags().StringSliceVar(&f.jobs, "jobs", nil, "print only what concerns these jobs, such as K-204,K-210")
	f.forms.flags(c)
}

// noEmptyFlag refuses a flag that is there without a value: an empty variable of
// a script is no wish for what comes of leaving it out.
func noEmptyFlag(c *cobra.Command, _ []string) error {
	for _, name := range []string{"date", "out", "only", "jobs"} {
		f := c.Flags().Lookup(name)
		if f != nil && f.Changed && (f.Value.String() == "" || f.Value.String() == "[]") {
			return wrongUsage("--%s is empty; write a value, or leave it out", name)
		}
	}
	return nil
}

// planning adds the flags of every verb that plans.
func (f *planFlags) planning(c *cobra.Command) {
	c.Flags().BoolVarP(&f.dryRun, "dry-run", "n", false, "write nothing")
	c.Flags().BoolVar(&f.thorough, "thorough", false, "search longer for a better plan")
	c.Flags().StringVar(&f.date, "date", "", "moment of planning, such as \"2026-11-30 08:00\"")
}

func planCmd(s *streams) *cobra.Command {
	var f planFlags
	c := &cobra.Command{
		Use:   "plan FOLDER",
		Short: "plan the next cast and print its sheets",
		Example: `  castweek plan samples/saltmarsh
  castweek plan samples/saltmarsh --date "2026-12-07 08:00" --out printed
  castweek plan samples/saltmarsh --json --dry-run`,
		Args: oneFolder,
		RunE: func(_ *cobra.Command, args []string) error {
			o, p, err := makePlan(s, args[0], f)
			if err != nil {
				return err
			}
			chosen, err := choose(&p.Cast, f)
			if err != nil {
				return err
			}
			var wrote written
			if !f.dryRun {
				o.keep()
				defer o.alone()()
				prints, remarks := o.prints(&p.Cast)
				wrote, err = writeSheets(o.out(f.out), &p.Cast, chosen, prints)
				if err != nil {
					return err
				}
				o.keepPrints(prints)
				tellProblems(s, append(remarks, wrote.remarks...))
			}
			if f.asJSON {
				if err := writeJSON(s.out, planJSON(p)); err != nil {
					return err
				}
			} else {
				tellPlan(s, o, p)
				wrote.tell(s)
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
	f.planning(c)
	f.printing(c)
	return c
}

// makePlan reads the folder and plans. Problems are told on the way.
func makePlan(s *streams, dir string, f planFlags) (*opened, *tree.Plan, error) {
	o, err := open(s, dir)
	if err != nil {
		return nil, nil, err
	}
	tellErrors(s, dir, o.problems)
	if err := o.refusal(); err != nil {
		return nil, nil, err
	}
	at, err := o.moment(s, f.date)
	if err != nil {
		return nil, nil, err
	}
	if err := o.skins(); err != nil {
		return nil, nil, err
	}
	metals, err := o.book(s)
	if err != nil {
		return nil, nil, err
	}
	p, err := tree.Make(tree.Input{Folder: o.folder, Records: o.records, Book: metals, AsOf: at, Thorough: f.thorough})
	var wishes tree.Refusal
	switch {
	case errors.As(err, &wishes):
		tellProblems(s, wishes.Problems)
		return nil, nil, told(exitRefused)
	case err != nil:
		return nil, nil, refused(err)
	}
	if o.words != nil {
		p.Cast.House.Lang, p.Cast.House.Words = o.words.Lang, o.words.Kept()
	}
	return o, p, nil
}
