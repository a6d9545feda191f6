package page

import (
	"fmt"

	"github.com/jung-kurt/gofpdf"
)

// state is what the library has been told already; it repeats that by itself on
// each new page.
type state struct {
	style  Style
	weight float64
	filled fill
}

// Put lays each leaf on a sheet of its own.
func (d *Doc) Put(leaves ...*Leaf) {
	for _, l := range leaves {
		d.sheet(l.Paper)
		d.lay(l, 0, 0)
	}
}

// PutSideBySide lays leaves in pairs on a sheet turned on its side, each in
// the middle of its half, with marks where the sheet is cut.
func (d *Doc) PutSideBySide(sheet Paper, leaves ...*Leaf) {
	sheet = sheet.Landscape()
	half := sheet.W / 2
	for i := 0; i < len(leaves); i += 2 {
		d.sheet(sheet)
		for k := i; k < min(i+2, len(leaves)); k++ {
			l := leaves[k]
			d.lay(l, float64(k-i)*half+(half-l.Paper.W)/2, (sheet.H-l.Paper.H)/2)
		}
		d.lay(d.cutMarks(sheet), 0, 0)
	}
}

// PutGrid lays leaves in rows and columns on a sheet, for labels and short
// forms; the sheet must hold them.
func (d *Doc) PutGrid(sheet Paper, columns, rows int, leaves ...*Leaf) {
	w, h := sheet.W/float64(columns), sheet.H/float64(rows)
	for i, l := range leaves {
		if l.Paper.W > w+0.01 || l.Paper.H > h+0.01 {
			d.fail(fmt.Errorf("%s holds no %d by %d leaves of %s", sheet.Name, columns, rows, l.Paper.Name))
			return
		}
		at := i % (columns * rows)
		if at == 0 {
			d.sheet(sheet)
			d.lay(d.gridMarks(sheet, columns, rows), 0, 0)
		}
		d.lay(l, float64(at%columns)*w+(w-l.Paper.W)/2, float64(at/columns)*h+(h-l.Paper.H)/2)
	}
}

func (d *Doc) sheet(p Paper) {
	if d.broken != nil {
		return
	}
	d.guard(func() { d.pdf.AddPageFormat("P", gofpdf.SizeType{Wd: p.W, Ht: p.H}) })
	d.pages++
}

// lay draws a leaf at an offset. The leaf is of no use afterwards.
func (d *Doc) lay(l *Leaf, dx, dy float64) {
	if d.broken != nil {
		return
	}
	d.guard(func() {
		for i := range l.ops {
			d.draw(&l.ops[i], dx, dy)
		}
	})
	if e := d.pdf.Error(); e != nil {
		d.fail(e)
	}
}

func (d *Doc) draw(o *op, dx, dy float64) {
	x, y := o.a+dx, o.b+dy
	switch o.kind {
	case opText:
		if s := (Style{o.face, o.size}); s != d.state.style {
			d.use(o.face)
			d.pdf.SetFont(faceName[o.face], "", o.size)
			d.state.style = s
		}
		d.pdf.Text(x, y, o.text)
	case opLine:
		d.weight(o.size)
		d.pdf.Line(x, y, o.c+dx, o.d+dy)
	case opRect:
		d.pdf.Rect(x, y, o.c, o.d, d.mode(o))
	case opCircle:
		d.pdf.Circle(x, y, o.c, d.mode(o))
	case opPath:
		mode := d.mode(o)
		d.pdf.MoveTo(o.path[0][0]+dx, o.path[0][1]+dy)
		for _, p := range o.path[1:] {
			d.pdf.LineTo(p[0]+dx, p[1]+dy)
		}
		if o.closed {
			d.pdf.ClosePath()
		}
		d.pdf.DrawPath(mode)
	}
}

// mode readies line or fill and names the library's way of drawing it.
func (d *Doc) mode(o *op) string {
	if o.fill == outline {
		d.weight(o.size)
		return "D"
	}
	d.paint(o.fill)
	return "F"
}

func (d *Doc) weight(pt float64) {
	if pt != d.state.weight {
		d.pdf.SetLineWidth(pt * PointMM)
		d.state.weight = pt
	}
}

func (d *Doc) paint(f fill) {
	if f == d.state.filled {
		return
	}
	v := 0
	if f == white {
		v = 255
	}
	d.pdf.SetFillColor(v, v, v)
	d.state.filled = f
}
