package burnout

import (
	"fmt"
	"math"
	"sort"

	"castweek/metal/measure"
)

// A Flask is one flask of a kiln load.
type Flask struct {
	Tree      string
	Diameter  measure.MM
	Height    measure.MM
	Class     Class
	Phosphate bool
	Size      string          // its kind, as [Room] counts it
	CastAt    measure.Celsius // flask temperature at the pour; see [Heat]
	First     bool            // a person wishes it poured first
}

// House is what the workshop decides about burning out.
type House struct {
	Programmes []Programme
	Room       Room
	// ResinWithWax lets wax burn out in a resin load, under the resin programme.
	ResinWithWax bool
	// StonesSheet names the investment maker's sheet that allows a ceiling above
	// [StonesCeiling]; empty without one.
	StonesSheet  string
	StonesMost   measure.Celsius
	Cooling      float64 // K an hour that the kiln falls with its door shut
	BetweenPours float64 // minutes from one pour to the next
	OutOfKiln    float64 // minutes that a flask may stand out before its pour; 0: see [House.Out]
}

// DefaultHouse: wax may ride with resin; the kiln falls 100 K an hour and a pour
// takes a quarter of an hour (both common practice, no source).
func DefaultHouse() House {
	return House{Programmes: Defaults(), ResinWithWax: true, Cooling: 100, BetweenPours: 15}
}

// Out is how many minutes a flask with so much investment between its castings
// and its wall may stand out of the kiln before its pour. Unless the house says
// otherwise it is 1½ minutes for 6 mm, by when the outer patterns have dropped
// by 56 K, and in proportion for more, up to the 3 minutes in which they drop
// by 111 K (five steps for investing, bench article). Rounded down to a tenth.
func (h House) Out(wall measure.MM) float64 {
	if h.OutOfKiln > 0 {
		return h.OutOfKiln
	}
	return min(math.Floor(1.5*float64(wall)/6*10+1e-9)/10, 3)
}

// A Refusal says why flasks can not be burned out as asked. Code is stable.
type Refusal struct{ Code, Message, Remedy string }

func (r *Refusal) Error() string { return r.Message }

// A Load is the flasks that share a kiln under one programme.
type Load struct {
	Programme Programme
	Flasks    []Flask
}

// Refused is a flask that no load takes, and why.
type Refused struct {
	Tree string
	*Refusal
}

// Loads parts the flasks into kiln loads: phosphate-bonded apart from
// gypsum-bonded, stones in the wax apart from everything, resin apart from wax
// unless the house lets it ride, each under the longest programme that one of
// its flasks needs, and none with more flasks than the kiln takes. A refused
// flask is in no load, and nothing rides with it.
func (h House) Loads(flasks []Flask) ([]Load, []Refused) {
	needs := map[string]Programme{}
	var refused []Refused
	var taken []Flask
	resin := map[bool]bool{}
	take := func(f Flask, class Class) bool {
		r := h.Room.takes(f)
		var p Programme
		if r == nil {
			p, r = h.programme(f, class)
		}
		if r != nil {
			refused = append(refused, Refused{f.Tree, r})
			return false
		}
		needs[f.Tree] = p
		taken = append(taken, f)
		return true
	}
	for _, f := range flasks { // first what wax may ride with
		if f.Class != Wax && take(f, f.Class) && f.Class == Resin {
			resin[f.Phosphate] = true
		}
	}
	for _, f := range flasks {
		if f.Class != Wax || !take(f, Wax) || !h.ResinWithWax || !resin[f.Phosphate] {
			continue
		}
		if p, r := h.programme(f, Resin); r == nil && p.Hours() >= needs[f.Tree].Hours() {
			needs[f.Tree] = p
		}
	}
	return h.fill(taken, needs), refused
}

// fill puts flasks into as few loads as come of taking them in turn: those
// wished first, then the hottest, each into the first load of its kind that has
// room. A load so holds flasks that are poured near each other.
func (h House) fill(flasks []Flask, needs map[string]Programme) []Load {
	sort.SliceStable(flasks, func(i, j int) bool {
		a, b := flasks[i], flasks[j]
		if a.First != b.First {
			return a.First
		}
		if a.CastAt != b.CastAt {
			return a.CastAt > b.CastAt
		}
		return a.Tree < b.Tree
	})
	var loads []Load
	for _, f := range flasks {
		p, at := needs[f.Tree], -1
		for i := range loads {
			if l := &loads[i]; l.Programme.Phosphate == p.Phosphate && l.Programme.Class == p.Class && h.Room.has(l.Flasks, f) {
				at = i
				break
			}
		}
		if at < 0 {
			loads = append(loads, Load{Programme: p, Flasks: []Flask{f}})
			continue
		}
		l := &loads[at]
		l.Flasks = append(l.Flasks, f)
		if p.Hours() > l.Programme.Hours() {
			l.Programme = p
		}
	}
	return loads
}

// programme finds the shortest programme of a class that is meant for a flask
// of this size, and judges it.
func (h House) programme(f Flask, class Class) (Programme, *Refusal) {
	var best Programme
	found := false
	for _, p := range h.Programmes {
		if p.Class != class || p.Phosphate != f.Phosphate || p.Diameter < f.Diameter || p.Height < f.Height {
			continue
		}
		if !found || p.Hours() < best.Hours() {
			best, found = p, true
		}
	}
	if !found {
		return best, &Refusal{"burnout-none", fmt.Sprintf("no programme for %s is meant for a flask of %s by %s", class, f.Diameter, f.Height),
			"write one down from the maker's sheet"}
	}
	return best, h.Check(best)
}

// Check refuses a programme that its powder or its stones do not stand,
// whatever any sheet says.
func (h House) Check(p Programme) *Refusal {
	most := StonesCeiling
	if h.StonesSheet != "" && h.StonesMost > most {
		most = h.StonesMost
	}
	switch top := p.Top(); {
	case !p.Phosphate && top > GypsumCeiling:
		return &Refusal{"burnout-gypsum", fmt.Sprintf("%q goes to %s; gypsum-bonded powder breaks down above %s and gives off sulphur dioxide", p.Name, top, GypsumCeiling),
			"use phosphate-bonded powder, or a programme below the ceiling"}
	case p.Class == StonesInWax && top > most:
		return &Refusal{"burnout-stones", fmt.Sprintf("%q goes to %s; stones in the wax stand no more than %s", p.Name, top, most),
			"lower it, or name the investment maker's sheet that allows more"}
	}
	return nil
}
