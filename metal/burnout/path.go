package burnout

import (
	"fmt"
	"sort"
	"time"

	"castweek/metal/measure"
)

// A Point of the kiln's path: minutes from the start of the kiln.
type Point struct {
	Minute float64
	At     measure.Celsius
}

// Cold is the temperature that the kiln starts from.
const Cold measure.Celsius = 20

// Path is the temperature of the kiln as a line: up to each hold no faster than
// the ramp, then level for the rest of the hold's hours, then down to the soak
// temperature. A hold that the ramp can not reach in its hours is a refusal.
func (p Programme) Path(soakAt measure.Celsius) ([]Point, *Refusal) {
	path := []Point{{0, Cold}}
	at, minute := Cold, 0.0
	for _, h := range p.Holds {
		rise := p.Rise(at, h.At)
		if rise > h.Hours*60 {
			return nil, &Refusal{"burnout-ramp", fmt.Sprintf("%q can not reach %s in %v h at %v K an hour", p.Name, h.At, h.Hours, p.Ramp), "lengthen the hold"}
		}
		path = append(path, Point{minute + rise, h.At}, Point{minute + h.Hours*60, h.At})
		at, minute = h.At, minute+h.Hours*60
	}
	if p.Soak > 0 {
		path = append(path, Point{minute + p.Soak*30, soakAt}, Point{minute + p.Soak*60, soakAt})
	}
	return path, nil
}

// Rise is how many minutes the way up takes at the ramp; none takes it down,
// where the kiln is let fall.
func (p Programme) Rise(from, to measure.Celsius) float64 {
	return max(0, float64(to-from)/p.Ramp*60)
}

// A Pour is one flask's turn.
type Pour struct {
	Tree   string
	Order  int // from 1
	Minute float64
	When   time.Time
	Flask  measure.Celsius
}

// Pours puts the flasks of a load in the order of pouring, hottest first, and
// gives each its minute: no sooner than the pour before allows, and no sooner
// than the kiln has fallen to its temperature. The first is poured at start.
func (h House) Pours(l Load, start time.Time) []Pour {
	flasks := append([]Flask(nil), l.Flasks...)
	sort.SliceStable(flasks, func(i, j int) bool {
		if flasks[i].CastAt != flasks[j].CastAt {
			return flasks[i].CastAt > flasks[j].CastAt
		}
		return flasks[i].Tree < flasks[j].Tree
	})
	var out []Pour
	minute := 0.0
	for i, f := range flasks {
		if i > 0 {
			fall := float64(flasks[i-1].CastAt-f.CastAt) / h.Cooling * 60
			minute += max(h.BetweenPours, fall)
		}
		out = append(out, Pour{f.Tree, i + 1, minute, start.Add(time.Duration(minute * float64(time.Minute))).Round(time.Minute), f.CastAt})
	}
	return out
}
