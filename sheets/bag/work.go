package bag

import (
	"slices"
	"strings"

	"castweek/jobs/setting"
	"castweek/tree"
)

// Work is the setting of a bag in the order it is done: what comes before any
// stone is set, each run of lines that are set alike, and what comes after the
// last. What several lines share is told once.
type work struct {
	before []task
	runs   []run
	after  []task
	lines  []*tree.BagStone // those with steps
}

// A run is one or more lines of stones, one after the other, that are set by
// the same steps.
type run struct {
	lines []*tree.BagStone
	tasks []task
}

// A task is one line to tick. Its words may hold the numbers of several lines
// of stones, each behind its mark.
type task struct {
	cautions   []string
	text, tool string
}

// ordered are the steps that say which line goes before which; they stay with
// their lines.
var ordered = []string{"front.after", "front.before", "front.protect"}

func workOf(b *tree.Bag, each string) work {
	var w work
	var front, order, own, end [][]setting.Step
	for i := range b.Stones {
		st := &b.Stones[i]
		if len(st.Steps) == 0 {
			continue
		}
		w.lines = append(w.lines, st)
		var part [4][]setting.Step
		for _, s := range st.Steps {
			k := stageOf(s.Key)
			part[k] = append(part[k], s)
		}
		front, order, own, end = append(front, part[0]), append(order, part[1]), append(own, part[2]), append(end, part[3])
	}
	front, early := sharedOnly(front)
	end, late := sharedOnly(end)
	w.before = merged(w.lines, front, each)
	w.after = merged(w.lines, end, each)
	for i := 0; i < len(w.lines); {
		k := i + 1
		for k < len(w.lines) && w.lines[k].Style == w.lines[i].Style && alike(own[i], own[k]) {
			k++
		}
		tasks := marked(w.lines[i:k], order[i:k])
		tasks = append(tasks, marked(w.lines[i:k], early[i:k])...)
		tasks = append(tasks, merged(w.lines[i:k], own[i:k], each)...)
		tasks = append(tasks, marked(w.lines[i:k], late[i:k])...)
		w.runs = append(w.runs, run{w.lines[i:k], tasks})
		i = k
	}
	return w
}

// stageOf is when a step is done: 0 before any stone, 1 the order of the lines,
// 2 the line's own work, 3 after.
func stageOf(key string) int {
	switch {
	case slices.Contains(ordered, key):
		return 1
	case strings.HasPrefix(key, "front."), strings.HasPrefix(key, "metal."):
		return 0
	case strings.HasPrefix(key, "end."):
		return 3
	}
	return 2
}

// marked tells steps that not all lines of a run have, behind the marks of
// those that do; lines that say the same say it together.
func marked(lines []*tree.BagStone, steps [][]setting.Step) []task {
	var out []task
	marks := map[string][]string{}
	for i := range steps {
		for _, s := range steps[i] {
			k := slices.IndexFunc(out, func(t task) bool { return t.text == s.Text })
			if k < 0 {
				k = len(out)
				out = append(out, task{text: s.Text, tool: s.Tool})
			}
			if s.Caution != "" && !slices.Contains(out[k].cautions, s.Caution) {
				out[k].cautions = append(out[k].cautions, s.Caution)
			}
			marks[s.Text] = append(marks[s.Text], lines[i].Mark)
		}
	}
	for i := range out {
		if m := marks[out[i].text]; len(m) < len(lines) {
			out[i].text = strings.Join(m, ", ") + ": " + out[i].text
		}
	}
	return out
}

// sharedOnly parts what every line has by the same step from the rest.
func sharedOnly(all [][]setting.Step) (shared, rest [][]setting.Step) {
	for i := range all {
		var keep, back []setting.Step
		for _, s := range all[i] {
			every := true
			for k := range all {
				every = every && slices.ContainsFunc(all[k], func(o setting.Step) bool { return kin(o.Key) == kin(s.Key) })
			}
			if every {
				keep = append(keep, s)
			} else {
				back = append(back, s)
			}
		}
		shared, rest = append(shared, keep), append(rest, back)
	}
	return shared, rest
}

// kin is the key of a step without what tells its wordings apart: stones are
// measured together, the round and the long ones.
func kin(key string) string {
	if after, ok := strings.CutPrefix(key, "front.measure."); ok && after != "" {
		return "front.measure"
	}
	return key
}

// alike tells whether two lines are set by the same steps, whatever their
// numbers.
func alike(a, b []setting.Step) bool {
	return slices.EqualFunc(a, b, func(x, y setting.Step) bool { return x.Key == y.Key && x.Key != "" && pattern(x) == pattern(y) })
}

// merged tells the steps of lines, which have the same keys in the same order,
// once: numbers that differ stand behind the marks of their lines. A step whose
// words differ is told for each line.
func merged(lines []*tree.BagStone, steps [][]setting.Step, each string) []task {
	var out []task
	if len(steps) == 0 {
		return nil
	}
	for n, first := range steps[0] {
		same := make([]setting.Step, len(steps))
		one := true
		for i := range steps {
			same[i] = steps[i][n]
			one = one && pattern(same[i]) == pattern(first) && same[i].Tool == first.Tool
		}
		if one {
			var cautions []string
			for _, s := range same {
				if s.Caution != "" && !slices.Contains(cautions, s.Caution) {
					cautions = append(cautions, s.Caution)
				}
			}
			out = append(out, task{cautions, joined(lines, same, each), first.Tool})
			continue
		}
		for i, s := range same {
			t := task{nil, lines[i].Mark + ": " + s.Text, s.Tool}
			if s.Caution != "" {
				t.cautions = []string{s.Caution}
			}
			out = append(out, t)
		}
	}
	return out
}

// hole stands in a pattern for the number of that index.
func hole(i int) string { return "\x00" + string(rune('0'+i)) + "\x00" }

// pattern is the sentence of a step with holes for its numbers.
func pattern(s setting.Step) string { return withHoles(s.Text, s.Numbers) }

func withHoles(text string, numbers []setting.Number) string {
	for i, n := range numbers {
		text = strings.Replace(text, n.String(), hole(i), 1)
	}
	return text
}

// joined fills the pattern that steps share with the numbers of all.
func joined(lines []*tree.BagStone, steps []setting.Step, each string) string {
	numbers := make([][]setting.Number, len(steps))
	for i, s := range steps {
		numbers[i] = s.Numbers
	}
	return filled(lines, pattern(steps[0]), numbers, each)
}

// filled puts the numbers of lines into a pattern; each is the word for a count
// that several lines have.
func filled(lines []*tree.BagStone, text string, numbers [][]setting.Number, each string) string {
	for n := range numbers[0] {
		var values []string
		marks := map[string][]string{}
		for i := range numbers {
			v := numbers[i][n].String()
			if marks[v] == nil {
				values = append(values, v)
			}
			marks[v] = append(marks[v], lines[i].Mark)
		}
		words := values[0]
		// Stones are counted line by line, even where the counts are equal.
		if len(values) > 1 || len(lines) > 1 && numbers[0][n].Key == "count" {
			for i, v := range values {
				values[i] = strings.Join(marks[v], ", ") + "\u00a0" + strings.ReplaceAll(v, " ", "\u00a0")
				if len(marks[v]) > 1 && numbers[0][n].Key == "count" {
					values[i] += "\u00a0" + each
				}
			}
			words = strings.Join(values, "; ")
		}
		text = strings.Replace(text, hole(n), words, 1)
	}
	return text
}
