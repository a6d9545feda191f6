package receipt

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"castweek/metal/measure"
	"castweek/sheets/internal/reading"
	"castweek/sheets/page"
)

// Everything here is invented.

func at(day, hour int) time.Time {
	return time.Date(2026, 12, day, hour, 0, 0, 0, time.FixedZone("CET", 3600))
}

// short is the ordinary case: too little for piece, trunk and button.
func short() Receipt {
	return Receipt{House: "Saltmarsh & Dory", Number: "M-0031", Customer: "Mrs Ardley", Job: "K-201", Design: "Signet ring, oval face",
		AsOf: at(1, 8), Paper: page.A5, Decimal: "point", Step: 10, Alloy: "750 yellow",
		In: []Lot{
			{What: "two wedding rings", Alloy: "750 yellow", Fineness: 750, Known: StampOnly, Counted: 740, Told: 8200},
			{What: "piece of bar", Alloy: "fine gold", Fineness: 999.9, Known: Certificate, Counted: 999.9, Told: 1500}},
		Need:    Need{Pieces: 6270, Feeders: 1180, Trunk: 5210, Button: 10_000, Loss: 110, Total: 22_770},
		Missing: Short{Weight: 12_680, Fineness: 750},
		Back:    []Back{{"button, trunk and feeders", 16_390}, {"filings and sweeps", 940}},
		Choices: []Choice{{Way: TopUp, Weight: 12_680, Fineness: 750, Alloy: "750 yellow"},
			{Way: SmallestFlask, Flask: "50 x 60", Weight: 13_100, Missing: 3010}, {Way: ByHand}}}
}

// enough needs nothing of the house.
func enough() Receipt {
	r := short()
	r.In = []Lot{{What: "grain", Alloy: "925 silver", Fineness: 925, Known: Certificate, Counted: 925, Told: 60_000}}
	r.Alloy, r.Missing, r.Over, r.Choices = "925 silver", Short{}, 37_230, nil
	r.Back = append([]Back{{"silver that is not needed", 37_230}}, r.Back...)
	return r
}

// heavy is as much as breaks a page: long names, many lots, signs that the
// fonts lack.
func heavy() Receipt {
	r := short()
	r.Customer = "Bartholomew-Featherstonehaugh-Wolfeschlegelsteinhausenbergerdorff and his whole household"
	r.Number = "WORKSHOP-2026-0412-0003"
	r.Design = "A ring whose name does not end where a name should end and goes on and on \U0001F48D"
	for i := range 14 {
		m := r.In[i%2]
		m.What = "chain, broken in several places, with a clasp that somebody soldered to it long ago"
		m.Told = measure.Milligram(1000 + 10*i)
		r.In = append(r.In, m, Lot{What: "coin", Known: Unknown})
	}
	return r
}

var papers = []page.Paper{page.A4, page.A5, page.Letter, page.HalfLetter}

func printed(t *testing.T, r Receipt) []byte {
	t.Helper()
	pdf, remarks, err := Print(r, Options{})
	if err != nil || len(remarks) > 0 {
		t.Fatal(remarks, err)
	}
	return pdf
}

// read gives the words of each page with every run of spaces as one.
func read(t *testing.T, pdf []byte) []string {
	t.Helper()
	var out []string
	for _, p := range reading.Pages(t, pdf) {
		out = append(out, strings.Join(strings.Fields(strings.ReplaceAll(p, "\u00a0", " ")), " "))
	}
	return out
}

// TestOnePage: the ordinary receipts stand on one page of every paper, with
// every figure, both hands' lines, and what counts.
func TestOnePage(t *testing.T) {
	wants := map[string][]string{
		"short": {"Receipt for your own metal", "M-0031", "Mrs Ardley", "Saltmarsh & Dory", "K-201, Signet ring, oval face", "Brought in, date",
			"two wedding rings, 750 yellow", "750 ‰ by stamp only; counted as 740 ‰", "999.9 ‰ by certificate", "8.20", "1.50", "Together",
			"The job takes of 750 yellow, in g", "6.27 1.18 5.21 10.00 0.11 22.77", "Missing: 12.68 g of 750 ‰", "button, trunk and feeders", "16.39",
			"filings and sweeps", "0.94", "adds 12.68 g of 750 ‰ (750 yellow)", "50 x 60: 13.10 g in all; 3.01 g still missing", "Made by hand",
			"Only what is weighed and signed for counts", "given back on", "page 1 of 1"},
		"enough": {"Enough, with 37.23 g over", "silver that is not needed", "37.23", "925 ‰ by certificate", "60.00", "page 1 of 1"},
	}
	for name, r := range map[string]Receipt{"short": short(), "enough": enough()} {
		for _, paper := range papers {
			r.Paper = paper
			pdf := printed(t, r)
			if !bytes.Equal(pdf, printed(t, r)) {
				t.Errorf("%s on %s: two prints differ", name, paper.Name)
			}
			reading.Sound(t, pdf)
			pages := read(t, pdf)
			if len(pages) != 1 {
				t.Fatalf("%s on %s: %d pages", name, paper.Name, len(pages))
			}
			for _, want := range wants[name] {
				if !strings.Contains(pages[0], want) {
					t.Errorf("%s on %s lacks %q:\n%s", name, paper.Name, want, pages[0])
				}
			}
			if strings.Count(pages[0], "Customer") != 2 || strings.Contains(pages[0], "[receipt") || strings.Contains(pages[0], "{") {
				t.Errorf("%s on %s: words are missing:\n%s", name, paper.Name, pages[0])
			}
		}
	}
	if text := read(t, printed(t, enough()))[0]; strings.Contains(text, "tick one") || strings.Contains(text, "Missing") {
		t.Error("choices where nothing is missing")
	}
}

func TestDecimalComma(t *testing.T) {
	r := short()
	r.Decimal = "comma"
	text := read(t, printed(t, r))[0]
	for _, want := range []string{"8,20", "999,9 ‰", "6,27 1,18 5,21 10,00 0,11 22,77", "Missing: 12,68 g of 750 ‰"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in:\n%s", want, text)
		}
	}
}

// TestNothingIsRounded: a weight between two steps of the scale is printed in
// whole milligrams.
func TestNothingIsRounded(t *testing.T) {
	r := short()
	r.Missing.Weight = 12_684
	if text := read(t, printed(t, r))[0]; !strings.Contains(text, "Missing: 12.684 g") || !strings.Contains(text, "6.270 1.180 5.210 10.000 0.110 22.770") {
		t.Errorf("a weight was rounded:\n%s", text)
	}
}

// TestNotKnownYet: metal that is neither weighed nor assayed is never called
// enough.
func TestNotKnownYet(t *testing.T) {
	r := short()
	r.Missing, r.Choices = Short{}, nil
	r.In = []Lot{{What: "old coin", Known: Unknown, Told: 8000}, {What: "chain", Fineness: 750, Known: StampOnly, Counted: 740}}
	text := read(t, printed(t, r))[0]
	for _, want := range []string{"no fineness known; not counted before it is", "assayed", "Enough or not: known when it is weighed and assayed"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in:\n%s", want, text)
		}
	}
	r.In[1].Told = 40_000
	if text := read(t, printed(t, r))[0]; !strings.Contains(text, "Enough, nothing over") {
		t.Errorf("not called enough:\n%s", text)
	}
}

// TestLongReceipt: what does not fit goes on, on the larger paper, and nothing
// is lost; the lines to sign stay with what counts.
func TestLongReceipt(t *testing.T) {
	r := heavy()
	pdf, remarks, err := Print(r, Options{})
	if err != nil {
		t.Fatal(err)
	}
	var told []string
	for _, p := range remarks {
		told = append(told, p.Code)
	}
	if !slices.Contains(told, "sign-not-in-fonts") || !slices.Contains(told, "receipt-paper") {
		t.Errorf("remarks: %v", remarks)
	}
	reading.Sound(t, pdf)
	pages := read(t, pdf)
	all := strings.Join(pages, " ")
	if got := strings.Count(all, "coin"); got != 14 {
		t.Errorf("%d coins", got)
	}
	if !strings.Contains(all, "and his whole household") {
		t.Error("the customer's name is cut")
	}
	for i := range 14 {
		if want := fmt.Sprintf("1.%02d", i); !strings.Contains(all, want) {
			t.Errorf("lot of %s g is lost", want)
		}
	}
	for i, p := range pages {
		if !strings.Contains(p, r.Number) || !strings.Contains(p, fmt.Sprintf("page %d of %d", i+1, len(pages))) {
			t.Errorf("page %d does not say what it is:\n%s", i+1, p)
		}
		if strings.Contains(p, "signed by") && !strings.Contains(p, "Only what is weighed") {
			t.Error("signatures are parted from what they are for")
		}
	}
}

// TestRefused: what must not be signed is not printed.
func TestRefused(t *testing.T) {
	for code, spoil := range map[string]func(r *Receipt){
		"receipt-empty":   func(r *Receipt) { r.Customer = " " },
		"receipt-nothing": func(r *Receipt) { r.In = nil },
		"receipt-number":  func(r *Receipt) { r.Number = strings.Repeat("9", 41) },
		"receipt-step":    func(r *Receipt) { r.Step = 0 },
		"receipt-paper":   func(r *Receipt) { r.Paper = page.A6; r.Paper.W = 60 },
		"receipt-weight":  func(r *Receipt) { r.In[0].Told = -1 },
		"receipt-sum":     func(r *Receipt) { r.Need.Total++ },
		"receipt-known":   func(r *Receipt) { r.In[0].Known = "" },
		"receipt-fineness": func(r *Receipt) {
			r.Missing.Fineness = 0
		},
		"receipt-choice": func(r *Receipt) { r.Choices[0].Fineness = 0 },
	} {
		r := short()
		spoil(&r)
		pdf, l, err := Print(r, Options{})
		found := false
		for _, p := range l.Errors() {
			found = found || p.Code == code && p.Remedy != ""
		}
		if !found || err == nil || pdf != nil {
			t.Errorf("%s: %v, %v, %d bytes", code, l, err, len(pdf))
		}
	}
	for name, spoil := range map[string]func(r *Receipt){
		"too heavy":         func(r *Receipt) { r.In[0].Told = 1 << 60 },
		"two lines":         func(r *Receipt) { r.Number = "M\n1" },
		"over and missing":  func(r *Receipt) { r.Over = 1 },
		"finer than it is":  func(r *Receipt) { r.In[0].Counted = 760 },
		"counted from none": func(r *Receipt) { r.In[0].Known = Unknown },
		"no such way":       func(r *Receipt) { r.Choices[2].Way = "barter" },
		"no flask":          func(r *Receipt) { r.Choices[1].Flask = "" },
		"no date":           func(r *Receipt) { r.AsOf = time.Time{} },
		"not a number":      func(r *Receipt) { r.In[0].Fineness = measure.PerMille(nan()) },
	} {
		r := short()
		spoil(&r)
		if pdf, _, err := Print(r, Options{}); err == nil || pdf != nil {
			t.Errorf("%s was printed", name)
		}
	}
}

// TestManyLines: hundreds of lines in a name are printed, over pages.
func TestManyLines(t *testing.T) {
	r := short()
	r.Customer, r.Design, r.In[0].What = strings.Repeat("x\n", 700), strings.Repeat("\n", 700), strings.Repeat("broken chain\n", 500)
	pdf, _, err := Print(r, Options{})
	if err != nil {
		t.Fatal(err)
	}
	all := strings.Join(read(t, pdf), " ")
	if n := strings.Count(all, "broken chain"); n != 500 || !strings.Contains(all, "signed by") {
		t.Errorf("%d of 500 lines are left", n)
	}
}

func nan() float64 { zero := 0.0; return zero / zero }

// FuzzPrint: no words and no weights make the printer panic or print without
// an end.
func FuzzPrint(f *testing.F) {
	f.Add("Mrs Ardley", "M-1", "two rings", int64(8200), int64(6270), 750.0, "comma")
	f.Add("\xff\u202e\n\n", "\x00", strings.Repeat("x", 300), int64(-1), int64(1)<<62, -1e300, "")
	f.Fuzz(func(t *testing.T, customer, number, what string, told, pieces int64, fine float64, decimal string) {
		if len(customer)+len(number)+len(what) > 2000 {
			t.Skip()
		}
		r := short()
		r.Customer, r.Number, r.Design, r.Decimal = customer, number, what, decimal
		r.In[0] = Lot{What: what, Alloy: customer, Fineness: measure.PerMille(fine), Known: Assay, Counted: measure.PerMille(fine), Told: measure.Milligram(told)}
		r.Need.Total += measure.Milligram(pieces) - r.Need.Pieces
		r.Need.Pieces = measure.Milligram(pieces)
		pdf, l, err := Print(r, Options{})
		if (err == nil) == (pdf == nil) || err == nil && len(l.Errors()) > 0 {
			t.Fatalf("%d bytes, %v, %v", len(pdf), l, err)
		}
	})
}
