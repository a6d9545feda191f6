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

// TestHostile reads files that are made to use up time or memory. The limits
// are far above what is measured (a second on a busy machine) and far below
// what a slip costs (hours, gigabytes).
func TestHostile(t *testing.T) {
	fill := func(s string) string { return strings.Repeat(s, hostile/len(s)) }
	for name, text := range map[string]string{
		"one line of double keys": "{" + fill("a: 1, ") + "}",
		"double keys":             fill("a: 1\n"),
		"different keys":          "{" + numbered(hostile) + "}",
		"empty values":            fill("a:\n"),
		"nulls on one line":       "a: [" + fill("~, ") + "]",
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
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		start := time.Now()
		var problems problem.List
		if m, ok := Parse("f.yaml", []byte(text), &problems); ok {
			m.Done()
		}
		for _, p := range problems {
			_ = p.String()
		}
		runtime.ReadMemStats(&after)
		took, used := time.Since(start), (after.TotalAlloc-before.TotalAlloc)>>20
		t.Logf("%-24s %6d problems %8v %5d MB", name, len(problems), took.Round(time.Millisecond), used)
		if took > 20*time.Second || used > 4000 || len(problems) > maxProblems {
			t.Errorf("%s: %v, %d MB, %d problems", name, took, used, len(problems))
		}
	}
}
