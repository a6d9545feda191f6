package clock

import (
	"testing"
	"time"
)

func zone(t *testing.T, name string) *time.Location {
	t.Helper()
	z, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return z
}

func at(t *testing.T, z *time.Location, text string) time.Time {
	t.Helper()
	v, err := time.ParseInLocation("2006-01-02 15:04", text, z)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// Days of the change of clocks: the IANA time zone database.
func TestNext(t *testing.T) {
	for _, c := range []struct{ zone, spec, after, want string }{
		{"Europe/London", "every Thursday 09:00", "2026-11-30 08:00", "2026-12-03 09:00 +0000"},
		{"Europe/London", "every Thursday 09:00", "2026-12-03 09:00", "2026-12-10 09:00 +0000"},
		{"Europe/London", "every Thursday 00:00", "2026-11-30 08:00", "2026-12-03 00:00 +0000"},
		{"Europe/London", "every Tuesday and Friday 14:30", "2026-12-01 15:00", "2026-12-04 14:30 +0000"},
		{"Europe/London", "30 14 * * 2,5", "2026-12-01 15:00", "2026-12-04 14:30 +0000"},
		{"Europe/Berlin", "30 2 * * 0", "2026-03-28 12:00", "2026-03-29 03:00 +0200"}, // 02:30 is skipped
		{"Europe/Berlin", "30 2 * * 0", "2026-03-29 03:00", "2026-04-05 02:30 +0200"}, // and not made up twice
		{"Europe/Berlin", "30 2 * * 0", "2026-10-24 12:00", "2026-10-25 02:30 +0200"}, // the first of two
		{"America/New_York", "every Sunday 01:30", "2026-10-31 12:00", "2026-11-01 01:30 -0400"},
		{"Africa/Cairo", "0 0 * * 5", "2026-04-23 12:00", "2026-04-24 01:00 +0300"},         // midnight is missing
		{"Australia/Lord_Howe", "15 2 * * 0", "2026-10-03 12:00", "2026-10-04 02:30 +1100"}, // a gap of half an hour
		{"Australia/Lord_Howe", "45 1 * * 0", "2026-04-04 12:00", "2026-04-05 01:45 +1100"}, // doubled by half an hour
	} {
		z := zone(t, c.zone)
		s, err := ParseSchedule(c.spec, z)
		if err != nil {
			t.Fatalf("%s: %v", c.spec, err)
		}
		if got := s.Next(at(t, z, c.after)).Format("2006-01-02 15:04 -0700"); got != c.want {
			t.Errorf("%s in %s after %s: %s, want %s", c.spec, c.zone, c.after, got, c.want)
		}
	}
}

func TestTheDoubledHourFiresOnce(t *testing.T) {
	z := zone(t, "Europe/Berlin")
	s, _ := ParseSchedule("30 2 * * *", z)
	first := s.Next(at(t, z, "2026-10-24 12:00"))
	if got := s.Next(first); got.Sub(first) != 25*time.Hour {
		t.Errorf("after %s comes %s", first, got)
	}
}

func TestRefusedSchedules(t *testing.T) {
	for _, spec := range []string{"", "TZ=UTC", "CRON_TZ=Europe/Rome", "TZ=Bogus 0 2 * * *", "0 0 31 2 *", ", 0 * * *", "0 7 * * 7",
		"0 7 * * monday", "0 7 * * 5-1", "*-5 * * * *", "@every -5m", "@every 5", "@Weekly", "@weekly", "60 7 * * 1", "every Thorsday 09:00", "every Thursday", "every Thursday 9:00", "every Thursday 24:00"} {
		if s, err := ParseSchedule(spec, time.UTC); err == nil {
			t.Errorf("%q was read: next %s", spec, s.Next(time.Unix(0, 0)))
		}
	}
}

// ISO 8601 week dates: 3 December 2026 is 2026-W49-4; 1 January 2027 belongs
// to 2026-W53 (the standard's rule: the week of the year's first Thursday).
func TestNames(t *testing.T) {
	z := zone(t, "Europe/London")
	weekly, _ := ParseSchedule("every Thursday 09:00", z)
	twice, _ := ParseSchedule("every Tuesday and Friday 09:00", z)
	newYear, _ := ParseSchedule("every Friday 09:00", z)
	for _, c := range []struct {
		s         Schedule
		day, want string
	}{
		{weekly, "2026-12-03 09:00", "2026-W49"},
		{twice, "2026-12-01 09:00", "2026-W49"},
		{twice, "2026-12-04 09:00", "2026-W49-5"},
		{newYear, "2027-01-01 09:00", "2026-W53"},
	} {
		if got := c.s.Name(at(t, z, c.day)); got != c.want {
			t.Errorf("%s is called %s, want %s", c.day, got, c.want)
		}
	}
}

func TestOpen(t *testing.T) {
	z := zone(t, "Europe/London")
	s, _ := ParseSchedule("every Thursday 09:00", z)
	none := func(string) bool { return false }
	_, _, name, err := s.Open(at(t, z, "2026-12-02 12:59"), 20*time.Hour, none)
	if err != nil || name != "2026-W49" {
		t.Error(name, err)
	}
	if _, _, name, _ = s.Open(at(t, z, "2026-12-02 13:00"), 20*time.Hour, none); name != "2026-W50" {
		t.Errorf("past the cut-off the plan is for %s", name)
	}
	if _, _, name, _ = s.Open(at(t, z, "2026-11-30 08:00"), 20*time.Hour, func(n string) bool { return n == "2026-W49" }); name != "2026-W50" {
		t.Errorf("with W49 accepted the plan is for %s", name)
	}
}
