package tree

import (
	"time"

	"castweek/jobs/workshop"
	"castweek/metal/burnout"
	"castweek/metal/measure"
)

// A castDay gives each load the kiln that is free first, and its first pour: on
// the cast day while kilns last, else at the same hour of the first day by
// which a kiln has been emptied, has cooled, and has run the programme.
type castDay struct {
	firing workshop.Firing
	start  time.Time   // of the first pour of all
	free   []time.Time // each kiln, cold and empty; zero for one that is
	last   time.Time   // the last pour so far
}

func newCastDay(f workshop.Firing, pour time.Time) *castDay {
	return &castDay{firing: f, start: pour, free: make([]time.Time, max(f.Kilns, 1))}
}

// sameDay is how long after the first pour one still counts as of that day.
const sameDay = 12 * time.Hour

// mostDays bounds the search for a day: no workshop has as many loads.
const mostDays = 366

// load lays a load out in the kiln that is free first.
func (d *castDay) load(l burnout.Load) (Load, *burnout.Refusal) {
	oven := 0
	for i := range d.free {
		if d.free[i].Before(d.free[oven]) {
			oven = i
		}
	}
	var out Load
	for n := range mostDays {
		first := d.start.AddDate(0, 0, n)
		if !d.last.IsZero() {
			if next := d.last.Add(minutes(d.firing.BetweenPours)); next.After(first) {
				if next.Sub(first) > sameDay {
					continue // the pours of another day
				}
				first = next
			}
		}
		var fault *burnout.Refusal
		if out, fault = loadOf(d.firing, l, first); fault != nil {
			return out, fault
		}
		out.Oven = oven + 1
		if !out.On.Before(d.free[oven]) {
			return out, nil
		}
	}
	return out, &burnout.Refusal{Code: "kiln-never", Message: "no kiln is free for it within a year", Remedy: "cast fewer trees at a time"}
}

// pour gives the pours of a load that was laid out, and takes its kiln until it
// is cold again.
func (d *castDay) pour(l burnout.Load, out Load) []burnout.Pour {
	pours := d.firing.Pours(l, out.First)
	end := pours[len(pours)-1]
	d.last = end.When
	d.free[out.Oven-1] = end.When.Add(hours(float64(end.Flask-burnout.Cold) / d.firing.Cooling))
	return pours
}

// loadOf lays a load's programme out. The published cycles only say that a soak
// follows the top; the fall to it takes as long as the kiln takes, and the soak
// is counted from there, so that the first flask has had all of it.
func loadOf(f workshop.Firing, l burnout.Load, first time.Time) (Load, *burnout.Refusal) {
	p := l.Programme
	out := Load{RoomKnown: f.Room.Known(), Programme: p.Name, Pattern: p.Class.String(), Bond: bondGypsum, Soak: p.Soak, SoakAt: hottest(l), Top: max(p.Top(), hottest(l)),
		Ramp: p.Ramp, Cooling: f.Cooling, First: first, Sheet: p.Source}
	if p.Phosphate {
		out.Bond = bondPhosphate
	} else {
		out.Sulphur, out.Ceiling = burnout.GypsumCeiling, burnout.GypsumCeiling
	}
	if p.Class == burnout.StonesInWax {
		out.Ceiling, out.CeilingBy = f.StonesTop(), f.StonesSheet
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
	out.Stages = out.stages(p)
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

// stages puts the programme on the clock.
func (l *Load) stages(p burnout.Programme) []Stage {
	var out []Stage
	on := func(minute float64) time.Time { return l.On.Add(minutes(minute)) }
	minute, at := 0.0, burnout.Cold
	for _, h := range l.Holds {
		till := minute + h.Hours*60
		out = append(out, Stage{StageHold, h.At, on(minute), on(minute + p.Rise(at, h.At)), on(till)})
		minute, at = till, h.At
	}
	if l.Change > 0 {
		till := minute + l.Change*60
		out = append(out, Stage{StageChange, l.SoakAt, on(minute), on(till), on(till)})
		minute = till
	}
	return append(out, Stage{StageSoak, l.SoakAt, on(minute), on(minute), on(minute + l.Soak*60)})
}

func minutes(m float64) time.Duration {
	return time.Duration(m * float64(time.Minute)).Round(time.Minute)
}
