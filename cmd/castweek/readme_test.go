package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

// example is the first YAML block of a page.
func example(t *testing.T, page string) []byte {
	t.Helper()
	text, err := os.ReadFile(page)
	if err != nil {
		t.Fatal(err)
	}
	m := regexp.MustCompile("(?s)```yaml\n(.*?)```").FindSubmatch(text)
	if m == nil {
		t.Fatalf("%s has no example", page)
	}
	return m[1]
}

// The job file that its page opens with is planned in the workshop of the
// workshop file's page: every casting of it hangs, and its sheets are printed.
func TestTheExamplesArePlanned(t *testing.T) {
	dir := t.TempDir()
	if err := os.Mkdir(filepath.Join(dir, "jobs"), 0o755); err != nil {
		t.Fatal(err)
	}
	for name, page := range map[string]string{"jobs/K-204.yaml": "../../jobs/README.md", "workshop.yaml": "../../jobs/workshop/README.md"} {
		if err := os.WriteFile(filepath.Join(dir, name), example(t, page), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	var out, talk bytes.Buffer
	s := &streams{strings.NewReader(""), &out, &talk, func() time.Time { return time.Date(2026, 11, 30, 8, 0, 0, 0, time.UTC) }, false}
	if code := run([]string{"plan", dir, "--date", "2026-11-30 08:00"}, s); code != exitDone {
		t.Fatalf("exit %d\n%s%s", code, out.String(), talk.String())
	}
	for _, id := range []string{"3 castings on", "K-204"} {
		if !strings.Contains(out.String(), id) {
			t.Errorf("%q is not in\n%s", id, out.String())
		}
	}
	if _, err := os.Stat(filepath.Join(dir, sheetsDir, "bags.pdf")); err != nil {
		t.Error(err)
	}
}

// The two commands that set the project up stand in the README as they are.
func TestTheReadmeNamesItsCommands(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []string{"go run ./cmd/castweek plan samples/saltmarsh", "go test ./...", "Go 1.26"} {
		if !strings.Contains(string(text), c) {
			t.Errorf("%q is missing", c)
		}
	}
}
