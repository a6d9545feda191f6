package workbook

import (
	"strings"

	"castweek/tree"
)

// waitingTable is one row for each thing that is not cast now, with the reason
// and whom to ask, and for each remark that a person should look at.
func waitingTable(c *tree.Cast) *table {
	t := &table{name: "Waiting", columns: []column{
		{key: "job", width: 12, format: code},
		{key: "state", width: 12, format: code},
		{key: "design", width: 30, format: prose},
		{key: "for", width: 22, format: prose},
		{key: "due", width: 17, format: day},
		{key: "castings", width: 24, format: prose},
		{key: "reason", width: 50, format: prose},
		{key: "ask", width: 24, format: prose},
		{key: "remedy", width: 40, format: prose},
	}}
	for _, part := range []struct {
		state word
		list  []tree.Waiting
	}{{held, c.Held}, {waits, c.Waiting}} {
		for _, w := range part.list {
			t.rows = append(t.rows, row{"job": w.Job, "state": part.state, "design": w.Design, "for": w.For, "due": w.Due, "reason": w.Reason, "ask": w.Ask})
		}
	}
	for i := range c.Trees {
		if tr := &c.Trees[i]; !tr.Pourable() {
			t.rows = append(t.rows, refusedRows(tr)...)
		}
	}
	for _, l := range c.LeftOver {
		t.rows = append(t.rows, row{"job": l.Job, "state": leftBehind, "castings": strings.Join(l.Castings, ", "), "reason": l.Reason})
	}
	for _, r := range c.AllRemarks() {
		t.rows = append(t.rows, row{"job": r.Job, "state": word("remark"), "reason": r.Text, "remedy": r.Remedy})
	}
	return t
}

// refusedRows is one row for each job that hangs on a tree that is not poured.
func refusedRows(tr *tree.Tree) []row {
	byJob := map[string][]string{}
	var order []*tree.Hanging
	for k := range tr.Castings {
		h := &tr.Castings[k]
		if byJob[h.Job] == nil {
			order = append(order, h)
		}
		byJob[h.Job] = append(byJob[h.Job], h.Casting)
	}
	var out []row
	for _, h := range order {
		out = append(out, row{"job": h.Job, "state": refused, "design": h.Design, "castings": strings.Join(byJob[h.Job], ", "),
			"reason": tr.Letter() + ": " + strings.Join(tr.Refused, "; ")})
	}
	return out
}
