package jobs

import (
	"strings"
	"testing"

	"castweek/jobs/pattern"
)

// ringOf is plain as a ring of two parts with a stone.
const ringOf = `number: 0412
for: M. Invented
design: two parts
due: 2026-12-18 12:00
kind: ring
size: UK Y
gauge: {width: stick, whose: house}
pieces: 3
state: open
approved: {on: 2026-11-20, by: M. Invented}
owner: HOUSE
parts:
  - name: band
    alloy: 750 yellow
    pattern: {material: wax, here: yes, mesh: patterns/a.stl, unit: inch}
    feeders: in the mesh
    shank: {finished: 2.0 mm, modelled: 2.1 mm}
  - name: head
    alloy: 750 yellow
    spares: 2
    pattern: {material: resin, here: yes, mesh: patterns/b.stl, mirrored: yes}
    feeders: none
assembly: [solder]
stones:
  - place: top
    part: head
    kind: diamond
    cut: round
    size: 2 mm
    count: 7
    setting: pavé
    set: after casting
    here: yes
`

// What is read is what was typed, and each part of a ring is measured as what
// it is: only the one with a shank has a finger hole.
func TestRead(t *testing.T) {
	files := sample(t, map[string]string{"jobs/0412.yaml": ringOf, "patterns/a.stl": "a", "patterns/b.stl": "b"})
	f, problems := ReadFolder(files, Options{Measure: func(name string, _ []byte, opt pattern.Options) (pattern.Report, error) {
		want := pattern.Options{Unit: pattern.Inch, Kind: pattern.Ring}
		if name == "patterns/b.stl" {
			want = pattern.Options{Unit: pattern.Millimetre, Kind: pattern.Other}
		}
		if opt.Unit != want.Unit || opt.Kind != want.Kind {
			t.Errorf("%s measured by %+v", name, opt)
		}
		return pattern.Report{File: name, State: pattern.Exact, Volume: 10, Finger: &pattern.Hole{Diameter: 3}}, nil
	}})
	// The hole of 3 mm is remarked for the band alone.
	if got := codes(problems); got != "finger-size-off" {
		t.Fatalf("%q\n%v", got, problems)
	}
	j := f.Jobs[0]
	if j.Number != "0412" || j.SizeText != "UK Y" || j.Owner != House || j.Gauge != "stick" {
		t.Errorf("%+v", j)
	}
	if x := j.Stones[0]; x.Part != 1 || x.Style != "pave" || !x.Assumed || x.Depth < 1.199 || x.Depth > 1.201 {
		t.Errorf("%+v", x) // 60 % of 2 mm, as a diamond is cut
	}
	var ids []string
	for _, c := range j.Castings() {
		ids = append(ids, c.ID)
	}
	if got := strings.Join(ids, " "); got != "0412/1a 0412/1b 0412/2a 0412/2b 0412/3a 0412/3b 0412/s1b 0412/s2b" {
		t.Error(got)
	}
}

// A folder of many jobs reads the same each time, in the order of the numbers.
func TestOrder(t *testing.T) {
	jobs := map[string]string{}
	for _, n := range []string{"K-10", "K-9", "K-100", "A-1"} {
		jobs["jobs/x"+n+".yaml"] = strings.Replace(plain, "K-204", n, 1)
	}
	jobs["jobs/y.yaml"] = "number: K-11\nfor: x\n"
	jobs["jobs/z.yaml"] = "number: [\n"
	for range 3 {
		f, _ := ReadFolder(sample(t, jobs), Options{})
		var got []string
		for _, j := range f.Jobs {
			got = append(got, j.Number)
		}
		for _, h := range f.Held {
			got = append(got, h.Job)
		}
		if g := strings.Join(got, " "); g != "A-1 K-9 K-10 K-100 K-11 z" {
			t.Error(g)
		}
	}
}

func BenchmarkReadFolder200(b *testing.B) {
	jobs := map[string]string{}
	for i := range 200 {
		n := "K-" + strings.Repeat("1", i%7+1) + "-" + string(rune('a'+i/26)) + string(rune('a'+i%26))
		jobs["jobs/"+n+".yaml"] = strings.Replace(strings.Replace(ringOf, "0412", n, 1), "mesh: patterns/b.stl, mirrored: yes", "volume: 30 mm3, size: 5 x 5 x 5 mm", 1)
	}
	files := sample(b, jobs)
	measured := func(string, []byte, pattern.Options) (pattern.Report, error) {
		return pattern.Report{State: pattern.Exact, Volume: 10}, nil
	}
	b.ReportAllocs()
	for b.Loop() {
		ReadFolder(files, Options{Measure: measured})
	}
}

// Each row changes one line of a sound job and names the codes that come of it.
func TestValues(t *testing.T) {
	for _, c := range []struct{ old, new, codes string }{
		{"due: 2026-12-18 12:00", "due: 2026-12-18", "date-form"},
		{"due: 2026-12-18 12:00", "due: 18/12/2026 12:00", "date-form"},
		{"due: 2026-12-18 12:00", "due: 2026-12-18 12:00:00", "date-form"},
		{"due: 2026-12-18 12:00", "due: 2026-02-30 12:00", "date-form"},
		{"due: 2026-12-18 12:00", "due: 2026-12-18 24:00", "date-form"},
		{"due: 2026-12-18 12:00", "due: 2206-12-18 12:00", "date-range"},
		{"number: K-204", "number: CON", "job-number"},
		{"number: K-204", "number: aux.1", "job-number"},
		{"number: K-204", "number: .hidden", "job-number"},
		{"number: K-204", "number: K-204.", "job-number"},
		{"number: K-204", "number: a-number-that-is-far-too-long", "job-number"},
		{"number: K-204", "number: ~", "value-empty"},
		{"pieces: 2", "pieces: 0", "number-range"},
		{"pieces: 2", "pieces: 02", "count-whole"},
		{"pieces: 2", "pieces: 5000", "number-range"},
		{"state: open", "state: in cast", "word-unknown"},
		{"on: 2026-11-20", "on: yesterday", "date-form"},
		{"on: 2026-11-20", "on: 2026-11-20 16:30", ""},
		{"here: yes", "here: true", "word-unknown"},
		{"weight: 0.52 g", "weight: 0.52 ct", "unit-unknown"},
		{"weight: 0.52 g", "weight: 520 mg", ""},
		{"weight: 0.52 g", "weight: 52 g", "volume-over-size"},
		{"weight: 0.52 g", "volume: 4752 mm3", ""}, // 24 x 22 x 9
		{"weight: 0.52 g", "volume: 4752.1 mm3", "volume-over-size"},
		{"weight: 0.52 g", "volume: 3.02 mm3", ""}, // a wire of 0.4 mm along 24 mm is 3.016 mm³
		{"weight: 0.52 g", "volume: 3.01 mm3", "volume-under-size"},
		{"weight: 0.52 g", "weight: 0.52 mg", "volume-under-size"},
		{"size: 24 x 22 x 9 mm", "size: 24 x 22 mm", "number-form"},
		{"size: 24 x 22 x 9 mm", "size: 24 x 22 x 9", "unit-unknown"},
		{"weight: 0.52 g, size: 24 x 22 x 9 mm", "rod: 2.5 x 40 mm", ""},
		{"weight: 0.52 g, size: 24 x 22 x 9 mm", "mesh: /etc/K.stl", "mesh-path"},
		{"weight: 0.52 g, size: 24 x 22 x 9 mm", "mesh: 'patterns\\K.stl'", "mesh-path"},
		{"feeders: 2 x 3.2 x 9.5 mm", "feeders: 0 x 3.2 x 9.5 mm", "feeders-form"},
		{"feeders: 2 x 3.2 x 9.5 mm", "feeders: 2 x 3.2 x 9.5", "unit-unknown"},
		{"feeders: 2 x 3.2 x 9.5 mm", "feeders: none", ""},
		{"kind: pendant", "kind: Pendant", "word-unknown"},
		{"parts:", "parts: none\nrest:", "value-shape key-unknown"},
		{"pieces: 2\n", "pieces: 1000\nbag: together\n", ""},
		{"  - alloy: 925 silver", "  - spares: 1000\n    alloy: 925 silver", ""},
	} {
		if !strings.Contains(plain, c.old) {
			t.Fatalf("no %q", c.old)
		}
		_, problems := ReadFolder(sample(t, map[string]string{"jobs/K-204.yaml": strings.Replace(plain, c.old, c.new, 1)}), Options{})
		if got := codes(problems); got != c.codes {
			t.Errorf("%q: got %q, want %q\n%v", c.new, got, c.codes, problems)
		}
	}
}
