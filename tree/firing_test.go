package tree

import (
	"math"
	"strings"
	"testing"
	"time"

	"castweek/jobs/workshop"
	"castweek/metal"
	"castweek/metal/burnout"
	"castweek/metal/invest"
	"castweek/metal/measure"
)

func firingShop() *workshop.Workshop {
	return &workshop.Workshop{Alloys: metal.StartList(), Firing: workshop.Firing{House: burnout.DefaultHouse(), Kilns: 1},
		Powders: []workshop.Powder{{Name: "ordinary", Mixing: invest.Gypsum("ordinary")}, {Name: "hot", Phosphate: true, Mixing: invest.Phosphate("hot")}}}
}

func firingTree(name, alloy string, change func(*Tree)) Tree {
	t := Tree{Name: name, Alloy: alloy, Bond: "gypsum", Powder: "ordinary", Section: "medium", FlaskMM: FlaskSize{63.5, 63.5}, Patterns: 5000,
		Charge: metal.Charge{Patterns: 50_000, Button: 49_500, MeltLoss: 500, Total: 100_000}}
	if change != nil {
		change(&t)
	}
	return t
}

func fired(w *workshop.Workshop, trees ...Tree) *Cast {
	c := &Cast{Pour: lotsNow.Add(72 * time.Hour), AsOf: lotsNow, CutOff: lotsNow, Trees: trees}
	fire(w, c)
	return c
}

// The published small cycle of 2 + 1 + 2 h for wax in a flask of 2½ x 2½ inch
// (investment maker's cycles), the fall to 600 °C at 100 K/h and its soak of
// an hour; hottest first, the colder one when the kiln has fallen to it.
func TestFire(t *testing.T) {
	c := fired(firingShop(), firingTree("2026-W49-A", "925 silver", func(t *Tree) { t.Section = "heavy" }), firingTree("2026-W49-B", "925 silver", func(t *Tree) { t.Section = "thin" }))
	a, b := c.Trees[0], c.Trees[1]
	if b.Order != 1 || a.Order != 2 || !b.PourAt.Equal(c.Pour) || a.PourAt.Sub(b.PourAt) != 96*time.Minute {
		t.Errorf("orders %d %d, at %v %v", a.Order, b.Order, a.PourAt, b.PourAt)
	}
	l := c.Loads[0]
	if math.Abs(l.Hours-(5+1.32+1)) > 1e-9 || !l.On.Equal(c.Pour.Add(-hours(7.32))) || l.SoakAt != 600 || l.Top != 732 {
		t.Errorf("load %+v", l)
	}
	if y := c.Yield; y.Charge != 50 || y.Net != 99.5 || y.TiedUp != 99_000 || y.Loss != 1000 {
		t.Errorf("yield %+v", y)
	}
	// 38 parts of water for heavy, 40 for fine castings (investment maker)
	if a.Invest.Ratio != 38 || b.Invest.Ratio != 40 || c.Powders[0].Weight != a.Invest.Powder+b.Invest.Powder {
		t.Errorf("%+v %+v %+v", a.Invest, b.Invest, c.Powders)
	}
}

// The path never rises faster than the ramp and never falls faster than the
// kiln, and is at each flask's temperature at its minute.
func TestPathIsPossible(t *testing.T) {
	var trees []Tree
	for i, s := range []string{"thin", "heavy", "medium", "heavy"} {
		trees = append(trees, firingTree("2026-W49-"+string(rune('A'+i)), []string{"585 yellow", "925 silver"}[i%2], func(t *Tree) { t.Section, t.Resin = s, i == 0 }))
	}
	c := fired(firingShop(), trees...)
	if len(c.Loads) != 1 || c.Loads[0].Pattern != "resin" || len(c.Loads[0].Riding) != 3 {
		t.Fatalf("loads %+v", c.Loads)
	}
	l := c.Loads[0]
	for i := 1; i < len(l.Path); i++ {
		x, y := l.Path[i-1], l.Path[i]
		rate := float64(y.At-x.At) / (y.Minute - x.Minute) * 60
		if y.Minute <= x.Minute || rate > l.Ramp+1e-6 || i > 6 && rate < -l.Cooling-1e-6 {
			t.Errorf("from %+v to %+v: %v K/h", x, y, rate)
		}
	}
}

func TestFireRefuses(t *testing.T) {
	for _, x := range []struct {
		want   string
		alloy  string
		change func(*Tree)
	}{
		{"no flask temperature", "950 palladium", func(t *Tree) { t.Bond, t.Powder = "phosphate", "hot" }},
		{"gypsum-bonded powder does not stand", "950 platinum", nil},
		{"never go with resin", "925 silver", func(t *Tree) { t.InWax, t.Resin = true, true }},
		{"no programme", "925 silver", func(t *Tree) { t.FlaskMM = FlaskSize{150, 250} }},
		{"no investment powder", "925 silver", func(t *Tree) { t.Powder = "" }},
		{"does not fit", "925 silver", func(t *Tree) { t.Patterns = measure.CubicMM(1e6) }},
	} {
		c := fired(firingShop(), firingTree("2026-W49-A", x.alloy, x.change))
		if got := strings.Join(c.Trees[0].Refused, "; "); !strings.Contains(got, x.want) || c.Trees[0].Order != 0 || len(c.Loads) != 0 {
			t.Errorf("%s: refused %q, order %d", x.want, got, c.Trees[0].Order)
		}
	}
	stones := fired(firingShop(), firingTree("2026-W49-A", "925 silver", func(t *Tree) { t.InWax = true }))
	if got := stones.Trees[0]; !got.Quench.Never || got.FlaskAt > burnout.StonesCeiling || !got.Pourable() || stones.Loads[0].Top > burnout.StonesCeiling {
		t.Errorf("stones in the wax: %+v, %+v", got, stones.Loads)
	}
}

// What does not go into the kiln waits until it has been emptied and is cold,
// and is poured at the hour of the cast day; the hottest first, those wished
// before them. With a second kiln nothing waits.
func TestLoadsWaitForTheKiln(t *testing.T) {
	w := firingShop()
	w.Firing.Room = burnout.Room{Flasks: 2}
	w.Gaps.Wall = 6
	shop := func() *Cast {
		return fired(w, firingTree("2026-W49-A", "925 silver", func(t *Tree) { t.Section = "heavy" }), firingTree("2026-W49-B", "925 silver", func(t *Tree) { t.Section = "thin" }),
			firingTree("2026-W49-C", "925 silver", nil), firingTree("2026-W49-D", "925 silver", func(t *Tree) { t.Section, t.First = "heavy", true }))
	}
	c := shop()
	if len(c.Loads) != 2 || strings.Join(c.Loads[0].Trees, " ") != "2026-W49-B 2026-W49-D" || strings.Join(c.Loads[1].Trees, " ") != "2026-W49-C 2026-W49-A" {
		t.Fatalf("%+v", c.Loads)
	}
	first, second := c.Loads[0], c.Loads[1]
	emptied := c.Trees[3].PourAt
	if cold := emptied.Add(hours((440 - 20) / 100.0)); second.On.Before(cold) || !second.First.Equal(c.Pour.AddDate(0, 0, 1)) || !first.First.Equal(c.Pour) {
		t.Errorf("the second load goes on at %v and is poured at %v; the kiln is cold at %v", second.On, second.First, cold)
	}
	if len(c.Remarks) == 0 || c.Remarks[0].Code != "kiln-loads" || !strings.Contains(c.Remarks[0].Text, "load 2 waits") {
		t.Errorf("%+v", c.Remarks)
	}
	if c.Trees[0].OutOfKiln != 1.5 {
		t.Errorf("out of the kiln for %v min", c.Trees[0].OutOfKiln)
	}
	w.Firing.Kilns = 2
	c = shop()
	if got := c.Loads[1]; got.Oven != 2 || got.First.Sub(c.Trees[3].PourAt) != minutes(w.Firing.BetweenPours) {
		t.Errorf("with two kilns: %+v", got)
	}
	w.Firing.Room = burnout.Room{Sizes: map[string]int{"65 x 90": 4}}
	for _, x := range shop().Trees {
		if x.Pourable() || !strings.Contains(x.Refused[0], "goes into the kiln") {
			t.Errorf("%s: %v", x.Name, x.Refused)
		}
	}
}

// The stages run from switching on to the first pour without a hole, and the
// kiln is where a stage says when it says so.
func TestStages(t *testing.T) {
	c := fired(firingShop(), firingTree("2026-W49-A", "925 silver", nil), firingTree("2026-W49-B", "585 yellow", func(t *Tree) { t.Section = "thin" }))
	l := c.Loads[0]
	at := l.On
	for _, s := range l.Stages {
		if !s.From.Equal(at) || s.Reached.Before(s.From) || s.Till.Before(s.Reached) {
			t.Errorf("%+v follows %v", s, at)
		}
		minute := s.Reached.Sub(l.On).Minutes()
		on := false
		for i := 1; i < len(l.Path); i++ {
			a, b := l.Path[i-1], l.Path[i]
			// corners are on the second, stages on the minute
			on = on || minute >= a.Minute-1 && minute <= b.Minute+1 && (a.At == s.At || b.At == s.At)
		}
		if !on {
			t.Errorf("the path is not at %v at %v", s.At, s.Reached)
		}
		at = s.Till
	}
	if d := at.Sub(l.First).Minutes(); d < -1 || d > 1 || len(l.Stages) != 5 {
		t.Errorf("%d stages end at %v, the first pour is at %v", len(l.Stages), at, l.First)
	}
}

// A burnout over a change of clocks holds its hours all the same, and says it.
// The day is of the IANA time zone database.
func TestClocksChangeInABurnout(t *testing.T) {
	z, err := time.LoadLocation("Europe/London")
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range []struct {
		pour time.Time
		to   string
	}{
		{time.Date(2027, 3, 28, 9, 0, 0, 0, z), "2027-03-28T02:00:00+01:00"}, {time.Date(2026, 10, 25, 7, 0, 0, 0, z), "2026-10-25T01:00:00Z"}, {time.Date(2026, 12, 3, 9, 0, 0, 0, z), ""},
	} {
		c := &Cast{Pour: x.pour, AsOf: lotsNow, CutOff: lotsNow, Trees: []Tree{firingTree("2026-W49-A", "925 silver", func(t *Tree) { t.Resin = true })}}
		fire(firingShop(), c)
		l := c.Loads[0]
		if has := !l.ClocksTo.IsZero(); has != (x.to != "") || has && l.ClocksTo.Format(time.RFC3339) != x.to || has != (l.ClocksBy != 0) {
			t.Errorf("%v: %v by %v", x.pour, l.ClocksTo, l.ClocksBy)
		}
		if d := l.First.Sub(l.On) - hours(l.Hours); d.Abs() > time.Minute {
			t.Errorf("%v: off by %v", x.pour, d)
		}
	}
}
