package ringsize

import (
	"strings"
	"testing"

	"castweek/metal/measure"
)

func TestBlank(t *testing.T) {
	// Public page on blank length: 17.3 mm inside, 1.0 mm thick → 57.49 mm; a
	// band of 5 mm takes 0.5 mm more.
	near(t, "17.3 and 1.0", Blank(17.3, 1.0, 3), 57.49, 0.005)
	near(t, "the same, 4 mm wide", Blank(17.3, 1.0, 4), 57.49, 0.005)
	near(t, "the same, 5 mm wide", Blank(17.3, 1.0, 5), 57.99, 0.005)
	// Supplier's article with π taken as 3.145: 18.4 and 1.0 → 61 mm.
	near(t, "18.4 and 1.0", Blank(18.4, 1.0, 3), 61, 0.1)
	if got := Blank(17.3, 0, 3); got != 0 {
		t.Errorf("a blank of no thickness is %s long", got)
	}
}

func TestNotes(t *testing.T) {
	uk := mustParse(t, "UK N")
	all := func(notes []Note) string {
		var b strings.Builder
		for _, n := range notes {
			if n.Source == "" {
				t.Errorf("%q has no source", n.Text)
			}
			b.WriteString(n.Text + "\n")
		}
		return b.String()
	}
	rule := DefaultWideBand()
	for _, c := range []struct {
		band  measure.MM
		gauge Gauge
		says  []string
		not   []string
	}{
		{4, Narrow, []string{"whole UK letter"}, []string{"asks for", "think of"}},
		{4.1, Narrow, []string{"asks for the wide gauge"}, []string{"think of"}},
		{5, Narrow, []string{"asks for the wide gauge", "54.38 mm round"}, nil},
		{5, Wide, nil, []string{"asks for", "think of"}},
		{3, Wide, []string{"asks for the narrow gauge"}, []string{"think of"}},
		{0, "", []string{"which gauge"}, []string{"think of"}},
	} {
		got := all(Notes(uk, c.band, c.gauge, rule))
		for _, s := range c.says {
			if !strings.Contains(got, s) {
				t.Errorf("%v mm, %s: %q is missing in %q", c.band, c.gauge, s, got)
			}
		}
		for _, s := range c.not {
			if strings.Contains(got, s) {
				t.Errorf("%v mm, %s: %q should not be in %q", c.band, c.gauge, s, got)
			}
		}
	}
	wider, ok := rule.Advice(uk, 6, Narrow)
	if !ok || wider.Label(UK).Text != "N½" {
		t.Errorf("half a letter over N is %v", wider)
	}
}
