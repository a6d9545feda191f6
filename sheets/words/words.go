// Package words holds every word that the sheets print of their own, in one
// catalogue file a language, and the forms in which figures and dates stand on
// paper. Words of the jobs themselves are not translated.
//
// Use first: [Load] with a language tag, then [Words.Say] and [Words.With].
package words

import (
	"embed"
	"fmt"
	"maps"
	"sort"
	"strings"

	"castweek/metal/problem"
)

//go:embed *.txt
var files embed.FS

// Words is a catalogue in one language. It is not changed after it is read.
type Words struct {
	Lang  string // language tag, "en"
	say   map[string]string
	order []string // of the keys in the file
}

// Languages lists the tags of the catalogues that every build holds.
func Languages() []string {
	entries, _ := files.ReadDir(".")
	var out []string
	for _, e := range entries {
		out = append(out, strings.TrimSuffix(e.Name(), ".txt"))
	}
	return out
}

// Load reads a catalogue of the build by its language tag.
func Load(lang string) (*Words, error) {
	file := lang + ".txt"
	data, err := files.ReadFile(file)
	if err != nil {
		return nil, fmt.Errorf("no words in the language %q; there are %s", lang, strings.Join(Languages(), ", "))
	}
	if lang != "en" {
		w, problems := Read(file, data)
		if w == nil {
			return nil, problems[0]
		}
		return w, nil
	}
	// the one that all others are held against
	r := &reader{file: file, words: &Words{Lang: lang, say: map[string]string{}}, at: map[string]problem.Place{}}
	r.lines(string(data))
	if len(r.problems) > 0 {
		return nil, r.problems[0]
	}
	r.words.order = r.order
	return r.words, nil
}

// English is the catalogue that every build holds.
func English() *Words {
	w, err := Load("en")
	if err != nil {
		panic(err) // a build without its own words; a test loads it
	}
	return w
}

// EnglishFile is the file of the English words, with its remarks.
func EnglishFile() []byte {
	data, _ := files.ReadFile("en.txt")
	return data
}

// Of are words that were kept with a cast; without any they are English. A key
// that they lack, because the build has grown since, is said in English.
func Of(lang string, kept map[string]string) *Words {
	w := English()
	if len(kept) == 0 {
		return w
	}
	w.Lang = lang
	maps.Copy(w.say, kept)
	return w
}

// Kept is what [Of] takes.
func (w *Words) Kept() map[string]string { return maps.Clone(w.say) }

// Say gives the words of a key. A key that the catalogue lacks shows itself in
// brackets; a test holds that none is used.
func (w *Words) Say(key string) string {
	if s, ok := w.say[key]; ok {
		return s
	}
	return "[" + key + "]"
}

// With gives the words of a key with its places filled: pairs of a name and
// what stands for it.
func (w *Words) With(key string, pairs ...string) string {
	for i := 0; i+1 < len(pairs); i += 2 {
		pairs[i] = "{" + pairs[i] + "}"
	}
	return strings.NewReplacer(pairs...).Replace(w.Say(key))
}

// Keys lists the keys of the catalogue.
func (w *Words) Keys() []string {
	out := make([]string, 0, len(w.say))
	for k := range w.say {
		out = append(out, k)
	}
	sort.Strings(out)
	return out
}
