package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"slices"
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

// The terminal session of the README is what the terminal shows: an ellipsis
// stands for what is left out, each other word is there.
func TestTheReadmesSession(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	var lines []string
	for line := range strings.Lines(string(text)) {
		if after, ok := strings.CutPrefix(line, "    "); ok && (len(lines) > 0 || strings.HasPrefix(after, "$ ")) {
			lines = append(lines, strings.TrimSuffix(after, "\n"))
		} else if len(lines) > 0 {
			break
		}
	}
	t.Chdir("../..")
	commands := 0
	for len(lines) > 0 {
		command, ok := strings.CutPrefix(lines[0], "$ go run ./cmd/castweek ")
		if !ok {
			t.Fatalf("%q is no command", lines[0])
		}
		shown := lines[1:]
		if next := slices.IndexFunc(shown, func(l string) bool { return strings.HasPrefix(l, "$ ") }); next >= 0 {
			shown = shown[:next]
		}
		lines = lines[1+len(shown):]
		var args []string
		for _, a := range regexp.MustCompile(`"[^"]*"|\S+`).FindAllString(command, -1) {
			args = append(args, strings.Trim(a, `"`))
		}
		if args[0] == "plan" {
			args = append(args, "--dry-run")
			shown = shown[:len(shown)-1] // where the sheets are, which are not written here
		}
		var out, talk bytes.Buffer
		s := &streams{in: strings.NewReader(""), out: &out, err: &talk, now: time.Now}
		if code := run(args, s); code != exitDone {
			t.Errorf("%s: exit %d\n%s", command, code, talk.String())
		}
		want := strings.ReplaceAll(regexp.QuoteMeta(strings.Join(shown, "\n")), "…", "(?s:.*)")
		if !regexp.MustCompile("^" + want).MatchString(out.String()) {
			t.Errorf("%s: the README shows\n%s\nthe terminal\n%s", command, strings.Join(shown, "\n"), out.String())
		}
		commands++
	}
	if commands < 3 {
		t.Errorf("%d commands in the session", commands)
	}
}
