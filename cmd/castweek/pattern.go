package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"sync"

	"castweek/cmd/castweek/save"
	"castweek/jobs/pattern"
	"castweek/metal/measure"
	"castweek/metal/problem"

	"github.com/spf13/cobra"
)

// mostPatternBytes bounds a mesh file: 20 million faces of a binary STL.
const mostPatternBytes = 1_000_000_100

type patternFlags struct {
	json    bool
	picture string
	unit    string
	kind    string
}

func patternCmd(s *streams) *cobra.Command {
	var f patternFlags
	c := &cobra.Command{
		Use:   "pattern FILE…",
		Short: "measure the mesh of a pattern: volume, soundness, thin places, finger hole",
		Example: `  castweek pattern ring.stl --kind ring
  castweek pattern ring.stl --unit inch --picture ring.png
  castweek pattern *.3mf --json`,
		RunE: func(_ *cobra.Command, args []string) error {
			opt, err := f.options(args)
			if err != nil {
				return err
			}
			return runPattern(s, f, opt, args)
		},
	}
	c.Flags().BoolVar(&f.json, "json", false, "answer as JSON")
	c.Flags().StringVar(&f.picture, "picture", "", "write front, side and top as a PNG to this file")
	c.Flags().StringVar(&f.unit, "unit", string(pattern.Millimetre), "unit of an STL or OBJ file: mm, inch, cm, m, micron or foot")
	c.Flags().StringVar(&f.kind, "kind", string(pattern.Other), "kind of piece: ring or other")
	return c
}

func (f patternFlags) options(args []string) (pattern.Options, error) {
	opt := pattern.Defaults()
	opt.Unit, opt.Kind = pattern.Unit(f.unit), pattern.Kind(f.kind)
	switch {
	case len(args) == 0:
		return opt, wrongUsage("a mesh file is needed, such as: castweek pattern ring.stl")
	case opt.Unit.MM() == 0:
		return opt, wrongUsage("%q is not a unit; write one of mm, inch, cm, m, micron, foot", f.unit)
	case opt.Kind != pattern.Ring && opt.Kind != pattern.Other:
		return opt, wrongUsage("%q is not a kind; write ring or other", f.kind)
	case f.picture != "" && len(args) != 1:
		return opt, wrongUsage("--picture is for one file; %d were given", len(args))
	}
	return opt, nil
}

// A measured pattern is one file with what became of it.
type measured struct {
	report pattern.Report
	views  [3]pattern.View
	err    error
}

func runPattern(s *streams, f patternFlags, opt pattern.Options, files []string) error {
	list := measureFiles(files, opt, f.picture != "", progress(s))
	bad := false
	for _, m := range list {
		bad = bad || m.err != nil || m.report.State == pattern.Untrusted
	}
	if f.picture != "" && list[0].err == nil {
		png, err := pattern.Picture(list[0].views[:]...)
		if err == nil {
			err = save.Files(filepath.Dir(f.picture), map[string][]byte{filepath.Base(f.picture): png})
		}
		if err != nil {
			return failed(fmt.Errorf("the picture is not written: %w", err))
		}
	}
	if f.json {
		if err := writeJSON(s.out, patternsJSON(files, list)); err != nil {
			return err
		}
	} else {
		for i, m := range list {
			if i > 0 {
				fmt.Fprintln(s.out)
			}
			tellPattern(s.out, files[i], m)
		}
	}
	if bad {
		return told(exitRefused)
	}
	return nil
}

// measurersAtOnce is how many files are measured at once; each is measured in
// parallel itself.
const measurersAtOnce = 2

func measureFiles(files []string, opt pattern.Options, views bool, progress func(done, total int)) []measured {
	out := make([]measured, len(files))
	next := make(chan int)
	var wait sync.WaitGroup
	var counting sync.Mutex
	done := 0
	for range measurersAtOnce {
		wait.Go(func() {
			for i := range next {
				out[i] = measureFile(files[i], opt, views)
				counting.Lock()
				if done++; progress != nil {
					progress(done, len(files))
				}
				counting.Unlock()
			}
		})
	}
	for i := range files {
		next <- i
	}
	close(next)
	wait.Wait()
	return out
}

func measureFile(file string, opt pattern.Options, views bool) measured {
	data, err := readPattern(file)
	if err != nil {
		return measured{err: err}
	}
	m, err := pattern.Read(file, data, opt)
	if err != nil {
		return measured{err: err}
	}
	out := measured{report: m.Measure(opt)}
	if views {
		out.views = m.Views(out.report.Frame)
	}
	return out
}

// readPattern reads a file whose size is bounded, even if it grows meanwhile.
func readPattern(file string) ([]byte, error) {
	fail := func(format string, args ...any) error {
		return problem.Problem{Code: "pattern-unreadable", Place: problem.Place{File: file}, Message: fmt.Sprintf(format, args...), Remedy: "check the name of the file and the right to read it"}
	}
	info, err := os.Stat(file) // before it is opened: a pipe would wait for a writer
	if err == nil && !info.Mode().IsRegular() {
		return nil, fail("this is not an ordinary file")
	}
	in, err := os.Open(file)
	if err != nil {
		var path *os.PathError
		if errors.As(err, &path) {
			err = path.Err
		}
		return nil, fail("the file can not be opened: %v", err)
	}
	defer in.Close()
	if info.Size() > mostPatternBytes {
		return nil, fail("the file is larger than %d bytes", mostPatternBytes)
	}
	data := make([]byte, info.Size())
	if _, err := io.ReadFull(in, data); err != nil {
		return nil, fail("the file can not be read: %v", err)
	}
	return data, nil
}

// tellPattern writes the report for a person.
func tellPattern(out io.Writer, file string, m measured) {
	if m.err != nil {
		var p problem.Problem
		if errors.As(m.err, &p) {
			fmt.Fprint(out, p.String())
			return
		}
		fmt.Fprintf(out, "%s: %v\n", file, m.err)
		return
	}
	r := m.report
	fmt.Fprintf(out, "%s: %s\n", file, r.State)
	line := func(name, format string, args ...any) {
		fmt.Fprintf(out, "  %-16s %s\n", name, fmt.Sprintf(format, args...))
	}
	line("size", "%s, read in %s, %s", r.Box.Size(), r.Unit, count(r.Faces, "face"))
	line("volume", "%.2f mm³ ± %.2f; the solids add up to %.2f mm³", float64(r.Volume), float64(r.Bound), float64(r.PlainSum))
	line("skin", "%s", r.Area)
	line("solids", "%d, cavities %d", r.Solids, len(r.Cavities))
	line("thickest section", "%s", r.Thickest)
	if r.Finger != nil {
		a := at(r.Finger.Axis)
		line("finger hole", "%s as modelled, along (%.3f, %.3f, %.3f)", r.Finger.Diameter, a[0], a[1], a[2])
	}
	if r.Thinnest != nil {
		line("thinnest wall", "%s %s", r.Thinnest.MM, r.Thinnest.Where)
	}
	tellProblems(&streams{err: out}, r.Problems)
}

// places rounds a place; adding zero turns -0 into 0.
func places(p pattern.Point, n int) [3]float64 {
	return [3]float64{decimals(p[0], n) + 0, decimals(p[1], n) + 0, decimals(p[2], n) + 0}
}

func at(p pattern.Point) [3]float64 {
	return places(p, 3)
}

func mm(v measure.MM) float64 { return decimals(float64(v), 3) }
