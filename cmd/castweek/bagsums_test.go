package main

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

var weightRow = regexp.MustCompile(`(?m)^\s*(as cast, all castings|K-\S+ cleaned up\S*.*?|cleaned up, together|findings|metal, finished|stones|finished, in all)\s+(\d+\.\d+)\s`)

// sumsOfBags reads the weights of every bag back: what is printed as a sum is
// the sum of what is printed above it.
func sumsOfBags(t *testing.T, file string) {
	text := strings.ReplaceAll(strings.Join(pagesOf(t, file), "\n"), "\u00a0", " ")
	bags := regexp.MustCompile(`page 1 of`).Split(text, -1)
	metals, wholes := 0, 0
	for _, bag := range bags {
		parts, stones, metal := 0.0, 0.0, 0.0
		for _, m := range weightRow.FindAllStringSubmatch(bag, -1) {
			g, err := strconv.ParseFloat(m[2], 64)
			if err != nil {
				t.Fatal(err)
			}
			switch what := m[1]; {
			case strings.Contains(what, "cleaned up"), what == "findings":
				parts += g
			case what == "metal, finished":
				metals++
				metal = g
				if math.Abs(g-parts) > 1e-9 {
					t.Errorf("metal of %v g under parts of %v g", g, parts)
				}
			case what == "stones":
				stones += g
			case what == "finished, in all":
				wholes++
				if metal == 0 {
					metal = parts
				}
				if math.Abs(g-metal-stones) > 1e-9 {
					t.Errorf("in all %v g under metal of %v g and stones of %v g", g, metal, stones)
				}
			}
		}
	}
	if metals < 4 || wholes < 12 {
		t.Errorf("%d sums of metal and %d of all were found", metals, wholes)
	}
}
