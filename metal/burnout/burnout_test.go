package burnout

import (
	"testing"
	"time"

	"castweek/metal/measure"
)

// Names of burnout programmes are sums of their holds: 6 h = 2+1+2+1,
// 8 h = 2+2+3+1, 12 h = 2+2+2+4+2 (investment maker's cycles, quoted). The
// programme with stones in place sums to 14 h without its hour of steam.
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
	if _, refused = h.Loads([]Flask{flask("F", Wax, 200, 300)}); len(refused) != 1 || refused[0].Code != "burnout-none" {
		t.Errorf("a flask too large for any programme: %v", refused)
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
	if on := Defaults()[1].KilnOn(start); start.Sub(on) != 8*time.Hour {
		t.Errorf("the kiln goes on at %v", on)
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
