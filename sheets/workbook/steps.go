package workbook

import "castweek/tree"

// stepsTable is one row a step, in the order of the bench: the stones with
// their stop lines, then the assembly.
func stepsTable(c *tree.Cast) *table {
	t := &table{name: "Steps", columns: []column{
		{key: "job", width: 10, format: code},
		{key: "bag", width: 14, format: prose},
		{key: "stage", width: 11, format: code},
		{key: "mark", width: 6, format: code},
		{key: "stone", width: 20, format: prose},
		{key: "number", width: 9, format: count},
		{key: "caution", width: 32, format: prose},
		{key: "step", width: 62, format: prose},
		{key: "tool", width: 20, format: prose},
		{key: "source", width: 30, format: prose},
	}}
	for i := range c.Bags {
		bag := &c.Bags[i]
		for k := range bag.Stones {
			st := &bag.Stones[k]
			name := st.Kind + " " + st.Place
			for n := range st.Steps {
				step := &st.Steps[n]
				t.rows = append(t.rows, row{"job": bag.Job, "bag": bag.Title, "stage": word("setting"), "mark": st.Mark, "stone": name, "number": n + 1,
					"caution": step.Caution, "step": step.Text, "tool": step.Tool, "source": step.Source})
			}
			for n := range st.Stops {
				stop := &st.Stops[n]
				t.rows = append(t.rows, row{"job": bag.Job, "bag": bag.Title, "stage": word("stopline"), "mark": st.Mark, "stone": name, "number": n + 1,
					"step": stop.Text, "source": stop.Source})
			}
		}
		for n, text := range bag.Assembly {
			t.rows = append(t.rows, row{"job": bag.Job, "bag": bag.Title, "stage": word("assembly"), "number": n + 1, "step": text})
		}
	}
	return t
}
