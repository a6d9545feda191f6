package sheets

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"castweek/sheets/desk"
	"castweek/sheets/internal/reading"
	"castweek/tree/record"
)

// TestPrintsOfEverySheet: a later moment of planning alone is no other print of
// anything; nothing changed gives the same bytes; another due day is another
// print of that job's bags and of nothing else.
func TestPrintsOfEverySheet(t *testing.T) {
	if reading.UnderRace {
		t.Skip("one goroutine, and slow under the race detector")
	}
	c := sample(t)
	prints := &record.Prints{Cast: c.Name}
	all := func() map[string][]byte {
		out := map[string][]byte{}
		for name, print := range printers {
			if name == "week" { // it tells which prints of bags are valid, and comes after them
				continue
			}
			data, _, err := print(c, desk.Options{Prints: prints})
			if err != nil {
				t.Fatal(name, err)
			}
			out[name] = data
		}
		return out
	}
	all()
	first := all()
	for name, data := range all() {
		if !bytes.Equal(data, first[name]) {
			t.Errorf("%s: nothing changed, and the bytes are others", name)
		}
	}
	c.AsOf = c.AsOf.Add(time.Hour)
	all()
	for _, p := range prints.List {
		if p.Number != 1 {
			t.Errorf("%s is print %d an hour later: %v", p.Key, p.Number, p.Changes)
		}
	}
	job := c.Bags[0].Job
	for i := range c.Bags {
		if c.Bags[i].Job == job {
			c.Bags[i].Due = c.Bags[i].Due.Add(24 * time.Hour)
		}
	}
	all()
	n := 0
	for _, p := range prints.List {
		of := strings.Contains(p.Key, "bag "+job+"/")
		if of {
			n++
		}
		if of != (p.Number == 2) {
			t.Errorf("%s is print %d after another due day of %s", p.Key, p.Number, job)
		}
		if of && (len(p.Changes) != 1 || !strings.Contains(p.Changes[0].Was, "Dec 2026")) {
			t.Errorf("%s: %v", p.Key, p.Changes)
		}
	}
	if n < 2 { // whole and short
		t.Errorf("%d bags of %s", n, job)
	}
}
