package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

// crowd is the sample's week with its jobs repeated under other numbers, and
// flasks enough for all.
func crowd(tb testing.TB, jobs int) string {
	tb.Helper()
	const from = "../../samples/saltmarsh"
	dir := tb.TempDir()
	must := func(err error) {
		tb.Helper()
		if err != nil {
			tb.Fatal(err)
		}
	}
	must(os.CopyFS(filepath.Join(dir, "patterns"), os.DirFS(from+"/patterns")))
	shop, err := os.ReadFile(from + "/workshop.yaml")
	must(err)
	shop = regexp.MustCompile(`count: \d+`).ReplaceAll(shop, []byte("count: 200"))
	must(os.WriteFile(filepath.Join(dir, "workshop.yaml"), shop, 0o600))
	must(os.Mkdir(filepath.Join(dir, "jobs"), 0o755))
	files, err := filepath.Glob(from + "/jobs/*.yaml")
	must(err)
	for i := range jobs {
		text, err := os.ReadFile(files[i%len(files)])
		must(err)
		old := strings.TrimSuffix(filepath.Base(files[i%len(files)]), ".yaml")
		number := fmt.Sprintf("J-%d", 1000+i)
		must(os.WriteFile(filepath.Join(dir, "jobs", number+".yaml"), bytes.Replace(text, []byte("number: "+old), []byte("number: "+number), 1), 0o600))
	}
	return dir
}

// Two hundred jobs with meshes, read, planned and printed; patterns measured in
// an earlier run are known, as from the second run of a week on.
func BenchmarkPlanAndPrint200(b *testing.B) {
	dir := crowd(b, 200)
	plan := func() {
		var out, talk bytes.Buffer
		s := &streams{in: strings.NewReader(""), out: &out, err: &talk, now: time.Now}
		if code := run([]string{"plan", dir}, s); code != exitDone && code != exitIncomplete {
			b.Fatalf("exit %d\n%s", code, talk.String())
		}
	}
	plan()
	b.ReportAllocs()
	for b.Loop() {
		plan()
	}
}
