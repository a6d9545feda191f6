package treeview

import (
	"math"

	"castweek/sheets/page"
	"castweek/tree"
)

// A Panel is one drawing with its heading and ids, to be laid beside others.
type Panel struct {
	W, H  float64
	words []string // what it says
	draw  func(l *page.Leaf, x, y float64)
}

// saying is what a drawing says: its heads, and which castings it shows. Where
// they hang the list says.
func saying(shapes []tree.Shape, heads ...string) []string {
	for _, s := range shapes {
		heads = append(heads, s.Casting)
	}
	return heads
}

// Space between panels.
const between = 3.0

// Rows parts panels into rows that fit a width, in their order.
func Rows(panels []Panel, width float64) [][]Panel {
	var out [][]Panel
	used := math.Inf(1)
	for _, p := range panels {
		if used+between+p.W > width {
			out = append(out, nil)
			used = -between
		}
		out[len(out)-1] = append(out[len(out)-1], p)
		used += between + p.W
	}
	return out
}

// Fits tells whether panels in rows fit a width and a height.
func Fits(panels []Panel, width, height float64) bool {
	for _, row := range Rows(panels, width) {
		tall := 0.0
		for _, p := range row {
			if p.W > width {
				return false
			}
			tall = max(tall, p.H)
		}
		height -= between + tall
	}
	return height >= 0
}

// Lay lays panels in rows, a row's panels spread over the width of the frame.
func Lay(f *page.Flow, panels []Panel) {
	for _, row := range Rows(panels, f.Frame.Width()) {
		height, wide := 0.0, 0.0
		var words []string
		for _, p := range row {
			height, wide, words = max(height, p.H), wide+p.W, append(words, p.words...)
		}
		f.Gap(between)
		f.Figure(words, height, func(l *page.Leaf, x, y, width float64) {
			space := (width - wide) / float64(len(row))
			x += space / 2
			for _, p := range row {
				p.draw(l, x, y)
				x += p.W + space
			}
		})
	}
}

// fewIds is how many ids stand in one column, on the right; more take a column
// on either side.
const fewIds = 4

// An inset is a drawing between the columns of its ids.
type inset struct {
	n      int     // ids
	column float64 // width of a column of ids with the leaders to it
	across float64 // of the drawing alone
	height float64 // of the drawing alone, or of the ids if they need more
}

func (v View) inset(n int, across, height float64) inset {
	rows := n
	if n > fewIds {
		rows = (n + 1) / 2
	}
	return inset{n, idWidth(v.t) + leader, across, max(height, float64(rows)*idPitch)}
}

// width is that of the drawing with its ids; it begins at the left column.
func (i inset) width() float64 {
	if i.n > fewIds {
		return i.across + 2*i.column
	}
	return i.across + i.column
}

// middle is where the middle of the drawing lies from the left.
func (i inset) middle() float64 {
	if i.n > fewIds {
		return i.column + i.across/2
	}
	return i.across / 2
}

// margin is where its ids stand, the top left corner at x, y.
func (i inset) margin(x, y float64) margin {
	m := margin{right: x + i.width() - i.column + leader, top: y, bottom: y + i.height}
	m.left = x + i.column - leader
	m.onlyRight = i.n <= fewIds
	return m
}
