package clock

import "time"

// Change finds the moment between two when the clocks of their zone change, and
// by how much they go forward then; back is negative. What only changes its
// name is no change.
func Change(from, till time.Time) (at time.Time, by time.Duration, yes bool) {
	_, before := from.Zone()
	for at = from; ; {
		_, at = at.ZoneBounds()
		if at.IsZero() || !at.Before(till) {
			return time.Time{}, 0, false
		}
		if _, after := at.Zone(); after != before {
			return at, time.Duration(after-before) * time.Second, true
		}
	}
}
