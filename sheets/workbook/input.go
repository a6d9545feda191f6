package workbook

import (
	"fmt"

	"github.com/xuri/excelize/v2"
)

// key is where the catalogue says what to type.
func (l *limit) key() string {
	if l.says != "" {
		return l.says
	}
	return l.name
}

// inputs gives the input cells of a table their validation and a name, by
// which they are found again however the sheet is sorted or widened, and
// locks all other cells against a slip of the hand (there is no password).
func (b *book) inputs(t *table) error {
	any := false
	for i := range t.columns {
		l := t.columns[i].input
		if l == nil {
			continue
		}
		any = true
		letters := t.letters(t.columns[i].key)
		dv := excelize.NewDataValidation(true)
		dv.Sqref = fmt.Sprintf("%s2:%s%d", letters, letters, max(len(t.rows)+1, 2))
		title, say := b.say(l.title), b.words.Say("book."+l.key())
		dv.SetInput(title, say)
		if l.list != nil {
			dv.SetSqrefDropList(l.list.span(l.list.columns[0].key))
			dv.SetError(excelize.DataValidationErrorStyleWarning, title, say)
		} else {
			kind := excelize.DataValidationTypeDecimal
			if l.whole {
				kind = excelize.DataValidationTypeWhole
			}
			if err := dv.SetRange(l.least, l.top, kind, excelize.DataValidationOperatorBetween); err != nil {
				return err
			}
			dv.SetError(excelize.DataValidationErrorStyleStop, title, say)
		}
		if err := b.file.AddDataValidation(t.name, dv); err != nil {
			return err
		}
		if err := b.file.SetDefinedName(&excelize.DefinedName{Name: l.name, RefersTo: t.span(t.columns[i].key)}); err != nil {
			return err
		}
	}
	if !any {
		return nil
	}
	return b.file.ProtectSheet(t.name, &excelize.SheetProtectionOptions{
		AutoFilter: true, FormatColumns: true, FormatRows: true, SelectLockedCells: true, SelectUnlockedCells: true})
}
