package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"sort"
	"strings"

	"castweek/cmd/castweek/save"
	"castweek/metal/problem"
	"castweek/sheets/bag"
	"castweek/sheets/desk"
	"castweek/sheets/pour"
	"castweek/sheets/pull"
	"castweek/sheets/receipt"
	"castweek/sheets/treemap"
	"castweek/sheets/week"
	"castweek/sheets/workbook"
	"castweek/tree"
	"castweek/tree/record"
)

// A printer prints one sheet of a cast. of names what --only calls it.
type printer struct {
	of, file string
	whole    bool // speaks of all jobs: not printed for some unless asked for
	// wanted is false for a cast that has nothing to show on the sheet.
	wanted func(c *tree.Cast) bool
	print  func(c *tree.Cast, o desk.Options) ([]byte, problem.List, error)
}

func always(*tree.Cast) bool      { return true }
func anyTree(c *tree.Cast) bool   { return len(c.Trees) > 0 }
func anyBag(c *tree.Cast) bool    { return len(c.Bags) > 0 }
func shortBags(c *tree.Cast) bool { return c.House.Short && anyBag(c) }
func anyStones(c *tree.Cast) bool {
	return slices.ContainsFunc(c.Bags, func(b tree.Bag) bool { return len(b.Stones) > 0 })
}

// printers lists the sheets in the order of their making; the week comes last,
// since it tells which print of each bag is the valid one.
var printers = []printer{
	{"workbook", workbookFile, true, always, func(c *tree.Cast, _ desk.Options) ([]byte, problem.List, error) { return workbook.Write(c) }},
	{"trees", "trees.pdf", false, anyTree, treemap.Print},
	{"pour", "pour.pdf", false, anyTree, pour.Print},
	{"labels", "flask-labels.pdf", false, anyTree, pour.Labels},
	{"stones", "stones.pdf", false, anyStones, pull.Print},
	{"labels", "parcel-labels.pdf", false, anyStones, pull.Labels},
	{"receipts", "receipts.pdf", false, func(c *tree.Cast) bool { return len(c.OwnMetal) > 0 }, receipt.PrintCast},
	{"bags", "bags.pdf", false, anyBag, wholeBags},
	{"bags", "bags-short.pdf", false, shortBags, func(c *tree.Cast, o desk.Options) ([]byte, problem.List, error) {
		return bag.Print(c, bag.Options{Form: bag.Short, Options: o})
	}},
	{"week", "week.pdf", true, always, week.Print},
}

func wholeBags(c *tree.Cast, o desk.Options) ([]byte, problem.List, error) {
	return bag.Print(c, bag.Options{Options: o})
}

const workbookFile = "week.xlsx"

// sheetNames are the words that --only knows.
func sheetNames() []string {
	out := []string{pagesName}
	for _, p := range printers {
		if !slices.Contains(out, p.of) {
			out = append(out, p.of)
		}
	}
	return out
}

// A selection says which sheets, and of which jobs; empty lists mean all.
type selection struct {
	only, jobs []string
	forms      bagForms
}

// wants tells whether a sheet is to be printed.
func (c selection) wants(of string, whole bool) bool {
	if len(c.only) > 0 {
		return slices.Contains(c.only, of)
	}
	return len(c.jobs) == 0 || !whole
}

// written tells what sheets were printed, and where.
type written struct {
	dir     string
	names   []string
	remarks problem.List
	beside  string // a workbook that a person has worked in and that was left alone
	kept    error  // a file that another program holds: the old one stands
}

// writeSheets prints the chosen sheets of a cast in memory, and only when all
// are right puts them into dir. What was printed is added to prints.
func writeSheets(dir string, c *tree.Cast, chosen selection, prints *record.Prints) (written, error) {
	w := written{dir: dir}
	files := map[string][]byte{}
	c = chosen.forms.on(c)
	part := ofJobs(c, chosen.jobs)
	o := desk.Options{Prints: prints, Jobs: chosen.jobs}
	for _, p := range printers {
		if !chosen.wants(p.of, p.whole) {
			continue
		}
		if !p.wanted(part) {
			if len(chosen.jobs) == 0 {
				files[p.file] = nil // an earlier print of it speaks of another plan
			}
			continue
		}
		data, remarks, err := p.print(c, o)
		if err != nil {
			return w, failed(err)
		}
		name := p.file
		if name == workbookFile {
			name, w.beside = freeWorkbook(dir)
		}
		files[name] = data
		w.names = append(w.names, name)
		for _, r := range remarks { // what several sheets remark alike is told once
			if !slices.Contains(w.remarks, r) {
				w.remarks = append(w.remarks, r)
			}
		}
	}
	sort.Strings(w.names)
	err := save.Files(dir, files)
	if err == nil && chosen.wants(pagesName, false) {
		err = w.writePages(part, c, o)
	}
	var kept *save.Kept
	if errors.As(err, &kept) {
		w.kept = kept
		w.names = slices.DeleteFunc(w.names, func(n string) bool { return slices.Contains(kept.Files, filepath.Join(dir, n)) })
		return w, nil
	}
	if err != nil {
		return w, failed(err)
	}
	return w, nil
}

// freeWorkbook names the workbook to write: one in which a person has typed, or
// of which that can not be seen, is never written over, the new one goes beside
// it.
func freeWorkbook(dir string) (name, beside string) {
	name = workbookFile
	for n := 2; ; n++ {
		path := filepath.Join(dir, name)
		if _, err := os.Lstat(path); err != nil {
			return name, beside
		}
		if data, err := os.ReadFile(path); err == nil {
			if typed, err := workbook.Inputs(data); err == nil && len(typed) == 0 {
				return name, beside
			}
		}
		beside = name
		name = fmt.Sprintf("week-%d.xlsx", n)
	}
}

// ofJobs keeps of a cast what concerns some jobs, to see which sheets that
// needs; the sheets themselves get the whole cast, so that a flask keeps its
// place in the order of pouring.
func ofJobs(c *tree.Cast, numbers []string) *tree.Cast {
	if len(numbers) == 0 {
		return c
	}
	part := *c
	part.Bags, part.Trees, part.OwnMetal = nil, nil, nil
	for _, b := range c.Bags {
		if slices.Contains(numbers, b.Job) {
			part.Bags = append(part.Bags, b)
		}
	}
	for _, t := range c.Trees {
		if slices.ContainsFunc(t.Castings, func(h tree.Hanging) bool { return slices.Contains(numbers, h.Job) }) {
			part.Trees = append(part.Trees, t)
		}
	}
	for _, o := range c.OwnMetal {
		if slices.ContainsFunc(o.Jobs, func(j string) bool { return slices.Contains(numbers, j) }) {
			part.OwnMetal = append(part.OwnMetal, o)
		}
	}
	return &part
}

// choose reads --only and --jobs against what there is.
func choose(c *tree.Cast, f planFlags) (selection, error) {
	for _, name := range f.only {
		if !slices.Contains(sheetNames(), name) {
			return selection{}, wrongUsage("--only %q is not a sheet; there are %s", name, strings.Join(sheetNames(), ", "))
		}
	}
	for _, n := range f.jobs {
		if !slices.ContainsFunc(c.Bags, func(b tree.Bag) bool { return b.Job == n }) {
			return selection{}, wrongUsage("--jobs %q is not a job of the cast %s", n, c.Name)
		}
	}
	return selection{f.only, f.jobs, f.forms}, nil
}

// tell says where the sheets are, and which workbook was left alone.
func (w written) tell(s *streams) {
	if len(w.names) > 0 {
		fmt.Fprintf(s.out, "\nsheets in %s: %s\n", w.dir, strings.Join(w.names, ", "))
	}
	if w.beside != "" {
		fmt.Fprintf(s.out, "%s was worked in and is kept; the new workbook is beside it\n", filepath.Join(w.dir, w.beside))
	}
}
