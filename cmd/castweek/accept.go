package main

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strings"

	"castweek/cmd/castweek/save"
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
}

func acceptCmd(s *streams) *cobra.Command {
	var f planFlags
	c := &cobra.Command{
		Use:   "accept FOLDER",
		Short: "make the proposed cast final: it is recorded, and no planning changes it again",
		Args:  oneFolder,
		RunE: func(_ *cobra.Command, args []string) error {
			o, p, err := makePlan(s, args[0], f)
			if err != nil {
				return err
			}
			if len(p.Cast.Trees) == 0 {
				return refused(errors.New("there is nothing to accept: no casting is on a tree"))
			}
			_, remarks := o.number(&p.Cast) // the final print goes on counting from the proposals
			tellProblems(s, remarks)
			data, cast, err := newRecord(p)
			if err != nil {
				return failed(err)
			}
			path := filepath.Join(o.dir, castsDir, cast.Name+".yaml")
			if f.dryRun {
				fmt.Fprintf(s.out, "%s would be accepted with %s; nothing was written\n", cast.Name, count(len(cast.Trees), "tree"))
				return nil
			}
			o.keep()
			switch err := save.New(path, data); {
			case errors.Is(err, fs.ErrExist):
				return refused(fmt.Errorf("%s exists already; plan again", path))
			case err != nil:
				return failed(err)
			}
			return printAccepted(s, o, cast, path, f)
		},
	}
	f.planning(c)
	f.printing(c)
	return c
}

// newRecord writes the proposal down as a record, and gives back the cast as
// the record holds it: what is printed now is what a later print will see.
func newRecord(p *tree.Plan) ([]byte, *tree.Cast, error) {
	r := record.Record[tree.Cast]{Cast: p.Cast.Name, Pour: p.Cast.Pour, Accepted: p.Cast.AsOf, Paper: p.Cast}
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
	return data, &back.Paper, nil
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
					return printAccepted(s, o, &r.Paper, filepath.Join(o.dir, castsDir, r.Cast+".yaml"), f)
				}
				known = append(known, o.records[i].Cast)
			}
			if len(known) == 0 {
				return refused(errors.New("no cast has been accepted in this folder"))
			}
			return refused(fmt.Errorf("no accepted cast is called %s; there are %s", args[1], strings.Join(known, ", ")))
		},
	}
	f.printing(c)
	return c
}

// printAccepted prints the sheets of a record into a folder of the cast's name.
func printAccepted(s *streams, o *opened, cast *tree.Cast, path string, f planFlags) error {
	chosen, err := choose(cast, f)
	if err != nil {
		return err
	}
	wrote, err := writeSheets(filepath.Join(o.out(f.out), cast.Name), cast, chosen)
	if err != nil {
		return err
	}
	tellProblems(s, wrote.remarks)
	if f.asJSON {
		if err := writeJSON(s.out, acceptAnswer{schemaVersion, cast.Name, path, wrote.dir, wrote.names}); err != nil {
			return err
		}
	} else {
		fmt.Fprintf(s.out, "%s is accepted: %s\n", cast.Name, path)
		wrote.tell(s)
	}
	if wrote.kept != nil {
		return failed(wrote.kept)
	}
	return nil
}
