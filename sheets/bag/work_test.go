package bag

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"castweek/jobs/setting"
	"castweek/tree"
)

func bagOf(lines ...tree.BagStone) *tree.Bag {
	b := bare()
	b.Stones = lines
	return &b
}

func tasksOf(w work) []task {
	out := slices.Clone(w.before)
	for _, r := range w.runs {
		out = append(out, r.tasks...)
	}
	return append(out, w.after...)
}

// TestWorkIsToldOnce: what lines share is one task, with the numbers of each
// behind its mark, and nothing of any line is lost.
func TestWorkIsToldOnce(t *testing.T) {
	b := bagOf(line("A", "left", "ruby", "round", 2.5, 2.5, 1, 0, setting.Flush), line("B", "middle", "diamond", "round", 2, 2, 3, 0, setting.Flush),
		line("C", "right", "sapphire", "round", 2.5, 2.5, 1, 0, setting.Flush), line("D", "top", "opal", "oval", 7, 5, 1, 0, setting.Bezel))
	w := workOf(b, "each")
	if len(w.runs) != 2 || len(w.runs[0].lines) != 3 || len(w.runs[1].lines) != 1 {
		t.Fatalf("%d runs", len(w.runs))
	}
	all := tasksOf(w)
	// Every line's every number stands in a task, behind its mark where lines
	// differ.
	for _, st := range b.Stones {
		for _, step := range st.Steps {
			if !slices.ContainsFunc(all, func(k task) bool { return tells(k, st.Mark, step) }) {
				t.Errorf("%s: %q is lost", st.Mark, step.Text)
			}
		}
	}
	alone := 0
	for _, st := range b.Stones {
		alone += len(st.Steps)
	}
	if len(all)*2 > alone {
		t.Errorf("%d tasks for %d steps of four lines", len(all), alone)
	}
	for _, want := range []string{"Count in A, C, D\u00a01\u00a0stone\u00a0each; B\u00a03\u00a0stones. Write the number and initial it.",
		"Try every stone with a probe. Nothing may move or click.", "Hold the piece firm."} {
		if n := len(slices.DeleteFunc(slices.Clone(all), func(k task) bool { return k.text != want })); n != 1 {
			t.Errorf("%q stands %d times", want, n)
		}
	}
}

var spaces = regexp.MustCompile(`\s+`)

func plainText(s string) string {
	return spaces.ReplaceAllString(strings.ReplaceAll(s, "\u00a0", " "), " ")
}

// tells is a slow, obvious reading: the words of the step stand in the task in
// their order, and each number stands alone or behind a list of marks with the
// line's own among them.
func tells(k task, mark string, step setting.Step) bool {
	text := plainText(k.text)
	if step.Tool != k.tool {
		return false
	}
	rest := step.Text
	for _, n := range step.Numbers {
		before, after, found := strings.Cut(rest, n.String())
		if !found || !strings.Contains(text, strings.TrimSpace(before)) {
			return false
		}
		group := regexp.MustCompile(`([A-Z](?:, [A-Z])*) ` + regexp.QuoteMeta(n.String()))
		marked := false
		for _, m := range group.FindAllStringSubmatch(text, -1) {
			marked = marked || slices.Contains(strings.Split(m[1], ", "), mark)
		}
		if !marked && !strings.Contains(text, strings.TrimSpace(before)+" "+n.String()) && !strings.HasPrefix(text, n.String()) {
			return false
		}
		rest = after
	}
	return strings.Contains(text, strings.TrimSpace(rest)) && (step.Caution == "" || slices.Contains(k.cautions, step.Caution))
}

// TestOrderOfLines: steps that say what is set before what stay, with their
// marks, where the lines share the others.
func TestOrderOfLines(t *testing.T) {
	first, then := line("A", "left", "diamond", "round", 2, 2, 1, 0, setting.Flush), line("B", "right", "ruby", "round", 2, 2, 1, 0, setting.Flush)
	first.Steps = append(slices.Clone(first.Steps), setting.Step{Key: "front.before", Text: "Set these later: ruby (right)."})
	then.Steps = append(slices.Clone(then.Steps), setting.Step{Key: "front.after", Text: "Set these first: diamond (left)."})
	w := workOf(bagOf(first, then), "each")
	if len(w.runs) != 1 {
		t.Fatalf("%d runs", len(w.runs))
	}
	if got := w.runs[0].tasks[0].text + w.runs[0].tasks[1].text; got != "A: Set these later: ruby (right).B: Set these first: diamond (left)." {
		t.Errorf("%q", got)
	}
}

// TestLimits: lines with the same limits share a row; a stone that has a limit
// has both.
func TestLimits(t *testing.T) {
	b := bagOf(line("A", "left", "ruby", "round", 2.5, 2.5, 1, 0, setting.Flush), line("B", "right", "ruby", "round", 2.5, 2.5, 1, 0, setting.Flush), line("C", "top", "ruby", "oval", 6, 4, 1, 0, setting.Bezel))
	got := sameLimits(stopsOf(b, "each").limits)
	want := []limit{{"A, B", "2.45 to 2.55", "2.35 to 2.65"}, {"C", "5.95 to 6.05 x 3.95 to 4.05", "5.85 to 6.15 x 3.85 to 4.15"}}
	for i := range got {
		got[i].fits, got[i].cut = plainText(got[i].fits), plainText(got[i].cut)
	}
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	if rest := strings.Join(stopsOf(b, "each").rest, "|"); plainText(rest) != "Stop at a chip or crack. Tell of it before you touch the stone.|Start only with A, B, C 1 stone each here." {
		t.Errorf("%q", rest)
	}
}
