package workbook

import "castweek/tree"

// stepsTable is one row a step, in the order of the bench: the stones with
// their stop lines, then the assembly.
func stepsTable(c *tree.Cast) *table {
	t := &table{name: "Steps", columns: []column{
		{key: "job", head: "Job", width: 12, format: code},
		{key: "bag", head: "Bag", width: 16, format: words},
		{key: "stage", head: "Stage", width: 12, format: code},
		{key: "mark", head: "Mark", width: 6, format: code},
		{key: "stone", head: "Stone", width: 26, format: words},
		{key: "number", head: "Step (number)", width: 8, format: count},
		{key: "caution", head: "Caution before it", width: 40, format: words},
		{key: "step", head: "What to do", width: 80, format: words},
		{key: "tool", head: "Tool", width: 22, format: words},
		{key: "source", head: "Source of the limits", width: 34, format: words},
	}}
	for i := range c.Bags {
		bag := &c.Bags[i]
		for k := range bag.Stones {
			st := &bag.Stones[k]
			name := st.Kind + " " + st.Place
			for n := range st.Steps {
				step := &st.Steps[n]
				t.rows = append(t.rows, row{"job": bag.Job, "bag": bag.Title, "stage": "setting", "mark": st.Mark, "stone": name, "number": n + 1,
					"caution": step.Caution, "step": step.Text, "tool": step.Tool, "source": step.Source})
			}
			for n := range st.Stops {
				stop := &st.Stops[n]
				t.rows = append(t.rows, row{"job": bag.Job, "bag": bag.Title, "stage": "stop line", "mark": st.Mark, "stone": name, "number": n + 1,
					"step": stop.Text, "source": stop.Source})
			}
		}
		for n, text := range bag.Assembly {
			t.rows = append(t.rows, row{"job": bag.Job, "bag": bag.Title, "stage": "assembly", "number": n + 1, "step": text})
		}
	}
	return t
}
