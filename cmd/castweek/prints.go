package main

import (
	"os"
	"path/filepath"

	"castweek/cmd/castweek/save"
	"castweek/metal/problem"
	"castweek/tree"
	"castweek/tree/record"
)

// printsFile keeps in the cache folder which print of each bag was the last.
const printsFile = "prints"

// number tells the bags of a proposal from their earlier prints. What can not
// be read counts as nothing printed, and is said: two papers of one bag could
// then not be told apart.
func (o *opened) number(c *tree.Cast) (next tree.Printed, remarks problem.List) {
	var earlier tree.Printed
	file := filepath.Join(cacheDir, printsFile)
	if data, err := os.ReadFile(filepath.Join(o.dir, file)); err == nil {
		if err := record.DecodePlain(data, &earlier); err != nil {
			earlier = tree.Printed{}
			remarks.Remark(problem.Place{File: file}, "prints-unreadable", "tear the bags that were printed before", "which bags were printed before can not be read; the prints count from 1 again")
		}
	}
	return earlier.Number(c, c.AsOf), remarks
}

// keepPrints remembers what was printed. Losing it costs the numbers of the
// next prints and nothing else, so a failure is no end of the run.
func (o *opened) keepPrints(p tree.Printed) {
	if data, err := record.EncodePlain(p); err == nil {
		_ = save.Files(filepath.Join(o.dir, cacheDir), map[string][]byte{printsFile: data})
	}
}
