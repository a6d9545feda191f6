package jobs

import (
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/rogpeppe/go-internal/txtar"
)

// TestGallery reads one small wrong folder a rule, and looks for each problem,
// word for word, in what the command line is expected to answer. The files are
// scripts of the command line, whose test compares the whole answer and writes
// it anew where it has to.
func TestGallery(t *testing.T) {
	files, err := filepath.Glob("testdata/gallery/*.txt")
	if err != nil || len(files) < 30 {
		t.Fatalf("%d folders, %v", len(files), err)
	}
	for _, file := range files {
		rule := strings.TrimSuffix(filepath.Base(file), ".txt")
		archive, err := txtar.ParseFile(file)
		if err != nil {
			t.Fatal(err)
		}
		folder, expected := fstest.MapFS{}, ""
		for _, f := range archive.Files {
			if f.Name == "expected" {
				expected = string(f.Data)
			} else {
				folder[f.Name] = &fstest.MapFile{Data: f.Data}
			}
		}
		f, problems := ReadFolder(folder, Options{})
		shown := false
		for _, p := range problems {
			shown = shown || p.Code == rule
			if !strings.Contains(expected, p.String()) {
				t.Errorf("%s does not expect\n%v", file, p.String())
			}
		}
		// The name of a folder is the code that it shows, and it shows no more
		// than it expects.
		if n := strings.Count(expected, ": error: ") + strings.Count(expected, ": remark: "); !shown || n != len(problems) {
			t.Errorf("%s: shows %s: %v; %d problems, %d expected", file, rule, shown, len(problems), n)
		}
		if wrong := len(problems.Errors()) > 0; wrong != strings.Contains(string(archive.Comment), "! exec castweek check") {
			t.Errorf("%s: the script does not expect this exit: %v", file, wrong)
		}
		if len(problems.Errors()) > 0 && !f.Refused && len(f.Held) == 0 {
			t.Errorf("%s: an error that neither refuses nor holds", file)
		}
	}
}
