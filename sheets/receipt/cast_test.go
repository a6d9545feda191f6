package receipt

import (
	"bytes"
	"strings"
	"testing"

	"castweek/sheets/internal/reading"
	"castweek/sheets/words"
	"castweek/tree"
)

// ownCast is a cast with customers' own metal: too little, only what is not
// counted, and nothing in the house yet.
func ownCast() *tree.Cast {
	return &tree.Cast{Name: "2026-W49", AsOf: at(1, 8), Proposal: true, House: tree.House{Name: "Saltmarsh & Dory", ScaleStep: 10},
		OwnMetal: []tree.OwnMetal{
			{Number: "2026-W49-C", Customer: "M. Thorne", Alloy: "585 yellow", Standard: 585, Trees: []string{"2026-W49-C"}, Jobs: []string{"K-211"}, Designs: []string{"band"}, Known: true,
				In:     []tree.OwnLot{{Lot: "T-1", What: "two rings", Alloy: "585 yellow", Fineness: 586, From: "assay", Counted: 586, Weight: 22_400}},
				Pieces: 9_060, Feeders: 2_820, Trunk: 4_730, Button: 10_000, Loss: 130, Total: 26_740, Missing: 4_340, Back: 17_550, Filings: 1_810,
				Smallest: tree.SmallestFlask{Flask: "50 x 60", Takes: 23_400, Missing: 1_000}},
			{Number: "2026-W49-E", Customer: "M. Thorne", Alloy: "750 yellow", Standard: 750, Jobs: []string{"K-212"}, Known: true, Missing: 15_000,
				In:     []tree.OwnLot{{Lot: "T-2", What: "scrap", Alloy: "750 yellow", Fineness: 750, From: "stamp only", Why: "its fineness is known by a stamp only: assay it", Weight: 3_000}},
				Pieces: 5_000, Button: 10_000, Total: 15_000, Back: 10_000, Smallest: tree.SmallestFlask{Flask: "65 x 90", Takes: 15_000, Missing: 15_000}},
			{Number: "2026-W49-D", Customer: "R. Ellery", Alloy: "925 silver", Standard: 925, Jobs: []string{"K-9"},
				Pieces: 5_000, Button: 10_000, Total: 15_000, Back: 10_000, Smallest: tree.SmallestFlask{Flask: "50 x 60", Takes: 15_000}}}}
}

// Every receipt of a cast stands on its page, says whose it is, and says that
// the cast is a proposal until it is accepted.
func TestReceiptsOfACast(t *testing.T) {
	c := ownCast()
	pdf, remarks, err := PrintCast(c, Options{})
	if err != nil || len(remarks) > 0 {
		t.Fatal(remarks, err)
	}
	again, _, _ := PrintCast(c, Options{})
	if !bytes.Equal(pdf, again) {
		t.Error("two prints differ")
	}
	reading.Sound(t, pdf)
	pages := read(t, pdf)
	if len(pages) != 3 {
		t.Fatalf("%d pages", len(pages))
	}
	for i, wants := range [][]string{
		{"2026-W49-C", "M. Thorne", "T-1, two rings, 585 yellow", "586 ‰ by assay", "9.06 2.82 4.73 10.00 0.13 26.74",
			"Missing: 4.34 g of 585 ‰", "button, trunk and feeders 17.55", "filings and sweeps 1.81", "adds 4.34 g of 585 ‰ (585 yellow)", "50 x 60: 23.40 g in all; 1.00 g still missing", "Made by hand", "PROPOSAL"},
		{"2026-W49-E", "T-2, scrap", "not counted: its fineness", "is known by a stamp only: assay it", "Missing: 15.00 g of 750 ‰"},
		{"2026-W49-D", "R. Ellery", "metal to be weighed and assayed", "Enough or not: known when it is weighed and assayed", "page 1 of 1"},
	} {
		for _, want := range wants {
			if !strings.Contains(pages[i], want) {
				t.Errorf("page %d lacks %q:\n%s", i+1, want, pages[i])
			}
		}
	}
	c.Proposal = false
	pdf, _, err = PrintCast(c, Options{})
	if err != nil || strings.Contains(strings.Join(read(t, pdf), " "), "PROPOSAL") {
		t.Error("an accepted cast is called a proposal", err)
	}
}

// What does not add up is not printed for a signature.
func TestReceiptsThatDoNotAddUp(t *testing.T) {
	c := ownCast()
	c.OwnMetal[2].Total++
	_, remarks, err := PrintCast(c, Options{Words: words.English()})
	if err == nil || len(remarks.Errors()) != 1 || remarks.Errors()[0].Code != "receipt-sum" {
		t.Errorf("%v %v", remarks, err)
	}
	if _, _, err := PrintCast(&tree.Cast{}, Options{}); err == nil {
		t.Error("receipts of a cast without customers' metal")
	}
}
