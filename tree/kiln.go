package tree

import (
	"fmt"
	"sort"
	"strings"
	"time"

	"castweek/jobs/workshop"
	"castweek/metal/burnout"
	"castweek/metal/measure"
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
	Sheet     string
}

// Hold keeps the kiln at a temperature, the way up to it counted in.
type Hold struct {
	Hours float64
	At    measure.Celsius
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

// burn parts the trees into kiln loads, and gives each its programme, its path
// and its pours.
func burn(w *workshop.Workshop, c *Cast) {
	at := map[string]*Tree{}
	flasks := burnable(w, c, at)
	loads, _ := w.Firing.Loads(flasks)
	sort.SliceStable(loads, func(i, j int) bool { return hottest(loads[i]) > hottest(loads[j]) })
	start, order := c.Pour, 0
	for _, l := range loads {
		out, fault := loadOf(w.Firing, l, start)
		if fault != nil {
			for _, f := range l.Flasks {
				at[f.Tree].refuse("%s; %s", fault.Message, fault.Remedy)
			}
			continue
		}
		out.Number = len(c.Loads) + 1
		for _, p := range w.Firing.Pours(l, start) {
			t := at[p.Tree]
			order++
			t.Order, t.PourAt, t.Kiln = order, p.When, out.Number
			out.Trees = append(out.Trees, t.Name)
			if out.Pattern == burnout.Resin.String() && !t.Resin {
				out.Riding = append(out.Riding, t.Name)
			}
			start = p.When
		}
		start = start.Add(minutes(w.Firing.BetweenPours))
		c.Loads = append(c.Loads, out)
	}
	c.OutOfKiln = w.Firing.OutOfKiln
	tellKilns(w.Firing, c)
	tellFirst(c)
}

// burnable are the flasks of the trees that can be poured. What no programme of
// the house is for is refused here, tree by tree.
func burnable(w *workshop.Workshop, c *Cast, at map[string]*Tree) []burnout.Flask {
	var out []burnout.Flask
	resin := map[bool]bool{}
	for _, wax := range []bool{false, true} { // resin first: it decides what wax may ride with
		for i := range c.Trees {
			t := &c.Trees[i]
			f := burnout.Flask{Tree: t.Name, Diameter: t.FlaskMM.Diameter, Height: t.FlaskMM.Height, Class: classOf(t), Phosphate: t.Bond == bondPhosphate, CastAt: t.FlaskAt}
			if (f.Class == burnout.Wax) != wax || !t.Pourable() {
				continue
			}
			probe := f
			if wax && resin[f.Phosphate] && w.Firing.ResinWithWax {
				probe.Class = burnout.Resin
			}
			if _, refused := w.Firing.Loads([]burnout.Flask{probe}); len(refused) > 0 {
				t.refuse("%s; %s", refused[0].Message, refused[0].Remedy)
				continue
			}
			resin[f.Phosphate] = resin[f.Phosphate] || f.Class == burnout.Resin
			at[t.Name] = t
			out = append(out, f)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Tree < out[j].Tree })
	return out
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

// loadOf lays a load's programme out. The published cycles only say that a soak
// follows the top; the fall to it takes as long as the kiln takes, and the soak
// is counted from there, so that the first flask has had all of it.
func loadOf(f workshop.Firing, l burnout.Load, first time.Time) (Load, *burnout.Refusal) {
	p := l.Programme
	out := Load{Programme: p.Name, Pattern: p.Class.String(), Bond: bondGypsum, Soak: p.Soak, SoakAt: hottest(l), Top: max(p.Top(), hottest(l)),
		Ramp: p.Ramp, Cooling: f.Cooling, First: first, Sheet: p.Source}
	if p.Phosphate {
		out.Bond = bondPhosphate
	}
	for _, h := range p.Holds {
		out.Holds = append(out.Holds, Hold(h))
		out.Hours += h.Hours
	}
	holds := p
	holds.Soak = 0
	path, fault := holds.Path(out.SoakAt)
	if fault != nil {
		return out, fault
	}
	for _, x := range path {
		out.Path = append(out.Path, PathPoint(x))
	}
	if last := path[len(path)-1].At; last > out.SoakAt {
		out.Change = float64(last-out.SoakAt) / f.Cooling
	} else {
		out.Change = float64(out.SoakAt-last) / p.Ramp
	}
	out.Hours += out.Change
	out.to(out.Hours*60, out.SoakAt)
	out.Hours += p.Soak
	ready := out.Hours * 60
	out.to(ready, out.SoakAt)
	out.On = first.Add(-hours(out.Hours))
	at := out.SoakAt
	for _, x := range f.Pours(l, first) {
		if x.Flask < at {
			out.to(ready+x.Minute-float64(at-x.Flask)/f.Cooling*60, at)
		}
		at = x.Flask
		out.to(ready+x.Minute, at)
	}
	return out, nil
}

// to lets the path go on; a point that is there already is not added again.
func (l *Load) to(minute float64, at measure.Celsius) {
	if n := len(l.Path); n > 0 && minute-l.Path[n-1].Minute < 1e-6 && l.Path[n-1].At == at {
		return
	}
	l.Path = append(l.Path, PathPoint{minute, at})
}

// tellKilns remarks on loads that the house's kilns or its hours do not hold.
func tellKilns(f workshop.Firing, c *Cast) {
	if n := len(c.Loads); n > f.Kilns {
		var of []string
		for _, l := range c.Loads {
			of = append(of, fmt.Sprintf("%s for %s", l.Programme, strings.Join(l.Trees, " ")))
		}
		c.Remarks = append(c.Remarks, Remark{"", "kiln-loads", fmt.Sprintf("the trees need %d kiln loads (%s) and the house has %d for one day", n, strings.Join(of, "; "), f.Kilns),
			"burn the later load on another day, or see burnout in workshop.yaml"})
	}
	for _, l := range c.Loads {
		if l.On.Before(c.CutOff) {
			c.Remarks = append(c.Remarks, Remark{"", "kiln-early", fmt.Sprintf("load %d has to be switched on %s, before orders close %s", l.Number, l.On.Format("Mon 15:04"), c.CutOff.Format("Mon 15:04")),
				"close orders earlier: cut_off in workshop.yaml"})
		}
	}
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

func minutes(m float64) time.Duration {
	return time.Duration(m * float64(time.Minute)).Round(time.Minute)
}
