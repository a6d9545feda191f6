//go:build unix

package jobs

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// What stands in a job folder and is no file: nothing of it may make the
// program wait, or lead it out of the folder without words.
func TestStrangeFiles(t *testing.T) {
	dir := t.TempDir()
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	in := func(name string) string { return filepath.Join(dir, "jobs", name) }
	must(os.Mkdir(filepath.Join(dir, "jobs"), 0o755))
	must(syscall.Mkfifo(in("K-1.yaml"), 0o644)) // waits for ever when it is opened
	must(os.Symlink("nowhere", in("K-2.yaml")))
	must(os.Symlink("/etc/hosts", in("K-3.yaml")))
	must(os.Symlink("K-4.yaml", in("K-4.yaml")))
	must(os.Symlink(".", in("K-5.yaml")))
	must(os.WriteFile(in("a\x1b[31mb\nc.yaml"), []byte("x: 1\n"), 0o644))
	root, err := os.OpenRoot(dir)
	must(err)
	defer root.Close()
	f, problems := ReadFolder(root.FS(), Options{})
	for file, want := range map[string]string{
		"jobs/K-1.yaml": "not an ordinary file", "jobs/K-2.yaml": "a link that leads nowhere", "jobs/K-3.yaml": "a link that leads out of the job folder",
		"jobs/K-4.yaml": "cannot be read", "jobs/K-5.yaml": "not an ordinary file",
	} {
		said := ""
		for _, p := range problems {
			if p.Place.File == file {
				said += p.Message
			}
		}
		if !strings.Contains(said, want) {
			t.Errorf("%s: said %q, want %q", file, said, want)
		}
	}
	for _, h := range f.Held {
		if strings.ContainsAny(h.Job, "\x1b\n") {
			t.Errorf("the name %q goes onto paper and terminal", h.Job)
		}
	}
}

// Wishes that can not be read are no missing ones: nothing is planned.
func TestWishesThatCanNotBeRead(t *testing.T) {
	dir := t.TempDir()
	if err := os.CopyFS(dir, sample(t, nil)); err != nil {
		t.Fatal(err)
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	if f, problems := ReadFolder(root.FS(), Options{}); f.Refused {
		t.Fatal(problems)
	}
	for _, to := range []string{"/etc/hosts", "nowhere"} {
		if err := os.Symlink(to, filepath.Join(dir, WishesFile)); err != nil {
			t.Fatal(err)
		}
		if f, problems := ReadFolder(root.FS(), Options{}); !f.Refused || len(problems.Errors()) != 1 || !strings.Contains(problems.Errors()[0].Message, "link that leads") {
			t.Errorf("refused %v: %v", f.Refused, problems)
		}
		if err := os.Remove(filepath.Join(dir, WishesFile)); err != nil {
			t.Fatal(err)
		}
	}
}
