// Package words holds every word that the sheets print of their own, in one
// catalogue file a language, and the forms in which figures and dates stand on
// paper. Words of the jobs themselves are not translated.
//
// Use first: [Load] with a language tag, then [Words.Say] and [Words.With].
package words

import (
	"bufio"
	"bytes"
	"embed"
	"fmt"
	"maps"
	"sort"
	"strings"
)

//go:embed *.txt
var files embed.FS

// Words is a catalogue in one language. It is not changed after Load.
type Words struct {
	Lang string // language tag, "en"
	say  map[string]string
}

// Languages lists the tags of the catalogues that there are.
func Languages() []string {
	entries, _ := files.ReadDir(".")
	var out []string
	for _, e := range entries {
		out = append(out, strings.TrimSuffix(e.Name(), ".txt"))
	}
	return out
}

// Load reads the catalogue of a language.
func Load(lang string) (*Words, error) {
	data, err := files.ReadFile(lang + ".txt")
	if err != nil {
		return nil, fmt.Errorf("no words in the language %q; there are %s", lang, strings.Join(Languages(), ", "))
	}
	return read(lang, data)
}

// English is the catalogue that every build holds.
func English() *Words {
	w, err := Load("en")
	if err != nil {
		panic(err) // a build without its own words; a test loads it
	}
	return w
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

// read takes lines of "key = words"; a double key or a line of another form is
// an error.
func read(lang string, data []byte) (*Words, error) {
	w := &Words{Lang: lang, say: map[string]string{}}
	lines := bufio.NewScanner(bytes.NewReader(data))
	for n := 1; lines.Scan(); n++ {
		line := strings.TrimSpace(lines.Text())
		if line == "" || line[0] == '#' {
			continue
		}
		key, text, ok := strings.Cut(line, "=")
		key, text = strings.TrimSpace(key), strings.TrimSpace(text)
		if _, double := w.say[key]; double || !ok || key == "" || text == "" {
			return nil, fmt.Errorf("%s.txt:%d: not a line of the form key = words, or a key that was there before", lang, n)
		}
		w.say[key] = text
	}
	return w, lines.Err()
}

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
