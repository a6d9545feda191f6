package clock

import (
	"fmt"
	"time"
)

// lastYear is the last that a cast can be named for: its name has four digits.
const lastYear = 9999

// Name names the cast of a day after its ISO 8601 week: 2026-W49. A later cast
// day of a week that has had an earlier one adds its ISO weekday: 2026-W49-5.
func (s Schedule) Name(pour time.Time) string {
	pour = pour.In(s.zone)
	year, week := pour.ISOWeek()
	name := fmt.Sprintf("%04d-W%02d", year, week)
	day := (int(pour.Weekday()) + 6) % 7 // Monday 0
	monday := time.Date(pour.Year(), pour.Month(), pour.Day()-day, 0, 0, 0, 0, s.zone)
	if first := s.Next(monday.Add(-time.Second)); first.Before(pour) && shown(first)[:10] != shown(pour)[:10] {
		return fmt.Sprintf("%s-%d", name, day+1)
	}
	return name
}

// Open is the next cast whose cut-off has not passed at now and that is not
// taken: its pour, its cut-off and its name. taken is asked by name.
func (s Schedule) Open(now time.Time, cutOff time.Duration, taken func(name string) bool) (pour, closes time.Time, name string, err error) {
	at := now
	for i := 0; i < 1000; i++ {
		pour = s.Next(at)
		if pour.IsZero() {
			break
		}
		if pour.Year() > lastYear {
			return time.Time{}, time.Time{}, "", fmt.Errorf("the next cast would be after the year %d, where names of casts end", lastYear)
		}
		closes, name = pour.Add(-cutOff), s.Name(pour)
		if closes.After(now) && !taken(name) {
			return pour, closes, name, nil
		}
		at = pour
	}
	return time.Time{}, time.Time{}, "", fmt.Errorf("no free cast day was found in the next thousand")
}
