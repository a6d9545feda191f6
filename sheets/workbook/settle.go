package workbook

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
)

// The library writes the value of a formula as a text, and a word as the
// number of a shared string: a reader without a calculator would show "239"
// for "OK". So the values are put in after it, in the finished file, numbers
// as numbers and words as words.

// literal stands for the underscore of a text that the format would take for
// one of its escapes ("_x0041_" reads as "A"), until settled escapes it. It is
// of the private use area, and becomes a box when a person's text holds it.
const literal = '\uE0FF'

var escapeLike = regexp.MustCompile(`_(x[0-9A-Fa-f]{4}_)`)

func guarded(s string) string { return escapeLike.ReplaceAllString(s, string(literal)+"$1") }

// settle keeps the value of a formula until the file is written.
func (b *book) settle(sheet, cell string, v any) {
	if b.values[sheet] == nil {
		b.values[sheet] = map[string]any{}
	}
	b.values[sheet][cell] = v
}

var formulaCell = regexp.MustCompile(`<c r="([A-Z]+[0-9]+)"([^>]*?) t="str"><f>([^<]*)</f>(?:<v>[^<]*</v>)?</c>`)

// settled rewrites the file with the values of its formulas. It fails rather
// than leave one out.
func (b *book) settled(data []byte) ([]byte, error) {
	in, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, err
	}
	sheetOf := map[string]string{}
	for i, name := range b.sheets {
		sheetOf[fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1)] = name
	}
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for _, part := range in.File {
		text, err := read(part)
		if err != nil {
			return nil, err
		}
		name, sheet := sheetOf[part.Name]
		if sheet || part.Name == "xl/workbook.xml" {
			text = b.renamed(text)
		}
		if sheet {
			if text, err = b.withValues(name, text); err != nil {
				return nil, err
			}
		}
		if part.Name == "xl/sharedStrings.xml" {
			text = bytes.ReplaceAll(text, []byte(string(literal)), []byte("_x005F_"))
		}
		// no time stamp: the same cast gives the same bytes
		to, err := w.CreateHeader(&zip.FileHeader{Name: part.Name, Method: zip.Deflate})
		if err != nil {
			return nil, err
		}
		if _, err := to.Write(text); err != nil {
			return nil, err
		}
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

func read(part *zip.File) ([]byte, error) {
	r, err := part.Open()
	if err != nil {
		return nil, err
	}
	defer r.Close()
	return io.ReadAll(r)
}

func (b *book) withValues(sheet string, text []byte) ([]byte, error) {
	put := 0
	out := formulaCell.ReplaceAllFunc(text, func(cell []byte) []byte {
		m := formulaCell.FindSubmatch(cell)
		switch v := b.values[sheet][string(m[1])].(type) {
		case float64:
			put++
			return fmt.Appendf(nil, `<c r="%s"%s><f>%s</f><v>%s</v></c>`, m[1], m[2], m[3], strconv.FormatFloat(v, 'g', -1, 64))
		case string:
			put++
			var word strings.Builder
			_ = xml.EscapeText(&word, []byte(v)) // writes to memory
			return fmt.Appendf(nil, `<c r="%s"%s t="str"><f>%s</f><v>%s</v></c>`, m[1], m[2], m[3], word.String())
		}
		return cell
	})
	if put != len(b.values[sheet]) {
		return nil, fmt.Errorf("sheet %s has %d formulas, of which %d got their value", sheet, len(b.values[sheet]), put)
	}
	return out, nil
}
