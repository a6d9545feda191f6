// Package workbook writes a planned cast as a spreadsheet for whoever keeps
// the books: one rectangle a sheet, one thing a cell, dates in ISO form, and a
// charge that follows what a person types into the marked cells.
//
// It adds up what it shows and computes nothing else; every formula is ours,
// none is made from a text of the workshop's. The same cast gives the same
// bytes.
package workbook

import (
	"fmt"
	"time"

	"github.com/xuri/excelize/v2"

	"castweek/metal/problem"
	"castweek/sheets/desk"
	"castweek/sheets/words"
	"castweek/tree"
)

// FileName is what the workbook is called in a folder of sheets.
const FileName = "week.xlsx"

// book is a workbook being written.
type book struct {
	file     *excelize.File
	cast     *tree.Cast
	words    *words.Words
	styles   map[styleKey]int
	sheets   []string                  // in order
	values   map[string]map[string]any // of formulas, by sheet and cell
	problems problem.List
}

// Write gives the bytes of week.xlsx. Remarks tell what could not be shown as
// it is (code text-cut, text-control, value-not-finite); an error means that
// there is no workbook.
func Write(c *tree.Cast) ([]byte, problem.List, error) { return WriteIn(c, desk.Options{}.WordsOf(c)) }

// WriteIn is Write in the language of the words.
func WriteIn(c *tree.Cast, w *words.Words) (data []byte, remarks problem.List, err error) {
	defer func() {
		if r := recover(); r != nil {
			data, err = nil, fmt.Errorf("the workbook could not be written: %v", r)
		}
	}()
	b := &book{file: excelize.NewFile(), cast: c, words: w, styles: map[styleKey]int{}, values: map[string]map[string]any{}}
	defer b.file.Close()
	trees := treesTable(c)
	charge := chargeTable(c)
	stones := stonesTable(c)
	week := weekTable(c)
	lots := lotsTable(c)
	follow(lots, charge, lotSlots(c))
	check := checkTable(c, week, trees, charge, stones)
	for _, t := range []*table{week, trees, charge, lots, buyTable(c), flasksTable(c), stones, stepsTable(c), waitingTable(c), check, aboutTable(c)} {
		if err := b.put(t); err != nil {
			return nil, b.problems, err
		}
	}
	if err := b.highlight(charge, "state", "recount"); err != nil {
		return nil, b.problems, err
	}
	if err := b.highlight(charge, "finestate", append(lotFaults[1:], "under")...); err != nil {
		return nil, b.problems, err
	}
	if err := b.highlight(lots, "state", "morethanthere"); err != nil {
		return nil, b.problems, err
	}
	if err := b.highlight(check, "answer", doesNotAgree); err != nil {
		return nil, b.problems, err
	}
	if err := b.finish(); err != nil {
		return nil, b.problems, err
	}
	buf, err := b.file.WriteToBuffer()
	if err != nil {
		return nil, b.problems, err
	}
	data, err = b.settled(buf.Bytes())
	return data, b.problems, err
}

// finish says who made the file and when: the moment is that of the plan, so
// that the bytes do not depend on the clock.
func (b *book) finish() error {
	b.file.SetActiveSheet(0)
	full := true
	if err := b.file.SetCalcProps(&excelize.CalcPropsOptions{FullCalcOnLoad: &full}); err != nil {
		return err
	}
	made := b.cast.AsOf.UTC().Format(time.RFC3339)
	if err := b.file.SetAppProps(&excelize.AppProperties{Application: "castweek"}); err != nil {
		return err
	}
	return b.file.SetDocProps(&excelize.DocProperties{
		Title: b.plain("title", b.title()), Creator: b.plain("house", b.cast.House.Name), LastModifiedBy: "castweek",
		Created: made, Modified: made, Subject: b.say("subject"), Language: b.words.Lang,
	})
}

// highlight makes words that call for a person stand out, white on black, so
// that they do on a printed sheet too.
func (b *book) highlight(t *table, key string, words ...word) error {
	if len(t.rows) == 0 {
		return nil
	}
	id, err := b.file.NewConditionalStyle(&excelize.Style{
		Font: &excelize.Font{Bold: true, Color: "FFFFFF"},
		Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"000000"}},
	})
	if err != nil {
		return err
	}
	l := t.letters(key)
	var rules []excelize.ConditionalFormatOptions
	for _, w := range words {
		rules = append(rules, excelize.ConditionalFormatOptions{Type: "cell", Criteria: "==", Format: &id, Value: `"` + b.say(w) + `"`})
	}
	return b.file.SetConditionalFormat(t.name, fmt.Sprintf("%s2:%s%d", l, l, len(t.rows)+1), rules)
}
