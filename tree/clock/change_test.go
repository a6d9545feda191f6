package clock

import (
	"testing"
	"time"
)

// Days of the change of clocks: the IANA time zone database.
func TestChange(t *testing.T) {
	for _, c := range []struct {
		zone, from, till, at string
		by                   time.Duration
	}{
		{"Europe/London", "2027-03-27 20:00", "2027-03-28 10:00", "2027-03-28 02:00", time.Hour},
		{"Europe/London", "2026-10-24 20:00", "2026-10-25 10:00", "2026-10-25 01:00", -time.Hour},
		{"Europe/London", "2026-12-02 20:00", "2026-12-03 10:00", "", 0},
		{"Europe/London", "2027-03-28 02:00", "2027-03-28 10:00", "", 0},
		{"Europe/London", "2026-10-24 20:00", "2026-10-25 00:59", "", 0},
		{"Australia/Lord_Howe", "2026-10-03 20:00", "2026-10-04 10:00", "2026-10-04 02:30", 30 * time.Minute},
		{"Asia/Tokyo", "2026-10-03 20:00", "2026-10-04 10:00", "", 0},
		{"UTC", "2026-03-28 20:00", "2026-03-29 10:00", "", 0},
	} {
		z := zone(t, c.zone)
		on := func(s string) time.Time {
			at, err := time.ParseInLocation("2006-01-02 15:04", s, z)
			if err != nil {
				t.Fatal(err)
			}
			return at
		}
		at, by, yes := Change(on(c.from), on(c.till))
		if yes != (c.at != "") || by != c.by || yes && shown(at) != c.at {
			t.Errorf("%s, %s to %s: %v by %v", c.zone, c.from, c.till, at, by)
		}
	}
}
