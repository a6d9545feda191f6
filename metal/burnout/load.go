package burnout

import (
	"fmt"

	"castweek/metal/measure"
)

// A Flask is one flask of a kiln load.
type Flask struct {
	Tree      string
	Diameter  measure.MM
	Height    measure.MM
	Class     Class
	Phosphate bool
	// CastAt is the flask temperature at the pour; see [Temperatures].
	CastAt measure.Celsius
}

// House is what the workshop decides about burning out.
type House struct {
	Programmes []Programme
	// ResinWithWax lets wax burn out in a resin load, under the resin programme.
	ResinWithWax bool
	// StonesSheet names the investment maker's sheet that allows a ceiling above
	// [StonesCeiling]; empty without one.
	StonesSheet  string
	StonesMost   measure.Celsius
	Cooling      float64 // K an hour that the kiln falls with its door shut
	BetweenPours float64 // minutes from one pour to the next
	OutOfKiln    float64 // minutes that a flask may stand out before its pour
}

// DefaultHouse: wax may ride with resin; the kiln falls 100 K an hour and a pour
// takes a quarter of an hour (both common practice, no source); a flask may
// stand out for 1½ minutes, until its outer patterns have dropped by 56 K
// through 6 mm of investment (five steps for investing, bench article).
func DefaultHouse() House {
	return House{Programmes: Defaults(), ResinWithWax: true, Cooling: 100, BetweenPours: 15, OutOfKiln: 1.5}
}

// A Refusal says why flasks can not be burned out as asked. Code is stable.
type Refusal struct{ Code, Message, Remedy string }

func (r *Refusal) Error() string { return r.Message }

// A Load is the flasks that share a kiln under one programme.
type Load struct {
	Programme Programme
	Flasks    []Flask
}

// Loads parts the flasks into kiln loads: phosphate-bonded apart from
// gypsum-bonded, stones in the wax apart from everything, resin apart from wax
// unless the house lets it ride, and each under the longest programme that one
// of its flasks needs.
func (h House) Loads(flasks []Flask) ([]Load, []*Refusal) {
	type key struct {
		phosphate bool
		class     Class
	}
	var order []key
	by := map[key][]Flask{}
	resin := map[bool]bool{}
	for _, f := range flasks {
		resin[f.Phosphate] = resin[f.Phosphate] || f.Class == Resin
	}
	for _, f := range flasks {
		k := key{f.Phosphate, f.Class}
		if f.Class == Wax && resin[f.Phosphate] && h.ResinWithWax {
			k.class = Resin
		}
		if by[k] == nil {
			order = append(order, k)
		}
		by[k] = append(by[k], f)
	}
	var loads []Load
	var refused []*Refusal
	for _, k := range order {
		l := Load{Flasks: by[k]}
		for _, f := range by[k] {
			p, err := h.programme(f, k.class)
			if err != nil {
				refused = append(refused, err)
				continue
			}
			if p.Hours() > l.Programme.Hours() {
				l.Programme = p
			}
		}
		if len(l.Programme.Holds) > 0 {
			loads = append(loads, l)
		}
	}
	return loads, refused
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
		return best, &Refusal{"burnout-none", fmt.Sprintf("%s: no programme for %s is meant for a flask of %s by %s", f.Tree, class, f.Diameter, f.Height),
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
