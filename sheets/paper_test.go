// Package sheets holds what is tested of all sheets alike.
package sheets

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"castweek/jobs"
	"castweek/metal/problem"
	"castweek/sheets/bag"
	"castweek/sheets/desk"
	"castweek/sheets/internal/reading"
	"castweek/sheets/pour"
	"castweek/sheets/pull"
	"castweek/sheets/receipt"
	"castweek/sheets/treemap"
	"castweek/sheets/week"
	"castweek/sheets/words"
	"castweek/tree"
)

// sample is the week of the invented workshop.
func sample(t *testing.T) *tree.Cast {
	t.Helper()
	fsys := os.DirFS("../samples/saltmarsh")
	f, problems := jobs.ReadFolder(fsys, jobs.Options{})
	if len(problems.Errors()) > 0 {
		t.Fatal(problems.Errors())
	}
	if err := jobs.ReadSkins(fsys, f.Jobs); err != nil {
		t.Fatal(err)
	}
	p, err := tree.Make(tree.Input{Folder: f, AsOf: f.Workshop.AsOf})
	if err != nil {
		t.Fatal(err)
	}
	return &p.Cast
}

// jobFiles is all that the job files say, on one line.
func jobFiles(t *testing.T) string {
	t.Helper()
	var all []string
	files, _ := filepath.Glob("../samples/saltmarsh/jobs/*.yaml")
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, strings.Fields(string(data))...)
	}
	return strings.Join(all, " ")
}

var (
	place    = regexp.MustCompile(`\{[a-z]+\}`)
	longWord = regexp.MustCompile(`[a-z]{4,}\b`)
)

// longerWords are the labels in a language whose words are a quarter longer
// than the English ones, as translators reckon with (common practice, no
// source).
func longerWords(t *testing.T) *words.Words {
	t.Helper()
	var out []string
	for _, line := range strings.Split(string(words.EnglishFile()), "\n") {
		key, text, ok := strings.Cut(line, "=")
		if !ok || strings.HasPrefix(line, "#") {
			continue
		}
		places := place.FindAllString(text, -1)
		text = longWord.ReplaceAllString(place.ReplaceAllString(text, "\x00"), "${0}en")
		for _, p := range places {
			text = strings.Replace(text, "\x00", p, 1)
		}
		out = append(out, key+"="+text)
	}
	w, problems := words.Read("xx.txt", []byte(strings.Join(out, "\n")))
	if w == nil {
		t.Fatal(problems)
	}
	return w
}

// printers are the sheets on paper.
var printers = map[string]func(*tree.Cast, desk.Options) ([]byte, problem.List, error){
	"week": week.Print, "tree maps": treemap.Print, "pour sheets": pour.Print, "flask labels": pour.Labels, "stone list": pull.Print, "parcel labels": pull.Labels,
	"bags": func(c *tree.Cast, o desk.Options) ([]byte, problem.List, error) {
		return bag.Print(c, bag.Options{Options: o})
	},
	"short bags": func(c *tree.Cast, o desk.Options) ([]byte, problem.List, error) {
		return bag.Print(c, bag.Options{Form: bag.Short, Options: o})
	},
	"receipts": receipt.PrintCast,
}

// sizes are those of the two series in points: ISO 216, and 8.5 by 11 inches
// with its half and its double, each upright or on its side.
var sizes = map[string][]string{
	"A":      {"420 x 595", "595 x 842", "842 x 595", "842 x 1191"},
	"letter": {"396 x 612", "612 x 792", "792 x 612", "792 x 1224"},
}

// point is a measure with the other decimal mark.
var point = regexp.MustCompile(`\d\.\d+[ \x{a0}](?:mm|g|ct|°C|%|‰)`)

// TestPaperOfEverySheet prints every sheet for houses with other paper, another
// decimal mark and another language, and lets outside programs look at the
// pages.
func TestPaperOfEverySheet(t *testing.T) {
	if reading.UnderRace {
		t.Skip("one goroutine, and slow under the race detector")
	}
	if testing.Short() {
		t.Skip("reads some hundred pages")
	}
	c, typed := sample(t), jobFiles(t) // what a job file says is printed as it was typed
	longer := longerWords(t)
	for _, house := range []struct {
		name, series, decimal string
		words                 *words.Words
	}{{"A4", "A", "point", nil}, {"Letter, comma, longer words", "letter", "comma", longer}} {
		for name, print := range printers {
			t.Run(house.name+", "+name, func(t *testing.T) {
				cast := *c
				cast.House.Series, cast.House.Decimal = house.series, house.decimal
				pdf, remarks, err := print(&cast, desk.Options{Words: house.words})
				if err != nil {
					t.Fatal(err)
				}
				for _, r := range remarks {
					t.Error(r)
				}
				reading.Sound(t, pdf)
				reading.Tidy(t, name, pdf)
				for _, size := range reading.Sizes(t, pdf) {
					if !slices.Contains(sizes[house.series], size) {
						t.Errorf("a page of %s", size)
					}
				}
				for _, measure := range point.FindAllString(strings.Join(reading.Pages(t, pdf), ""), -1) {
					if house.decimal == "comma" && !strings.Contains(typed, strings.ReplaceAll(measure, "\u00a0", " ")) {
						all := strings.Join(reading.Pages(t, pdf), "")
						i := strings.Index(all, measure)
						t.Errorf("a point in %q: %s", measure, all[max(0, i-80):i+40])
					}
				}
			})
		}
	}
}
