//go:build unix

package main

import (
	"os"
	"path/filepath"
	"testing"
)

// A workbook that can not be looked into may hold what a person typed.
func TestAWorkbookThatCanNotBeReadIsKept(t *testing.T) {
	dir := t.TempDir()
	if name, beside := freeWorkbook(dir); name != workbookFile || beside != "" {
		t.Errorf("in an empty folder %s beside %q", name, beside)
	}
	if err := os.Symlink(workbookFile, filepath.Join(dir, workbookFile)); err != nil { // leads to itself: reading it fails
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "week-2.xlsx"), []byte("no workbook"), 0o600); err != nil {
		t.Fatal(err)
	}
	if name, beside := freeWorkbook(dir); name != "week-3.xlsx" || beside != "week-2.xlsx" {
		t.Errorf("%s beside %q", name, beside)
	}
}
