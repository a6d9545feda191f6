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
