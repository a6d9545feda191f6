package workbook

import (
	"fmt"
	"time"

	"castweek/tree"
)

// aboutTable says what the workbook is and how to read it.
func aboutTable(c *tree.Cast) *table {
	t := &table{name: "About", columns: []column{
		{key: "what", head: "What", width: 28, format: words},
		{key: "answer", head: "Answer", width: 100, format: words},
	}}
	state := "accepted"
	if c.Proposal {
		state = "a proposal, not accepted"
	}
	stamp := func(at time.Time) string { return at.Format("2006-01-02 15:04 -07:00") }
	for _, r := range [][2]string{
		{"Workshop", c.House.Name},
		{"Cast", c.Name},
		{"State", state},
		{"Pour", stamp(c.Pour)},
		{"Planned at", stamp(c.AsOf)},
		{"Written by", "castweek, from the workshop's job folder"},
		{"Cells to type into", "Those on a yellow ground in a frame, under a header that begins with TYPE. All others are locked against a slip; there is no password."},
		{"What is typed stays", "A workbook in which a marked cell was filled in is not written over by the next plan: the new one is put beside it."},
		{"Built tree weighed", "Weigh the tree before investing, without its base. The metal is then worked out from that weight and the density of what the tree is built from. " +
			"A tree of several materials is taken to hold them in the planned proportions, since one weighing cannot tell them apart."},
		{"Stop and recount", fmt.Sprintf("A built tree more than %s off its planned weight holds a casting too many or too few, or another material. Recount before investing.", c.House.RecountBeyond())},
		{"Metal to weigh out", "Tree, button, melt loss and rounding up to the scale's step. Every line is rounded up to whole milligrams and the lines add up to the total."},
		{"Planned and weighed", "What is planned is calculated; only what stands in a TYPE column was weighed or counted."},
		{"0, a dash, an open cell", "0 is none. A dash means that nothing is known or the column does not apply. An open marked cell waits for a person."},
		{"Estimates of stones", "Worked out from the size; a scale knows better."},
		{"Times", "The workshop's own clock."},
	} {
		t.rows = append(t.rows, row{"what": r[0], "answer": r[1]})
	}
	return t
}
