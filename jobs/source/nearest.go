package source

import "strings"

// Nearest finds the known word that a typed word was most likely meant to be:
// equal but for case and hyphens, or at most two letters off and no more than a
// third of the word.
func Nearest(word string, known []string) (string, bool) {
	const farthest = 60 // no key or name of ours is as long
	if len(word) > farthest {
		return "", false
	}
	best, distance := "", 3
	for _, k := range known {
		d := edits(plain(word), plain(k))
		if d < distance && 3*d <= len([]rune(k)) {
			best, distance = k, d
		}
	}
	return best, best != ""
}

func plain(s string) string {
	return strings.NewReplacer("-", "_", " ", "_").Replace(strings.ToLower(s))
}

// edits counts the letters to insert, drop, change or swap with a neighbour
// between two words (optimal string alignment).
func edits(a, b string) int {
	x, y := []rune(a), []rune(b)
	rows := make([][]int, len(x)+1)
	for i := range rows {
		rows[i] = make([]int, len(y)+1)
		rows[i][0] = i
	}
	for j := range rows[0] {
		rows[0][j] = j
	}
	for i := 1; i <= len(x); i++ {
		for j := 1; j <= len(y); j++ {
			change := 1
			if x[i-1] == y[j-1] {
				change = 0
			}
			rows[i][j] = min(rows[i-1][j]+1, rows[i][j-1]+1, rows[i-1][j-1]+change)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				rows[i][j] = min(rows[i][j], rows[i-2][j-2]+1)
			}
		}
	}
	return rows[len(x)][len(y)]
}
