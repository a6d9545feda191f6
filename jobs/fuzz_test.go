package jobs

import (
	"os"
	"strings"
	"testing"

	"castweek/jobs/workshop"
)

// FuzzReadJob: whatever the bytes, there is no panic; a job without an error is
// whole, and makes a bounded number of castings.
func FuzzReadJob(f *testing.F) {
	data, err := os.ReadFile("workshop/testdata/complete.yaml")
	if err != nil {
		f.Fatal(err)
	}
	shop, problems := workshop.Read(WorkshopFile, data)
	if shop == nil {
		f.Fatal(problems)
	}
	f.Add([]byte(plain), true)
	f.Add([]byte(strings.Replace(plain, "kind: pendant", "kind: ring\nsize: 17.2 mm", 1)), false)
	if page, err := os.ReadFile("README.md"); err == nil {
		_, page, _ := strings.Cut(string(page), "```yaml\n")
		example, _, _ := strings.Cut(page, "```")
		f.Add([]byte(example), true)
	}
	f.Fuzz(func(t *testing.T, data []byte, withShop bool) {
		s := shop
		if !withShop {
			s = nil
		}
		j, problems := ReadJob("jobs/f.yaml", data, s)
		for _, p := range problems {
			if p.Code == "" || p.Remedy == "" || p.Place.File == "" {
				t.Errorf("%+v", p)
			}
			_ = p.String()
		}
		if len(problems.Errors()) > 0 {
			return
		}
		if j == nil || j.Number == "" || j.Pieces < 1 || len(j.Parts) == 0 || j.Due.IsZero() || j.Kind == "" || j.State == "" {
			t.Fatalf("sound, and not whole: %+v", j)
		}
		if n := len(j.Castings()); n < 1 || n > maxCastings {
			t.Fatalf("%d castings", n)
		}
		for _, p := range j.Parts {
			if p.Alloy == "" || p.Pattern.Material == "" || p.Pattern.Mesh == "" && (s != nil || p.Pattern.Weight == 0) && p.Pattern.Volume <= 0 {
				t.Fatalf("sound, and not whole: %+v", p)
			}
		}
		for _, x := range j.Stones {
			if x.Count < 1 || x.Length < x.Width || x.Width <= 0 || x.Depth <= 0 || x.Part >= len(j.Parts) || x.Style == "" {
				t.Fatalf("sound, and not whole: %+v", x)
			}
		}
		j.Waits()
	})
}
