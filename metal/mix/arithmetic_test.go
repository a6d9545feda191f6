package mix

import (
	"math/big"
	"testing"
)

// r reads a decimal or a fraction.
func r(s string) *big.Rat {
	v, ok := new(big.Rat).SetString(s)
	if !ok {
		panic("not a number: " + s)
	}
	return v
}

func near(t *testing.T, what string, got *big.Rat, want, tolerance string) {
	t.Helper()
	if got == nil {
		t.Fatalf("%s: no answer, want %s", what, want)
	}
	d := sub(got, r(want))
	if d.Abs(d).Cmp(r(tolerance)) > 0 {
		t.Errorf("%s: got %s, want %s ±%s", what, got.FloatString(5), want, tolerance)
	}
}

// Worked examples of raising and lowering, in carats of 24 and any weight.
// "exact" tolerances are 0; the others are those of the rounded print.
func TestPublishedRaising(t *testing.T) {
	for _, c := range []struct{ what, S, s, t, f, want, tol, source string }{
		{"A1 20 g", "20", "10", "14", "24", "8", "0", "bench forum, raising gold carat"},
		{"A2 7 g", "7", "10", "14", "24", "2.8", "0", "tool supplier's karat page"},
		{"A4 6 dwt", "6", "10", "14", "24", "2.4", "0", "bench forum, raising gold carat"},
		{"A6 25 dwt", "25", "10", "14", "24", "10", "0", "refiner's sheet, raising and reducing karat"},
		{"A7 20 dwt", "20", "14", "18", "24", "13.34", "0.01", "refiner's karat conversion table"},
		{"A8 15 dwt", "15", "14", "18", "24", "10", "0", "refiner's sheet, karating"},
		{"A10 350 ozt", "350", "10", "14", "24", "139.97", "0.05", "supplier's article 2014, rounded factors"},
		{"A14 750 to 875", "1", "750", "875", "1000", "1", "0", "Journal der Goldschmiedekunst 29 (1908) Nr 29 p. 202"},
		{"A14 2 g", "2", "750", "833", "1000", "0.9940", "0.0001", "ibid., table with factor 0.497"},
		{"A14 3 g", "3", "750", "833", "1000", "1.4910", "0.0001", "ibid."},
		{"150 g at 530", "150", "530", "583", "999.9", "19.07", "0.005", "Belarus instruction 42/105, 28 June 2007"},
	} {
		got, err := Raise(r(c.S), r(c.s), r(c.t), r(c.f))
		if err != nil {
			t.Errorf("%s: %v", c.what, err)
			continue
		}
		near(t, c.what+" ("+c.source+")", got, c.want, c.tol)
		back, _ := Medial(Melted{r(c.S), r(c.s)}, Melted{got, r(c.f)})
		near(t, c.what+" melted together", back, c.t, "0")
	}
}

func TestPublishedLowering(t *testing.T) {
	for _, c := range []struct{ what, S, s, t, want, tol, source string }{
		{"A3 9 dwt", "9", "18", "10", "7.2", "0", "bench forum, raising gold carat"},
		{"A5 25 dwt", "25", "14", "10", "10", "0", "refiner's sheet, raising and reducing karat"},
		{"A7 20 dwt", "20", "18", "14", "5.72", "0.01", "refiner's karat conversion table"},
		{"A8 8 dwt fine", "8", "24", "14", "5.71", "0.005", "refiner's sheet, karating"},
		{"A9 31.1 g fine", "31.1", "24", "18", "10.367", "0.001", "bench forum, alloying down gold"},
		{"A10 500 ozt", "500", "14", "10", "199.95", "0.05", "supplier's article 2014, rounded factors"},
	} {
		got, err := Lower(r(c.S), r(c.s), r(c.t), new(big.Rat))
		if err != nil {
			t.Errorf("%s: %v", c.what, err)
			continue
		}
		near(t, c.what+" ("+c.source+")", got, c.want, c.tol)
	}
}

// A refiner's karat conversion table, "1 unit" (A20): rows 8…17 ct raised or
// lowered to 10…22 ct. The printed cells named in the notes, to 0.001.
func TestKaratConversionTable(t *testing.T) {
	zero, fine := new(big.Rat), r("24")
	for _, c := range []struct{ from, to, want string }{
		{"8", "14", "0.600"}, {"9", "18", "1.500"}, {"12", "22", "5.000"}, {"17", "22", "2.500"}, {"16", "14", "0.143"},
	} {
		got, err := Raise(r("1"), r(c.from), r(c.to), fine)
		if err == ErrTooFine {
			got, err = Lower(r("1"), r(c.from), r(c.to), zero)
		}
		if err != nil {
			t.Fatal(err)
		}
		near(t, c.from+" to "+c.to, got, c.want, "0.0005")
	}
	// The rest of the grid: melted together it must be the wanted carat.
	for from := int64(8); from <= 17; from++ {
		for to := int64(10); to <= 22; to++ {
			s, w, with := big.NewRat(from, 1), big.NewRat(to, 1), fine
			got, err := Raise(r("1"), s, w, fine)
			if err == ErrTooFine {
				with = zero
				got, err = Lower(r("1"), s, w, zero)
			}
			if err != nil {
				t.Fatalf("%d to %d: %v", from, to, err)
			}
			back, err := Medial(Melted{r("1"), s}, Melted{got, with})
			if err != nil || back.Cmp(w) != 0 {
				t.Errorf("%d to %d: %s gives %v", from, to, got, back)
			}
		}
	}
}

func TestPublishedMelts(t *testing.T) {
	// A11, A12: goldsmiths' forum lesson 2006. 8 g 333 + 7.5 g 916.
	got, err := Medial(Melted{r("8"), r("333")}, Melted{r("7.5"), r("916")})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "A11", got, "615", "0.5")
	fine, _ := Equivalent(r("7.5"), r("916"), r("1000"))
	near(t, "A12", fine, "6.87", "0")
	// A13: 585 white whose alloy part is half palladium holds 20.75 % of it.
	white := Rescaled(comp("Pd", "500", "Ag", "500"), "Au", r("585"))
	near(t, "A13", white[1].PerMille, "207.5", "0")
	// A15: old school arithmetic, alligation medial, example 4: 20 8/19 ct.
	got, _ = Medial(Melted{r("8"), r("22")}, Melted{r("20"), r("21")}, Melted{r("10"), r("18")})
	if got.Cmp(r("388/19")) != 0 {
		t.Errorf("A15: got %v, want 20 8/19", got)
	}
	// Belarus instruction 42/105, 28 June 2007: 149.50 g at 530 is 135.91 g at 583.
	got, _ = Equivalent(r("149.5"), r("530"), r("583"))
	near(t, "fineness converted", got, "135.91", "0.005")
	got, _ = Medial(Melted{r("150"), r("530")}, Melted{r("19.07"), r("999.9")})
	near(t, "mix of 169.07 g", got, "583.0", "0.05")
}

// A16: ibid. example 5. 5 lb of 20 ct and 8 lb of 18 ct, wanted 22: no alloy
// can do it, the melt is 3 3/13 ct too poor.
func TestRefusalToRaiseWithAlloy(t *testing.T) {
	is, _ := Medial(Melted{r("5"), r("20")}, Melted{r("8"), r("18")})
	if got := sub(r("22"), is); got.Cmp(r("42/13")) != 0 {
		t.Errorf("short by %v, want 3 3/13", got)
	}
	if _, err := Lower(r("13"), is, r("22"), new(big.Rat)); err != ErrNotFineEnough {
		t.Errorf("lowering to more: %v", err)
	}
	if _, err := Alligate([]*big.Rat{r("20"), r("18")}, r("22")); err != ErrNotFineEnough {
		t.Errorf("alligation: %v", err)
	}
}

func TestPublishedAlligation(t *testing.T) {
	for _, c := range []struct {
		what  string
		have  []string
		to    string
		share []string
		total string // shares scaled to this; "" as they come
	}{
		// Harvard course text: 17, 18, 22, 24 ct to 21 ct.
		{"A17", []string{"17", "18", "22", "24"}, "21", []string{"3", "1", "3", "4"}, ""},
		// Algebra course questions: 20 % and 60 % to 80 g at 52 %; 18 ct and 10 ct to 200 g of 16 ct.
		{"A18", []string{"20", "60"}, "52", []string{"16", "64"}, "80"},
		{"A19", []string{"18", "10"}, "16", []string{"150", "50"}, "200"},
	} {
		var have []*big.Rat
		for _, h := range c.have {
			have = append(have, r(h))
		}
		share, err := Alligate(have, r(c.to))
		if err != nil {
			t.Fatal(err)
		}
		sum := new(big.Rat)
		for _, s := range share {
			sum.Add(sum, s)
		}
		for i, s := range share {
			if c.total != "" {
				s = mul(s, new(big.Rat).Quo(r(c.total), sum))
			}
			if s.Cmp(r(c.share[i])) != 0 {
				t.Errorf("%s: share %d is %v, want %s", c.what, i, s, c.share[i])
			}
		}
	}
}

// Finnish safety authority on fineness: 588 is marked 585, 584 is marked 375.
// 14/24 = 583.3 is not 585 (ISO 9202: no minus tolerance).
func TestMark(t *testing.T) {
	legal := []*big.Rat{r("375"), r("585"), r("750"), r("916"), r("999")}
	for _, c := range []struct{ is, mark string }{
		{"588", "585"}, {"584", "375"}, {"14000/24", "375"}, {"585", "585"}, {"5849999/10000", "375"}, {"1000", "999"},
	} {
		got, ok := Mark(r(c.is), legal)
		if !ok || got.Cmp(r(c.mark)) != 0 {
			t.Errorf("%s: marked %v, want %s", c.is, got, c.mark)
		}
	}
	if m, ok := Mark(r("374.9"), legal); ok {
		t.Errorf("374.9 marked %v", m)
	}
}

// Factors in print that are wrong: 24 to 9 ct as 1.677 and 1.700. True 1.6667.
func TestWrongPublishedFactors(t *testing.T) {
	got, _ := Lower(r("1"), r("24"), r("9"), new(big.Rat))
	if got.Cmp(r("5/3")) != 0 {
		t.Errorf("24 to 9 ct: %v", got)
	}
	for _, wrong := range []string{"1.677", "1.700"} {
		if d := sub(r(wrong), got); d.Cmp(r("0.005")) < 0 {
			t.Errorf("%s is within rounding of %v", wrong, got)
		}
	}
}

func TestArithmeticRefusals(t *testing.T) {
	if _, err := Raise(r("1"), r("750"), r("585"), r("1000")); err != ErrTooFine {
		t.Error("raise downward:", err)
	}
	if _, err := Raise(r("1"), r("585"), r("750"), r("750")); err != ErrNotFineEnough {
		t.Error("raise with the same:", err)
	}
	if _, err := Lower(r("1"), r("750"), r("585"), r("600")); err != ErrTooFine {
		t.Error("lower with finer:", err)
	}
	if _, err := Raise(r("-1"), r("585"), r("750"), r("1000")); err != ErrBadNumber {
		t.Error("negative weight:", err)
	}
	if _, err := Medial(Melted{r("0"), r("585")}); err != ErrBadNumber {
		t.Error("nothing melted:", err)
	}
}
