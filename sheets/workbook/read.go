package workbook

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"castweek/tree"
)

// Limits on a workbook that is read: one that a person has saved is a few
// hundred kilobytes; what is larger is not one of ours, and is not opened.
const (
	largestFile     = 5 << 20
	largestUnzipped = 64 << 20
	largestPart     = 16 << 20
)

// Typed is an input cell that holds something.
type Typed struct {
	Sheet, Cell, Value string
}

// Inputs lists what people have typed into the marked cells of an existing
// workbook. They are written open, so whatever stands in one was typed.
//
// An error means that this cannot be told (not a workbook of ours, damaged,
// the names of the marked cells removed): take it as changed, and do not
// write over the file.
func Inputs(data []byte) (typed []Typed, err error) {
	if len(data) > largestFile {
		return nil, fmt.Errorf("the workbook is larger than %d MB", largestFile>>20)
	}
	defer func() {
		if r := recover(); r != nil {
			typed, err = nil, fmt.Errorf("the workbook cannot be read: %v", r)
		}
	}()
	f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{UnzipSizeLimit: largestUnzipped, UnzipXMLSizeLimit: largestPart})
	if err != nil {
		return nil, fmt.Errorf("the workbook cannot be read: %w", err)
	}
	defer f.Close()
	refers := map[string]string{}
	for _, d := range f.GetDefinedName() {
		refers[d.Name] = d.RefersTo
	}
	names := inputNames()
	var more []string // lots beyond those that every workbook has room for
	for name := range refers {
		if strings.HasPrefix(name, "typed_lot") && !slices.Contains(names, name) {
			more = append(more, name)
		}
	}
	slices.Sort(more)
	names = append(names, more...)
	for _, name := range names {
		area, ok := refers[name]
		if !ok {
			return nil, fmt.Errorf("the workbook has no marked cells named %s", name)
		}
		found, err := filledCells(f, area)
		if err != nil {
			return nil, fmt.Errorf("the marked cells %s: %w", name, err)
		}
		typed = append(typed, found...)
	}
	return typed, nil
}

// inputNames are the names that all marked cells go by, in order.
func inputNames() (out []string) {
	for _, l := range allInputs() {
		out = append(out, l.name)
	}
	return out
}

// allInputs are the kinds of marked cells of all sheets, in order.
func allInputs() (out []*limit) {
	empty := &tree.Cast{}
	for _, t := range []*table{chargeTable(empty), stonesTable(empty)} {
		for i := range t.columns {
			if l := t.columns[i].input; l != nil {
				out = append(out, l)
			}
		}
	}
	return out
}

// reference is an area of a sheet; a quoted name doubles its quotes.
var reference = regexp.MustCompile(`^('(?:[^']|'')+'|[^'!]+)!\$([A-Z]{1,3})\$(\d{1,7})(?::\$([A-Z]{1,3})\$(\d{1,7}))?$`)

// mostRows bounds what is looked through: no week has more trees or stones.
const mostRows = 100_000

// filledCells reads the cells of one named area. Each cell is asked for by
// itself: reading a damaged sheet as a whole gives no rows and no error.
func filledCells(f *excelize.File, area string) ([]Typed, error) {
	m := reference.FindStringSubmatch(area)
	if m == nil {
		return nil, fmt.Errorf("%q is no area of cells", area)
	}
	sheet := m[1]
	if inner, quoted := strings.CutPrefix(sheet, "'"); quoted {
		sheet = strings.ReplaceAll(strings.TrimSuffix(inner, "'"), "''", "'")
	}
	first, _ := strconv.Atoi(m[3])
	last := first
	if m[4] != "" {
		last, _ = strconv.Atoi(m[5])
	}
	if m[4] != "" && m[4] != m[2] || first < 1 || last-first > mostRows {
		return nil, fmt.Errorf("%q is no column of cells", area)
	}
	var out []Typed
	for r := first; r <= last; r++ {
		ref := fmt.Sprintf("%s%d", m[2], r)
		v, err := f.GetCellValue(sheet, ref, excelize.Options{RawCellValue: true})
		if err != nil {
			return nil, err
		}
		formula, err := f.GetCellFormula(sheet, ref)
		if err != nil {
			return nil, err
		}
		if v == "" && formula != "" {
			v = "=" + formula
		}
		if v != "" {
			out = append(out, Typed{sheet, ref, v})
		}
	}
	return out, nil
}
