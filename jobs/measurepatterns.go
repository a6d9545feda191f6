package jobs

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"sync"

	"castweek/jobs/pattern"
	"castweek/jobs/workshop"
	"castweek/metal/problem"
)

// maxMeshBytes bounds a pattern's file: five million triangles.
const maxMeshBytes = 256 << 20

// measurers is how many patterns are measured at once: each needs some hundred
// bytes a triangle.
const measurers = 2

// A Cache keeps measured patterns. Key names the content of the file and all
// that the measuring depends on, save the version of the method, which is the
// cache's own business. It is used from several goroutines.
type Cache interface {
	Get(key string) (pattern.Report, bool)
	Put(key string, r pattern.Report)
}

// task is one mesh file measured in one way, for all parts that use it.
type task struct {
	file string
	opt  pattern.Options
	used []user

	report  pattern.Report
	err     error
	missing bool
}

type user struct {
	in   *fileJob
	part *Part
}

// measurePatterns measures every mesh that the jobs name, each file once, and
// hands the reports to the parts. Jobs that are over, and a folder without
// settings, are not measured.
func measurePatterns(fsys fs.FS, shop *workshop.Workshop, all []*fileJob, opt Options) {
	if shop == nil {
		return
	}
	if opt.Measure == nil {
		opt.Measure = pattern.Measure
	}
	tasks := meshTasks(shop, all)
	var wait sync.WaitGroup
	var counting sync.Mutex
	next := make(chan *task)
	done := 0
	for range measurers {
		wait.Go(func() {
			for t := range next {
				t.run(fsys, opt)
				counting.Lock()
				done++
				if opt.Progress != nil {
					opt.Progress(done, len(tasks))
				}
				counting.Unlock()
			}
		})
	}
	for _, t := range tasks {
		next <- t
	}
	close(next)
	wait.Wait()
	for _, t := range tasks {
		for _, u := range t.used {
			t.handOut(u, shop)
		}
	}
}

// meshTasks lists the meshes in the order in which they are named.
func meshTasks(shop *workshop.Workshop, all []*fileJob) []*task {
	var out []*task
	known := map[string]*task{}
	for _, f := range all {
		if f.job == nil || f.job.State == Done || f.job.State == Cancelled {
			continue
		}
		for i := range f.job.Parts {
			p := &f.job.Parts[i]
			if p.Pattern.Mesh == "" {
				continue
			}
			o := pattern.Options{Unit: pattern.Unit(p.Pattern.Unit), Kind: patternKind(f.job, p), Wall: shop.Limits.Wall, Gap: shop.Limits.Gap, GapDepth: shop.Limits.GapDepth}
			key := fmt.Sprintf("%s\x00%+v", p.Pattern.Mesh, o)
			if known[key] == nil {
				known[key] = &task{file: p.Pattern.Mesh, opt: o}
				out = append(out, known[key])
			}
			known[key].used = append(known[key].used, user{f, p})
		}
	}
	return out
}

// patternKind tells which parts of a ring have a finger hole: where some parts
// give a shank, only they; otherwise all.
func patternKind(j *Job, p *Part) pattern.Kind {
	if j.Kind == Ring && p.Shank == nil && slices.ContainsFunc(j.Parts, func(o Part) bool { return o.Shank != nil }) {
		return pattern.Other
	}
	return pattern.Kind(j.Kind)
}

func (t *task) run(fsys fs.FS, opt Options) {
	data, err := readBounded(fsys, t.file, maxMeshBytes)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		t.missing = true
		return
	case errors.Is(err, errTooLarge):
		t.err = problem.Problem{Code: "pattern-too-large", Message: fmt.Sprintf("the file is larger than %d MiB", maxMeshBytes>>20), Remedy: "export it with fewer triangles"}
		return
	case err != nil:
		t.err = problem.Problem{Code: "pattern-unreadable", Message: "the file cannot be read: " + plainError(err), Remedy: "check the file and the right to read it"}
		return
	}
	key := ""
	if opt.Cache != nil {
		sum := sha256.Sum256(data)
		key = fmt.Sprintf("%s %s %+v", hex.EncodeToString(sum[:]), t.file, t.opt)
		if r, ok := opt.Cache.Get(key); ok {
			t.report = r
			return
		}
	}
	t.report, t.err = opt.Measure(t.file, data, t.opt)
	if opt.Cache != nil && t.err == nil {
		opt.Cache.Put(key, t.report)
	}
}

// handOut gives a part its report, and the job the problems of it, at the place
// where the job names the file.
func (t *task) handOut(u user, shop *workshop.Workshop) {
	at, found := u.part.Pattern.At, &u.in.problems
	var p problem.Problem
	switch {
	case t.missing:
		if u.part.Pattern.Here {
			found.Add(at, "pattern-missing", "copy the file there, or write here: no", "there is no file %s", t.file)
		}
		return
	case errors.As(t.err, &p):
		place := p.Place
		place.File = t.file
		found.Add(at, p.Code, p.Remedy, "%s: %s", place, p.Message)
		return
	case t.err != nil:
		found.Add(at, "pattern-unreadable", "export the pattern again", "%s: %s", t.file, t.err)
		return
	}
	report := t.report
	u.part.Pattern.Measured = &report
	u.part.Pattern.Volume = report.Volume
	u.part.Pattern.Outer = report.Box.Size()
	for _, p := range report.Problems {
		p.Message, p.Place = t.file+": "+p.Message, at
		if p.Code == "pattern-overlap" {
			p.Message += overlapCost(report, u.part, shop)
		}
		*found = append(*found, p)
	}
	if report.State == pattern.Untrusted && len(report.Problems.Errors()) == 0 {
		found.Add(at, "pattern-untrusted", "repair the mesh in the program that made it", "%s: its volume cannot be trusted", t.file)
	}
	u.fit(shop)
}

// overlapCost says what the overlap of solids would have cost in the job's
// alloy; the charge goes by the united volume.
func overlapCost(r pattern.Report, part *Part, shop *workshop.Workshop) string {
	a, known := shop.Alloys.Find(part.Alloy)
	if !known {
		return ""
	}
	return fmt.Sprintf("; in %s that would be %s too much", a.Name, r.OverlapWeight(a.Density()))
}
