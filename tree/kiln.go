package tree

import (
	"fmt"
	"sort"
	"strings"
	"time"

	"castweek/jobs/workshop"
	"castweek/metal/burnout"
	"castweek/metal/measure"
	"castweek/tree/clock"
)

// A Load is flasks that burn out together under one programme.
type Load struct {
	Number    int // from 1
	Programme string
	Pattern   string // "wax", "resin" or "stones in the wax"
	Bond      string // "gypsum" or "phosphate"
	Trees     []string
	Riding    []string // wax trees that go under the resin programme
	Holds     []Hold
	Change    float64         // hours from the last hold to the first flask's temperature
	Soak      float64         // hours at that temperature, before the first pour
	SoakAt    measure.Celsius // flask temperature of the first pour
	Hours     float64         // from switching on to the first pour
	Top       measure.Celsius
	Ramp      float64     // K an hour at the most
	Cooling   float64     // K an hour that the kiln falls
	Path      []PathPoint // to the last pour
	On        time.Time   // the kiln is switched on
	First     time.Time   // the first pour
	Stages    []Stage
	ClocksTo  time.Time       // what the clocks are set to when they change while it burns; zero: they do not
	ClocksBy  time.Duration   // forward; back is negative
	Oven      int             // which of the house's kilns, from 1
	Ceiling   measure.Celsius // that its powder, or stones in the wax, stand; 0 none
	Sulphur   measure.Celsius // above which gypsum gives off sulphur dioxide; 0 for phosphate
	CeilingBy string          // the maker's sheet that allows stones in the wax more than the general ceiling
	RoomKnown bool            // the house wrote down how many flasks its kiln takes
	Sheet     string
}

// Hold keeps the kiln at a temperature, the way up to it counted in.
type Hold struct {
	Hours float64
	At    measure.Celsius
}

// Kinds of a stage.
const (
	StageHold   = "hold"
	StageChange = "change"
	StageSoak   = "soak"
)

// Stage is a hold, the change to the first flask's temperature, or the soak at
// it, on the clock. Reached is when the kiln is at its temperature.
type Stage struct {
	Kind                string
	At                  measure.Celsius
	From, Reached, Till time.Time
}

// PathPoint is a corner of the kiln's temperature: minutes from switching on.
type PathPoint struct {
	Minute float64
	At     measure.Celsius
}

const (
	bondGypsum    = "gypsum"
	bondPhosphate = "phosphate"
)

// burn parts the trees into kiln loads, and gives each its kiln, its programme,
// its path and its pours.
func burn(w *workshop.Workshop, c *Cast) {
	at := map[string]*Tree{}
	var flasks []burnout.Flask
	for i := range c.Trees {
		if t := &c.Trees[i]; t.Pourable() {
			at[t.Name] = t
			flasks = append(flasks, burnout.Flask{Tree: t.Name, Size: t.Flask, Diameter: t.FlaskMM.Diameter, Height: t.FlaskMM.Height,
				Class: classOf(t), Phosphate: t.Bond == bondPhosphate, CastAt: t.FlaskAt, First: t.First})
			t.OutOfKiln = w.Firing.Out(wallOf(w.Gaps, t.Resin))
		}
	}
	loads, refused := w.Firing.Loads(flasks)
	for _, r := range refused {
		at[r.Tree].refuse("%s; %s", r.Message, r.Remedy)
	}
	inTurn(loads, w.Firing.Kilns)
	day := newCastDay(w.Firing, c.Pour)
	order := 0
	for _, l := range loads {
		out, fault := day.load(l)
		if fault != nil {
			for _, f := range l.Flasks {
				at[f.Tree].refuse("%s; %s", fault.Message, fault.Remedy)
			}
			continue
		}
		out.Number = len(c.Loads) + 1
		pours := day.pour(l, out)
		if at, by, yes := clock.Change(out.On, pours[len(pours)-1].When); yes {
			out.ClocksTo, out.ClocksBy = at, by
		}
		for _, p := range pours {
			t := at[p.Tree]
			order++
			t.Order, t.PourAt, t.Kiln = order, p.When, out.Number
			out.Trees = append(out.Trees, t.Name)
			if out.Pattern == burnout.Resin.String() && !t.Resin {
				out.Riding = append(out.Riding, t.Name)
			}
		}
		c.Loads = append(c.Loads, out)
	}
	tellKilns(w.Firing, c)
	tellFirst(c)
}

// wallOf is the least investment between the castings and the wall of a flask.
func wallOf(g workshop.Gaps, resin bool) measure.MM {
	if resin {
		return g.WallResin
	}
	return g.Wall
}

// inTurn sorts the loads: what a person wishes first, then the hottest. Where
// there are more of them than kilns, those of the fewest flasks wait.
func inTurn(loads []burnout.Load, kilns int) {
	by := func(list []burnout.Load, rank func(burnout.Load) float64) {
		sort.SliceStable(list, func(i, j int) bool {
			if a, b := holdsFirst(list[i]), holdsFirst(list[j]); a != b {
				return a
			}
			return rank(list[i]) > rank(list[j])
		})
	}
	heat := func(l burnout.Load) float64 { return float64(hottest(l)) }
	by(loads, heat)
	if len(loads) > kilns {
		by(loads, func(l burnout.Load) float64 { return float64(len(l.Flasks)) })
		by(loads[:kilns], heat)
	}
}

// holdsFirst tells whether a load has a flask that a person wishes first.
func holdsFirst(l burnout.Load) bool {
	for _, f := range l.Flasks {
		if f.First {
			return true
		}
	}
	return false
}

func classOf(t *Tree) burnout.Class {
	switch {
	case t.InWax:
		return burnout.StonesInWax
	case t.Resin:
		return burnout.Resin
	}
	return burnout.Wax
}

func hottest(l burnout.Load) measure.Celsius {
	var top measure.Celsius
	for _, f := range l.Flasks {
		top = max(top, f.CastAt)
	}
	return top
}

// tellKilns remarks on loads that wait for a kiln or that the house's hours do
// not hold.
func tellKilns(f workshop.Firing, c *Cast) {
	if n := len(c.Loads); n > f.Kilns {
		var of, wait []string
		for _, l := range c.Loads {
			of = append(of, fmt.Sprintf("%s for %s", l.Programme, strings.Join(l.Trees, " ")))
			if l.First.Sub(c.Pour) > sameDay {
				wait = append(wait, fmt.Sprintf("load %d waits for the kiln and is poured from %s", l.Number, l.First.Format("Mon 2 Jan 15:04")))
			}
		}
		c.Remarks = append(c.Remarks, Remark{"", "kiln-loads", fmt.Sprintf("the trees need %d kiln loads and the house has %s: %s; they are %s", n, kilns(f.Kilns), strings.Join(wait, ", "), strings.Join(of, "; ")),
			"hold jobs of the later load for the next cast, or write kilns or kiln in workshop.yaml if more goes in"})
	}
	for _, l := range c.Loads {
		if l.On.Before(c.CutOff) {
			c.Remarks = append(c.Remarks, Remark{"", "kiln-early", fmt.Sprintf("load %d has to be switched on %s, before orders close %s", l.Number, l.On.Format("Mon 15:04"), c.CutOff.Format("Mon 15:04")),
				"close orders earlier: cut_off in workshop.yaml"})
		}
	}
}

func kilns(n int) string {
	if n == 1 {
		return "1 kiln"
	}
	return fmt.Sprintf("%d kilns", n)
}

// tellFirst says when a tree that a person wishes first is not poured first: a
// cooler flask can not go before a hotter one of its kiln.
func tellFirst(c *Cast) {
	for i := range c.Trees {
		t := &c.Trees[i]
		if !t.First || t.Order <= 1 {
			continue
		}
		for _, o := range c.Trees {
			if !o.First && o.Order > 0 && o.Order < t.Order {
				t.note("wished on the first pour, but %s is poured from a hotter flask (%s) and goes before", o.Letter(), o.FlaskAt)
				break
			}
		}
	}
}
