package workbook

import (
	"strings"

	"castweek/tree"
)

// waitingTable is one row for each thing that is not cast now, with the reason
// and whom to ask.
func waitingTable(c *tree.Cast) *table {
	t := &table{name: "Waiting", columns: []column{
		{key: "job", head: "Job", width: 12, format: code},
		{key: "state", head: "State", width: 12, format: code},
		{key: "design", head: "Design", width: 30, format: words},
		{key: "for", head: "For", width: 22, format: words},
		{key: "due", head: "Due", width: 17, format: day},
		{key: "castings", head: "Castings", width: 24, format: words},
		{key: "reason", head: "Reason", width: 50, format: words},
		{key: "ask", head: "Ask", width: 24, format: words},
	}}
	for _, part := range []struct {
		state string
		list  []tree.Waiting
	}{{held, c.Held}, {waits, c.Waiting}} {
		for _, w := range part.list {
			t.rows = append(t.rows, row{"job": w.Job, "state": part.state, "design": w.Design, "for": w.For, "due": w.Due, "reason": w.Reason, "ask": w.Ask})
		}
	}
	for _, l := range c.LeftOver {
		t.rows = append(t.rows, row{"job": l.Job, "state": leftBehind, "castings": strings.Join(l.Castings, ", "), "reason": l.Reason})
	}
	return t
}
