package main

import (
	"os"
	"path/filepath"
	"regexp"

	"castweek/cmd/castweek/save"
	"castweek/sheets/bag"
	"castweek/sheets/desk"
	"castweek/tree"
)

// pagesName is what --only calls the pages of the bags for screens, and the
// folder that they are written to.
const pagesName = "pages"

// writePages writes the page of each bag of a part of the cast. What they say
// is numbered as the paper is, whether that was printed or not. When all bags
// are printed, pages of earlier plans go: what they show is not in this cast.
func (w *written) writePages(part, c *tree.Cast, o desk.Options) error {
	dir := filepath.Join(w.dir, pagesName)
	files := map[string][]byte{}
	if len(o.Jobs) == 0 {
		files = earlierPages(dir)
	}
	if anyBag(part) {
		if _, _, err := wholeBags(c, o); err != nil {
			return err
		}
	}
	for i := range part.Bags {
		b := &part.Bags[i]
		data, err := bag.Page(c, b, bag.Options{Options: o})
		if err != nil {
			return err
		}
		files[bag.PageName(b)] = data
	}
	if len(files) == 0 {
		return nil
	}
	if anyBag(part) {
		w.names = append(w.names, pagesName+"/")
	}
	return save.Files(dir, files)
}

// pageForm is the form of the names that bag.PageName gives; other files that
// lie beside them are not ours.
var pageForm = regexp.MustCompile(`_(\d+|all|spares)\.html$`)

// earlierPages names the pages that are there, to be removed.
func earlierPages(dir string) map[string][]byte {
	files := map[string][]byte{}
	entries, _ := os.ReadDir(dir) // a folder that is missing holds none
	for _, e := range entries {
		if pageForm.MatchString(e.Name()) && e.Type().IsRegular() {
			files[e.Name()] = nil
		}
	}
	return files
}
