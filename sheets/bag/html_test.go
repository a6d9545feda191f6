package bag

import (
	"html"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"castweek/sheets/desk"
	"castweek/sheets/words"
	"castweek/tree"
)

// pageText is the words of a page, without tags, as a reader hears them.
func pageText(page string) string {
	page = regexp.MustCompile(`(?s)<style>.*?</style>`).ReplaceAllString(page, "")
	page = regexp.MustCompile(`<[^>]*>`).ReplaceAllString(page, " ")
	return strings.Join(strings.Fields(strings.ReplaceAll(html.UnescapeString(page), "\u00a0", " ")), " ")
}

// TestPageSaysAll: every string of a bag stands on its page, whatever its
// script.
func TestPageSaysAll(t *testing.T) {
	for _, b := range []tree.Bag{full(), studs(), bare(), changed(), heavy(), crowd(), foreign()} {
		data, err := Page(castOf(b), &b, Options{})
		if err != nil {
			t.Fatal(err)
		}
		got := pageText(string(data))
		for _, want := range append(said(&b), b.Notes) {
			if w := strings.Join(strings.Fields(want), " "); !strings.Contains(got, w) {
				t.Errorf("%s: %q is not on the page", b.Job, want)
			}
		}
		for _, bad := range []string{"<script", "[page.", "[bag.", "[stone.", "http://", "https://"} {
			if strings.Contains(string(data), bad) {
				t.Errorf("%s: the page holds %q", b.Job, bad)
			}
		}
	}
}

// TestPageIsSafe: what a job says stays text.
func TestPageIsSafe(t *testing.T) {
	b := full()
	b.Notes, b.Design = `<script>alert(1)</script>`, `"><img src=x onerror=alert(1)>`
	data, err := Page(castOf(b), &b, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if strings.Contains(string(data), "<script") || strings.Contains(string(data), "<img") {
		t.Error("a job wrote its own mark-up")
	}
}

func TestPageName(t *testing.T) {
	spare := tree.Bag{Job: "K-204", Castings: []tree.BagCasting{{ID: "K-204/s1", Spare: true}}}
	all := studs()
	one := full()
	for want, b := range map[string]*tree.Bag{"K-204_spares.html": &spare, "K-215_all.html": &all, "K-207_2.html": &one} {
		if got := PageName(b); got != want {
			t.Errorf("%s, not %s", got, want)
		}
	}
}

// TestPageAccessible holds the pages against axe-core in a headless browser.
func TestPageAccessible(t *testing.T) {
	needed := func(what string) {
		if os.Getenv("CASTWEEK_READERS") == "required" {
			t.Fatal(what + " is required and not there")
		}
		t.Skip(what + " is not there")
	}
	refs := os.Getenv("CASTWEEK_REFS")
	if refs == "" {
		needed("CASTWEEK_REFS, the folder with axe-core and puppeteer-core,")
	}
	for _, program := range []string{"node", "chromium"} {
		if _, err := exec.LookPath(program); err != nil {
			needed(program)
		}
	}
	args := []string{"../../.ci/axe/check.js"}
	for _, b := range []tree.Bag{studs(), bare(), changed(), crowd(), foreign(), heavy()} {
		o := reprint(t, Single, "A")
		if _, _, err := Print(castOf(b), o); err != nil {
			t.Fatal(err)
		}
		data, err := Page(castOf(b), &b, o)
		if err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(t.TempDir(), PageName(&b))
		if err := os.WriteFile(file, data, 0o644); err != nil {
			t.Fatal(err)
		}
		args = append(args, file)
	}
	out, err := exec.Command("node", args...).CombinedOutput()
	if err != nil {
		t.Errorf("%v\n%s", err, out)
	}
	if !strings.Contains(string(out), "rules passed") {
		t.Errorf("the checker says: %s", out)
	}
}

// TestPageLanguage: the page says which language its words are in.
func TestPageLanguage(t *testing.T) {
	b := bare()
	data, err := Page(castOf(b), &b, Options{Options: desk.Options{Words: words.English()}})
	if err != nil || !strings.Contains(string(data), `<html lang="en">`) {
		t.Errorf("no language: %v", err)
	}
}
