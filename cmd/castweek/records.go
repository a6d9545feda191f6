package main

import (
	"errors"
	"io/fs"
	"regexp"
	"sort"
	"strings"

	"castweek/metal/problem"
	"castweek/tree"
	"castweek/tree/record"
)

const bringBack = "a record is never changed by hand: bring back the accepted file"

// readRecords reads the accepted casts, in the order of their names. One that
// can not be read stops every plan: planning around it might cast a ring twice.
func (o *opened) readRecords(fsys fs.FS) {
	entries, err := fs.ReadDir(fsys, castsDir)
	if errors.Is(err, fs.ErrNotExist) {
		return
	}
	if err != nil {
		o.refuse(problem.Place{File: castsDir}, "record-unreadable", "check that it is a folder, and the right to read it", "the folder of accepted casts can not be read")
		return
	}
	on := map[string]string{} // the tree of each casting
	for _, e := range entries {
		at := problem.Place{File: castsDir + "/" + e.Name()}
		name, yaml := strings.CutSuffix(e.Name(), ".yaml")
		switch {
		case e.IsDir() || strings.HasPrefix(name, "."):
		case yaml:
			o.readRecord(fsys, at, name, on)
		case likeRecord.MatchString(name):
			o.refuse(at, "record-name", "rename it to end with .yaml, or move it out of casts", "the file is not read: its name does not end with .yaml")
		}
	}
	sort.Slice(o.records, func(i, j int) bool { return o.records[i].Cast < o.records[j].Cast })
}

// likeRecord is the name of a file that is meant to be a record.
var likeRecord = regexp.MustCompile(`(?i)^\d{4}-W\d\d`)

func (o *opened) readRecord(fsys fs.FS, at problem.Place, name string, on map[string]string) {
	info, err := fs.Stat(fsys, at.File) // before it is opened: a pipe would wait for a writer
	var data []byte
	if err == nil && info.Mode().IsRegular() {
		data, err = fs.ReadFile(fsys, at.File)
	}
	if err != nil || !info.Mode().IsRegular() {
		o.refuse(at, "record-unreadable", "check that it is a file, and the right to read it", "the record can not be read")
		return
	}
	r, err := record.Decode[tree.Cast](data)
	switch {
	case err != nil:
		o.refuse(at, "record-unreadable", bringBack, "%s", err)
		return
	case r.Cast != name:
		o.refuse(at, "record-name", "give the file its own name back, or remove it if it is a copy", "the file holds the cast %s", r.Cast)
		return
	}
	for _, t := range r.Trees {
		for _, c := range t.Castings {
			if other := on[c]; other != "" {
				o.refuse(at, "record-twice", bringBack, "casting %s is on tree %s and on tree %s", c, other, t.Name)
			}
			on[c] = t.Name
		}
	}
	o.records = append(o.records, r)
}

// recordProblems are those of the accepted casts.
func (o *opened) recordProblems() (list problem.List) {
	for _, p := range o.problems {
		if strings.HasPrefix(p.Code, "record-") {
			list = append(list, p)
		}
	}
	return list
}
