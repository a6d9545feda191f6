package workshop

import (
	"strings"
	"testing"

	"castweek/jobs/setting"
	"castweek/metal/measure"
)

// What the setter holds to comes from the house's limits, and each one acts.
func TestBenchHoldsToTheLimits(t *testing.T) {
	data := complete(t)
	for _, c := range []struct {
		was, now string
		remarked func(setting.House) bool
	}{
		{"claw_wire: 0.6 mm", "claw_wire: 0.8 mm", func(h setting.House) bool { c, _ := setting.ClawWire(0.7, h); return !c.Rules[0].Met }},
		{"claw_overlap: 33.3 %", "claw_overlap: 20 %", func(h setting.House) bool { c, _ := setting.ModelledOverlap(1, 0.3, h); return !c.Rules[1].Met }},
		{"bezel_wall: 0.6 mm", "bezel_wall: 0.8 mm", func(h setting.House) bool { c, _ := setting.BezelWall(0.7, h); return !c.Met() }},
		{"flush_below: 0.2 mm", "flush_below: 0.5 mm", func(h setting.House) bool {
			c, _ := setting.FlushMetal(2.1, setting.Line{Width: 3, Depth: 1.8}, h)
			return !c.Met()
		}},
		{"culet: 0.5 mm", "culet: 0.9 mm", func(h setting.House) bool { return h.Culet > measure.MM(0.8) }},
	} {
		for _, strict := range []bool{false, true} {
			text := data
			if strict {
				text = strings.Replace(data, c.was, c.now, 1)
			}
			w, problems := Read("workshop.yaml", []byte(text))
			if w == nil {
				t.Fatal(problems)
			}
			if got := c.remarked(w.Bench()); got != strict {
				t.Errorf("%s, strict %v: remarked is %v", c.was, strict, got)
			}
		}
	}
}
