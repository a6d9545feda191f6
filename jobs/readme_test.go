package jobs

import (
	"os"
	"strings"
	"testing"
)

// blocks are the examples of a page.
func blocks(t *testing.T, page string) []string {
	t.Helper()
	data, err := os.ReadFile(page)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, part := range strings.Split(string(data), "```yaml\n")[1:] {
		block, _, _ := strings.Cut(part, "```")
		out = append(out, block)
	}
	return out
}

// The page opens with an example that is sound in the workshop of the
// workshop's own page, without so much as a remark, and that uses every key.
func TestExampleOfThePage(t *testing.T) {
	example := blocks(t, "README.md")[0]
	folder := sample(t, map[string]string{"jobs/K-204.yaml": example})
	folder[WorkshopFile].Data = []byte(blocks(t, "workshop/README.md")[0])
	f, problems := ReadFolder(folder, Options{})
	if len(problems) > 0 || len(f.Jobs) != 1 {
		t.Fatalf("%v", problems)
	}
	j := f.Jobs[0]
	if reason, _, waits := j.Waits(); waits {
		t.Error("waits:", reason)
	}
	if n := len(j.Castings()); n != 3 {
		t.Error(n, "castings")
	}
	for _, key := range []string{"masked", "plated", "last_step", "resizable", "hallmark", "owner", "bag", "notes", "spares", "section", "finished_width", "modelled_width",
		"origin", "treatment", "depth", "overlap", "height", "girdle", "seat", "risk", "parcel", "ordered", "from"} {
		if !strings.Contains(example, key+":") {
			t.Error("the example does not show", key)
		}
	}
}

// The example of wishes names other jobs; only its keys are checked here.
func TestWishesOfThePage(t *testing.T) {
	_, codes := wishFolder(t, blocks(t, "README.md")[1])
	if strings.Contains(codes, "key") || strings.Contains(codes, "value") || strings.Contains(codes, "flask") {
		t.Error(codes)
	}
}
