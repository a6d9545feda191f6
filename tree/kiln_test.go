package tree

import (
	"fmt"
	"testing"
	"time"

	"castweek/jobs/workshop"
	"castweek/metal/burnout"
	"castweek/metal/measure"

	"pgregory.net/rapid"
)

// Whatever the week holds: every tree that can be poured is in one load, no load
// mixes what must burn apart or holds more than the kiln takes, no kiln burns two
// loads at once or is loaded hot, flasks of a load leave hottest first at their
// own temperature, and nothing gets hotter than its powder or its stones stand.
func TestBurnKeepsItsRules(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := firingShop()
		w.Gaps = workshop.Gaps{Wall: 6, WallResin: 10}
		w.Firing.Kilns = rapid.IntRange(1, 3).Draw(t, "kilns")
		w.Firing.ResinWithWax = rapid.Bool().Draw(t, "resin with wax")
		w.Firing.Room = burnout.Room{Flasks: rapid.IntRange(0, 4).Draw(t, "room")}
		wishes := rapid.Bool().Draw(t, "wishes")
		var trees []Tree
		for i := range rapid.IntRange(1, 14).Draw(t, "trees") {
			alloy := rapid.SampledFrom([]string{"925 silver", "585 yellow", "750 red", "950 platinum"}).Draw(t, "alloy")
			trees = append(trees, firingTree(treeName("2026-W49", treeLetter(i)), alloy, func(x *Tree) {
				x.Section = rapid.SampledFrom([]string{"thin", "medium", "heavy"}).Draw(t, "section")
				x.Resin, x.First = rapid.Bool().Draw(t, "resin"), wishes && rapid.Bool().Draw(t, "first")
				x.InWax = alloy != "950 platinum" && !x.Resin && rapid.Bool().Draw(t, "stones")
				if alloy == "950 platinum" {
					x.Bond, x.Powder = "phosphate", "hot"
				}
				if rapid.Bool().Draw(t, "large") {
					x.FlaskMM = FlaskSize{90, 150}
				}
			}))
		}
		c := fired(w, trees...)
		seen := map[string]int{}
		cold := map[int]time.Time{}
		for i, l := range c.Loads {
			for _, o := range c.Loads[:min(i, w.Firing.Kilns)] {
				if i >= w.Firing.Kilns && !wishes && len(l.Trees) > len(o.Trees) {
					t.Fatalf("%d flasks wait for %d", len(l.Trees), len(o.Trees))
				}
			}
			if n := len(l.Trees); n == 0 || w.Firing.Room.Flasks > 0 && n > w.Firing.Room.Flasks {
				t.Fatalf("load %d holds %d flasks", l.Number, n)
			}
			if l.On.Before(cold[l.Oven]) || l.Oven < 1 || l.Oven > w.Firing.Kilns {
				t.Fatalf("kiln %d is switched on %v, cold at %v", l.Oven, l.On, cold[l.Oven])
			}
			before, at := measure.Celsius(2000), l.First
			for _, name := range l.Trees {
				seen[name]++
				x := treeOf(c, name)
				if x.Bond != l.Bond || x.InWax != (l.Pattern == "stones in the wax") || x.Resin && l.Pattern != "resin" || l.Pattern == "resin" && !x.Resin && !w.Firing.ResinWithWax {
					t.Fatalf("%+v burns in %+v", x, l)
				}
				if x.FlaskAt > before || x.PourAt.Before(at) {
					t.Fatalf("%s leaves at %v after %v, %v after %v", name, x.FlaskAt, before, x.PourAt, at)
				}
				if k := kilnAt(l, x.PourAt.Sub(l.On).Minutes()); k < x.FlaskAt-2 || k > x.FlaskAt+2 { // minutes are whole
					t.Fatalf("%s leaves at %v from a kiln at %v", name, x.FlaskAt, k)
				}
				before, at = x.FlaskAt, x.PourAt
			}
			for _, p := range l.Path {
				if l.Ceiling > 0 && p.At > l.Ceiling {
					t.Fatalf("%+v passes its ceiling", l)
				}
			}
			cold[l.Oven] = at.Add(hours(float64(before-burnout.Cold) / w.Firing.Cooling))
		}
		for i := range c.Trees {
			x := &c.Trees[i]
			if want := map[bool]int{true: 1}[x.Pourable()]; seen[x.Name] != want {
				t.Fatalf("%s is in %d loads, refused %v", x.Name, seen[x.Name], x.Refused)
			}
			if !x.Pourable() && x.Order != 0 {
				t.Fatalf("%s is refused and has the place %d", x.Name, x.Order)
			}
		}
	})
}

func treeOf(c *Cast, name string) *Tree {
	for i := range c.Trees {
		if c.Trees[i].Name == name {
			return &c.Trees[i]
		}
	}
	panic(fmt.Sprintf("no tree %s", name))
}

// kilnAt reads the kiln's temperature off its path, point by point: the slow way.
func kilnAt(l Load, minute float64) measure.Celsius {
	for i := 1; i < len(l.Path); i++ {
		a, b := l.Path[i-1], l.Path[i]
		if minute <= b.Minute+1 {
			if minute >= b.Minute || b.Minute == a.Minute {
				return b.At
			}
			return a.At + (b.At-a.At)*measure.Celsius((minute-a.Minute)/(b.Minute-a.Minute))
		}
	}
	return l.Path[len(l.Path)-1].At
}
