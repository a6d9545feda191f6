package words

import (
	"path"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"castweek/jobs/source"
	"castweek/metal/problem"
)

// largest is the size of a catalogue in bytes that is still read; the English
// one has some forty thousand.
const largest = 1 << 20

// tag is the form of a language tag of BCP 47 that a file may be named by.
var tag = regexp.MustCompile(`^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$`)

// places are the parts of a text that the sheet fills in.
var places = regexp.MustCompile(`\{[a-z]+\}`)

// A reader takes a catalogue line by line.
type reader struct {
	file     string
	words    *Words
	order    []string
	at       map[string]problem.Place
	problems problem.List
}

// Read reads a catalogue of a house, named by its language tag, such as
// "nl.txt". It has to hold every label of the English one with its places, and
// no other; each mistake is named with its line. Words are nil when there is
// one.
func Read(file string, data []byte) (*Words, problem.List) {
	r := &reader{file: file, words: &Words{say: map[string]string{}}, at: map[string]problem.Place{}}
	r.words.Lang = strings.TrimSuffix(path.Base(file), ".txt")
	whole := problem.Place{File: file}
	switch {
	case !strings.HasSuffix(file, ".txt") || !tag.MatchString(r.words.Lang):
		r.problems.Add(whole, "words-name", "name it by the tag of its language, such as nl.txt", "the file's name is not that of a language")
	case len(data) > largest:
		r.problems.Add(whole, "words-large", "keep the labels only", "the file is larger than 1 MiB")
		return nil, r.problems
	}
	r.lines(string(data))
	r.against(English())
	r.sheets()
	r.problems.Sort()
	if len(r.problems) > 0 {
		return nil, r.problems
	}
	return r.words, nil
}

// lines takes lines of "key = words".
func (r *reader) lines(text string) {
	text = strings.TrimPrefix(text, "\ufeff")
	for n, line := range strings.Split(text, "\n") {
		line = strings.TrimSuffix(line, "\r")
		at := problem.Place{File: r.file, Line: n + 1, Column: 1, Text: line}
		key, label, ok := strings.Cut(line, "=")
		key, label = strings.TrimSpace(key), strings.TrimSpace(label)
		_, double := r.at[key]
		switch {
		case !utf8.ValidString(line):
			r.problems.Add(at, "words-form", "save the file as UTF-8", "the line is not UTF-8")
		case strings.TrimSpace(line) == "" || strings.HasPrefix(strings.TrimSpace(line), "#"):
		case !ok || key == "":
			r.problems.Add(at, "words-form", "write key = words", "the line is not of the form key = words")
		case double:
			r.problems.Add(at, "words-double", "remove one of the two", "%s stands on line %d already", key, r.at[key].Line)
		default:
			if label == "" {
				r.problems.Add(at, "words-empty", "write its words", "%s has no words", key)
			}
			r.at[key] = at
			r.order = append(r.order, key)
			r.words.say[key] = label
		}
	}
}

// against holds the catalogue against another that has all labels.
func (r *reader) against(en *Words) {
	for _, key := range r.order {
		if _, known := en.say[key]; known {
			r.filled(key, en.say[key])
			continue
		}
		remedy := "remove the line"
		if near, ok := source.Nearest(key, en.Keys()); ok {
			remedy = "write " + near
		}
		r.problems.Add(r.at[key], "words-unknown", remedy, "no sheet says %s", key)
	}
	last := problem.Place{File: r.file, Line: 1}
	for _, key := range en.order {
		if at, there := r.at[key]; there {
			last = at
			last.Column = 0
			continue
		}
		r.problems.Add(last, "words-missing", "add a line for it, such as: "+key+" = "+en.say[key], "the label %s is missing; its place is after this line", key)
	}
}

// filled checks that a label has the places that the sheet fills in.
func (r *reader) filled(key, english string) {
	if r.words.say[key] == "" {
		return // said already
	}
	at := r.at[key]
	at.Column = 1 + utf8.RuneCountInString(at.Text[:strings.Index(at.Text, "=")+1])
	want, got := places.FindAllString(english, -1), places.FindAllString(r.words.say[key], -1)
	for _, p := range want {
		if !slices.Contains(got, p) {
			r.problems.Add(at, "words-places", "write "+p+" where the sheet is to put it", "%s lacks the place %s", key, p)
		}
	}
	for _, p := range got {
		if !slices.Contains(want, p) {
			r.problems.Add(at, "words-places", "use only "+orNone(want), "%s has a place %s, which no sheet fills in", key, p)
		}
	}
}

// Names of the workbook's sheets, within what spreadsheets take.
const (
	sheetNames   = "book.sheet."
	longestSheet = 31
)

// sheets checks the names of the workbook's sheets, which also have to differ.
func (r *reader) sheets() {
	seen := map[string]string{}
	for _, key := range r.order {
		name := r.words.say[key]
		if !strings.HasPrefix(key, sheetNames) || name == "" {
			continue
		}
		folded := strings.ToLower(name)
		switch {
		case utf8.RuneCountInString(name) > longestSheet || strings.ContainsAny(name, `:\/?*[]`) || strings.Trim(name, "'") != name:
			r.problems.Add(r.at[key], "words-sheet", `write at most 31 signs, none of : \ / ? * [ ], and no ' at the ends`, "no sheet of a workbook can be called %q", name)
		case seen[folded] != "":
			r.problems.Add(r.at[key], "words-sheet", "give one of them another name", "%s and %s are called the same", seen[folded], key)
		}
		seen[folded] = key
	}
}

func orNone(list []string) string {
	if len(list) == 0 {
		return "words; this label has no places"
	}
	return strings.Join(list, ", ")
}
