package main

import (
	"os"
	"path/filepath"
	"regexp"

	"castweek/cmd/castweek/save"
	"castweek/sheets/bag"
	"castweek/tree"
)

// pagesName is what --only calls the pages of the bags for screens, and the
// folder that they are written to.
const pagesName = "pages"

// writePages writes the page of each bag. When all bags are printed, pages of
// earlier plans go: what they show is not in this cast.
func (w *written) writePages(c *tree.Cast, all bool) error {
	dir := filepath.Join(w.dir, pagesName)
	files := map[string][]byte{}
	if all {
		files = earlierPages(dir)
	}
	for i := range c.Bags {
		data, err := bag.Page(c, &c.Bags[i], bag.Options{})
		if err != nil {
			return err
		}
		files[bag.PageName(&c.Bags[i])] = data
	}
	if len(files) == 0 {
		return nil
	}
	if anyBag(c) {
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
