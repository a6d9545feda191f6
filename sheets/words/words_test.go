package words

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"castweek/metal/measure"
)

// key is the form of a key of the catalogue in the sources of the sheets.
var key = regexp.MustCompile("[\"`]([a-z]+(?:\\.[a-z0-9]+)+)[\"`]")

// literals are the keys that the sheets name, with the file of each.
func literals(t *testing.T) map[string]string {
	out := map[string]string{}
	err := filepath.WalkDir("..", func(path string, d os.DirEntry, err error) error {
		if err != nil || strings.HasSuffix(path, "_test.go") || !strings.HasSuffix(path, ".go") && !strings.HasSuffix(path, ".html") {
			return err
		}
		data, err := os.ReadFile(path)
		for _, m := range key.FindAllStringSubmatch(string(data), -1) {
			out[m[1]] = path
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// TestKeys: each key that a sheet names is in the catalogue.
func TestKeys(t *testing.T) {
	w := English()
	groups := map[string]bool{}
	for _, k := range w.Keys() {
		groups[strings.SplitN(k, ".", 2)[0]] = true
	}
	found := 0
	for k, path := range literals(t) {
		if !groups[strings.SplitN(k, ".", 2)[0]] {
			continue // the name of a file, not a key
		}
		found++
		if strings.HasPrefix(w.Say(k), "[") && !strings.HasSuffix(k, ".pdf") && !strings.HasSuffix(k, ".xlsx") && !strings.HasSuffix(k, ".html") {
			t.Errorf("%s names %q, which the catalogue lacks", path, k)
		}
	}
	if found < 100 {
		t.Errorf("only %d keys found: the search is blind", found)
	}
}

// TestUnused: the catalogue holds no word that nothing says. Some groups are
// put together by the sheets: days, months, and the workbook's.
func TestUnused(t *testing.T) {
	named := literals(t)
	var joined []string
	for k := range named {
		joined = append(joined, k)
	}
	for _, k := range English().Keys() {
		if named[k] != "" || strings.HasPrefix(k, "day.") || strings.HasPrefix(k, "month.") || strings.HasPrefix(k, "book.") {
			continue
		}
		used := false
		for _, g := range joined { // "pour.step" + a number
			used = used || strings.HasPrefix(k, g)
		}
		if !used && !single(t, k) {
			t.Errorf("nothing says %q", k)
		}
	}
}

// single finds keys without a dot, such as "none".
func single(t *testing.T, k string) bool {
	for _, dir := range []string{"../bag/*.go", "../bag/*.html", "../pour/*.go", "../pull/*.go", "../week/*.go", "../receipt/*.go", "../workbook/*.go", "../desk/*.go", "*.go"} {
		files, _ := filepath.Glob(dir)
		for _, f := range files {
			data, _ := os.ReadFile(f)
			if strings.Contains(string(data), `"`+k+`"`) || strings.Contains(string(data), `"`+k[:strings.LastIndex(k, ".")+1]+`"`) {
				return true
			}
		}
	}
	return false
}

// TestLanguages: every catalogue of the build is one that a house could bring.
func TestLanguages(t *testing.T) {
	for _, lang := range Languages() {
		if _, problems := Read(lang+".txt", file(t, lang)); len(problems) > 0 {
			t.Errorf("%s: %v", lang, problems)
		}
		if w, err := Load(lang); err != nil || w.Lang != lang {
			t.Errorf("%s: %v", lang, err)
		}
	}
	if _, err := Load("tlh"); err == nil {
		t.Error("a language that is not there was loaded")
	}
}

func file(t *testing.T, lang string) []byte {
	t.Helper()
	data, err := os.ReadFile(lang + ".txt")
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// TestRead: every mistake in a house's own file is named with its line and
// what to do about it.
func TestRead(t *testing.T) {
	en := string(file(t, "en"))
	line := 1 + strings.Count(en[:strings.Index(en, "sheet.page =")], "\n")
	week := 1 + strings.Count(en[:strings.Index(en, "book.sheet.week =")], "\n")
	for _, c := range []struct {
		name, file, was, is string
		codes               []string // with their lines
		remedy              string
	}{
		{"another name", "labels.txt", "", "", []string{"words-name 0"}, "nl.txt"},
		{"no text file", "nl.yaml", "", "", []string{"words-name 0"}, "nl.txt"},
		{"no sign", "nl.txt", "sheet.page = page {n} of {of}", "sheet.page page {n} of {of}", []string{fmt.Sprint("words-missing ", line-1), fmt.Sprint("words-form ", line)}, "sheet.page = page {n} of {of}"},
		{"no words", "nl.txt", "sheet.page = page {n} of {of}", "sheet.page =", []string{fmt.Sprint("words-empty ", line)}, "write its words"},
		{"a place less", "nl.txt", "page {n} of {of}", "blad {n}", []string{fmt.Sprint("words-places ", line)}, "{of}"},
		{"a place more", "nl.txt", "page {n} of {of}", "blad {n} van {of} {at}", []string{fmt.Sprint("words-places ", line)}, "{n}, {of}"},
		{"unknown", "nl.txt", "sheet.page =", "sheet.pages =", []string{fmt.Sprint("words-missing ", line-1), fmt.Sprint("words-unknown ", line)}, "write sheet.page"},
		{"double", "nl.txt", "sheet.page =", "sheet.page = blad {n} {of}\nsheet.page =", []string{fmt.Sprint("words-double ", line+1)}, "remove one"},
		{"missing", "nl.txt", "sheet.page = page {n} of {of}\n", "", []string{fmt.Sprint("words-missing ", line-1)}, "add a line"},
		{"not UTF-8", "nl.txt", "sheet.page = page", "sheet.page = \xff", []string{fmt.Sprint("words-missing ", line-1), fmt.Sprint("words-form ", line)}, "UTF-8"},
		{"a sheet that no workbook takes", "nl.txt", "book.sheet.week = Week", "book.sheet.week = Week / dag", []string{fmt.Sprint("words-sheet ", week)}, "31 signs"},
		{"two sheets of one name", "nl.txt", "book.sheet.trees = Trees", "book.sheet.trees = week", []string{fmt.Sprint("words-sheet ", week+1)}, "another name"},
		{"windows", "nl.txt", "\n", "\r\n", nil, ""},
		{"byte-order mark", "nl.txt", "# Every word", "\ufeff# Every word", nil, ""},
		{"another order", "nl.txt", "", "", nil, ""},
	} {
		text := strings.ReplaceAll(en, c.was, c.is)
		if c.was == "" {
			text = en
		}
		w, problems := Read(c.file, []byte(text))
		var codes []string
		remedies := ""
		for _, p := range problems {
			codes = append(codes, fmt.Sprint(p.Code, " ", p.Place.Line))
			remedies += p.Remedy + "\n"
		}
		if fmt.Sprint(codes) != fmt.Sprint(c.codes) || !strings.Contains(remedies, c.remedy) || (w == nil) != (len(c.codes) > 0) {
			t.Errorf("%s: %v\n%v", c.name, codes, problems)
		}
	}
	if w, problems := Read("nl.txt", nil); w != nil || len(problems) != len(English().Keys()) {
		t.Errorf("an empty file: %d problems", len(problems))
	}
}

// FuzzRead: whatever a file holds, it is read or refused with a line, and never
// gives a label without its places.
func FuzzRead(f *testing.F) {
	f.Add("sheet.page = blad {n} van {of}")
	f.Add("a=b=c\n=\n{}={x}\r\n")
	en := English()
	f.Fuzz(func(t *testing.T, text string) {
		w, problems := Read("nl.txt", []byte(text))
		if (w == nil) == (len(problems) == 0) {
			t.Fatal("neither words nor a problem")
		}
		for _, p := range problems {
			if p.Remedy == "" || len(text) <= largest && p.Place.Line == 0 {
				t.Errorf("%+v", p)
			}
		}
		if w == nil {
			return
		}
		for _, k := range en.Keys() {
			for _, p := range places.FindAllString(en.Say(k), -1) {
				if !strings.Contains(w.Say(k), p) {
					t.Errorf("%s lacks %s", k, p)
				}
			}
		}
	})
}

// TestFigures: forms of numbers. No comma or point between thousands and a
// space before each unit but the angle's: NIST SP 811, chapter 7. "0.5" and
// never ".5", "5" and never "5.0" for what is set: a list of error-prone
// notations of a medication-safety institute.
func TestFigures(t *testing.T) {
	point, comma := Figures{English(), false}, Figures{English(), true}
	for _, c := range []struct{ got, want string }{
		{point.Set(5, 2), "5"}, {point.Set(0.5, 2), "0.5"}, {comma.Set(2.25, 2), "2,25"}, {point.Fixed(12.4, 2), "12.40"},
		{point.Count(12500), "12\u202f500"}, {point.Count(1250), "1250"}, {point.Set(-3, 1), "\u22123"},
		{comma.MM(17.32), "17,32\u00a0mm"}, {point.Grams(12400, 10), "12.40"}, {comma.Grams(12405, 1), "12,405"},
		{point.Carat(0.84, 0.9), "0.84 to 0.90"}, {point.Carat(0.03, 0.03), "0.030"},
		{point.Moment(time.Date(2026, 11, 25, 14, 30, 0, 0, time.UTC)), "Wed 25\u00a0Nov\u00a02026 14:30"},
	} {
		if c.got != c.want {
			t.Errorf("%q, not %q", c.got, c.want)
		}
	}
	for step, n := range map[measure.Milligram]int{1: 3, 10: 2, 100: 1, 1000: 0, 5: 3, 50: 2} {
		if Decimals(step) != n {
			t.Errorf("a scale of %d mg shows %d decimals", step, Decimals(step))
		}
	}
}

// TestTextComma: the comma comes only where a unit says that it is a measure.
func TestTextComma(t *testing.T) {
	f := Figures{English(), true}
	for in, want := range map[string]string{
		"cut 2.5 mm deep":              "cut 2,5 mm deep",
		"6.45 to 6.55 mm: it fits":     "6,45 to 6,55 mm: it fits",
		"6.5 x 4.25 mm":                "6,5 x 4,25 mm",
		"alloy 999.9 gold at 9.30":     "alloy 999.9 gold at 9.30",
		"K-2.5 and 1.5 ct, 0.3\u00a0g": "K-2.5 and 1,5 ct, 0,3\u00a0g",
		"over 0.1 mm², 2.5 cm³":        "over 0,1 mm², 2,5 cm³",
		"version 1.2 made":             "version 1.2 made",
	} {
		if got := f.Text(in); got != want {
			t.Errorf("%q became %q, not %q", in, got, want)
		}
	}
}
