// Package clock knows the workshop's cast days: when the next one is, what it
// is called, and when orders for it close.
package clock

import (
	"fmt"
	"regexp"
	"strings"
	"time"
	_ "time/tzdata" // so that the workshop's zone exists on any machine

	"castweek/metal/measure"

	"github.com/robfig/cron/v3"
)

// A Schedule gives the workshop's cast days.
type Schedule struct {
	text string
	cron cron.Schedule
	zone *time.Location
}

var weekdays = []string{"Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"}

var (
	plain   = regexp.MustCompile(`^every ([A-Za-z]+(?:(?:, | and )[A-Za-z]+)*) ([01]\d|2[0-3]):([0-5]\d)$`)
	listSep = regexp.MustCompile(`, | and `)
)

// horizon is how far ahead a schedule has to fire to be one: a yearly date
// that only leap years have comes back within eight years.
const horizon = 9 * 366 * 24 * time.Hour

// ParseSchedule reads "every Thursday 09:00", "every Monday and Thursday
// 09:00", or a cron line of five fields, for a zone. The error is a
// *measure.SyntaxError with the code "cast-day".
func ParseSchedule(text string, zone *time.Location) (Schedule, error) {
	line := strings.Join(strings.Fields(text), " ")
	if m := plain.FindStringSubmatch(line); m != nil {
		var days []string
		for _, name := range listSep.Split(m[1], -1) {
			n := weekday(name)
			if n < 0 {
				return Schedule{}, refuse("write it in full, such as Thursday", "%q is not a day of the week", name)
			}
			days = append(days, fmt.Sprint(n))
		}
		line = fmt.Sprintf("%s %s * * %s", strings.TrimPrefix(m[3], "0"), strings.TrimPrefix(m[2], "0"), strings.Join(days, ","))
	} else if err := guard(line); err != nil {
		return Schedule{}, err
	}
	c, err := parse(line)
	if err != nil {
		return Schedule{}, refuse(asWritten, "%q is not a cast day (%v)", text, err)
	}
	s := Schedule{line, c, zone}
	if n := s.Next(time.Date(2024, 1, 1, 0, 0, 0, 0, zone)); n.IsZero() || n.After(time.Date(2024, 1, 1, 0, 0, 0, 0, zone).Add(horizon)) {
		return Schedule{}, refuse("check the day and the month", "%q names a day that never comes", text)
	}
	return s, nil
}

const asWritten = "write it as: every Thursday 09:00"

func refuse(remedy, format string, args ...any) error {
	return &measure.SyntaxError{Code: "cast-day", Message: fmt.Sprintf(format, args...), Remedy: remedy}
}

// guard refuses what the cron library would read in a surprising way: zones
// inside the line (they can panic), macros, a star with a sign, empty lists.
func guard(line string) error {
	fields := strings.Split(line, " ")
	if len(fields) != 5 || strings.ContainsAny(line, "=@") {
		return refuse(asWritten+", or as a cron line of five fields", "%q is not a cast day", line)
	}
	for _, f := range fields {
		if strings.Contains(f, "*-") || strings.HasPrefix(f, ",") || strings.HasSuffix(f, ",") || strings.Contains(f, ",,") {
			return refuse(asWritten, "%q can not be read in the cron line %q", f, line)
		}
	}
	return nil
}

// parse keeps a panic of the library inside.
func parse(line string) (s cron.Schedule, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("%v", r)
		}
	}()
	return cron.NewParser(cron.Minute | cron.Hour | cron.Dom | cron.Month | cron.Dow).Parse(line)
}

func weekday(name string) int {
	for i, d := range weekdays {
		if strings.EqualFold(name, d) {
			return i
		}
	}
	return -1
}

// Next is the first cast strictly after t, in the workshop's zone. Where the
// clocks go forward over the hour of a cast, it is at the first minute that
// exists; where they go back over it, it is at the first of the two. A schedule
// that never fires gives the zero time.
func (s Schedule) Next(t time.Time) time.Time {
	// The library works in UTC here: wall-clock times without jumps. Each is
	// then looked up in the zone, which settles skipped and doubled hours.
	wall := t.In(s.zone)
	from := time.Date(wall.Year(), wall.Month(), wall.Day(), wall.Hour(), wall.Minute(), wall.Second(), 0, time.UTC).Add(-3 * time.Hour)
	for i := 0; i < 1000; i++ {
		w := s.cron.Next(from)
		if w.IsZero() {
			return time.Time{}
		}
		if at := inZone(w, s.zone); at.After(t) {
			return at
		}
		from = w
	}
	return time.Time{}
}

// inZone finds the moment when the clocks of a zone show w. A doubled time
// gives the earlier moment, a skipped one the first minute after the gap.
func inZone(w time.Time, zone *time.Location) time.Time {
	at := time.Date(w.Year(), w.Month(), w.Day(), w.Hour(), w.Minute(), 0, 0, zone)
	if shown(at) == shown(w) {
		for _, back := range []time.Duration{2 * time.Hour, time.Hour, 30 * time.Minute} {
			if earlier := at.Add(-back); shown(earlier) == shown(w) {
				return earlier
			}
		}
		return at
	}
	// skipped: walk from well before the gap to the first minute past it
	for at = at.Add(-4 * time.Hour); shown(at) < shown(w); at = at.Add(time.Minute) {
	}
	return at
}

func shown(t time.Time) string { return t.Format("2006-01-02 15:04") }
