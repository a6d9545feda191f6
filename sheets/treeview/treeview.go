// Package treeview draws a tree as whoever builds or pours it sees it: from the
// side in its flask, and each level from the top, every casting with its id. It
// is read at 500 mm, in black and white.
//
// Use first: [Of]. Nothing is computed here but where ink goes: places and
// outlines are the plan's.
package treeview

import (
	"castweek/sheets/desk"
	"castweek/sheets/page"
	"castweek/tree"
)

// A View draws one tree.
type View struct {
	desk *desk.Desk
	t    *tree.Tree
}

// Of is the view of a tree, in the words and figures of a desk.
func Of(d *desk.Desk, t *tree.Tree) View { return View{d, t} }

// Any tells whether the tree was kept with a drawing.
func (v View) Any() bool { return len(v.t.Drawing.Side) > 0 }

// Type at the bench.
var (
	plain = page.Style{Face: page.Regular, Size: page.Bench.Words}
	bold  = page.Style{Face: page.Bold, Size: page.Bench.Words}
	code  = page.Style{Face: page.MonoBold, Size: page.Bench.Words}
)

func (v View) say(key string) string { return v.desk.Words.Say(key) }

func (v View) with(key string, pairs ...string) string { return v.desk.Words.With(key, pairs...) }

func (v View) count(n int) string { return v.desk.Fig.Count(n) }

// Scales are the shares of the true size that a drawing may have, the largest
// first; Small is for what fits no paper otherwise.
var Scales = []float64{1, 0.75, 0.5}

const Small = 0.25

// Scale says in words at what share of the true size something is drawn.
func (v View) Scale(scale float64) string {
	if scale == 1 {
		return v.say("treeview.true")
	}
	return v.with("treeview.scaled", "percent", v.count(int(100*scale)))
}
