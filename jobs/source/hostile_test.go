package source

import (
	"fmt"
	"runtime"
	"strings"
	"testing"
	"time"

	"castweek/metal/problem"
)

// numbered is a flow of keys, no two alike.
func numbered(most int) string {
	var b strings.Builder
	for i := 0; b.Len() < most-20; i++ {
		fmt.Fprintf(&b, "k%d: 1, ", i)
	}
	return b.String()
}

// hostile is a quarter of the largest size: what grows with the square of it
// shows all the same.
const hostile = MaxBytes / 4

// TestHostile reads files that are made to use up time or memory, each in two
// sizes: eight times as much text may take about eight times as long, and not
// sixty-four times, as what grows with the square does.
func TestHostile(t *testing.T) {
	for name, text := range hostileFiles(hostile) {
		took, used, problems := hostileRead(text)
		t.Logf("%-24s %6d problems %8v %5d MB", name, problems, took.Round(time.Millisecond), used)
		if used > 4000 || problems > maxProblems {
			t.Errorf("%s: %d MB, %d problems", name, used, problems)
		}
		// a busy machine may be slow once, and not three times in a row
		for try := 0; took > time.Second; try++ {
			small, _, _ := hostileRead(hostileFiles(hostile / 8)[name])
			if took <= 32*small {
				break
			}
			if try == 2 {
				t.Errorf("%s: %v, an eighth of it %v", name, took, small)
				break
			}
			took, _, _ = hostileRead(text)
		}
	}
}

// hostileRead reads a text whole and tells its problems as a run does.
func hostileRead(text string) (took time.Duration, megabytes uint64, problems int) {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	start := time.Now()
	var found problem.List
	if m, ok := Parse("f.yaml", []byte(text), &found); ok {
		m.Done()
	}
	for _, p := range found {
		_ = p.String()
	}
	took = time.Since(start)
	runtime.ReadMemStats(&after)
	return took, (after.TotalAlloc - before.TotalAlloc) >> 20, len(found)
}

func hostileFiles(size int) map[string]string {
	fill := func(s string) string { return strings.Repeat(s, size/len(s)) }
	return map[string]string{
		"one line of double keys": "{" + fill("a: 1, ") + "}",
		"double keys":             fill("a: 1\n"),
		"different keys":          "{" + numbered(size) + "}",
		"empty values":            fill("a:\n"),
		"nulls on one line":       "a: [" + fill("~, ") + "]",
		"decimal commas":          "{" + fill("1,") + "}",
		"open brackets":           fill("["),
		"open braces":             fill("{a: "),
		"dashes":                  fill("- "),
		"question marks":          fill("? "),
		"anchors":                 "a: [" + fill("&x 1, ") + "]",
		"aliases":                 "b: &x 1\na: [" + fill("*x, ") + "]",
		"documents":               fill("---\n"),
		"tabs":                    fill("\ta\n"),
		"tabs in values":          "a: [" + fill("\"\\t\",") + "]",
		"bad bytes":               fill("\xff"),
		"bad lines":               fill("\xff\n"),
		"long key":                fill("k") + ": 1",
		"comments":                fill("# c\n") + "a: 1",
		"quotes":                  "a: \"" + fill("\\u0041"),
		"colons":                  fill("a: "),
		"block":                   "a: |\n" + fill(" x\n"),
		"tags":                    "a: [" + fill("!!x y, ") + "]",
		"directives":              fill("%YAML 1.2\n"),
		"indents":                 fill(" "),
	}
}
