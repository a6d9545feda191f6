package workbook

import "github.com/xuri/excelize/v2"

// A format is how a column shows its values.
type format int

const (
	prose  format = iota // text that wraps
	code                 // text that stays on one line
	day                  // 2026-12-03 14:30
	count                // whole number
	mm                   // 0.00
	cubic                // 0.0
	grams                // 0.000
	carats               // 0.000
	ratio                // 0.00
	figure               // as many decimals as there are
)

// numberFormats by format. Text columns are marked as text, so that a cell
// beginning with = + - or @ stays what it is even when it is edited again.
var numberFormats = map[format]string{
	prose: "@", code: "@", day: "yyyy-mm-dd hh:mm", count: "0", mm: "0.00", cubic: "0.0",
	grams: "0.000", carats: "0.000", ratio: "0.00", figure: "General",
}

// text tells the formats that hold words.
func (f format) text() bool { return f == prose || f == code }

type styleKey struct {
	format format
	input  bool
	head   bool
}

// style makes each look once. Colour is never the only sign: an input cell has
// a frame, and a word in its header.
func (b *book) style(k styleKey) (int, error) {
	if id, ok := b.styles[k]; ok {
		return id, nil
	}
	nf := numberFormats[k.format]
	s := &excelize.Style{
		Font:       &excelize.Font{Family: "Arial", Size: 10},
		Alignment:  &excelize.Alignment{Vertical: "top", WrapText: k.format == prose || k.head},
		Protection: &excelize.Protection{Locked: !k.input || k.head},
	}
	if k.format.text() {
		s.Alignment.Horizontal, s.Alignment.Indent = "left", 1 // clear of a number beside it
	} else {
		s.Alignment.Horizontal = "right"
	}
	if k.head {
		nf = "@"
		s.Font.Bold = true
		s.Alignment.Vertical = "bottom"
		s.Border = []excelize.Border{{Type: "bottom", Style: 2, Color: "000000"}}
	}
	if k.input {
		s.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"FFF2B3"}}
		if !k.head {
			for _, side := range []string{"left", "right", "top", "bottom"} {
				s.Border = append(s.Border, excelize.Border{Type: side, Style: 1, Color: "000000"})
			}
		}
	}
	s.CustomNumFmt = &nf
	id, err := b.file.NewStyle(s)
	if err == nil {
		b.styles[k] = id
	}
	return id, err
}
