package main

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"

	"castweek/cmd/castweek/save"
	"castweek/tree"
	"castweek/tree/record"

	"github.com/spf13/cobra"
)

func acceptCmd(s *streams) *cobra.Command {
	var f planFlags
	c := &cobra.Command{
		Use:   "accept FOLDER [CAST]",
		Short: "make the proposed cast final: it is recorded, and no planning changes it again",
		Long: `Make the proposed cast final: it is recorded in FOLDER/casts, its sheets are
printed, and no later plan moves anything in it. With the name of a cast, that
cast and no other is accepted, so that a second accept does nothing; without it,
the cast has to be the one whose sheets were printed last.`,
		Example: `  castweek accept samples/saltmarsh
  castweek accept samples/saltmarsh 2026-W49`,
		Args: func(c *cobra.Command, args []string) error {
			if len(args) == 2 {
				return nil
			}
			return oneFolder(c, args)
		},
		RunE: func(_ *cobra.Command, args []string) error {
			o, p, err := makePlan(s, args[0], f)
			if err != nil {
				return err
			}
			if err := acceptable(o, p, args[1:]); err != nil {
				return err
			}
			chosen, err := choose(&p.Cast, f)
			if err != nil {
				return err
			}
			if !f.dryRun {
				defer o.alone()()
			}
			prints, remarks := o.prints(&p.Cast) // the final print goes on counting from the proposals
			tellProblems(s, remarks)
			data, r, err := newRecord(p, prints)
			if err != nil {
				return failed(err)
			}
			a := newAcceptance(s, o, r, f)
			if f.dryRun {
				return a.tellDry()
			}
			o.keep()
			switch err := save.New(a.path, data); {
			case errors.Is(err, fs.ErrExist):
				return refused(fmt.Errorf("%s exists already; plan again", a.path))
			case err != nil:
				return failed(err)
			}
			if err := a.print(chosen); err != nil {
				return a.notPrinted(err)
			}
			return nil
		},
	}
	f.planning(c)
	f.printing(c)
	return c
}

// acceptable tells whether the proposal may become final; named is the cast
// that a person asked for, or empty.
func acceptable(o *opened, p *tree.Plan, named []string) error {
	const late = "orders for it may be closed: --date with a moment before that plans it"
	name := p.Cast.Name
	switch printed := o.printedCast(); {
	case len(named) > 0 && slices.Contains(p.Accepted, named[0]):
		return refused(fmt.Errorf("%s is accepted already; castweek print %s %s prints it again", named[0], o.dir, named[0]))
	case len(named) > 0 && named[0] != name:
		return refused(fmt.Errorf("the next open cast is %s, not %s; nothing was accepted; %s", name, named[0], late))
	case len(p.Cast.Trees) == 0:
		return refused(errors.New("there is nothing to accept: no casting is on a tree"))
	case len(named) == 0 && printed != "" && printed != name && !slices.Contains(p.Accepted, printed):
		// the trees that stand on the bench are those of the printed sheets
		return refused(fmt.Errorf("the sheets that were printed last are those of %s, and the next open cast is %s; nothing was accepted; %s; castweek accept %s %s accepts the other", printed, name, late, o.dir, name))
	}
	return nil
}

type castRecord = record.Record[tree.Cast]

// newRecord writes the proposal down as a record, and gives it back as it will
// be read: what is printed now is what a later print will see. All sheets are
// printed once to know as which print, for a later print says the same.
func newRecord(p *tree.Plan, prints *record.Prints) ([]byte, *castRecord, error) {
	r := castRecord{Cast: p.Cast.Name, Pour: p.Cast.Pour, Accepted: p.Cast.AsOf, Paper: p.Cast}
	r.Paper.Proposal = false
	for _, t := range p.Cast.Trees {
		k := record.Tree{Name: t.Name, Alloy: t.Alloy, Owner: t.Owner}
		for _, h := range t.Castings {
			k.Castings = append(k.Castings, h.Casting)
		}
		r.Trees = append(r.Trees, k)
	}
	data, err := record.Encode(r)
	if err != nil {
		return nil, nil, err
	}
	back, err := record.Decode[tree.Cast](data)
	if err != nil {
		return nil, nil, err
	}
	if err := printAll(&back.Paper, prints); err != nil {
		return nil, nil, err
	}
	back.Prints = prints.List
	data, err = record.Encode(back)
	return data, &back, err
}
