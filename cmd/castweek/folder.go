package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"time"

	"castweek/jobs"
	"castweek/metal/problem"
	"castweek/tree"
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
	o.records, err = readRecords(root.FS())
	if err != nil {
		return nil, refused(err)
	}
	return o, nil
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

// readRecords reads the accepted casts, in the order of their names. One that
// can not be read stops everything: planning around it might cast a ring twice.
func readRecords(fsys fs.FS) ([]record.Record[tree.Cast], error) {
	entries, err := fs.ReadDir(fsys, castsDir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	var out []record.Record[tree.Cast]
	for _, e := range entries {
		name, ok := strings.CutSuffix(e.Name(), ".yaml")
		if e.IsDir() || !ok || strings.HasPrefix(name, ".") {
			continue
		}
		file := castsDir + "/" + e.Name()
		data, err := fs.ReadFile(fsys, file)
		if err != nil {
			return nil, err
		}
		r, err := record.Decode[tree.Cast](data)
		if err != nil {
			return nil, fmt.Errorf("%s: %w; a record is never changed by hand: bring back the accepted file", file, err)
		}
		if r.Cast != name {
			return nil, fmt.Errorf("%s holds the cast %s; give the file its own name back", file, r.Cast)
		}
		out = append(out, r)
	}
	sort.Slice(out, func(i, j int) bool { return out[i].Cast < out[j].Cast })
	return out, nil
}

// moment of planning: the flag, else what the folder states, else now.
func (o *opened) moment(s *streams, flag string) (time.Time, error) {
	w := o.folder.Workshop
	if flag == "" {
		if !w.AsOf.IsZero() {
			return w.AsOf, nil
		}
		return s.now().In(w.Zone), nil
	}
	for _, form := range []string{"2006-01-02 15:04", "2006-01-02T15:04", "2006-01-02"} {
		if t, err := time.ParseInLocation(form, flag, w.Zone); err == nil {
			return t, nil
		}
	}
	if t, err := time.Parse(time.RFC3339, flag); err == nil {
		return t.In(w.Zone), nil
	}
	return time.Time{}, wrongUsage("--date %q is not a moment; write it as 2026-11-30 or \"2026-11-30 08:00\"", flag)
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
