package burnout

import (
	"fmt"
	"sort"
	"strings"
	"testing"
	"time"

	"castweek/metal/measure"

	"pgregory.net/rapid"
)

// Names of burnout programmes are sums of their holds: 6 h = 2+1+2+1,
// 8 h = 2+2+3+1, 12 h = 2+2+2+4+2 (investment maker's cycles, quoted). The
// programme with stones in place sums to 14 h after its hour of steam; ours adds
// the hour's soak at casting temperature that refiner's tips ask for.
func TestPublishedSums(t *testing.T) {
	want := map[string]float64{"small, wax": 6, "medium, wax": 8, "large, wax": 12, "resin": 12, "stones in the wax": 15}
	for _, p := range Defaults() {
		if w, ok := want[p.Name]; ok && p.Hours() != w {
			t.Errorf("%s takes %v h, want %v", p.Name, p.Hours(), w)
		}
	}
}

func TestEveryDefaultKeepsItsCeilingAndItsRamp(t *testing.T) {
	for _, p := range Defaults() {
		if r := DefaultHouse().Check(p); r != nil {
			t.Errorf("%s: %v", p.Name, r)
		}
		path, r := p.Path(500)
		if r != nil {
			t.Errorf("%s: %v", p.Name, r)
			continue
		}
		if last := path[len(path)-1].Minute; last != p.Hours()*60 {
			t.Errorf("%s ends after %v min", p.Name, last)
		}
		for i := 1; i < len(path); i++ {
			if path[i].Minute < path[i-1].Minute {
				t.Errorf("%s runs backwards at %v", p.Name, path[i])
			}
		}
	}
}

func TestCeilings(t *testing.T) {
	h := DefaultHouse()
	hot := Programme{Name: "hot", Holds: []Hold{{4, 800}}, Ramp: 222}
	if r := h.Check(hot); r == nil || r.Code != "burnout-gypsum" {
		t.Errorf("gypsum at 800 °C: %v", r)
	}
	hot.Phosphate = true
	if r := h.Check(hot); r != nil {
		t.Errorf("phosphate at 800 °C: %v", r)
	}
	stones := Programme{Name: "stones", Class: StonesInWax, Holds: []Hold{{10, 482}}, Ramp: 222}
	if r := h.Check(stones); r == nil || r.Code != "burnout-stones" {
		t.Errorf("stones at 482 °C: %v", r)
	}
	h.StonesSheet, h.StonesMost = "maker's sheet 12", 565
	if r := h.Check(stones); r != nil {
		t.Errorf("with the maker's sheet: %v", r)
	}
	stones.Holds[0].At = 800
	h.StonesMost = 900
	if r := h.Check(stones); r == nil || r.Code != "burnout-gypsum" {
		t.Errorf("no sheet lifts the ceiling of gypsum: %v", r)
	}
}

func flask(tree string, c Class, d, h measure.MM) Flask {
	return Flask{Tree: tree, Class: c, Diameter: d, Height: h}
}

func TestLoads(t *testing.T) {
	h := DefaultHouse()
	all := []Flask{flask("A", Wax, 60, 60), flask("B", Wax, 85, 100), flask("C", Resin, 80, 130), flask("D", StonesInWax, 80, 100)}
	loads, refused := h.Loads(all)
	if len(refused) > 0 || len(loads) != 2 || loads[0].Programme.Name != "resin" || len(loads[0].Flasks) != 3 || loads[1].Programme.Class != StonesInWax {
		t.Errorf("%+v %v", loads, refused)
	}
	h.ResinWithWax = false
	loads, _ = h.Loads(all)
	if len(loads) != 3 || loads[0].Programme.Name != "medium, wax" {
		t.Errorf("apart: %+v", loads)
	}
	phosphate := flask("E", Wax, 80, 100)
	phosphate.Phosphate = true
	loads, _ = h.Loads([]Flask{flask("A", Wax, 60, 60), phosphate})
	if len(loads) != 2 {
		t.Errorf("phosphate shares a gypsum burn: %+v", loads)
	}
}

// A flask that is refused is in no load, and wax does not ride with it.
func TestRefusedIsInNoLoad(t *testing.T) {
	h := DefaultHouse()
	loads, refused := h.Loads([]Flask{flask("A", Wax, 60, 60), flask("F", Wax, 200, 300)})
	if len(refused) != 1 || refused[0].Tree != "F" || refused[0].Code != "burnout-none" || len(loads) != 1 || trees(loads[0]) != "A" {
		t.Errorf("a flask too large for any programme: %+v %+v", loads, refused)
	}
	loads, refused = h.Loads([]Flask{flask("A", Wax, 60, 60), flask("R", Resin, 200, 300)})
	if len(refused) != 1 || len(loads) != 1 || loads[0].Programme.Name != "small, wax" {
		t.Errorf("wax rides with resin that is refused: %+v %+v", loads, refused)
	}
}

func trees(l Load) string {
	var out []string
	for _, f := range l.Flasks {
		out = append(out, f.Tree)
	}
	sort.Strings(out)
	return strings.Join(out, " ")
}

// Resin and wax share a kiln only under the longer programme: wax that needs a
// longer one than the resin has burns by itself.
func TestWaxRidesOnlyUnderTheLongerProgramme(t *testing.T) {
	h := DefaultHouse()
	for i := range h.Programmes {
		if p := &h.Programmes[i]; p.Class == Resin {
			p.Holds = []Hold{{4, 149}, {4, 732}} // 10 h with its soak; large wax has 14
		}
	}
	small, large, resin := flask("A", Wax, 60, 60), flask("B", Wax, 100, 200), flask("C", Resin, 80, 130)
	loads, refused := h.Loads([]Flask{small, large, resin})
	if len(refused) > 0 || len(loads) != 2 {
		t.Fatalf("%+v %v", loads, refused)
	}
	for _, l := range loads {
		if want := map[Class]string{Wax: "B", Resin: "A C"}[l.Programme.Class]; trees(l) != want {
			t.Errorf("%s holds %s, want %s", l.Programme.Name, trees(l), want)
		}
	}
}

// No load holds more than the kiln takes, no flask is lost, and those wished
// first and the hottest go into the first load.
func TestRoom(t *testing.T) {
	h := DefaultHouse()
	h.Room = Room{Flasks: 5, Sizes: map[string]int{"small": 6, "large": 3, "huge": 0}}
	rapid.Check(t, func(t *rapid.T) {
		var all []Flask
		for i := range rapid.IntRange(1, 20).Draw(t, "flasks") {
			f := flask(fmt.Sprint(i), Class(rapid.IntRange(0, 2).Draw(t, "class")), 60, 60)
			f.Size = rapid.SampledFrom([]string{"small", "large", "huge", "unlisted"}).Draw(t, "size")
			f.CastAt = measure.Celsius(rapid.SampledFrom([]int{440, 540, 600}).Draw(t, "at"))
			f.First = rapid.Bool().Draw(t, "first")
			all = append(all, f)
		}
		loads, refused := h.Loads(all)
		n := len(refused)
		for _, r := range refused {
			if r.Code != "burnout-room" {
				t.Fatalf("%+v", r)
			}
		}
		for _, l := range loads {
			sixths := 0
			for _, f := range l.Flasks {
				sixths += map[string]int{"small": 1, "large": 2}[f.Size]
				if f.Size != "small" && f.Size != "large" {
					t.Fatalf("%s is in a load", f.Size)
				}
			}
			if len(l.Flasks) > 5 || sixths > 6 {
				t.Fatalf("%+v does not go in", l.Flasks)
			}
			n += len(l.Flasks)
		}
		if n != len(all) {
			t.Fatalf("%d of %d flasks are loaded or refused", n, len(all))
		}
	})
	// wax that finds no room beside resin burns by itself, not in a second load of resin
	h.Room = Room{Flasks: 2}
	full, _ := h.Loads([]Flask{flask("A", Wax, 60, 60), flask("B", Wax, 60, 60), flask("R", Resin, 60, 60)})
	if len(full) != 2 || trees(full[0]) != "A R" || full[1].Programme.Class != Wax || trees(full[1]) != "B" {
		t.Errorf("%+v", full)
	}
	a, b, c := flask("A", Wax, 60, 60), flask("B", Wax, 60, 60), flask("C", Wax, 60, 60)
	a.CastAt, b.CastAt, c.CastAt, c.First = 440, 600, 540, true
	loads, _ := h.Loads([]Flask{a, b, c})
	if len(loads) != 2 || trees(loads[0]) != "B C" || trees(loads[1]) != "A" {
		t.Errorf("%+v", loads)
	}
}

func TestPours(t *testing.T) {
	h := DefaultHouse()
	a, b, c := flask("A", Wax, 80, 100), flask("B", Wax, 80, 100), flask("C", Wax, 80, 100)
	a.CastAt, b.CastAt, c.CastAt = 440, 640, 630
	start := time.Date(2026, 12, 3, 9, 0, 0, 0, time.UTC)
	got := h.Pours(Load{Flasks: []Flask{a, b, c}}, start)
	for i, want := range []struct {
		tree   string
		minute float64
	}{{"B", 0}, {"C", 15}, {"A", 129}} {
		if got[i].Tree != want.tree || got[i].Order != i+1 || got[i].Minute != want.minute {
			t.Errorf("%d: %+v, want %v", i, got[i], want)
		}
	}
}

// 1½ minutes through 6 mm of investment, in proportion through 12 mm, 3 minutes
// for a window of 111 K (five steps for investing, bench article).
func TestOutOfKiln(t *testing.T) {
	h := DefaultHouse()
	for _, c := range []struct {
		wall measure.MM
		want float64
	}{{6, 1.5}, {10, 2.5}, {12, 3}, {20, 3}, {4, 1}, {5, 1.2}} {
		if got := h.Out(c.wall); got != c.want {
			t.Errorf("%v: %v min, want %v", c.wall, got, c.want)
		}
	}
	if h.OutOfKiln = 2; h.Out(4) != 2 {
		t.Error("the house's own figure is not used")
	}
}

func TestRampTooSlow(t *testing.T) {
	p := Programme{Name: "x", Holds: []Hold{{1, 732}}, Ramp: 100}
	if _, r := p.Path(500); r == nil || r.Code != "burnout-ramp" {
		t.Errorf("got %v", r)
	}
}

// Flask temperatures of published sheets: 925 heavy 399 to 482, medium 510 to
// 566, light 566 to 621 °C (casters' forum); 750 rosé 400 to 500, 500 to 600,
// 600 to 640 (refiner's sheet); 917: 500, 550 to 650, 600 to 700.
func TestHeatsLieInPublishedBands(t *testing.T) {
	band := func(name, family, section string, low, high measure.Celsius) {
		h, ok := HeatOf(Heats(), name, family)
		if got := h.For(section); !ok || got < low || got > high {
			t.Errorf("%s %s: %v, published %v to %v", name, section, got, low, high)
		}
	}
	band("925 silver", "silver", "heavy", 399, 482)
	band("925 silver", "silver", "medium", 510, 566)
	band("925 silver", "silver", "thin", 566, 621)
	band("750 red", "gold", "heavy", 400, 500)
	band("750 red", "gold", "medium", 500, 600)
	band("750 red", "gold", "thin", 600, 640)
	band("916 yellow", "gold", "medium", 550, 650)
	band("750 yellow", "gold", "heavy", 427, 538)
	band("750 yellow", "gold", "thin", 593, 704)
	if h, _ := HeatOf(Heats(), "925 silver", "silver"); h.WaitLow != 15 || h.WaitHigh != 20 {
		t.Errorf("925 waits %v to %v min, the sheet says 15 to 20", h.WaitLow, h.WaitHigh)
	}
}
