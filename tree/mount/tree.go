package mount

import (
	"fmt"
	"math"
	"sort"

	"castweek/metal/measure"
)

// A Tree is castings on one trunk. Placements run from the button upwards, within
// a level by hour.
type Tree struct {
	Placements []Placement
	Levels     []Level
	Left       []string // castings that found no place, in the order given

	TrunkDiameter measure.MM
	TrunkLength   measure.MM
	TrunkVolume   measure.CubicMM
	FeederVolume  measure.CubicMM // of all feeders added
	Height        measure.MM      // of the highest casting or the trunk
	Remarks       []Remark

	room room
	hung []*hung // as Placements
}

// A Level is the castings whose feeders leave the trunk at one height.
type Level struct {
	Number int // from 1, next to the button
	Height measure.MM
	Count  int
}

// A Placement is where one casting hangs.
type Placement struct {
	ID     string
	Level  int
	Hour   float64    // over 0 up to 12, clockwise seen from the top, in quarters of an hour
	Height measure.MM // of the feeder's root on the trunk

	TiltDeg float64 // between the feeder and the part of the trunk away from the button
	RollDeg float64 // turn about the feeder: 0 shows its thin side to its neighbours on the level

	Feeders        int
	FeederInMesh   bool
	FeederDiameter measure.MM
	FeederLength   measure.MM      // from the trunk's surface to the pattern; 0 when it is in the mesh
	FeederVolume   measure.CubicMM // added, all feeders of the casting

	Reach          measure.MM // farthest from the axis of the trunk
	AttachChosen   bool       // no attach was given: it was chosen by outer size alone
	FeederTooThin  bool       // thinner than the section it feeds asks for
	OffDefaultTilt bool       // hung at another tilt than asked, because it fits at no other
	PoorTilt       bool       // hung flatter or steeper than is sound
	FeederTooLong  bool       // longer than is sound

	// Transform maps a point of the pattern's frame to the tree's: row k gives
	// coordinate k as m[k][0]·x + m[k][1]·y + m[k][2]·z + m[k][3].
	Transform [3][4]float64
}

// treeOf writes down a finished search.
func treeOf(f Flask, r room, o Options, bodies []Body, puts []put) Tree {
	t := Tree{TrunkDiameter: f.TrunkDiameter, room: r}
	sort.SliceStable(puts, func(i, j int) bool {
		a, b := puts[i], puts[j]
		if a.level != b.level {
			return a.level < b.level
		}
		return a.hourSlot() < b.hourSlot()
	})
	top, roots := 0.0, 0.0
	seen := make(map[string]bool, len(puts))
	for _, p := range puts {
		h := p.hung
		seen[p.id] = true
		hour := float64(p.hourSlot()) * 12 / slots
		t.Placements = append(t.Placements, Placement{
			ID: p.id, Level: p.level, Hour: hour, Height: measure.MM(p.height), TiltDeg: h.tilt, RollDeg: h.roll,
			Feeders: h.count, FeederInMesh: h.body.Feeders.InMesh, FeederDiameter: measure.MM(h.diameter),
			FeederLength: measure.MM(h.length), FeederVolume: h.feederVolume(), Reach: measure.MM(h.reach),
			AttachChosen: h.chosen, FeederTooThin: h.thin, OffDefaultTilt: h.tilt != o.tilt(),
			PoorTilt: !o.sound().tilted(h.tilt), FeederTooLong: h.length > o.sound().longest(h.body)+roundOff,
			Transform: h.transform(hour, p.height, r),
		})
		t.hung = append(t.hung, h)
		t.FeederVolume += h.feederVolume()
		if n := len(t.Levels); n == 0 || t.Levels[n-1].Number != p.level {
			t.Levels = append(t.Levels, Level{Number: p.level, Height: measure.MM(p.height)})
		}
		t.Levels[len(t.Levels)-1].Count++
		top, roots = math.Max(top, p.height+h.high), math.Max(roots, p.height+h.rootHalf())
	}
	t.TrunkLength = f.TrunkLength
	if t.TrunkLength == 0 {
		t.TrunkLength = measure.MM(roots)
	}
	t.TrunkVolume = measure.CubicMM(math.Pi / 4 * float64(f.TrunkDiameter*f.TrunkDiameter*t.TrunkLength))
	t.Height = measure.MM(math.Max(top, float64(t.TrunkLength)))
	for _, b := range bodies {
		if !seen[b.ID] {
			t.Left = append(t.Left, b.ID)
		}
	}
	t.remark(o.sound())
	return t
}

// remark tells what was hung otherwise than the rules would have it.
func (t *Tree) remark(s Sound) {
	degrees := func(x float64) string { return measure.Decimals(x, 0) + "°" }
	for i, p := range t.Placements {
		about := func(code, message, detail, remedy string) {
			t.Remarks = append(t.Remarks, Remark{p.ID, code, message, detail, remedy})
		}
		b := t.hung[i].body
		need := math.Ceil(float64(FeederDiameter(b.Thickest, b.SectionWidth))*10-roundOff) / 10
		has := fmt.Sprintf("%.1f mm", p.FeederDiameter)
		switch {
		case !p.FeederTooThin:
		case len(b.Points) == 0:
			about("feeder-thin", "a feeder may freeze before the section that it feeds", has+fmt.Sprintf(", by its outer size up to %.1f mm", need), "measure the thickest place")
		default:
			about("feeder-thin", "a feeder freezes before the section that it feeds", has+fmt.Sprintf(", needs %.1f mm", need), "use a thicker one, or attach it to a thinner section")
		}
		if p.FeederTooLong {
			about("feeder-long", "a feeder is longer than "+s.Longest.String()+", as nothing shorter saves the pour, and may freeze too early", p.FeederLength.String(), "use a wider flask, or feed it at another place")
		}
		switch {
		case p.PoorTilt:
			about("tilt-poor", "the tilt is outside "+degrees(s.LeastTilt)+" to "+degrees(s.MostTilt)+", as nothing better saves the pour", degrees(p.TiltDeg), "use a wider flask, or feed it at another place")
		case p.OffDefaultTilt:
			about("tilt-changed", "the tilt is not the house's, as nothing else fits", degrees(p.TiltDeg), "use a wider flask to keep it")
		}
	}
}

// A Remark is about one casting that hangs otherwise than the rules would have it:
// what is so of several castings alike, and the detail that is its own.
type Remark struct{ ID, Code, Message, Detail, Remedy string }
