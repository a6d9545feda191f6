package workbook

import (
	"fmt"
	"strings"

	"github.com/xuri/excelize/v2"
)

// Paper sizes as the file format numbers them.
const (
	paperLetter = 1
	paperA4     = 9
)

// layout freezes and filters the header row and sets the sheet up for paper:
// landscape, one page wide, the header on every page.
func (b *book) layout(t *table) error {
	f := b.file
	last, printed := "A", "A"
	for i := range t.columns {
		last = t.letters(t.columns[i].key)
		if !t.columns[i].aside {
			printed = last
		}
	}
	bottom := max(len(t.rows)+1, 2)
	paper, landscape, one, none, yes := paperA4, "landscape", 1, 0, true
	if b.cast.House.Series == "letter" {
		paper = paperLetter
	}
	side, ends := 0.4, 0.6
	panes := excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"}
	if t.stays {
		panes.XSplit, panes.TopLeftCell, panes.ActivePane = 1, "B2", "bottomRight"
	}
	panes.Selection = []excelize.Selection{{SQRef: panes.TopLeftCell, ActiveCell: panes.TopLeftCell, Pane: panes.ActivePane}}
	steps := []error{
		f.SetPanes(t.name, &panes),
		f.AutoFilter(t.name, fmt.Sprintf("A1:%s%d", last, bottom), nil),
		f.SetPageLayout(t.name, &excelize.PageLayoutOptions{Size: &paper, Orientation: &landscape, FitToWidth: &one, FitToHeight: &none}),
		// the page layout alone leaves the switch out of the file
		f.SetSheetProps(t.name, &excelize.SheetPropsOptions{FitToPage: &yes}),
		f.SetPageMargins(t.name, &excelize.PageLayoutMarginsOptions{Left: &side, Right: &side, Top: &ends, Bottom: &ends}),
		f.SetHeaderFooter(t.name, &excelize.HeaderFooterOptions{
			OddHeader: "&L" + escaped(b.title()) + "&R" + escaped(b.titleOf(t.name)),
			OddFooter: "&L" + escaped(b.cast.House.Name) + "&R" + b.say("page"),
		}),
		f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Area", RefersTo: fmt.Sprintf("%s!$A$1:$%s$%d", t.name, printed, bottom), Scope: t.name}),
		f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", RefersTo: fmt.Sprintf("%s!$1:$1", t.name), Scope: t.name}),
	}
	for _, err := range steps {
		if err != nil {
			return err
		}
	}
	return nil
}

// title is what the head of every printed page says.
func (b *book) title() string {
	if b.cast.Proposal {
		return b.words.With("book.say.titleproposal", "of", b.cast.Name)
	}
	return b.words.With("book.say.title", "of", b.cast.Name)
}

// escaped keeps a text from steering the page head (& starts a command there)
// and within the 255 characters that it may hold.
func escaped(s string) string {
	if r := []rune(s); len(r) > 80 {
		s = string(r[:79]) + "…"
	}
	return strings.ReplaceAll(s, "&", "&&")
}
