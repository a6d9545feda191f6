// Package reading lets tests read a printed sheet with programs that are not
// ours. A test is skipped where such a program is missing, and fails there
// when the environment says CASTWEEK_READERS=required.
package reading

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// program finds an outside reader.
func program(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		if os.Getenv("CASTWEEK_READERS") == "required" {
			t.Fatalf("%s is required and not installed", name)
		}
		t.Skipf("%s is not installed", name)
	}
	return path
}

func run(t *testing.T, name string, data []byte, args ...string) string {
	t.Helper()
	path := program(t, name)
	file := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(file, data, 0o600); err != nil {
		t.Fatal(err)
	}
	for i := range args {
		args[i] = strings.ReplaceAll(args[i], "FILE", file)
	}
	var out, fault bytes.Buffer
	cmd := exec.Command(path, args...)
	cmd.Stdout, cmd.Stderr = &out, &fault
	if err := cmd.Run(); err != nil {
		t.Fatalf("%s: %v\n%s%s", name, err, out.String(), fault.String())
	}
	return out.String()
}

// Pages gives the text of each page as pdftotext lays it out.
func Pages(t *testing.T, pdf []byte) []string {
	t.Helper()
	text := strings.ReplaceAll(run(t, "pdftotext", pdf, "-layout", "-enc", "UTF-8", "FILE", "-"), "\u00a0", " ")
	pages := strings.Split(text, "\f")
	return pages[:len(pages)-1]
}

// Drawn gives the text of each page in the order in which it was put on it.
func Drawn(t *testing.T, pdf []byte) []string {
	t.Helper()
	text := strings.ReplaceAll(run(t, "pdftotext", pdf, "-raw", "-enc", "UTF-8", "FILE", "-"), "\u00a0", " ")
	pages := strings.Split(text, "\f")
	return pages[:len(pages)-1]
}

// Sound lets qpdf check the file and pdffonts see that every face is embedded.
func Sound(t *testing.T, pdf []byte) {
	t.Helper()
	run(t, "qpdf", pdf, "--check", "FILE")
	rows := strings.Split(strings.TrimSpace(run(t, "pdffonts", pdf, "FILE")), "\n")[2:]
	if len(rows) == 0 {
		t.Error("no fonts in the file")
	}
	for _, row := range rows {
		if !strings.Contains(row, " yes ") || !strings.Contains(row, "TrueType") {
			t.Errorf("a font is not embedded: %s", row)
		}
	}
}

var (
	fontSpec = regexp.MustCompile(`<fontspec id="(\d+)" size="(-?\d+)"`)
	textSpec = regexp.MustCompile(`<text [^>]*font="(\d+)">(.*?)</text>`)
	tag      = regexp.MustCompile(`<[^>]+>`)
)

// Large gives, page by page, what is set in type of so many points and more, as
// pdftohtml reads it.
func Large(t *testing.T, pdf []byte, points int) [][]string {
	t.Helper()
	pages := strings.Split(run(t, "pdftohtml", pdf, "-xml", "-stdout", "-i", "-zoom", "1", "FILE"), "<page ")[1:]
	size := map[string]int{}
	var out [][]string
	for _, p := range pages {
		for _, m := range fontSpec.FindAllStringSubmatch(p, -1) {
			size[m[1]], _ = strconv.Atoi(m[2])
		}
		var words []string
		for _, m := range textSpec.FindAllStringSubmatch(p, -1) {
			if w := strings.TrimSpace(tag.ReplaceAllString(m[2], "")); size[m[1]] >= points && w != "" {
				words = append(words, w)
			}
		}
		out = append(out, words)
	}
	return out
}
