package bag

import (
	"fmt"
	"strings"
	"testing"

	"castweek/sheets/desk"
	"castweek/tree"
	"castweek/tree/record"
)

// pagesOf are the pages of the bags of a cast, as a reader sees them.
func pagesOf(t *testing.T, c *tree.Cast, o desk.Options) []string {
	t.Helper()
	data, _, err := Print(c, Options{Form: Single, Options: o})
	if err != nil {
		t.Fatal(err)
	}
	return strings.Split(strings.TrimSuffix(reader(t, "pdftotext", "-layout", save(t, data), "-"), "\f"), "\f")
}

// Whatever the length of a note: the lines for hands are alone on no leaf, and
// the hands have between one line and three.
func TestHandsAreNotAlone(t *testing.T) {
	for name, bag := range map[string]func() tree.Bag{"ordinary": ordinary, "full": full, "studs": studs} {
		for n := range 24 {
			b := bag()
			b.Notes = strings.Repeat("One line of a note that takes up the whole width of it.\n", n)
			for i, p := range pagesOf(t, castOf(b), desk.Options{}) {
				if strings.Contains(p, "Handed on to") && !strings.Contains(p, "weighed") && !strings.Contains(p, "cleaned up") {
					t.Errorf("%s, note of %d lines: the hands are alone on page %d\n%s", name, n, i+1, p)
				}
			}
		}
	}
}

// A later print keeps the arrangement of the first, so that a change does not
// turn sections around.
func TestPrintsKeepTheArrangement(t *testing.T) {
	for n := range 24 {
		b := ordinary()
		b.Notes = strings.Repeat("One line of a note that takes up the whole width of it.\n", n)
		prints := &record.Prints{}
		pagesOf(t, castOf(b), desk.Options{Prints: prints})
		b.Finish = "satin, all over"
		pagesOf(t, castOf(b), desk.Options{Prints: prints})
		last, _ := prints.Last(PrintKey(&b))
		if last.Number != 2 || last.AllNew || len(last.Changes) != 1 || len(last.Removed) > 1 {
			t.Errorf("note of %d lines: %s", n, fmt.Sprint(last.Number, last.AllNew, last.Changes, last.Removed))
		}
	}
}
