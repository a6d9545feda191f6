package tree

import (
	"testing"

	"castweek/jobs/setting"
	"castweek/jobs/stone"
)

// TestEstimateTellsAllFormulas: where sources part, the range has both.
// Square cut: 0.0023 by an appraisers' list, 0.0025 by a trade list.
func TestEstimateTellsAllFormulas(t *testing.T) {
	e := estimate(setting.Line{Kind: stone.Find("sapphire"), Cut: stone.Square, Length: 4, Width: 4, Depth: 2.5})
	if want := "L × W × depth × SG × 0.0023 or L × W × depth × SG × 0.0025"; e.Formula != want || e.Low >= e.High {
		t.Errorf("%v to %v by %q", e.Low, e.High, e.Formula)
	}
	if e := estimate(setting.Line{Kind: stone.Find("sapphire"), Cut: stone.Round, Length: 4, Width: 4, Depth: 2.5}); e.Formula != "mean dia² × depth × SG × 0.0018" || e.Low != e.High {
		t.Errorf("%v to %v by %q", e.Low, e.High, e.Formula)
	}
}
