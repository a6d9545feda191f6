package pour

import (
	"regexp"
	"strings"
)

// ofCasting is a note that speaks of one casting.
var ofCasting = regexp.MustCompile(`(?s)^casting (\S+): (.+)$`)

// together says what several notes say of one casting each once, with all the
// castings before it.
func together(notes []string) []string {
	var out []string
	at := map[string]int{}
	for _, n := range notes {
		m := ofCasting.FindStringSubmatch(n)
		if m == nil {
			out = append(out, n)
			continue
		}
		i, ok := at[m[2]]
		if !ok {
			at[m[2]] = len(out)
			out = append(out, m[1]+": "+m[2])
			continue
		}
		ids, _ := strings.CutSuffix(out[i], ": "+m[2])
		out[i] = ids + ", " + m[1] + ": " + m[2]
	}
	return out
}
