package main

import (
	"regexp"
	"time"
)

// The calendar of casts: their names have a year of four digits.
const (
	firstYear = 1
	lastYear  = 9999
)

// longYear is a year that no form of a date has: five digits, or a sign.
var longYear = regexp.MustCompile(`^(-\d+|\+?\d{5,})-\d`)

// moment of planning: the flag, else what the folder states, else now.
func (o *opened) moment(s *streams, flag string) (time.Time, error) {
	w := o.folder.Workshop
	if flag == "" {
		if !w.AsOf.IsZero() {
			return w.AsOf, nil
		}
		return s.now().In(w.Zone), nil
	}
	t, err := readMoment(flag, w.Zone)
	switch {
	case err != nil:
		return t, err
	case t.Year() < firstYear || t.Year() > lastYear:
		return t, outsideCalendar(flag)
	}
	return t, nil
}

func readMoment(flag string, zone *time.Location) (time.Time, error) {
	for _, form := range []string{"2006-01-02 15:04", "2006-01-02T15:04", "2006-01-02"} {
		t, err := time.ParseInLocation(form, flag, zone)
		if err != nil {
			continue
		}
		if t.Format(form) != flag {
			return t, wrongUsage("--date %q does not exist: the clocks go forward over it; write an hour earlier or later", flag)
		}
		return t, nil
	}
	if t, err := time.Parse(time.RFC3339, flag); err == nil {
		return t.In(zone), nil
	}
	if longYear.MatchString(flag) {
		return time.Time{}, outsideCalendar(flag)
	}
	return time.Time{}, wrongUsage("--date %q is not a moment; write it as 2026-11-30 or \"2026-11-30 08:00\"", flag)
}

func outsideCalendar(flag string) error {
	return wrongUsage("--date %q is outside the years %d to %d; check the year", flag, firstYear, lastYear)
}
