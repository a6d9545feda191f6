package workbook

import (
	"fmt"
	"regexp"
	"strings"

	"github.com/xuri/excelize/v2"
)

// A column of a sheet. Its header carries the unit, its cells never do.
type column struct {
	key      string // its header is in the catalogue, under "book.SHEET.KEY"
	head, of string // another key for it, and what stands for its {of}
	width    float64
	format   format
	formula  string // over the cells of its own row, named {key}
	input    *limit // a cell for a person to type into
	aside    bool   // to the right of the print area: what formulas stand on
}

// A limit is what an input cell takes.
type limit struct {
	name       string // defined name of the input cells
	whole      bool
	least, top float64
	title      word
	says       string // the catalogue's key of what to type; its name when empty
	list       *table // offers the first column of that table, and takes other texts too
}

// A row holds values by column key; a column without one gets a dash.
type row map[string]any

// A table is one sheet: one rectangle under one header row.
type table struct {
	name    string
	stays   bool // the first column stays in sight when the sheet is scrolled
	columns []column
	rows    []row
}

// letters of the column with the key, "A" for the first.
func (t *table) letters(key string) string {
	for i := range t.columns {
		if t.columns[i].key == key {
			name, _ := excelize.ColumnNumberToName(i + 1)
			return name
		}
	}
	panic("workbook: sheet " + t.name + " has no column " + key)
}

// span is the cells of a column as a reference from another sheet. A table
// without rows gives its empty row below the header.
func (t *table) span(key string) string {
	l := t.letters(key)
	return fmt.Sprintf("%s!$%s$2:$%s$%d", t.name, l, l, max(len(t.rows)+1, 2))
}

// at is one cell as a reference from another sheet; i counts rows from 0.
func (t *table) at(key string, i int) string {
	return fmt.Sprintf("%s!$%s$%d", t.name, t.letters(key), i+2)
}

var placeholder = regexp.MustCompile(`\{(\w+)\}`)

var wordInFormula = regexp.MustCompile(`\[\[(\w+)\]\]`)

// filled puts the cells of row i, and the catalogue's words for [[key]], into a
// formula.
func (b *book) filled(t *table, formula string, i int) string {
	formula = wordInFormula.ReplaceAllStringFunc(formula, func(k string) string {
		return `"` + strings.ReplaceAll(b.say(word(strings.Trim(k, "[]"))), `"`, `""`) + `"`
	})
	return placeholder.ReplaceAllStringFunc(formula, func(p string) string {
		return fmt.Sprintf("%s%d", t.letters(strings.Trim(p, "{}")), i+2)
	})
}

// put writes the table as a sheet of its own.
func (b *book) put(t *table) error {
	if err := b.add(t.name); err != nil {
		return err
	}
	lines := 1
	for i := range t.columns {
		lines = max(lines, linesIn(b.header(t, i), t.columns[i].width))
		if err := b.head(t, i); err != nil {
			return err
		}
	}
	if err := b.file.SetRowHeight(t.name, 1, height(lines)+2); err != nil {
		return err
	}
	for r := range t.rows {
		if err := b.file.SetRowHeight(t.name, r+2, height(b.linesOf(t, r))); err != nil {
			return err
		}
		for i := range t.columns {
			if err := b.cell(t, r, i); err != nil {
				return fmt.Errorf("%s row %d, %s: %w", t.name, r+2, t.columns[i].key, err)
			}
		}
	}
	if err := b.inputs(t); err != nil {
		return err
	}
	return b.layout(t)
}

// add makes the next sheet; the first one takes the place of the sheet that a
// new file of the library holds.
func (b *book) add(name string) error {
	b.sheets = append(b.sheets, name)
	if len(b.sheets) == 1 {
		return b.file.SetSheetName("Sheet1", name)
	}
	_, err := b.file.NewSheet(name)
	return err
}

// header is the words above a column, with its unit.
func (b *book) header(t *table, i int) string {
	c := &t.columns[i]
	key := c.key
	if c.head != "" {
		key = c.head
	}
	return b.words.With("book."+strings.ToLower(t.name)+"."+key, "of", c.of)
}

func (b *book) head(t *table, i int) error {
	c := t.columns[i]
	letters := t.letters(c.key)
	if err := b.file.SetColWidth(t.name, letters, letters, c.width); err != nil {
		return err
	}
	id, err := b.style(styleKey{format: c.format, input: c.input != nil, head: true})
	if err != nil {
		return err
	}
	if err := b.file.SetCellStr(t.name, letters+"1", b.header(t, i)); err != nil {
		return err
	}
	return b.file.SetCellStyle(t.name, letters+"1", letters+"1", id)
}

// cell writes one cell. The value of a formula is kept for [book.settled].
func (b *book) cell(t *table, r, i int) error {
	c := t.columns[i]
	ref := fmt.Sprintf("%s%d", t.letters(c.key), r+2)
	id, err := b.style(styleKey{format: c.format, input: c.input != nil})
	if err != nil {
		return err
	}
	if err := b.file.SetCellStyle(t.name, ref, ref, id); err != nil {
		return err
	}
	if c.input != nil {
		return nil
	}
	v := t.rows[r][c.key]
	formula := c.formula
	if f, ok := v.(live); ok {
		v, formula = f.value, f.formula
	}
	content := b.content(t.name+", "+b.header(t, i), v)
	if formula != "" {
		b.settle(t.name, ref, content)
		return b.file.SetCellFormula(t.name, ref, b.filled(t, formula, r))
	}
	switch x := content.(type) {
	case string:
		return b.file.SetCellStr(t.name, ref, guarded(x))
	case float64:
		return b.file.SetCellFloat(t.name, ref, x, -1, 64)
	}
	return nil
}

// live is a value with the formula that keeps it up to date.
type live struct {
	value   any
	formula string
}
