package page

import (
	"fmt"

	"github.com/boombuler/barcode/qr"
)

// quiet is the white border of a QR code in modules (ISO/IEC 18004).
const quiet = 4

// smallestModule is the side under which a module is lost at 200 dpi
// (measured: 0.25 mm fails, 0.33 mm reads).
const smallestModule = 0.4

// A Code is a QR code that is ready to draw.
type Code struct {
	text string
	dark func(x, y int) bool
	n    int
}

// Code encodes text at level Q, which mends about a quarter.
func (d *Doc) Code(text string) Code {
	b, err := qr.Encode(text, qr.Q, qr.Auto)
	if err != nil {
		d.remark("code-not-possible", "use a shorter number", fmt.Sprintf("no QR code for %q: %v", text, err))
		return Code{text: text}
	}
	return Code{text: text, n: b.Bounds().Dx(), dark: func(x, y int) bool {
		r, _, _, _ := b.At(x, y).RGBA()
		return r == 0
	}}
}

// Side is the side of the code with its quiet border, in millimetres.
func (c Code) Side(module float64) float64 { return float64(c.n+2*quiet) * module }

// Code draws a code with modules of a side in millimetres, its quiet border
// included, as rectangles that stay sharp on every printer. Its text belongs
// beneath it, for whom has no camera.
func (l *Leaf) Code(c Code, x, y, module float64) {
	if c.n == 0 {
		return
	}
	if module < smallestModule {
		l.doc.fail(fmt.Errorf("QR modules of %.2f mm are too small", module))
		return
	}
	x, y = x+quiet*module, y+quiet*module
	for row := range c.n {
		for col := 0; col < c.n; col++ {
			run := 0
			for col+run < c.n && c.dark(col+run, row) {
				run++
			}
			if run > 0 {
				l.Bar(x+float64(col)*module, y+float64(row)*module, float64(run)*module, module)
				col += run
			}
		}
	}
}
