package main

import (
	"errors"
	"sort"

	"castweek/cmd/castweek/save"
	"castweek/metal/problem"
	"castweek/sheets/bag"
	"castweek/sheets/pour"
	"castweek/sheets/workbook"
	"castweek/tree"
)

// written tells what sheets were printed, and where.
type written struct {
	dir     string
	names   []string
	remarks problem.List
	kept    error // a file that another program holds: the old one stands
}

// printers lists the sheets by their file names. A sheet about castings is not
// printed for a cast that has none.
var printers = []struct {
	name   string
	always bool
	print  func(c *tree.Cast) ([]byte, problem.List, error)
}{
	{"bags.pdf", false, func(c *tree.Cast) ([]byte, problem.List, error) { return bag.Print(c, bag.Options{}) }},
	{"pour.pdf", false, func(c *tree.Cast) ([]byte, problem.List, error) { return pour.Print(c, pour.Options{}) }},
	{"week.xlsx", true, workbook.Write},
}

// writeSheets prints every sheet of a cast in memory, and only when all are
// right puts them into dir.
func writeSheets(dir string, c *tree.Cast) (written, error) {
	w := written{dir: dir}
	files := map[string][]byte{}
	for _, p := range printers {
		if len(c.Trees) == 0 && !p.always {
			files[p.name] = nil // an earlier print of it speaks of another plan
			continue
		}
		data, remarks, err := p.print(c)
		if err != nil {
			return w, failed(err)
		}
		files[p.name] = data
		w.names = append(w.names, p.name)
		w.remarks = append(w.remarks, remarks...)
	}
	sort.Strings(w.names)
	err := save.Files(dir, files)
	var kept *save.Kept
	if errors.As(err, &kept) {
		w.kept = kept
		return w, nil
	}
	if err != nil {
		return w, failed(err)
	}
	return w, nil
}
