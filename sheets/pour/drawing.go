package pour

import (
	"castweek/sheets/page"
	"castweek/sheets/treeview"
	"castweek/tree"
)

// drawing shows the tree as it hangs in its flask, from the side and, where the
// page has room for them, its levels from the top: as large as the page takes.
// Whoever mounts or cuts has the tree map; here it is for counting, and for
// knowing the tree again. It tells whether it was laid: on a page that has no
// room it is not, unless it must.
func (p *printer) drawing(f *page.Flow, t *tree.Tree, must bool) bool {
	v := treeview.Of(&p.Desk, t)
	if !v.Any() {
		return false
	}
	heads := 3 + benchHead.Leading() + 2 + 2*benchWords.Leading()
	panels, scale, ok := largest(v, f.Frame.Width(), f.Left()-heads)
	if !ok && !must {
		return false
	}
	if !ok {
		f.Break()
		panels, scale, _ = largest(v, f.Frame.Width(), f.Left()-heads)
	}
	p.section(f, "pour.drawing", 0)
	words := p.with("pour.drawn", "scale", v.Scale(scale))
	if !v.Halves() {
		words += " " + p.say("treeview.hidden")
	}
	f.Para(benchWords, words)
	treeview.Lay(f, panels)
	return true
}

// largest are the drawings that fit a width and a height: all of them rather
// than the sides alone, then as large as can be. Where nothing fits they are the
// smallest sides.
func largest(v treeview.View, width, height float64) (panels []treeview.Panel, scale float64, ok bool) {
	for _, levels := range []bool{true, false} {
		for _, s := range treeview.Scales {
			panels = v.Sides(s)
			if levels {
				panels = append(panels, v.Plans(s)...)
			}
			if treeview.Fits(panels, width, height) {
				return panels, s, true
			}
		}
	}
	return v.Sides(treeview.Small), treeview.Small, false
}
