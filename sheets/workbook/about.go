package workbook

import (
	"time"

	"castweek/tree"
)

// aboutTable says what the workbook is and how to read it.
func aboutTable(c *tree.Cast) *table {
	t := &table{name: "About", columns: []column{
		{key: "what", width: 28, format: prose},
		{key: "answer", width: 100, format: prose},
	}}
	state := word("accepted")
	if c.Proposal {
		state = "proposal"
	}
	stamp := func(at time.Time) string { return at.Format("2006-01-02 15:04 -07:00") }
	for _, r := range []struct {
		key    word
		answer any
	}{
		{"workshop", c.House.Name},
		{"cast", c.Name},
		{"state", state},
		{"pour", stamp(c.Pour)},
		{"planned", stamp(c.AsOf)},
		{"by", word("about.by.text")},
		{"cells", word("about.cells.text")},
		{"stays", word("about.stays.text")},
		{"built", word("about.built.text")},
		{"recount", phrase{"about.recount.text", c.House.RecountBeyond().String()}},
		{"metal", word("about.metal.text")},
		{"lots", word("about.lots.text")},
		{"weighed", word("about.weighed.text")},
		{"signs", word("about.signs.text")},
		{"estimates", word("about.estimates.text")},
		{"times", word("about.times.text")},
	} {
		t.rows = append(t.rows, row{"what": "about." + r.key, "answer": r.answer})
	}
	return t
}
