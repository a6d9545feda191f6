package bag

import (
	"bytes"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"castweek/jobs/stone"
)

// TestVersions: a later print says which it is, which one to tear, and what
// changed; an all-new one has no bars.
func TestVersions(t *testing.T) {
	o := reprint(t, Single, "A")
	data, _, err := Print(castOf(changed()), o)
	if err != nil {
		t.Fatal(err)
	}
	got := strings.ReplaceAll(reader(t, "pdftotext", "-layout", save(t, data), "-"), "\u00a0", " ")
	for _, want := range []string{"Print 2, Tue 1", "replaces print 1", "print 2", "Find print 1", "was Thu 17 Dec 2026 16:00", "was 4", "+ added", "Removed: 2 x jump ring"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q", want)
		}
	}
	again, _, err := Print(castOf(changed()), o)
	if err != nil || !bytes.Equal(data, again) {
		t.Errorf("what has not changed is printed otherwise: %v", err)
	}
	other := castOf(heavy())
	other.Bags[0].Job = "K-208"
	if data, _, err = Print(other, o); err != nil {
		t.Fatal(err)
	}
	got = reader(t, "pdftotext", "-layout", save(t, data), "-")
	if !strings.Contains(got, "All new against print 2") || strings.Contains(got, "was 4") {
		t.Error("a print that is all new still marks changes")
	}
}

// TestTogether: pieces kept together have a box each, numbered among all.
func TestTogether(t *testing.T) {
	data, _, err := Print(castOf(studs()), Options{Form: Single})
	if err != nil {
		t.Fatal(err)
	}
	got := reader(t, "pdftotext", "-layout", save(t, data), "-")
	for i := 1; i <= 24; i++ {
		if !strings.Contains(got, fmt.Sprintf("casting %d of 24", i)) || !regexp.MustCompile(fmt.Sprintf(`K-215/%d\b`, i)).MatchString(got) {
			t.Errorf("casting %d has no box", i)
		}
	}
}

// TestOutlines: every cut has an outline of its own size and no point of it is
// beyond reason.
func TestOutlines(t *testing.T) {
	for _, cut := range append(stone.Cuts(), "no such cut") {
		w, h := extent(outline(string(cut), 6, 4))
		if w < 5 || w > 8 || h < 3 || h > 5.5 {
			t.Errorf("%s of 6 x 4 mm is drawn %.2f x %.2f mm", cut, w, h)
		}
	}
}

// TestSignal: the signal word of a caution is told from its text.
func TestSignal(t *testing.T) {
	for in, want := range map[string]string{
		"WARNING - Damp flask. Steam burns.": "signal.warning|Damp flask. Steam burns.",
		"NOTICE: Opal.":                      "signal.notice|Opal.",
		"The depth is assumed.":              "signal.notice|The depth is assumed.",
		"DANGER Molten metal.":               "signal.danger|Molten metal.",
	} {
		if key, _, rest := signal(in); key+"|"+rest != want {
			t.Errorf("%q: %s|%s", in, key, rest)
		}
	}
}

func TestDecimalComma(t *testing.T) {
	c := castOf(full())
	c.House.Decimal = "comma"
	data, _, err := Print(c, Options{Form: Single})
	if err != nil {
		t.Fatal(err)
	}
	got := reader(t, "pdftotext", "-layout", save(t, data), "-")
	for _, want := range []string{"17,32", "6,67", "0,98*"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %s", want)
		}
	}
	if m := regexp.MustCompile(`\d\.\d+ (mm|g|ct)\b`).FindString(strings.ReplaceAll(got, "\u00a0", " ")); m != "" {
		t.Errorf("%q has a point", m)
	}
}

func TestNoBags(t *testing.T) {
	if _, _, err := Print(castOf(), Options{}); err == nil {
		t.Fatal("a PDF without a page")
	}
}
