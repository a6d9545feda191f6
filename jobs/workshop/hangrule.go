package workshop

import (
	"strings"

	"castweek/jobs/source"
	"castweek/metal/measure"
)

// HangRule is how castings are to hang on the trunk. Angles are in degrees,
// between the feeder and the part of the trunk away from the button.
type HangRule struct {
	Tilt      float64 // wanted
	LeastTilt float64
	MostTilt  float64
	Longest   measure.MM // of a feeder, from trunk to pattern, unless the job asks for more
}

// The defaults: 45° is common practice, no source (60° to 70° for centrifugal
// casting). Flatter than 30° the feeder runs along the trunk, and steeper than
// 75° a part of the casting lies back towards the button: common practice, no
// source. Feeders are to be short; published ones are 9.5 mm for a ring and 12
// mm for a dental casting, and half again as much is common practice, no source.
const (
	DefaultTilt                     = 45
	DefaultLeastTilt                = 30
	DefaultMostTilt                 = 75
	DefaultLongestFeeder measure.MM = 15
)

func readHangRule(m *source.Map) HangRule {
	r := HangRule{DefaultTilt, DefaultLeastTilt, DefaultMostTilt, DefaultLongestFeeder}
	section(m, "hang", func(s *source.Map) {
		angle := source.Within(parseDegrees, 10, 90)
		r.Tilt = source.Maybe(s, "tilt", r.Tilt, angle)
		r.LeastTilt = source.Maybe(s, "least_tilt", min(r.LeastTilt, r.Tilt), angle)
		r.MostTilt = source.Maybe(s, "most_tilt", max(r.MostTilt, r.Tilt), angle)
		r.Longest = source.Maybe(s, "longest_feeder", r.Longest, source.Within(measure.ParseMM, 1, 40))
		switch {
		case r.LeastTilt > r.Tilt:
			s.Bad("least_tilt", "tilt-order", "write at most the tilt itself", "the least tilt is greater than the tilt that is wanted")
		case r.MostTilt < r.Tilt:
			s.Bad("most_tilt", "tilt-order", "write at least the tilt itself", "the most tilt is less than the tilt that is wanted")
		}
	})
	return r
}

// parseDegrees reads an angle, "45°" or "45 deg".
func parseDegrees(text string) (float64, error) {
	for _, unit := range []string{"°", "deg"} {
		if n, ok := strings.CutSuffix(text, unit); ok {
			return measure.Number(strings.TrimSpace(n))
		}
	}
	return 0, &measure.SyntaxError{Code: "number-bare", Message: "\"" + text + "\" is not an angle", Remedy: "write degrees, such as 45°"}
}
