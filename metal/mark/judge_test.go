package mark

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"castweek/metal/measure"
)

// of is a weighed article of one metal.
func of(e Element, fine Parts, w measure.Milligram) Article {
	return Article{Metals: []Metal{{e, fine, Weighed(w)}}}
}

func judged(t *testing.T, country string, a Article, want Kind) Verdict {
	t.Helper()
	v, l := Judge(country, a)
	if len(l) > 0 || v.Kind != want {
		t.Errorf("%s %+v: %s, want %s; %v", country, a, v, want, l)
	}
	return v
}

// TestBritishLimits: "less than" the limit. Hallmarking Act 1973, schedule 1
// part II, paragraph 12, as amended; convention's profile of the United Kingdom.
func TestBritishLimits(t *testing.T) {
	for _, c := range []struct {
		e    Element
		fine Parts
		w    measure.Milligram
		want Kind
	}{
		{Gold, 750_000, 990, Exempt}, {Gold, 750_000, 1000, Needed}, {Gold, 750_000, 999, Exempt},
		{Silver, 925_000, 7770, Exempt}, {Silver, 925_000, 7780, Needed},
		{Platinum, 950_000, 490, Exempt}, {Platinum, 950_000, 500, Needed},
		{Palladium, 950_000, 990, Exempt}, {Palladium, 950_000, 1000, Needed},
		{Gold, 374_000, 500, AskOffice}, // exempt only at a legal fineness
	} {
		judged(t, "United Kingdom", of(c.e, c.fine, c.w), c.want)
	}
}

// TestStonesDoNotCount: silver of 8.00 g with stones of 1.5 ct is 7.70 g of
// metal and exempt (weight of the metal alone, stones excluded: assay offices'
// leaflet; 1 ct = 200 mg).
func TestStonesDoNotCount(t *testing.T) {
	net, err := MetalOnly(8000, 1.5)
	if err != nil || net != 7700 {
		t.Fatalf("net %s, %v", net, err)
	}
	judged(t, "GB", of(Silver, 925_000, net), Exempt)
	judged(t, "GB", of(Silver, 925_000, 8000), Needed)
	if net, _ := MetalOnly(8000, 1.1009); net != 7780 { // 220.18 mg of stones
		t.Errorf("stones are rounded up: %s", net)
	}
	for _, bad := range []struct {
		g measure.Milligram
		c measure.Carat
	}{{8000, 40}, {8000, -1}, {0, 0}, {-5, 1}, {8000, 1e300}} {
		if n, err := MetalOnly(bad.g, bad.c); err == nil {
			t.Errorf("%v is accepted as %s", bad, n)
		}
	}
}

// TestBand: near the limit a prediction never exempts.
func TestBand(t *testing.T) {
	for _, c := range []struct {
		at, band measure.Milligram
		want     Kind
	}{
		{900, 99, Exempt}, {900, 100, WeighFirst}, {990, 50, WeighFirst}, {1000, 1, WeighFirst},
		{1050, 50, Needed}, {1049, 50, WeighFirst}, {999, 1, WeighFirst}, {100, 5000, WeighFirst},
	} {
		judged(t, "GB", Article{Metals: []Metal{{Gold, 750_000, Predicted(c.at, c.band)}}}, c.want)
	}
	// bands of two castings of one alloy add up
	judged(t, "GB", Article{Metals: []Metal{{Gold, 750_000, Predicted(450, 26)}, {Gold, 750_000, Predicted(470, 54)}}}, WeighFirst)
	judged(t, "GB", Article{Metals: []Metal{{Gold, 750_000, Predicted(450, 25)}, {Gold, 750_000, Predicted(470, 54)}}}, Exempt)
}

// TestFindingsCount: a finding counts, marked or not.
func TestFindingsCount(t *testing.T) {
	a := of(Gold, 750_000, 900)
	judged(t, "GB", a, Exempt)
	a.Findings = []Finding{{"butterfly", Gold, 750_000, 100, true}}
	judged(t, "GB", a, Needed)
	a.Findings[0].Weight = 99
	judged(t, "GB", a, Exempt)
	a.Findings[0].Fineness = 0
	judged(t, "GB", a, Exempt)
	a.Findings[0].Marked = false
	judged(t, "GB", a, AskOffice)
	a.Findings[0].Fineness = 585_000
	judged(t, "GB", a, AskOffice) // two marks
}

// TestWhatIsWeighed: the United Kingdom weighs all metal, the Netherlands only
// the metal concerned (Waarborgwet 2019). A mixed article goes to the office
// either way; the lines tell the two laws apart.
func TestWhatIsWeighed(t *testing.T) {
	a := Article{Metals: []Metal{{Gold, 750_000, Weighed(900)}, {Silver, 925_000, Weighed(3000)}}}
	uk, nl := judged(t, "United Kingdom", a, AskOffice), judged(t, "Netherlands", a, AskOffice)
	for i, want := range []struct {
		on measure.Milligram
		is Kind
	}{{3900, Needed}, {3900, Exempt}} {
		if l := uk.Lines[i]; l.On.At != want.on || l.Kind != want.is {
			t.Errorf("UK %s: %s on the scale, %s", l.Metal, l.On, l.Kind)
		}
	}
	for i, want := range []measure.Milligram{900, 3000} {
		if l := nl.Lines[i]; l.On.At != want || l.Kind != Exempt {
			t.Errorf("NL %s: %s on the scale, %s", l.Metal, l.On, l.Kind)
		}
	}
	if !strings.Contains(uk.Reason, "gold and silver") {
		t.Error(uk.Reason)
	}
	// a steel spring in a gold piece: on the British scale, not on the Dutch
	a = Article{Metals: []Metal{{Gold, 750_000, Weighed(900)}}, Findings: []Finding{{"spring", Base, 0, 400, false}}}
	if v := judged(t, "GB", a, AskOffice); v.Lines[0].On.At != 1300 {
		t.Error(v.Lines[0].On)
	}
	if v := judged(t, "NL", a, AskOffice); v.Lines[0].On.At != 900 {
		t.Error(v.Lines[0].On)
	}
	judged(t, "NL", of(Silver, 925_000, 7999), Exempt)
	judged(t, "NL", of(Silver, 925_000, 8000), Needed)
	judged(t, "NL", of(Gold, 375_000, 500), AskOffice)
}

// TestOtherCountries: figures of the countries' own laws, as their data names
// them.
func TestOtherCountries(t *testing.T) {
	for _, c := range []struct {
		country string
		e       Element
		fine    Parts
		w       measure.Milligram
		want    Kind
	}{
		{"Ireland", Gold, 750_000, 1, Needed},   // every weight
		{"Ireland", Gold, 750_000, 900, Needed}, // exempt in the UK
		{"CCM", Silver, 925_000, 10, Needed},
		{"Spain", Gold, 750_000, 10, Needed},
		{"Spain", Palladium, 950_000, 5000, NotCompulsory},
		{"Germany", Gold, 333_000, 50_000, NotCompulsory},
		{"Sweden", Silver, 925_000, 90_000, NotCompulsory},
		{"Sweden", Palladium, 950_000, 10, Needed},
		{"Poland", Silver, 925_000, 4999, Exempt},
		{"Poland", Silver, 925_000, 5000, Needed},
		{"Austria", Gold, 750_000, 2001, Needed},
		{"Austria", Gold, 750_000, 2000, AskOffice}, // exempt at the limit, but what is weighed was not seen
		{"Austria", Gold, 500_000, 5000, AskOffice},
		{"Portugal", Silver, 925_000, 2001, Needed},
		{"France", Silver, 925_000, 30_000, Needed},
		{"France", Silver, 925_000, 29_000, AskOffice},
		{"Norway", Gold, 750_000, 500, AskOffice},
		{"Switzerland", Gold, 750_000, 500, AskOffice},
		{"Finland", Silver, 925_000, 10_000, Needed},
	} {
		judged(t, c.country, of(c.e, c.fine, c.w), c.want)
	}
}

func TestPairsAreAsked(t *testing.T) {
	a := of(Gold, 750_000, 600)
	a.Pair = true
	judged(t, "GB", a, AskOffice)
	judged(t, "IE", a, Needed) // no weight is exempt, however it is weighed
	judged(t, "DE", a, NotCompulsory)
}

func TestBadArticles(t *testing.T) {
	for code, a := range map[string]Article{
		"mark-empty":    {},
		"mark-metal":    of("gold", 750_000, 500),
		"mark-fineness": of(Gold, 0, 500),
		"mark-weight":   of(Gold, 750_000, -1),
		"mark-band":     {Metals: []Metal{{Gold, 750_000, Predicted(500, 0)}}},
		"mark-many":     {Metals: make([]Metal, most+1)},
	} {
		v, l := Judge("GB", a)
		found := false
		for _, p := range l.Errors() {
			found = found || p.Code == code && p.Remedy != ""
		}
		if !found || v.Kind != AskOffice || v.Reason == "" {
			t.Errorf("%s: %s, %v", code, v, l)
		}
	}
	if v, l := Judge("Atlantis", of(Gold, 750_000, 500)); v.Kind != AskOffice || len(l) != 1 || l[0].Code != "mark-country" {
		t.Errorf("%s, %v", v, l)
	}
}

// article draws one of one to three metals with findings.
func article(t *rapid.T) Article {
	var a Article
	metal := rapid.SampledFrom([]Element{Gold, Gold, Gold, Silver, Platinum, Palladium, Base})
	fine := rapid.SampledFrom([]Parts{333_000, 375_000, 585_000, 750_000, 925_000, 950_000, 999_000})
	weight := rapid.OneOf(rapid.Int64Range(1, 1200), rapid.Int64Range(1, 12_000))
	e := metal.Draw(t, "metal")
	for range rapid.IntRange(1, 3).Draw(t, "metals") {
		if rapid.IntRange(0, 3).Draw(t, "other") == 0 {
			e = metal.Draw(t, "metal")
		}
		w := Weighed(measure.Milligram(weight.Draw(t, "mg")))
		if rapid.Bool().Draw(t, "predicted") {
			w = Predicted(w.At, measure.Milligram(rapid.Int64Range(1, 900).Draw(t, "band")))
		}
		a.Metals = append(a.Metals, Metal{e, fine.Draw(t, "fine"), w})
	}
	for range rapid.IntRange(0, 2).Draw(t, "findings") {
		a.Findings = append(a.Findings, Finding{"clasp", e, Parts(rapid.SampledFrom([]int64{0, 750_000, 925_000}).Draw(t, "fine")),
			measure.Milligram(weight.Draw(t, "mg")), rapid.Bool().Draw(t, "marked")})
	}
	a.Pair = rapid.IntRange(0, 4).Draw(t, "pair") == 0
	return a
}

// certain orders verdicts by how much of a mark they ask for.
func certain(k Kind) int {
	switch k {
	case Exempt, NotCompulsory:
		return 0
	case Needed:
		return 2
	}
	return 1
}

// TestHeavierIsNeverMoreExempt: adding weight to any part, or widening a band,
// never moves a verdict towards exemption; and every verdict says who decides.
func TestHeavierIsNeverMoreExempt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.OneOf(rapid.SampledFrom(countries), rapid.Just(unitedKingdom)).Draw(t, "country")
		a := article(t)
		v, l := Judge(c.Name, a)
		if len(l) > 0 {
			t.Fatal(l)
		}
		if v.Decides != Decides || !strings.Contains(v.String(), Decides) || v.Reason == "" || v.Checked == "" {
			t.Fatalf("a verdict without who decides: %+v", v)
		}
		more := measure.Milligram(rapid.Int64Range(1, 9000).Draw(t, "more"))
		b := a
		b.Metals = append([]Metal(nil), a.Metals...)
		i := rapid.IntRange(0, len(b.Metals)-1).Draw(t, "which")
		b.Metals[i].Finished.At += more
		if heavier, _ := Judge(c.Name, b); certain(heavier.Kind) < certain(v.Kind) {
			t.Fatalf("%s: heavier by %s: from %s to %s", c.Name, more, v, heavier)
		}
		b.Metals[i] = a.Metals[i]
		b.Metals[i].Finished = Predicted(a.Metals[i].Finished.At, a.Metals[i].Finished.Band+more)
		if wider, _ := Judge(c.Name, b); certain(v.Kind) == 1 && certain(wider.Kind) != 1 || wider.Kind == Exempt && v.Kind != Exempt {
			t.Fatalf("%s: a wider band by %s: from %s to %s", c.Name, more, v, wider)
		}
	})
}

// TestExemptBySlowReferee: of single metals that the United Kingdom exempts,
// the heaviest thing they may turn out to be is under the Act's limit; written
// with the limits as plain grams.
func TestExemptBySlowReferee(t *testing.T) {
	grams := map[Element]float64{Gold: 1, Silver: 7.78, Platinum: 0.5, Palladium: 1}
	rapid.Check(t, func(t *rapid.T) {
		e := rapid.SampledFrom(precious).Draw(t, "metal")
		at := rapid.Int64Range(1, 9000).Draw(t, "mg")
		band := rapid.Int64Range(1, 500).Draw(t, "band")
		v, _ := Judge("GB", Article{Metals: []Metal{{e, 999_000, Predicted(measure.Milligram(at), measure.Milligram(band))}}})
		heaviest, lightest := float64(at+band)/1000, float64(at-band)/1000
		want := WeighFirst
		if heaviest < grams[e]-1e-9 {
			want = Exempt
		} else if lightest > grams[e]-1e-9 {
			want = Needed
		}
		if v.Kind != want {
			t.Fatalf("%s %d ± %d mg: %s, want %s", e, at, band, v.Kind, want)
		}
	})
}

func FuzzJudge(f *testing.F) {
	f.Add("GB", "Au", int64(750_000), int64(990), int64(5), false)
	f.Add("", "gold", int64(-1), int64(-990), int64(1)<<62, true)
	f.Fuzz(func(t *testing.T, country, metal string, fine, at, band int64, weighed bool) {
		w := Weight{measure.Milligram(at), measure.Milligram(band), weighed}
		v, l := Judge(country, Article{Metals: []Metal{{Element(metal), Parts(fine), w}}, Findings: []Finding{{metal, Element(metal), Parts(fine), measure.Milligram(at), weighed}}})
		if v.Decides != Decides || len(l) > 0 && v.Kind != AskOffice {
			t.Fatalf("%+v %v", v, l)
		}
		if v.Kind == Exempt && (at <= 0 || fine <= 0 || band < 0) {
			t.Fatalf("exempt: %+v", w)
		}
	})
}
