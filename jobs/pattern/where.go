package pattern

import (
	"fmt"
	"math"
	"strings"
)

// where says in words and mm where a place lies, from the middle of the outer
// box: x runs to the right, y to the back, z up.
func where(r *Report, p Point) string {
	d := p.sub(r.Box.centre())
	var parts []string
	for k, names := range [3][2]string{{"left", "right"}, {"in front", "behind"}, {"below", "above"}} {
		if v := d[k]; math.Abs(v) >= 0.05 {
			n := names[1]
			if v < 0 {
				n = names[0]
			}
			parts = append(parts, fmt.Sprintf("%.1f mm %s", math.Abs(v), n))
		}
	}
	if len(parts) == 0 {
		return "at the centre"
	}
	return strings.Join(parts, ", ") + " of the centre"
}
