package main

import (
	"errors"
	"io/fs"
	"slices"
	"strings"

	catalogue "castweek/sheets/words"

	"github.com/spf13/cobra"
)

// readWords reads the labels that the house prints in. A file with a mistake
// stops every plan: a sheet in two languages is no sheet.
func (o *opened) readWords(fsys fs.FS) {
	w := o.folder.Workshop
	if w == nil || w.Paper.Words == "en" {
		return
	}
	name, at := w.Paper.Words, w.Paper.WordsAt
	if !strings.Contains(name, ".") {
		if !slices.Contains(catalogue.Languages(), name) {
			o.refuse(at, "words-missing", "write the name of a file of labels in the folder, such as "+name+".txt, or one of: "+strings.Join(catalogue.Languages(), ", "),
				"no labels in the language %q are held here", name)
			return
		}
		o.words, _ = catalogue.Load(name)
		return
	}
	data, err := fs.ReadFile(fsys, name)
	switch {
	case errors.Is(err, fs.ErrNotExist), errors.Is(err, fs.ErrInvalid):
		o.refuse(at, "words-missing", "put it into the folder; castweek words writes one to begin with", "there is no file %s of labels", name)
		return
	case err != nil:
		o.refuse(at, "words-missing", "check that it is a file, and the right to read it", "the file %s of labels can not be read", name)
		return
	}
	read, problems := catalogue.Read(name, data)
	if read == nil {
		o.folder.Refused = true
		o.problems = append(o.problems, problems...)
		return
	}
	o.words = read
}

func wordsCmd(s *streams) *cobra.Command {
	return &cobra.Command{
		Use:   "words",
		Short: "the labels of all sheets in English, as a file to translate",
		Long: `The labels of all sheets in English, one a line: key = words. Translate what is
right of the sign, keep what stands in {}, put the file into the job folder
under the tag of its language, and name it in workshop.yaml: paper: {words: nl.txt}.`,
		Example: "  castweek words > samples/saltmarsh/nl.txt",
		Args:    cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			_, err := s.out.Write(catalogue.EnglishFile())
			return err
		},
	}
}
