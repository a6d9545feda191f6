package jobs

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/rogpeppe/go-internal/txtar"
)

var update = flag.Bool("update", false, "write the messages of the gallery anew; look at the difference")

// TestGallery reads one small wrong folder a rule and compares its whole
// message. The files are scripts for the command line as well.
func TestGallery(t *testing.T) {
	files, err := filepath.Glob("testdata/gallery/*.txt")
	if err != nil || len(files) < 30 {
		t.Fatalf("%d folders, %v", len(files), err)
	}
	rules := map[string]bool{}
	for _, file := range files {
		rule := strings.TrimSuffix(filepath.Base(file), ".txt")
		archive, err := txtar.ParseFile(file)
		if err != nil {
			t.Fatal(err)
		}
		folder, expected := fstest.MapFS{}, -1
		for i, f := range archive.Files {
			if f.Name == "expected" {
				expected = i
			} else {
				folder[f.Name] = &fstest.MapFile{Data: f.Data}
			}
		}
		got := gallery(folder)
		if *update {
			if expected < 0 {
				expected = len(archive.Files)
				archive.Files = append(archive.Files, txtar.File{Name: "expected"})
			}
			archive.Files[expected].Data = []byte(got)
			if err := os.WriteFile(file, txtar.Format(archive), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		if expected < 0 || string(archive.Files[expected].Data) != got {
			t.Errorf("%s: got\n%s", file, got)
		}
		// The name of a folder is the code that it shows.
		if !strings.Contains(got, "["+rule+"]") {
			t.Errorf("%s does not show %s", file, rule)
		}
		rules[rule] = true
	}
}

// gallery is what a person reads of a folder.
func gallery(folder fstest.MapFS) string {
	_, problems := ReadFolder(folder, Options{})
	var b strings.Builder
	for _, p := range problems {
		b.WriteString(p.String())
	}
	return b.String()
}
