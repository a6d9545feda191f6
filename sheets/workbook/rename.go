package workbook

import (
	"bytes"
	"encoding/xml"
	"regexp"
	"strings"
)

// The sheets go by English names until the file is written; formulas, names of
// areas and drop lists refer to them. Then each gets its name of the catalogue.

var referring = regexp.MustCompile(`(?s)<(f|formula1|formula2|definedName)( [^>]*)?>[^<]*</`)

// titleOf is the name of a sheet in the language of the book.
func (b *book) titleOf(name string) string { return b.words.Say("book.sheet." + strings.ToLower(name)) }

// renamed gives the sheets their names in the text of one part of the file.
func (b *book) renamed(text []byte) []byte {
	for _, name := range b.sheets {
		title := b.titleOf(name)
		if strings.HasPrefix(title, "[") {
			panic("workbook: the catalogue has no name for the sheet " + name)
		}
		if title == name {
			continue
		}
		quoted := []byte("'" + inXML(strings.ReplaceAll(title, "'", "''")) + "'!")
		old := regexp.MustCompile(`(?:'|&#39;)` + name + `(?:'|&#39;)!|\b` + name + `!`)
		text = referring.ReplaceAllFunc(text, func(f []byte) []byte {
			return old.ReplaceAllLiteral(f, quoted)
		})
		text = bytes.ReplaceAll(text, []byte(`<sheet name="`+name+`"`), []byte(`<sheet name="`+inXML(title)+`"`))
	}
	return text
}

func inXML(s string) string {
	var out strings.Builder
	_ = xml.EscapeText(&out, []byte(s)) // writes to memory
	return out.String()
}
