package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"castweek/jobs"
	"castweek/metal/measure"
	"castweek/metal/problem"
	catalogue "castweek/sheets/words"
	"castweek/tree"
	"castweek/tree/clock"
	"castweek/tree/record"
)

// castsDir holds the records of accepted casts, sheetsDir what is printed.
const (
	castsDir  = "casts"
	sheetsDir = "sheets"
)

// An opened folder is everything that was read of a job folder.
type opened struct {
	dir      string
	folder   *jobs.Folder
	problems problem.List
	records  []record.Record[tree.Cast]
	cache    *jobs.KeptReports
	words    *catalogue.Words // of the sheets; nil: English
}

// open reads a job folder. What is wrong inside is in problems; the error
// speaks of a folder that is none.
func open(s *streams, dir string) (*opened, error) {
	info, err := os.Stat(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, refused(fmt.Errorf("there is no folder %s", dir))
	case err != nil:
		return nil, refused(err)
	case !info.IsDir():
		return nil, refused(fmt.Errorf("%s is a file; a job folder is needed", dir))
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, refused(err)
	}
	defer root.Close()
	o := &opened{dir: dir, cache: readCache(root.FS())}
	o.folder, o.problems = jobs.ReadFolder(root.FS(), jobs.Options{Progress: progress(s), Cache: o.cache})
	o.castDay()
	o.readRecords(root.FS())
	o.readWords(root.FS())
	o.problems.Sort()
	return o, nil
}

// castDay judges the schedule, which the reader of the workshop's file takes as
// it is: the calendar stands a floor higher.
func (o *opened) castDay() {
	w := o.folder.Workshop
	if w == nil {
		return
	}
	_, err := clock.ParseSchedule(w.CastDay, w.Zone)
	var s *measure.SyntaxError
	if errors.As(err, &s) {
		o.refuse(w.CastDayAt, s.Code, s.Remedy, "cast_day: %s", s.Message)
	}
}

// refuse adds an error that stops the plan.
func (o *opened) refuse(at problem.Place, code, remedy, format string, args ...any) {
	o.folder.Refused = true
	o.problems.Add(at, code, remedy, format, args...)
}

// skins reads the surfaces of the patterns, which only planning asks for.
func (o *opened) skins() error {
	root, err := os.OpenRoot(o.dir)
	if err != nil {
		return refused(err)
	}
	defer root.Close()
	if err := jobs.ReadSkins(root.FS(), o.folder.Jobs); err != nil {
		return refused(err)
	}
	return nil
}

// progress shows on a terminal, and only there, how many patterns are read.
func progress(s *streams) func(done, total int) {
	if !s.terminal {
		return nil
	}
	return func(done, total int) {
		fmt.Fprintf(s.err, "\rpatterns read: %d of %d", done, total)
		if done == total {
			fmt.Fprint(s.err, "\r\033[K")
		}
	}
}

// out is where sheets go: the flag, else sheets/ in the job folder.
func (o *opened) out(flag string) string {
	if flag != "" {
		return flag
	}
	return filepath.Join(o.dir, sheetsDir)
}

// refusal is the end of a run that may not plan: the workshop's settings or a
// person's wishes are in doubt. Problems were told.
func (o *opened) refusal() error {
	if o.folder.Refused {
		return told(exitRefused)
	}
	return nil
}
