package main

import (
	"os"
	"path/filepath"

	"castweek/cmd/castweek/save"
	"castweek/metal/problem"
	"castweek/sheets/desk"
	"castweek/tree"
	"castweek/tree/record"
)

// lockFile is held by the run that counts prints.
const lockFile = "lock"

// alone waits until no other run prints from this folder, so that no two papers
// get the same number, and keeps others waiting until done. Where the folder
// takes no lock, nothing can be remembered either, and nobody waits.
func (o *opened) alone() (done func()) {
	done, err := save.Lock(filepath.Join(o.dir, cacheDir, lockFile))
	if err != nil {
		return func() {}
	}
	return done
}

// printsFile keeps in the cache folder what was last printed of everything, and
// as which print.
const printsFile = "prints"

// prints are the last prints of a proposal's sheets. What can not be read
// counts as nothing printed, and is said: two papers of one bag could then not
// be told apart.
func (o *opened) prints(c *tree.Cast) (*record.Prints, problem.List) {
	var remarks problem.List
	p, err := o.readPrints()
	if err != nil {
		remarks.Remark(problem.Place{File: cacheDir + "/" + printsFile}, "prints-unreadable", "tear what was printed before", "what was printed before can not be read; the prints count from 1 again")
	}
	if p.Cast != c.Name {
		p = &record.Prints{Cast: c.Name}
	}
	return p, remarks
}

// readPrints reads what was printed; nothing when there is no file of it, or it
// is damaged.
func (o *opened) readPrints() (*record.Prints, error) {
	p := &record.Prints{}
	data, err := os.ReadFile(filepath.Join(o.dir, cacheDir, printsFile))
	if err != nil {
		return p, nil
	}
	if err := record.DecodePlain(data, p); err != nil {
		return &record.Prints{}, err
	}
	return p, nil
}

// printedCast names the cast whose sheets were printed last, or nothing.
func (o *opened) printedCast() string {
	p, _ := o.readPrints()
	return p.Cast
}

// keepPrints remembers what was printed. Losing it costs the numbers of the
// next prints and nothing else, so a failure is no end of the run.
func (o *opened) keepPrints(p *record.Prints) {
	if data, err := record.EncodePlain(p); err == nil {
		_ = save.Files(filepath.Join(o.dir, cacheDir), map[string][]byte{printsFile: data})
	}
}

// printAll prints every sheet of a cast in memory, to see what they say.
func printAll(c *tree.Cast, prints *record.Prints) error {
	for _, p := range printers {
		if p.wanted(c) {
			if _, _, err := p.print(c, desk.Options{Prints: prints}); err != nil {
				return err
			}
		}
	}
	return nil
}
