package jobs

import (
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"castweek/jobs/pattern"
	"castweek/metal/problem"
)

// sample is a small sound folder: the complete workshop file, and one job.
func sample(t testing.TB, jobs map[string]string) fstest.MapFS {
	t.Helper()
	shop, err := os.ReadFile("workshop/testdata/complete.yaml")
	if err != nil {
		t.Fatal(err)
	}
	f := fstest.MapFS{WorkshopFile: {Data: shop}, "jobs/README.md": {Data: []byte("notes\n")}, "jobs/.hidden": {}}
	for name, text := range jobs {
		f[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return f
}

// plain is a sound job without a mesh.
const plain = `number: K-204
for: M. Invented
design: carved leaf pendant
due: 2026-12-18 12:00
kind: pendant
pieces: 2
state: open
approved: {on: 2026-11-20, by: M. Invented}
parts:
  - alloy: 925 silver
    pattern: {material: wax, here: yes, weight: 0.52 g, size: 24 x 22 x 9 mm}
    feeders: 2 x 3.2 x 9.5 mm
`

func TestSoundFolder(t *testing.T) {
	f, problems := ReadFolder(sample(t, map[string]string{"jobs/K-204.yaml": plain}), Options{})
	if len(problems) > 0 {
		t.Fatalf("%v", problems)
	}
	if f.Refused || len(f.Jobs) != 1 || len(f.Held) != 0 {
		t.Fatalf("%+v", f)
	}
	j := f.Jobs[0]
	if reason, _, waits := j.Waits(); waits {
		t.Error("waits:", reason)
	}
	p := j.Parts[0]
	if v := float64(p.Pattern.Volume); v < 541.66 || v > 541.67 { // 0.52 g / 0.96 g/cm³
		t.Error("volume", v)
	}
	if p.Feeders != (Feeders{Count: 2, Diameter: 3.2, Length: 9.5}) {
		t.Errorf("%+v", p.Feeders)
	}
	if got := j.Due.Format("2006-01-02T15:04:05Z07:00"); got != "2026-12-18T12:00:00Z" {
		t.Error("due", got)
	}
	if len(j.Castings()) != 2 {
		t.Error(j.Castings())
	}
}

// Nothing is planned in a house whose settings are in doubt, but the jobs are
// judged all the same.
func TestWorkshopRefused(t *testing.T) {
	files := sample(t, map[string]string{"jobs/K-204.yaml": strings.Replace(plain, "pieces: 2", "pieces: 2.5", 1)})
	files[WorkshopFile].Data = []byte(strings.Replace(string(files[WorkshopFile].Data), "cut_off: 20 h", "cut_off: 20", 1))
	f, problems := ReadFolder(files, Options{})
	if !f.Refused || f.Workshop != nil {
		t.Error("not refused")
	}
	if got := codes(problems); got != "count-whole number-bare" {
		t.Errorf("%q\n%v", got, problems)
	}
	if len(f.Held) != 1 || f.Held[0].Job != "K-204" || f.Held[0].Reason == "" {
		t.Errorf("%+v", f.Held)
	}
}

func TestEmptyFolder(t *testing.T) {
	f, problems := ReadFolder(fstest.MapFS{}, Options{})
	if got := codes(problems); !f.Refused || got != "jobs-missing file-missing" {
		t.Errorf("%q", got)
	}
}

// A file that was meant to be a job is never passed over in silence.
func TestFileNames(t *testing.T) {
	for name, want := range map[string]string{
		"K-2.yaml": "", "notes.txt": "", "NOTES.MD": "", ".K-2.yaml.swp": "", "v1.2.txt": "job-file-other",
		"K-2.yml": "job-file-name", "K-2.YAML": "job-file-name", "K-2.yaml.txt": "job-file-name", "K-2.yaml.bak": "job-file-other", "K-2.yaml~": "job-file-other",
		"old/K-2.yaml": "job-folder",
	} {
		f, problems := ReadFolder(sample(t, map[string]string{"jobs/K-204.yaml": plain, "jobs/" + name: strings.Replace(plain, "K-204", "K-2", 1)}), Options{})
		if got := codes(problems); got != want || f.Refused || (len(f.Held) == 1) != (want == "job-file-name") {
			t.Errorf("%s: %q, %d held", name, got, len(f.Held))
		}
	}
}

func codes(l problem.List) string {
	var out []string
	for _, p := range l {
		out = append(out, p.Code)
	}
	return strings.Join(out, " ")
}

func TestCompareNumbers(t *testing.T) {
	order := []string{"0412", "K-9", "K-10", "K-010", "K-204", "K-204b", "L-1"}
	for i := range order {
		for k := range order {
			want := 0
			switch {
			case i < k:
				want = -1
			case i > k:
				want = 1
			}
			got := CompareNumbers(order[i], order[k])
			if order[i] == "K-10" && order[k] == "K-010" || order[i] == "K-010" && order[k] == "K-10" {
				if got == 0 {
					t.Error("two numbers are one")
				}
				continue
			}
			if got != want {
				t.Errorf("%s, %s: %d, want %d", order[i], order[k], got, want)
			}
		}
	}
}

// A mesh that two jobs use is measured once, a job that is over is not.
func TestMeasuredOnce(t *testing.T) {
	job := func(number, state, mesh string) string {
		s := strings.Replace(strings.Replace(plain, "K-204", number, 1), "state: open", "state: "+state, 1)
		return strings.Replace(s, "weight: 0.52 g, size: 24 x 22 x 9 mm", "mesh: "+mesh, 1)
	}
	files := sample(t, map[string]string{
		"jobs/a.yaml": job("K-1", "open", "patterns/leaf.stl"), "jobs/b.yaml": job("K-2", "open", "patterns/leaf.stl"),
		"jobs/c.yaml": job("K-3", "done", "patterns/old.stl"), "jobs/d.yaml": job("K-4", "open", "patterns/none.stl"),
	})
	files["patterns/leaf.stl"] = &fstest.MapFile{Data: []byte("solid")}
	files["patterns/old.stl"] = &fstest.MapFile{Data: []byte("solid")}
	var names []string
	var steps []int
	f, problems := ReadFolder(files, Options{
		Progress: func(done, total int) { steps = append(steps, done*10+total) },
		Measure: func(name string, data []byte, opt pattern.Options) (pattern.Report, error) {
			names = append(names, name)
			return pattern.Report{File: name, State: pattern.Exact, Volume: 100, Box: pattern.Box{Max: pattern.Point{1, 2, 3}}}, nil
		},
	})
	if got := codes(problems); got != "pattern-missing" {
		t.Fatalf("%v", problems)
	}
	if len(names) != 1 || names[0] != "patterns/leaf.stl" {
		t.Error("measured", names)
	}
	if len(steps) != 2 || steps[0] != 12 || steps[1] != 22 {
		t.Error("progress", steps)
	}
	if p := f.Jobs[1].Parts[0].Pattern; p.Volume != 100 || p.Outer.Height != 3 {
		t.Errorf("%+v", p)
	}
	if len(f.Held) != 1 || f.Held[0].Job != "K-4" {
		t.Errorf("%+v", f.Held)
	}
}

// K-7 and k-7 would be one file name on some systems: both are held.
func TestNumbersThatDifferInCaseAreDouble(t *testing.T) {
	one := blocks(t, "README.md")[0]
	f, problems := ReadFolder(sample(t, map[string]string{"jobs/a.yaml": one, "jobs/b.yaml": strings.Replace(one, "number: K-204", "number: k-204", 1)}), Options{})
	if len(f.Held) != 2 || len(f.Jobs) != 0 {
		t.Errorf("%d held, %d taken\n%v", len(f.Held), len(f.Jobs), problems)
	}
	for _, p := range problems.Errors() {
		if p.Code != "job-double" {
			t.Error(p)
		}
	}
}
