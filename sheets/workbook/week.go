package workbook

import (
	"sort"
	"strings"
	"time"

	"castweek/tree"
)

// States of a job in the week.
const (
	inCast     word = "incast"
	partly     word = "partly"
	waits      word = "waits"
	held       word = "held"
	leftBehind word = "leftover"
	refused    word = "refused" // hangs on a tree that is not poured
)

// jobWeek is what the week holds of one job.
type jobWeek struct {
	job, design, who, kind, ask, reason string
	state                               word
	due, ready                          time.Time
	pieces, castings, stones            int
	trees                               []string
}

// jobsOf collects the jobs of a cast, by due day and number; those without a
// due day come last.
func jobsOf(c *tree.Cast) []*jobWeek {
	byJob := map[string]*jobWeek{}
	var list []*jobWeek
	of := func(job string) *jobWeek {
		if byJob[job] == nil {
			byJob[job] = &jobWeek{job: job}
			list = append(list, byJob[job])
		}
		return byJob[job]
	}
	for i := range c.Bags {
		bag := &c.Bags[i]
		j := of(bag.Job)
		j.design, j.who, j.kind, j.due, j.state, j.pieces = bag.Design, bag.For, bag.Kind, bag.Due, inCast, bag.Of
		for k := range bag.Castings {
			j.castings++
			j.trees = appendNew(j.trees, bag.Castings[k].Tree)
		}
		for k := range bag.Stones {
			j.stones += bag.Stones[k].Count + bag.Stones[k].Spares
		}
	}
	still := func(state word, list []tree.Waiting) {
		for _, w := range list {
			j := of(w.Job)
			j.design, j.who, j.due, j.state, j.reason, j.ask = w.Design, w.For, w.Due, state, w.Reason, w.Ask
		}
	}
	still(waits, c.Waiting)
	still(held, c.Held)
	for i := range c.Trees {
		t := &c.Trees[i]
		for k := range t.Castings {
			if !t.Pourable() {
				j := of(t.Castings[k].Job)
				j.state, j.reason = refused, t.Letter()+": "+strings.Join(t.Refused, "; ")
			}
		}
	}
	for _, l := range c.LeftOver {
		j := of(l.Job)
		j.reason = l.Reason
		j.state = leftBehind
		if j.castings > 0 {
			j.state = partly
		}
	}
	for _, l := range c.Late {
		j := of(l.Job)
		j.due, j.ready = l.Due, l.Ready
	}
	sort.SliceStable(list, func(a, b int) bool {
		x, y := list[a], list[b]
		if x.due.IsZero() != y.due.IsZero() {
			return y.due.IsZero()
		}
		if !x.due.Equal(y.due) {
			return x.due.Before(y.due)
		}
		return x.job < y.job
	})
	return list
}

func appendNew(list []string, s string) []string {
	for _, x := range list {
		if x == s {
			return list
		}
	}
	return append(list, s)
}

// weekTable is one row a job: where it stands.
func weekTable(c *tree.Cast) *table {
	t := &table{name: "Week", columns: []column{
		{key: "due", width: 17, format: day},
		{key: "job", width: 10, format: code},
		{key: "design", width: 24, format: prose},
		{key: "for", width: 18, format: prose},
		{key: "kind", width: 11, format: code},
		{key: "state", width: 14, format: prose},
		{key: "late", width: 6, format: code},
		{key: "ready", width: 17, format: day},
		{key: "pieces", width: 9, format: count},
		{key: "castings", width: 10, format: count},
		{key: "stones", width: 10, format: count},
		{key: "trees", width: 17, format: prose},
		{key: "reason", width: 26, format: prose},
		{key: "ask", width: 16, format: prose},
	}}
	for _, j := range jobsOf(c) {
		r := row{"due": j.due, "job": j.job, "design": j.design, "for": j.who, "kind": j.kind, "state": j.state,
			"late": !j.ready.IsZero(), "ready": j.ready, "castings": j.castings, "stones": j.stones,
			"trees": strings.Join(j.trees, ", "), "reason": j.reason, "ask": j.ask}
		if j.pieces > 0 {
			r["pieces"] = j.pieces
		}
		t.rows = append(t.rows, r)
	}
	return t
}
