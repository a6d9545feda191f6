package main

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"html"
	"io"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"sort"
	"strings"
	"testing"
	"time"
	"unicode"

	catalogue "castweek/sheets/words"
	"castweek/tree"
	"castweek/tree/record"
)

// latin and pretend are the letters of an invented language: every label of
// the catalogue is written in letters that no job file of the sample uses, so
// that whatever stands on a sheet in Latin letters is no label.
const (
	latin   = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
	pretend = "абцдефгхийклмнопярстувшжызАБЦДЕФГХИЙКЛМНОПЯРСТУВШЖЫЗ"
)

var filledIn = regexp.MustCompile(`\{[a-z]+\}`)

// invented is the catalogue in that language; what the sheets fill in, and the
// signs of the spreadsheet's page numbers, stay.
func invented() []byte {
	letters := map[rune]rune{}
	for i, r := range []rune(latin) {
		letters[r] = []rune(pretend)[i]
	}
	var out []string
	for _, line := range strings.Split(string(catalogue.EnglishFile()), "\n") {
		key, text, ok := strings.Cut(line, "=")
		if !ok || strings.HasPrefix(line, "#") {
			continue
		}
		keep := filledIn.FindAllString(text, -1)
		text = strings.Map(func(r rune) rune {
			if to, ok := letters[r]; ok {
				return to
			}
			return r
		}, filledIn.ReplaceAllString(text, "\x00"))
		for _, k := range keep {
			text = strings.Replace(text, "\x00", k, 1)
		}
		out = append(out, key+"="+strings.NewReplacer("&П", "&P", "&Н", "&N").Replace(text))
	}
	return []byte(strings.Join(out, "\n"))
}

// gather collects every text of a value: what a sheet may print as it stands.
func gather(v reflect.Value, into map[string]bool) {
	switch v.Kind() {
	case reflect.String:
		if s := strings.Join(strings.Fields(v.String()), " "); s != "" {
			into[s] = true
		}
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			gather(v.Elem(), into)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				gather(v.Field(i), into)
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			gather(v.Index(i), into)
		}
	}
}

// A judge tells labels outside the catalogue from words of the cast.
type judge struct {
	longest []string
	all     map[string]bool
}

func newJudge(all map[string]bool) *judge {
	j := &judge{all: all}
	for s := range all {
		j.longest = append(j.longest, s)
	}
	sort.Slice(j.longest, func(a, b int) bool {
		if len(j.longest[a]) != len(j.longest[b]) {
			return len(j.longest[a]) > len(j.longest[b])
		}
		return j.longest[a] < j.longest[b]
	})
	return j
}

func isLatin(r rune) bool { return unicode.Is(unicode.Latin, r) }

// symbols are no words of a language: units of the SI, the sign between two
// sides, marks of stones and letters of flasks.
var symbols = regexp.MustCompile(`\b(?:min|mm|g|ct|x|h|[A-Z])\b|°C`)

// strange is what is left of a text in Latin letters when the words of the cast
// are taken out. A part of one that a line broke off is one of them too, and so
// is a sentence of the cast with the numbers of several stones put together.
func (j *judge) strange(text string) string {
	text = strings.Join(strings.Fields(strings.ReplaceAll(text, "\u00a0", " ")), " ")
	for _, part := range strings.FieldsFunc(text, func(r rune) bool { return unicode.Is(unicode.Cyrillic, r) }) {
		if j.partOfOne(part) {
			continue
		}
		for _, s := range j.longest {
			part = takenOut(part, s)
		}
		for _, left := range strings.Split(symbols.ReplaceAllString(part, "\x00"), "\x00") {
			if left = strings.Trim(left, edges); strings.IndexFunc(left, isLatin) >= 0 && !j.partOfOne(left) {
				return left
			}
		}
	}
	return ""
}

// edges are what stands around words.
const edges = " .,;:()-+*±0123456789"

// partOfOne tells whether a text is a piece of one text of the cast: the same
// letters in a row from its start or to its end or a good many of them, or a
// sentence most of whose words are those of one sentence there.
func (j *judge) partOfOne(text string) bool {
	const enough, sentence = 12, 5
	p := strings.ToLower(strings.Trim(text, edges))
	words := lettersOf(p)
	if p == "" {
		return true
	}
	for _, s := range j.longest {
		s = strings.ToLower(strings.Trim(s, edges))
		if strings.HasPrefix(s, p) || strings.HasSuffix(s, p) || len(p) >= enough && strings.Contains(s, p) {
			return true
		}
		if len(words) < sentence {
			continue
		}
		there, common := map[string]bool{}, 0
		for _, w := range lettersOf(s) {
			there[w] = true
		}
		for _, w := range words {
			if there[w] {
				common++
			}
		}
		if 4*common >= 3*len(words) {
			return true
		}
	}
	return false
}

// gatherSources adds what a bag says of its sources: the places, each once, and
// what they say.
func gatherSources(bags []tree.Bag, all map[string]bool) {
	add := func(source string) {
		for one := range strings.SplitSeq(source, "; ") {
			where, what, _ := strings.Cut(one, ": ")
			if where != "" {
				all[where] = true
			}
			if what != "" {
				all[what] = true
			}
		}
	}
	for _, b := range bags {
		for _, st := range b.Stones {
			for _, k := range st.Steps {
				add(k.Source)
			}
			for _, k := range st.Stops {
				add(k.Source)
			}
		}
	}
}

// lettersOf are the words of two letters and more, without numbers and marks.
func lettersOf(s string) []string {
	return slices.DeleteFunc(strings.FieldsFunc(s, func(r rune) bool { return !unicode.IsLetter(r) }), func(w string) bool { return len(w) < 2 })
}

// takenOut takes a text out where it stands as whole words.
func takenOut(text, s string) string {
	for from := 0; ; {
		i := strings.Index(text[from:], s)
		if i < 0 {
			return text
		}
		i += from
		before, after := []rune(text[:i]), []rune(text[i+len(s):])
		if len(before) > 0 && isLatin(before[len(before)-1]) && isLatin([]rune(s)[0]) || len(after) > 0 && isLatin(after[0]) && isLatin([]rune(s)[len([]rune(s))-1]) {
			from = i + len(s)
			continue
		}
		text = text[:i] + "\x00" + text[i+len(s):]
		from = i + 1
	}
}

// withoutCut drops the beginning of something known that a narrow column cut
// off with an ellipsis.
func withoutCut(text string, known map[string]bool) string {
	head, rest, cut := strings.Cut(text, " …")
	if !cut {
		return text
	}
	for k := range known {
		if strings.HasPrefix(k, head) {
			return rest
		}
	}
	return text
}

// TestAnotherLanguage prints every sheet, the workbook and the pages for
// screens in an invented language, and finds no label that is not in the
// catalogue.
func TestAnotherLanguage(t *testing.T) {
	folder := t.TempDir()
	if err := os.CopyFS(folder, os.DirFS(saltmarsh)); err != nil {
		t.Fatal(err)
	}
	shop := filepath.Join(folder, "workshop.yaml")
	plain, err := os.ReadFile(shop)
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Contains(plain, []byte("\npaper:")) {
		t.Fatal("the sample has its own paper; put the words there")
	}
	for file, data := range map[string][]byte{shop: append(plain, "\npaper: {words: xx.txt, short_bags: yes}\n"...), filepath.Join(folder, "xx.txt"): invented()} {
		if err := os.WriteFile(file, data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	var out, talk bytes.Buffer
	s := &streams{strings.NewReader(""), &out, &talk, time.Now, false}
	if code := run([]string{"plan", folder}, s); code != exitDone {
		t.Fatalf("exit %d\n%s", code, talk.String())
	}
	if strings.Contains(talk.String(), "does not fit the paper") || strings.Contains(talk.String(), "sign-not-in-fonts") {
		t.Error(talk.String())
	}
	_, plan, err := makePlan(s, folder, planFlags{})
	if err != nil {
		t.Fatal(err)
	}
	plan.Cast.House.Words = nil
	all := map[string]bool{}
	gather(reflect.ValueOf(plan.Cast), all)
	gatherSources(plan.Cast.Bags, all)
	j := newJudge(all)

	data, err := os.ReadFile(filepath.Join(folder, cacheDir, printsFile))
	if err != nil {
		t.Fatal(err)
	}
	var prints record.Prints
	if err := record.DecodePlain(data, &prints); err != nil {
		t.Fatal(err)
	}
	told := map[string]bool{}
	tell := func(where, text string) {
		for _, word := range strings.Split(text, "\t") {
			if strings.HasPrefix(word, "~") {
				continue // a drawing
			}
			if s := j.strange(withoutCut(word, all)); s != "" && !told[s] {
				told[s] = true
				t.Errorf("%s: %q in %q", where, s, word)
			}
		}
	}
	kinds := map[string]bool{}
	for _, p := range prints.List {
		kind, _, _ := strings.Cut(p.Key, " ")
		kinds[kind] = true
		for _, line := range p.Lines {
			tell(p.Key, line)
		}
	}
	if len(kinds) < 9 {
		t.Errorf("only these were printed: %v", kinds)
	}
	cells := 0
	for _, text := range bookTexts(t, filepath.Join(folder, sheetsDir, workbookFile)) {
		tell(workbookFile, text)
		cells++
	}
	if cells < 300 {
		t.Errorf("only %d texts in the workbook", cells)
	}
	pages, _ := filepath.Glob(filepath.Join(folder, sheetsDir, pagesName, "*.html"))
	for _, page := range pages {
		data, err := os.ReadFile(page)
		if err != nil {
			t.Fatal(err)
		}
		for _, text := range pageTexts(string(data)) {
			tell(filepath.Base(page), text)
		}
	}
	if len(pages) < 15 {
		t.Errorf("only %d pages for screens", len(pages))
	}
	for _, planted := range []string{"Weigh out", "castings", "Pour 3 of 8", "Metal brought in", "Built tree before investing, without its base", "Find and tear print 2"} {
		if j.strange(planted) == "" {
			t.Errorf("the judge is blind to %q", planted)
		}
	}
}

// bookTexts are all texts of a workbook: cells, names of sheets, heads and feet
// of its pages, and what its input cells say. Formulas are not texts.
func bookTexts(t *testing.T, file string) []string {
	t.Helper()
	z, err := zip.OpenReader(file)
	if err != nil {
		t.Fatal(err)
	}
	defer z.Close()
	var out []string
	for _, f := range z.File {
		if !strings.HasPrefix(f.Name, "xl/") || !strings.HasSuffix(f.Name, ".xml") {
			continue
		}
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		d := xml.NewDecoder(r)
		var in string
		for {
			token, err := d.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatal(f.Name, err)
			}
			switch k := token.(type) {
			case xml.StartElement:
				in = k.Name.Local
				for _, a := range k.Attr {
					if in == "sheet" && a.Name.Local == "name" || in == "dataValidation" && (strings.HasPrefix(a.Name.Local, "prompt") || strings.HasPrefix(a.Name.Local, "error") && a.Name.Local != "errorStyle") {
						out = append(out, a.Value)
					}
				}
			case xml.EndElement:
				in = ""
			case xml.CharData:
				if text := strings.TrimSpace(string(k)); text != "" && (in == "t" || strings.HasPrefix(in, "odd")) {
					out = append(out, pageCode.ReplaceAllString(text, " "))
				}
			}
		}
		r.Close()
	}
	return out
}

// pageCode are the signs by which a spreadsheet fills in heads and feet.
var pageCode = regexp.MustCompile(`&[LCRPNADTF]`)

var (
	styleBlock = regexp.MustCompile(`(?s)<style>.*?</style>`)
	spoken     = regexp.MustCompile(`(?:aria-label|title|alt)="([^"]*)"`)
	anyTag     = regexp.MustCompile(`<[^>]*>`)
)

// pageTexts are what a page shows and what a screen reader says.
func pageTexts(page string) []string {
	page = styleBlock.ReplaceAllString(page, "")
	var out []string
	for _, m := range spoken.FindAllStringSubmatch(page, -1) {
		out = append(out, html.UnescapeString(m[1]))
	}
	for _, text := range strings.Split(anyTag.ReplaceAllString(page, "\t"), "\t") {
		if text = strings.TrimSpace(html.UnescapeString(text)); text != "" {
			out = append(out, text)
		}
	}
	return out
}
