package treemap

import (
	"cmp"
	"slices"
	"strings"

	"castweek/sheets/page"
	"castweek/tree"
)

// A kind is castings of one part of a job that are fed alike.
type kind struct {
	job, part, what, feeder string
	ids                     []string
}

// kinds are those of a tree, by job.
func (p *printer) kinds(t *tree.Tree) []kind {
	var out []kind
	for _, h := range inOrder(t.Castings) {
		k := slices.IndexFunc(out, func(k kind) bool { return k.job == h.Job && k.part == h.Part && k.feeder == h.Feeders })
		if k < 0 {
			k = len(out)
			out = append(out, kind{job: h.Job, part: h.Part, what: p.what(h), feeder: h.Feeders})
		}
		out[k].ids = append(out[k].ids, h.Casting)
	}
	slices.SortStableFunc(out, func(a, b kind) int { return cmp.Or(cmp.Compare(a.job, b.job), cmp.Compare(a.part, b.part)) })
	return out
}

// named is how a kind is called: by its job, where that alone would not tell it
// from another by the letter of the part that its ids end in, else by its ids.
func (k kind) named(all []kind) string {
	others := slices.DeleteFunc(slices.Clone(all), func(o kind) bool { return o.job != k.job || o.part == k.part && o.feeder == k.feeder })
	if len(others) == 0 {
		return k.job
	}
	last := k.ids[0][len(k.ids[0])-1:]
	ends := func(id string) bool { return strings.HasSuffix(id, last) }
	alike := !slices.ContainsFunc(k.ids, func(id string) bool { return !ends(id) })
	for _, o := range others {
		alike = alike && !slices.ContainsFunc(o.ids, ends)
	}
	if alike && last >= "a" && last <= "z" && len(k.ids) > 1 {
		return k.job + "/…" + last
	}
	return strings.Join(k.ids, " ")
}

// whatHangs lays what the castings are and how they are fed, each kind once.
func (p *printer) whatHangs(f *page.Flow, t *tree.Tree) {
	all := p.kinds(t)
	var rows [][]page.Cell
	width := 0.0
	for _, k := range all {
		rows = append(rows, []page.Cell{{Text: k.named(all), Style: &code}, page.Text(p.fig.Count(len(k.ids))), page.Text(k.what), page.Text(p.fig.Text(k.feeder))})
		width = max(width, code.Width(k.named(all)))
	}
	f.Lay(page.Table{Style: plain, Heads: bold, Columns: []page.Column{
		{Head: p.say("treemap.head.job"), Width: min(max(width, 18), 4*idWidth(t)) + columnGap},
		{Head: p.say("treemap.head.count"), Width: 22, Align: page.AlignPoint},
		{Head: p.say("treemap.head.what")},
		{Head: p.say("treemap.head.feeder"), Width: 40}}}, rows)
}

// what names a casting in words.
func (p *printer) what(h tree.Hanging) string {
	if h.Part != "" && h.Part != h.Design {
		return p.with("treemap.part", "design", h.Design, "part", h.Part)
	}
	return h.Design
}

// idWidth is the width of the longest id of a tree.
func idWidth(t *tree.Tree) float64 {
	w := 0.0
	for i := range t.Castings {
		w = max(w, code.Width(t.Castings[i].Casting))
	}
	return w
}
