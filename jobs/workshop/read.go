package workshop

import (
	"fmt"
	"math"
	"strings"
	"time"
	_ "time/tzdata" // so that a zone exists on any machine

	"castweek/jobs/source"
	"castweek/metal"
	"castweek/metal/measure"
	"castweek/metal/problem"
)

// Read reads and judges a workshop file. The workshop is nil when the list
// holds an error: nothing is planned in a house whose limits are in doubt.
func Read(file string, data []byte) (*Workshop, problem.List) {
	var problems problem.List
	m, ok := source.Parse(file, data, &problems)
	if ok {
		w := read(m, &problems)
		if len(problems.Errors()) == 0 {
			problems.Sort()
			return w, problems
		}
	}
	problems.Sort()
	return nil, problems
}

func read(m *source.Map, problems *problem.List) *Workshop {
	w := &Workshop{
		At:        m.At(),
		Name:      source.Need(m, "name", source.Line),
		Zone:      source.Need(m, "zone", parseZone),
		CastDay:   source.Need(m, "cast_day", source.Line),
		CastDayAt: m.Place("cast_day"),
		CutOff:    source.Need(m, "cut_off", parseSpan),
		BenchTime: source.Need(m, "bench_time", parseSpan),
		Trunk:     source.Need(m, "trunk_material", source.Line),
		ScaleStep: source.Maybe(m, "scale_step", DefaultScaleStep, parseScaleStep),
		Alloys:    readAlloys(m, problems),
		Materials: readMaterials(m),
		Gaps:      readGaps(m),
		Hang:      readHangRule(m),
		MeltLoss:  metal.LossRule{Default: metal.DefaultLoss},
		Limits:    readLimits(m),
		Sections:  readSectionRule(m),
		Tools:     readTools(m),
		Paper:     readPaper(m),
	}
	if w.Zone == nil {
		w.Zone = time.UTC // the file is refused already; the rest is still judged
	}
	w.AsOf = source.Maybe(m, "as_of", time.Time{}, func(text string) (time.Time, error) { return ParseMoment(text, w.Zone) })
	w.Flasks = readFlasks(m, w.Gaps)
	w.Crucibles = readCrucibles(m, w.Alloys)
	w.Melts = readMelts(m, w)
	w.Powders = readPowders(m, w.Alloys)
	w.Button = readButton(m)
	w.Firing = readFiring(m, w.Alloys, w.Flasks)
	w.Stock = readStock(m, w.Alloys)
	readMeltLoss(m, w)
	if _, ok := w.Material(w.Trunk); !ok && w.Trunk != "" && len(w.Materials) > 0 {
		m.Bad("trunk_material", "unknown-material", "write one of: "+strings.Join(w.materialNames(), ", "), "%q is not one of the pattern materials", w.Trunk)
	}
	m.Done()
	return w
}

func (w *Workshop) materialNames() []string {
	var out []string
	for _, m := range w.Materials {
		out = append(out, m.Name)
	}
	return out
}

// parseZone takes a name of the IANA time zone database.
func parseZone(text string) (*time.Location, error) {
	z, err := time.LoadLocation(text)
	if err != nil || text == "Local" || text == "" {
		return nil, &measure.SyntaxError{Code: "zone-unknown", Message: fmt.Sprintf("%q is not a time zone", text), Remedy: "write area and city, such as Europe/London"}
	}
	return z, nil
}

// ParseMoment reads "2026-12-18 12:00" in a zone. An hour that the change to
// summer time skips is refused.
func ParseMoment(text string, zone *time.Location) (time.Time, error) {
	const form = "2006-01-02 15:04"
	t, err := time.ParseInLocation(form, text, zone)
	switch {
	case err != nil || len(text) != len(form):
		return time.Time{}, &measure.SyntaxError{Code: "date-form", Message: fmt.Sprintf("%q is not a date with its hour", text), Remedy: "write year-month-day and the hour, such as 2026-12-18 12:00"}
	case t.Format(form) != text:
		return time.Time{}, &measure.SyntaxError{Code: "date-skipped", Message: fmt.Sprintf("%q does not exist: the clocks go forward over it", text), Remedy: "write an hour earlier or later"}
	case t.Year() < 2000 || t.Year() > 2100:
		return time.Time{}, &measure.SyntaxError{Code: "date-range", Message: fmt.Sprintf("the year of %q is not credible", text), Remedy: "check the year"}
	}
	return t, nil
}

// parseSpan reads "20 h" or "2 days".
func parseSpan(text string) (time.Duration, error) {
	minutes, err := minutesWithin(0, 60*24*60)(text)
	return time.Duration(math.Round(minutes)) * time.Minute, err
}

// minutesWithin reads a span of time in minutes, and refuses what lies outside a
// range in words that have their unit.
func minutesWithin(low, high float64) func(string) (float64, error) {
	return func(text string) (float64, error) {
		v, err := measure.ParseMinutes(text)
		if err == nil && (v < low || v > high) {
			err = &measure.SyntaxError{Code: "number-range", Message: fmt.Sprintf("%q is outside %s to %s", text, spanText(low), spanText(high)), Remedy: "check the number and its unit"}
		}
		return v, err
	}
}

// spanText writes minutes in the largest unit that keeps them whole.
func spanText(minutes float64) string {
	switch m := math.Trunc(minutes); {
	case m != minutes || m < 60 || math.Mod(m, 60) != 0:
		return fmt.Sprintf("%g min", minutes)
	case m <= 48*60:
		return fmt.Sprintf("%g h", m/60)
	default:
		return fmt.Sprintf("%g days", m/(24*60))
	}
}

// parseScaleStep reads the step of the scale, a whole number of milligrams.
func parseScaleStep(text string) (measure.Milligram, error) {
	g, err := measure.ParseGram(text)
	if err != nil {
		return 0, err
	}
	step := g.Round(1)
	if step < 1 || step > 1000 || math.Abs(float64(step.Gram()-g)) > 1e-9 {
		return 0, &measure.SyntaxError{Code: "scale-step", Message: fmt.Sprintf("%q is not the step of a scale", text), Remedy: "write the smallest step that it shows, such as 0.01 g"}
	}
	return step, nil
}
