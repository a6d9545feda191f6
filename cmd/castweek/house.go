package main

import (
	"errors"
	"fmt"
	"io/fs"
	"math/big"
	"os"
	"path/filepath"
	"strings"
	"time"

	"castweek/cmd/castweek/save"
	"castweek/jobs/workshop"
	"castweek/metal"
	"castweek/metal/book"
	"castweek/metal/measure"
	"castweek/metal/mix"
)

// bookFile is the metal's book in the job folder.
const bookFile = "metal.csv"

// A house is what the verbs about metal know of a workshop; without a job
// folder it is the start list and a common scale.
type house struct {
	dir    string
	alloys metal.Alloys
	step   measure.Milligram
	zone   *time.Location
	shop   *workshop.Workshop // nil without a job folder
}

// openHouse reads the workshop's settings only: what is on the scale now does
// not wait for a job file to be mended.
func openHouse(s *streams, dir string) (*house, error) {
	if dir == "" {
		return &house{alloys: metal.StartList(), step: workshop.DefaultScaleStep, zone: time.Local}, nil
	}
	file := filepath.Join(dir, "workshop.yaml")
	data, err := os.ReadFile(file)
	if err != nil {
		return nil, refused(fmt.Errorf("%s is no job folder: %w", dir, err))
	}
	w, problems := workshop.Read(file, data)
	if w == nil {
		tellProblems(s, problems)
		return nil, told(exitRefused)
	}
	return &house{dir, w.Alloys, w.ScaleStep, w.Zone, w}, nil
}

// alloy finds an alloy by its name, or says which was meant.
func (h *house) alloy(name string) (metal.Alloy, error) {
	a, ok := h.alloys.Find(name)
	if !ok {
		return a, wrongUsage("no alloy is called %q; %s", name, workshop.AlloyRemedy(h.alloys, name))
	}
	return a, nil
}

// readBook reads the metal's book. A book that is not there is empty; one with
// mistakes is refused, for nothing may be planned on it.
func (h *house) readBook(s *streams) (*book.Book, error) {
	file := filepath.Join(h.dir, bookFile)
	data, err := save.Read(file)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, refused(err)
	}
	b, problems := book.Read(file, data)
	tellProblems(s, problems)
	if len(problems.Errors()) > 0 {
		return nil, told(exitRefused)
	}
	return b, nil
}

// weightFlag reads a weight from the command line: grams as a bare number or
// with its g, exactly, with at most three decimals.
func weightFlag(name, text string) (measure.Milligram, error) {
	mg, err := exactly(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "g")))
	if err != nil || mg <= 0 {
		return 0, wrongUsage("%s %q is not a weight; write grams with at most three decimals, such as 32.20", name, text)
	}
	return measure.Milligram(mg), nil
}

// exactly reads a decimal as whole thousandths.
func exactly(text string) (int64, error) {
	if _, err := measure.Number(text); err != nil {
		return 0, err
	}
	r, ok := new(big.Rat).SetString(text)
	if !ok {
		return 0, fmt.Errorf("%q is not a number", text)
	}
	r.Mul(r, big.NewRat(1000, 1))
	if !r.IsInt() || !r.Num().IsInt64() {
		return 0, fmt.Errorf("%q has more than three decimals", text)
	}
	return r.Num().Int64(), nil
}

// perMille reads thousandths from the command line, exactly.
func perMille(text string) (*big.Rat, error) {
	n, err := exactly(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "‰")))
	if err != nil {
		return nil, err
	}
	return big.NewRat(n, 1000), nil
}

// contents turns a recipe into exact thousandths.
func contents(c metal.Composition) (out []mix.Content) {
	for _, s := range c {
		out = append(out, mix.Content{Element: string(s.Element), PerMille: big.NewRat(int64(s.Parts), 1000)})
	}
	return out
}

// inSteps writes a weight with the decimals that the scale shows.
func inSteps(g, step measure.Milligram) string {
	n := 3
	for n > 0 && step%10 == 0 {
		step /= 10
		n--
	}
	return g.Number(n)
}

// book reads the metal's book of an opened folder; nil when it keeps none.
func (o *opened) book(s *streams) (*book.Book, error) {
	if _, err := os.Stat(filepath.Join(o.dir, bookFile)); errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	return (&house{dir: o.dir}).readBook(s)
}
