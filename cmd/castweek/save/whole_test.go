package save

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
)

func names(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}

func TestFilesReplaceAndLeaveNothingBehind(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "sheets")
	for _, text := range []string{"one", "two"} {
		if err := Files(dir, map[string][]byte{"a.pdf": []byte(text), "b.pdf": []byte(text)}); err != nil {
			t.Fatal(err)
		}
		if got, _ := os.ReadFile(filepath.Join(dir, "a.pdf")); string(got) != text {
			t.Errorf("a.pdf holds %q", got)
		}
	}
	if got := names(t, dir); len(got) != 2 {
		t.Errorf("the folder holds %v", got)
	}
}

// A name that can not be replaced (here: a folder of that name, as an open file
// is elsewhere) keeps what it was and does not stop the others.
func TestWhatCanNotBeReplacedIsKept(t *testing.T) {
	dir := t.TempDir()
	if err := os.MkdirAll(filepath.Join(dir, "a.pdf", "inner"), 0o755); err != nil {
		t.Fatal(err)
	}
	err := Files(dir, map[string][]byte{"a.pdf": []byte("x"), "b.pdf": []byte("x")})
	var kept *Kept
	if !errors.As(err, &kept) || len(kept.Files) != 1 {
		t.Fatalf("got %v", err)
	}
	if got := names(t, dir); len(got) != 2 || got[0] != "a.pdf" || got[1] != "b.pdf" {
		t.Errorf("the folder holds %v", got)
	}
}

func TestNamesStayBelowTheFolder(t *testing.T) {
	dir := t.TempDir()
	if err := Files(filepath.Join(dir, "in"), map[string][]byte{"../out": nil}); err == nil {
		t.Error("a name outside was taken")
	}
	if _, err := os.Stat(filepath.Join(dir, "out")); err == nil {
		t.Error("a file was written outside")
	}
}

func TestNewNeverReplaces(t *testing.T) {
	path := filepath.Join(t.TempDir(), "casts", "2026-W49.yaml")
	if err := New(path, []byte("first")); err != nil {
		t.Fatal(err)
	}
	if err := New(path, []byte("second")); !errors.Is(err, os.ErrExist) {
		t.Errorf("got %v", err)
	}
	if got, _ := os.ReadFile(path); string(got) != "first" {
		t.Errorf("it holds %q", got)
	}
	if got := names(t, filepath.Dir(path)); len(got) != 1 {
		t.Errorf("the folder holds %v", got)
	}
}
