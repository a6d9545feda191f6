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
	var refused []Refused
	var taken []need
	resin := map[bool]bool{}
	for _, f := range flasks {
		r := h.Room.takes(f)
		n := need{Flask: f}
		if r == nil {
			n.own, r = h.programme(f, f.Class)
		}
		if r != nil {
			refused = append(refused, Refused{f.Tree, r})
			continue
		}
		taken = append(taken, n)
		resin[f.Phosphate] = resin[f.Phosphate] || f.Class == Resin
	}
	for i := range taken {
		n := &taken[i]
		if n.Class != Wax || !h.ResinWithWax || !resin[n.Phosphate] {
			continue
		}
		if p, r := h.programme(n.Flask, Resin); r == nil && p.Hours() >= n.own.Hours() {
			n.riding = &p
		}
	}
	return h.fill(taken), refused
}

// need is a flask with the programme that it needs; one of wax also with that
// under which it may ride with resin.
type need struct {
	Flask
	own    Programme
	riding *Programme
}

// fill puts flasks into the first load of their kind that has room: first those
// that can burn in one way only, then wax that may ride with resin and otherwise
// burns by itself; each time those wished first and the hottest before others,
// so that a load holds flasks that are poured near each other.
func (h House) fill(list []need) []Load {
	sort.SliceStable(list, func(i, j int) bool {
		a, b := list[i], list[j]
		if x, y := a.riding == nil, b.riding == nil; x != y {
			return x
		}
		if a.First != b.First {
			return a.First
		}
		if a.CastAt != b.CastAt {
			return a.CastAt > b.CastAt
		}
		return a.Tree < b.Tree
	})
	var loads []Load
	join := func(f Flask, p Programme) bool {
		for i := range loads {
			l := &loads[i]
			if l.Programme.Phosphate != p.Phosphate || l.Programme.Class != p.Class || !h.Room.has(l.Flasks, f) {
				continue
			}
			l.Flasks = append(l.Flasks, f)
			if p.Hours() > l.Programme.Hours() {
				l.Programme = p
			}
			return true
		}
		return false
	}
	for _, n := range list {
		if n.riding != nil && (join(n.Flask, *n.riding)) || join(n.Flask, n.own) {
			continue
		}
		loads = append(loads, Load{Programme: n.own, Flasks: []Flask{n.Flask}})
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
