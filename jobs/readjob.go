package jobs

import (
	"fmt"
	"regexp"
	"strings"
	"time"

	"castweek/jobs/ringsize"
	"castweek/jobs/source"
	"castweek/jobs/workshop"
	"castweek/metal/measure"
	"castweek/metal/problem"
)

// Bounds of one job, against a slipped digit and a file made to use up memory.
const (
	maxPieces   = 1000
	maxStones   = 10_000 // of one line, per piece
	maxCastings = 5000
)

// A reader reads one job file.
type reader struct {
	shop *workshop.Workshop // nil when its own file is wrong
}

// ReadJob reads and judges one job file. Without a workshop, whatever depends
// on its settings is left unjudged. The job is nil when nothing could be read;
// it is not to be used when the list holds an error.
func ReadJob(file string, data []byte, shop *workshop.Workshop) (*Job, problem.List) {
	var problems problem.List
	m, ok := source.Parse(file, data, &problems)
	if !ok {
		return nil, problems
	}
	r := &reader{shop}
	j := r.job(m)
	problems.Sort()
	return j, problems
}

func (r *reader) job(m *source.Map) *Job {
	j := &Job{
		At:       m.At(),
		Number:   source.Need(m, "number", parseNumber),
		NumberAt: m.Place("number"),
		For:      source.Need(m, "for", source.Line),
		Design:   source.Need(m, "design", source.Line),
		Due:      source.Need(m, "due", r.moment),
		Kind:     source.Need(m, "kind", kindOf),
		Pieces:   source.Need(m, "pieces", source.Within(measure.Whole, 1, maxPieces)),
		State:    source.Need(m, "state", stateOf),
		Reason:   source.Maybe(m, "reason", "", source.Line),
		Ask:      source.Maybe(m, "ask", "", source.Line),
		Finish:   source.Maybe(m, "finish", "", source.Text),
		Masked:   source.Maybe(m, "masked", "", source.Text),
		Plated:   source.Maybe(m, "plated", "", source.Text),
		LastStep: source.Maybe(m, "last_step", "", source.Text),
		Hallmark: source.Maybe(m, "hallmark", "", source.OneOf("wanted", "not wanted", "ask")),
		Owner:    source.Maybe(m, "owner", House, parseOwner),
		OwnerAt:  m.Place("owner"),
		Bag:      source.Maybe(m, "bag", "each", source.OneOf("each", "together")),
		Notes:    source.Maybe(m, "notes", "", source.Text),
		Assembly: source.Each(m, "assembly", source.Text),
	}
	if j.State == Hold && j.Reason == "" && !m.Has("reason") {
		m.Bad("state", "reason-missing", "add a line reason: …, and ask: … with whom to ask", "a job on hold needs its reason")
	}
	if a := m.Map("approved"); a != nil {
		j.Approved = &Approval{On: source.Need(a, "on", r.day), By: source.Need(a, "by", source.Line)}
		a.Done()
	}
	r.size(m, j)
	r.parts(m, j)
	r.findings(m, j)
	r.stones(m, j)
	r.band(m, j)
	r.whole(m, j)
	m.Done()
	return j
}

// numberForm is what can stand in ids and file names on every system.
var numberForm = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9._-]{0,19}$`)

// deviceNames can not be file names on Windows, whatever follows their dot.
var deviceNames = regexp.MustCompile(`(?i)^(con|prn|aux|nul|com[0-9]|lpt[0-9])(\.|$)`)

func parseNumber(text string) (string, error) {
	switch {
	case !numberForm.MatchString(text) || strings.HasSuffix(text, "."):
		return "", &measure.SyntaxError{Code: "job-number", Message: fmt.Sprintf("%q cannot be a job number", text), Remedy: "write up to 20 letters, digits, dots, dashes and underscores, a letter or digit first"}
	case deviceNames.MatchString(text):
		return "", &measure.SyntaxError{Code: "job-number", Message: fmt.Sprintf("%q cannot stand in a file name on every computer", text), Remedy: "take another number"}
	}
	return text, nil
}

// parseOwner takes a name. "House" is the house too, and no customer whose
// metal would get a tree of its own.
func parseOwner(text string) (string, error) {
	if strings.EqualFold(text, House) {
		return House, nil
	}
	return source.Line(text)
}

func kindOf(text string) (Kind, error) {
	w, err := source.OneOf(string(Ring), string(Pendant), string(Earrings), string(Brooch), string(Cufflinks), string(ChainPart), string(LooseHead), string(Stock))(text)
	return Kind(w), err
}

func stateOf(text string) (State, error) {
	w, err := source.OneOf(string(Open), string(Hold), string(Done), string(Cancelled))(text)
	return State(w), err
}

func (r *reader) zone() *time.Location {
	if r.shop == nil {
		return time.UTC
	}
	return r.shop.Zone
}

func (r *reader) moment(text string) (time.Time, error) { return workshop.ParseMoment(text, r.zone()) }

// day reads a date, with or without its hour.
func (r *reader) day(text string) (time.Time, error) {
	if t, err := time.ParseInLocation(time.DateOnly, text, r.zone()); err == nil && len(text) == len(time.DateOnly) {
		return t, nil
	}
	return r.moment(text)
}

// size reads the finger size and the gauge it was measured with.
func (r *reader) size(m *source.Map, j *Job) {
	if v, ok := m.Value("size"); ok {
		s := source.Need(m, "size", ringsize.Parse)
		j.SizeText, j.Size = v.Text, &s
	}
	j.Resizable = source.Maybe(m, "resizable", "", source.OneOf("up", "down", "up and down", "no"))
	if g := m.Map("gauge"); g != nil {
		j.Gauge = source.Need(g, "width", source.OneOf("narrow", "wide", "stick"))
		j.GaugeOf = source.Need(g, "whose", source.Line)
		g.Done()
	}
	if j.Kind == Ring {
		switch {
		case !m.Has("size"):
			m.Bad("kind", "size-missing", "add a line size: … with its system, such as UK N½ or 17.2 mm", "a ring needs its finger size")
		case !m.Has("gauge"):
			m.Remark("size", "gauge-missing", "add gauge: {width: narrow, whose: …}: gauges and sticks differ by up to half a size", "it is not said with which gauge the finger was measured")
		}
		return
	}
	for _, key := range []string{"size", "gauge", "resizable"} {
		if m.Has(key) && j.Kind != "" {
			m.Bad(key, "size-not-ring", "remove it, or write kind: ring", "%q is for rings; the kind of this job is %s", key, j.Kind)
		}
	}
}

// whole judges what only shows when the whole job is read.
func (r *reader) whole(m *source.Map, j *Job) {
	castings := 0
	for _, p := range j.Parts {
		castings += j.Pieces + p.Spares
	}
	if castings > maxCastings {
		m.Bad("pieces", "castings-many", "split the job", "the job makes %d castings; at most %d are read", castings, maxCastings)
	}
	if len(j.Assembly) == 0 && (len(j.Parts) > 1 || len(j.Findings) > 0) && !m.Has("assembly") {
		m.Remark("parts", "assembly-missing", "add assembly: with a line for each step", "several parts or findings, and nothing says how they are joined")
	}
	if r.shop != nil && !r.shop.AsOf.IsZero() && j.Approved != nil && j.Approved.On.After(r.shop.AsOf) {
		m.Bad("approved", "approved-later", "correct the date", "approved on %s, after the moment of planning", j.Approved.On.Format(time.DateOnly))
	}
}
