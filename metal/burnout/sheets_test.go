package burnout

import (
	"testing"

	"castweek/metal/measure"
)

// Published burnouts of gypsum-bonded flasks, with the sum that their source
// gives. Each can be written as a programme, sums to that, keeps the ceiling and
// can be reached at 222 K/h; a small flask may rise faster. Holds and sums exact.
func TestPublishedCycles(t *testing.T) {
	for _, c := range []struct {
		name   string
		class  Class
		holds  []Hold
		soak   float64
		total  float64
		ramp   float64
		source string
	}{
		{"small, 2½ x 2½ in", Wax, []Hold{{2, 149}, {1, 371}, {2, 732}}, 1, 6, 222, "investment maker's cycle, quoted on a bench forum"},
		{"medium, 3½ x 4 in", Wax, []Hold{{2, 149}, {2, 371}, {3, 732}}, 1, 8, 222, "ibid."},
		{"large, 4 x 8 in", Wax, []Hold{{2, 149}, {2, 315}, {2, 482}, {4, 732}}, 2, 12, 222, "ibid."},
		{"sterling, class, 2 x 3 in", Wax, []Hold{{2, 149}, {2, 371}, {3, 732}}, 2, 9, 222, "bench forum; the last two hours at 621 °C"},
		{"stones in place, after an hour of steam", StonesInWax, []Hold{{2, 149}, {2, 260}, {10, 427}}, 0, 14, 222, "text on burning out with stones in place: 15 h with the steam"},
	} {
		p := Programme{Name: c.name, Class: c.class, Holds: c.holds, Soak: c.soak, Ramp: c.ramp}
		if p.Hours() != c.total {
			t.Errorf("%s: %v h, want %v (%s)", c.name, p.Hours(), c.total, c.source)
		}
		if r := DefaultHouse().Check(p); r != nil {
			t.Errorf("%s: %v", c.name, r)
		}
		if _, r := p.Path(600); r != nil {
			t.Errorf("%s: %v", c.name, r)
		}
	}
}

// °F of the sources as °C of the programmes, to the degree.
func TestFahrenheit(t *testing.T) {
	for f, c := range map[float64]float64{300: 149, 500: 260, 600: 316, 700: 371, 850: 454, 900: 482, 1350: 732, 1600: 871} {
		if got := (f - 32) / 1.8; got < c-0.6 || got > c+0.6 {
			t.Errorf("%v °F is %v °C, not %v", f, got, c)
		}
	}
	for _, p := range Defaults() {
		for _, h := range p.Holds {
			switch h.At {
			case 149, 260, 315, 371, 427, 482, 732, 871: // 600 °F is 315.6 °C
			default:
				t.Errorf("%s holds at %v, which no source does", p.Name, h.At)
			}
		}
	}
}

// Metal and flask at the pour against the sheets that they are from: the metal
// within the sheet's range, the flask within its row for the section.
func TestHeatsAgainstSheets(t *testing.T) {
	type band struct{ low, high measure.Celsius }
	for _, c := range []struct {
		alloy, family        string
		metal                band
		thin, medium, heavy  band
		waitLeast, waitUntil float64
		disputed             bool
		source               string
	}{
		{"925 silver", "silver", band{970, 970}, band{566, 621}, band{510, 566}, band{399, 482}, 15, 20, false, "refiner's sheet for 925; flask from a casters' forum"},
		{"750 red", "gold", band{950, 1050}, band{600, 640}, band{500, 600}, band{400, 500}, 10, 15, true, "refiner's sheet for 750 rosé; 18 ct red is quenched from dull red on two other pages"},
		{"916 yellow", "gold", band{1050, 1130}, band{600, 700}, band{550, 650}, band{500, 500}, 12, 15, true, "refiner's sheet for 917; wait from a casters' forum"},
		{"585 yellow", "gold", band{1030, 1030}, band{620, 620}, band{620, 620}, band{427, 620}, 12, 15, true, "refiner's sheet for pale 585, one flask temperature"},
		{"750 yellow", "gold", band{0, 0}, band{593, 704}, band{427, 538}, band{427, 538}, 12, 15, true, "carat gold in general, refiner's tips"},
		{"585 white", "gold", band{0, 0}, band{593, 704}, band{427, 540}, band{427, 538}, 15, 17, true, "white at the high end, refiner's tips"},
		{"950 platinum", "platinum", band{1780, 1780}, band{850, 950}, band{850, 950}, band{850, 950}, 10, 20, false, "platinum maker's paper; flask common practice, no source"},
		{"950 palladium", "palladium", band{1350, 1400}, band{0, 0}, band{0, 0}, band{0, 0}, 0, 0, false, "palladium casting tips"},
	} {
		h, ok := HeatOf(Heats(), c.alloy, c.family)
		if !ok {
			t.Fatal(c.alloy)
		}
		within := func(what string, got measure.Celsius, b band) {
			if got < b.low || got > b.high {
				t.Errorf("%s, %s: %v, %s has %v to %v", c.alloy, what, got, c.source, b.low, b.high)
			}
		}
		within("metal", h.Metal, c.metal)
		within("thin", h.For("thin"), c.thin)
		within("medium", h.For("medium"), c.medium)
		within("heavy", h.For("heavy"), c.heavy)
		if h.WaitLow != c.waitLeast || h.WaitHigh != c.waitUntil || h.Disputed != c.disputed {
			t.Errorf("%s waits %v to %v min, disputed %v; want %v to %v, %v", c.alloy, h.WaitLow, h.WaitHigh, h.Disputed, c.waitLeast, c.waitUntil, c.disputed)
		}
		if h.Disputed && h.Quench == "" {
			t.Errorf("%s: sheets disagree, and nothing says how", c.alloy)
		}
	}
}
