// Package page is the paper of the house: sizes, type, boxes, signs and flow.
// It is the only importer of the PDF library and holds the guards that library
// needs. Nothing here knows what a job is.
//
// Use first: [New] a [Doc], [Doc.Flow] what it says down one or more leaves,
// [Doc.Put] the leaves on sheets, [Doc.Bytes] once. Coordinates are plain
// float64 millimetres from the upper left corner of the leaf, y downwards;
// type sizes are points. This is one of the numeric leaves that say so.
//
// Promised: the same calls give the same bytes; every font is embedded; a sign
// that the fonts lack becomes a crossed box and a remark, never nothing; a
// panic of the library becomes an error. Not promised: tagged PDF, which the
// library cannot write; the pages in HTML stand in for it.
package page

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"time"

	"github.com/jung-kurt/gofpdf"

	"castweek/metal/problem"
)

// Options describe a document.
type Options struct {
	Title   string
	Subject string
	AsOf    time.Time // the moment of planning; the document's only date
}

// A Doc is a PDF in the making. It belongs to one goroutine.
type Doc struct {
	opt      Options
	pdf      *gofpdf.Fpdf
	added    [faces]bool
	job      string
	field    string
	problems problem.List
	told     map[string]bool
	lacks    map[string]*lack // by job and field
	broken   error
	pages    int
	state    state
	trace    trace
}

// New begins a document. A missing moment of planning is an error of Bytes,
// since the library would put today's date in its place.
func New(opt Options) *Doc {
	d := &Doc{opt: opt, told: map[string]bool{}, lacks: map[string]*lack{}, state: state{weight: -1, filled: black}}
	d.guard(func() {
		d.pdf = gofpdf.NewCustom(&gofpdf.InitType{UnitStr: "mm", Size: gofpdf.SizeType{Wd: A4.W, Ht: A4.H}})
		d.pdf.SetMargins(0, 0, 0)
		d.pdf.SetAutoPageBreak(false, 0)
		d.pdf.SetCatalogSort(true)
		d.pdf.SetCreationDate(opt.AsOf)
		d.pdf.SetModificationDate(opt.AsOf)
		d.pdf.SetTitle(clean(opt.Title), true)
		d.pdf.SetSubject(clean(opt.Subject), true)
		d.pdf.SetCreator("castweek", true)
	})
	if opt.AsOf.IsZero() {
		d.fail(errors.New("a document needs the moment of planning"))
	}
	return d
}

// clean keeps what the library can write into the document's title: it cannot
// take a character beyond the basic plane.
func clean(s string) string {
	out := []rune(s)
	for i, r := range out {
		if r > 0xffff || r < ' ' {
			out[i] = ' '
		}
	}
	return string(out)
}

// About says which job and which of its fields the following text belongs to,
// so that a remark about a sign can name them.
func (d *Doc) About(job, field string) { d.job, d.field = job, field }

// Field says which field of the same job comes next.
func (d *Doc) Field(field string) { d.field = field }

// Problems are the remarks of what has been laid so far.
func (d *Doc) Problems() problem.List { return d.problems }

// Bytes ends the document.
func (d *Doc) Bytes() (out []byte, err error) {
	if d.broken != nil {
		return nil, d.broken
	}
	if d.pdf == nil {
		return nil, errors.New("a document ends once")
	}
	if d.pages == 0 {
		return nil, errors.New("a document without a page")
	}
	d.guard(func() {
		var t taken
		if e := d.pdf.Output(&t); e != nil {
			d.fail(e)
		}
		out = t.bytes()
		d.pdf = nil // the bytes are its own: nothing may be drawn any more
	})
	return out, d.broken
}

// Taken takes what the library writes out without copying it: a thousand bags
// are tens of megabytes, and the library hands them over in one piece and does
// not touch them again.
type taken struct{ parts [][]byte }

func (t *taken) Write(p []byte) (int, error) {
	t.parts = append(t.parts, p)
	return len(p), nil
}

func (t *taken) bytes() []byte {
	if len(t.parts) == 1 {
		return t.parts[0]
	}
	return bytes.Join(t.parts, nil)
}

// guard runs f and turns a panic of the library into the document's error.
func (d *Doc) guard(f func()) {
	defer func() {
		if r := recover(); r != nil {
			d.fail(fmt.Errorf("the page could not be drawn: %v", r))
		}
	}()
	f()
}

// fail keeps the first error, with the job it happened at.
func (d *Doc) fail(err error) {
	if d.broken != nil {
		return
	}
	if d.job != "" {
		err = fmt.Errorf("job %s: %w", d.job, err)
	}
	d.broken = err
}

// finite guards every coordinate: the library writes NaN into the page.
func (d *Doc) finite(what string, v ...float64) bool {
	for _, x := range v {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			d.fail(fmt.Errorf("%s has a coordinate that is not a number", what))
			return false
		}
	}
	return true
}

// remark keeps one remark of each text.
func (d *Doc) remark(code, remedy, message string) {
	if d.field != "" {
		message = d.field + ": " + message
	}
	key := d.job + "\x00" + code + "\x00" + message
	if d.told[key] {
		return
	}
	d.told[key] = true
	d.problems.Remark(problem.Place{File: d.job}, code, remedy, "%s", message)
}
