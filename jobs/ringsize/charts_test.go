package ringsize

import (
	"math"
	"strings"
	"testing"
)

// A chartRow is one line of a printed size chart; a number not printed is 0.
type chartRow struct {
	label        string
	inside, circ float64
}

// chartFaults is the check that finds misprints in a chart: every column must
// rise, and no row may part from π × d by more than 0.15 mm.
func chartFaults(rows []chartRow) string {
	var faults []string
	for i, r := range rows {
		if r.inside > 0 && r.circ > 0 && math.Abs(r.circ-r.inside*math.Pi) > 0.15 {
			faults = append(faults, r.label+": circumference is not π × diameter")
		}
		if i > 0 && (r.circ > 0 && r.circ <= rows[i-1].circ || r.inside > 0 && r.inside <= rows[i-1].inside) {
			faults = append(faults, r.label+": not larger than the row before")
		}
	}
	return strings.Join(faults, "; ")
}

// Rows of public charts that are misprinted. They must never serve as an
// expectation, and the check has to catch each.
func TestPrintedChartsWithFaults(t *testing.T) {
	for _, c := range []struct {
		source string
		rows   []chartRow
		fault  string
	}{
		{"newspaper's chart: Y printed as 57.8", []chartRow{{"X", 0, 66.3}, {"Y", 0, 57.8}, {"Z", 0, 68.8}}, "Y: not larger"},
		{"shop's chart: H printed as 48.8 for 46.8", []chartRow{{"G", 0, 46.1}, {"H", 0, 48.8}, {"I", 0, 47.4}}, "I: not larger"},
		{"supplier's article, US 7", []chartRow{{"7", 17.35, 54.0}}, "7: circumference"},
		{"supplier's article, US 9", []chartRow{{"9", 18.99, 59.1}}, "9: circumference"},
	} {
		if got := chartFaults(c.rows); !strings.Contains(got, c.fault) {
			t.Errorf("%s: found %q, want %q", c.source, got, c.fault)
		}
	}
	for _, system := range Systems() {
		s, _ := scaleOf(system)
		var rows []chartRow
		for i := range s.steps {
			z := s.size(i)
			rows = append(rows, chartRow{s.label(i), float64(z.Inside), float64(z.Circumference)})
		}
		if got := chartFaults(rows); got != "" {
			t.Errorf("%s: %s", system, got)
		}
	}
}
