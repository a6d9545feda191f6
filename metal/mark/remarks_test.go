package mark

import (
	"strings"
	"testing"
)

// TestRemarks: limits of REACH annex XVII: nickel entry 27, cadmium entry 23,
// lead entry 63 (the last from memory); the compositions are published recipes
// but for the two impurities.
func TestRemarks(t *testing.T) {
	nickelWhite := map[Element]Parts{Gold: 750_000, "Cu": 55_000, "Zn": 50_000, "Ni": 145_000}
	with := func(e Element, p Parts) map[Element]Parts {
		return map[Element]Parts{Silver: 925_000, "Cu": 75_000 - p, e: p}
	}
	for _, c := range []struct {
		role   Role
		shares map[Element]Parts
		want   string // codes
		says   string
	}{
		{Post, nickelWhite, "nickel-post", "0.2 µg/cm²/week"},
		{Filler, nickelWhite, "", ""},
		{Skin, nickelWhite, "nickel-skin", "0.5 µg/cm²/week"},
		{Away, nickelWhite, "", ""},
		{Skin, with("Zn", 10), "", ""},
		{Skin, with("Cd", 100), "cadmium", "0.1 ‰"},
		{Skin, with("Cd", 99), "", ""},
		{Filler, with("Cd", 100), "cadmium", "filler"},
		{Away, with("Pb", 500), "lead", "0.5 ‰"},
		{Away, with("Pb", 499), "", ""},
		{Post, map[Element]Parts{Silver: 900_000, "Ni": 50_000, "Cd": 25_000, "Pb": 25_000}, "nickel-post cadmium lead", ""},
		{Skin, map[Element]Parts{Gold: 750_000}, "mark-sum", ""},
		{Skin, map[Element]Parts{Gold: 1_100_000, "Ni": -100_000}, "mark-share mark-share mark-sum", ""},
		{"ear", nickelWhite, "mark-role nickel-post", ""},
		{Skin, map[Element]Parts{Silver: 900_000, "Cd": 300_000}, "mark-sum cadmium", ""},
		{Skin, nil, "mark-sum", ""},
	} {
		l := Remarks(Part{Name: "the head", Role: c.role, Shares: c.shares})
		var codes []string
		for _, p := range l {
			codes = append(codes, p.Code)
			if p.Remedy == "" || !strings.Contains(p.Message, c.says) {
				t.Errorf("%s: %s", c.role, p)
			}
		}
		if got := strings.Join(codes, " "); got != c.want {
			t.Errorf("%s %v: %q, want %q", c.role, c.shares, got, c.want)
		}
	}
}

// TestSolder: Portugal's Law 98/2015, article 56 (1)(e), is read; the British
// figures are from memory and must say so.
func TestSolder(t *testing.T) {
	for _, c := range []struct {
		country string
		e       Element
		fine    Parts
		white   bool
		want    Parts
		grade   Grade
	}{
		{"PT", Gold, 916_000, false, 750_000, FromLaw},
		{"PT", Gold, 750_000, false, 750_000, FromLaw},
		{"PT", Gold, 750_000, true, 585_000, FromLaw},
		{"PT", Gold, 375_000, true, 375_000, FromLaw},
		{"PT", Silver, 925_000, false, 650_000, FromLaw},
		{"GB", Gold, 750_000, true, 500_000, FromMemory},
		{"GB", Gold, 585_000, true, 585_000, FromMemory},
		{"GB", Gold, 916_000, false, 750_000, FromMemory},
		{"GB", Platinum, 950_000, false, 800_000, FromMemory},
	} {
		r, ok := Solder(c.country, c.e, c.fine, c.white)
		if !ok || r.LeastFor(c.fine) != c.want || r.Grade != c.grade || r.Source == "" {
			t.Errorf("%s %s %s: %+v, want %s %s", c.country, c.e, c.fine, r, c.want, c.grade)
		}
	}
	for _, none := range []struct {
		country string
		e       Element
	}{{"FR", Gold}, {"PT", Platinum}, {"Atlantis", Gold}} {
		if r, ok := Solder(none.country, none.e, 950_000, false); ok {
			t.Errorf("a rule from nowhere: %+v", r)
		}
	}
}
