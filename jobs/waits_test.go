package jobs

import (
	"strings"
	"testing"
	"time"

	"castweek/jobs/pattern"
)

func TestWaits(t *testing.T) {
	approved := &Approval{On: time.Date(2026, 11, 20, 0, 0, 0, 0, time.UTC), By: "M. Invented"}
	here := []Part{{Name: "band", Pattern: Pattern{Here: true}}}
	for _, c := range []struct {
		job         Job
		reason, ask string
	}{
		{Job{State: Open, Approved: approved, Parts: here}, "", ""},
		{Job{State: Open, For: "N. Client", Parts: here}, "not approved", "N. Client"},
		{Job{State: Open, For: "N. Client", Ask: "the shop", Parts: here}, "not approved", "the shop"},
		{Job{State: Hold, Approved: approved, Reason: "customer abroad", Ask: "the shop", Parts: here}, "on hold: customer abroad", "the shop"},
		{Job{State: Open, Approved: approved, Ask: "the modeller", Parts: []Part{{}}}, "pattern not here", "the modeller"},
		{Job{State: Open, Approved: approved, Parts: append([]Part{{Name: "head"}}, here...)}, "pattern of head not here", ""},
		{Job{State: Open, Approved: approved, Parts: here, Stones: []Stone{
			{Kind: "sapphire", Place: "centre", Owner: House, Ordered: "the dealer, Tuesday"},
			{Kind: "diamond", Place: "shoulders", Owner: "N. Client"},
			{Kind: "ruby", Place: "side", Owner: House},
			{Kind: "opal", Place: "back", Owner: House, Here: true},
		}}, "sapphire (centre) not here, ordered; diamond (shoulders) not here, to be brought; ruby (side) not here, not ordered", "the dealer, Tuesday; N. Client"},
		{Job{State: Open, Approved: approved, Parts: here, Findings: []Finding{{Name: "pin"}}}, "", ""},
	} {
		reason, ask, waits := c.job.Waits()
		if reason != c.reason || ask != c.ask || waits != (c.reason != "") {
			t.Errorf("got %q, %q, %v; want %q, %q", reason, ask, waits, c.reason, c.ask)
		}
	}
}

// The published chain of T. Teague (Santa Fe Symposium, as quoted by
// J. Binnion): 19.88 mm in wax, 19.63 mm cast, 19.82 mm finished.
func TestFinishedInside(t *testing.T) {
	cast := FinishedInside(19.88, 1.26, 0)
	finished := FinishedInside(19.88, 1.26, 0.095)
	if cast < 19.625 || cast > 19.635 || finished < 19.815 || finished > 19.825 {
		t.Errorf("cast %v, finished %v", cast, finished)
	}
}

// memory is a cache that counts.
type memory struct {
	kept      map[string]pattern.Report
	got, puts int
}

func (m *memory) Get(key string) (pattern.Report, bool) {
	r, ok := m.kept[key]
	if ok {
		m.got++
	}
	return r, ok
}

func (m *memory) Put(key string, r pattern.Report) { m.puts++; m.kept[key] = r }

// A ring whose hole will not finish at its size is said, with the numbers;
// what a cache kept is not measured again, and says the same.
func TestFit(t *testing.T) {
	ring := strings.NewReplacer("kind: pendant", "kind: ring\nsize: UK P½\ngauge: {width: narrow, whose: house}",
		"weight: 0.52 g, size: 24 x 22 x 9 mm", "mesh: patterns/ring.stl").Replace(plain)
	files := sample(t, map[string]string{"jobs/K-204.yaml": ring, "patterns/ring.stl": "any bytes"})
	cache := &memory{kept: map[string]pattern.Report{}}
	measured := 0
	read := func() string {
		_, problems := ReadFolder(files, Options{Cache: cache, Measure: func(name string, _ []byte, opt pattern.Options) (pattern.Report, error) {
			measured++
			if opt.Kind != pattern.Ring || opt.Wall != 0.8 {
				t.Errorf("measured by %+v", opt)
			}
			return pattern.Report{File: name, State: pattern.Exact, Volume: 300, Finger: &pattern.Hole{Diameter: 17.49}}, nil
		}})
		if len(problems) != 1 {
			t.Fatalf("%v", problems)
		}
		return problems[0].Message
	}
	// 17.49 × (1 - 0.0126) + 2 × 0.1 = 17.47 mm; UK P½ is 56.875 mm round, 18.10 mm.
	want := "patterns/ring.stl will finish at 17.47 mm inside; UK P½ is 18.10 mm: 0.63 mm small"
	for range 2 {
		if got := read(); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
	if measured != 1 || cache.puts != 1 || cache.got != 1 {
		t.Errorf("measured %d times, cache %d in, %d out", measured, cache.puts, cache.got)
	}
}

// A pattern that is not to be trusted holds its job, and says so at the line of
// the job that names it.
func TestUntrusted(t *testing.T) {
	job := strings.Replace(plain, "weight: 0.52 g, size: 24 x 22 x 9 mm", "mesh: patterns/leaf.stl", 1)
	files := sample(t, map[string]string{"jobs/K-204.yaml": job, "patterns/leaf.stl": "solid x\nendsolid x\n"})
	f, problems := ReadFolder(files, Options{})
	if len(f.Held) != 1 || len(problems.Errors()) == 0 {
		t.Fatalf("%v", problems)
	}
	p := problems.Errors()[0]
	if p.Place.File != "jobs/K-204.yaml" || p.Place.Line != 11 || !strings.HasPrefix(p.Message, "patterns/leaf.stl") {
		t.Errorf("%v", p)
	}
}
