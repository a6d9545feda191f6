package bag

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"castweek/jobs/setting"
	"castweek/jobs/stone"
	"castweek/metal/measure"
	"castweek/sheets/desk"
	"castweek/tree"
	"castweek/tree/record"
)

// Everything here is invented.

var zone = time.FixedZone("CET", 3600)

func at(day, hour int) time.Time { return time.Date(2026, 12, day, hour, 0, 0, 0, zone) }

// ringLines is a ring seen from the front, true to scale.
func ringLines(r float64) tree.Strokes {
	circle := func(rad float64) [][2]float64 {
		var out [][2]float64
		for i := 0; i <= 60; i++ {
			t := 2 * math.Pi * float64(i) / 60
			out = append(out, [2]float64{r + rad*math.Cos(t), r + rad*math.Sin(t)})
		}
		return out
	}
	return tree.Strokes{circle(r), circle(r - 2), {{r - 3, 2 * r}, {r - 2, 2*r + 4}, {r + 2, 2*r + 4}, {r + 3, 2 * r}}}
}

func line(mark, place, kind, cut string, l, w measure.MM, count, spares int, style setting.Style) tree.BagStone {
	k := stone.Find(kind)
	c, _ := stone.CutOf(cut)
	care, _ := stone.CareOf(k, "")
	in := setting.Input{Style: style, Metal: setting.YellowGold, Ring: true, House: setting.DefaultHouse(),
		Stone: setting.Line{Place: place, Kind: k, Cut: c, Length: l, Width: w, Count: count},
		Claws: setting.Wires{Count: 4, Finished: 0.9, Modelled: 1.0}}
	steps, stops := setting.Steps(in)
	return tree.BagStone{Mark: mark, Place: place, Kind: kind, Cut: cut, Origin: "natural", Treatment: "heated", Length: l, Width: w, Depth: w * 0.65, Assumed: count > 1,
		Count: count, Spares: spares, Style: string(style), Owner: "house", Risk: "house", Parcel: "S-1" + mark, Here: true, Part: "head",
		Estimate: tree.Estimate{Low: measure.Carat(0.0018 * float64(l*w*w)), High: measure.Carat(0.0019 * float64(l*w*w)), Formula: "length x width x depth x 0.0023 by two cutters' pages"},
		Stands:   care.Cells(), Care: []string{"Sapphire with filled fractures stands no heat at all."}, Steps: steps, Stops: stops}
}

// full is a bag with everything that a bag can have.
func full() tree.Bag {
	ring := tree.Picture{Part: "shank", View: "from the front", Width: 21.4, Height: 25.4, Lines: ringLines(10.7), Spots: []tree.Spot{{Mark: "A", X: 10.7, Y: 24}}}
	side := ring
	side.View, side.Spots = "from the side", nil
	b := tree.Bag{Job: "K-207", Design: "Two-alloy ring, oval sapphire between six small diamonds", For: "Mrs Ordway", Due: at(18, 16), Kind: "ring", Piece: 2, Of: 3,
		Title: "piece 2 of 3",
		Castings: []tree.BagCasting{
			{ID: "K-207/2a", Part: "shank", Alloy: "750 yellow", Tree: "2026-W49-A", Flask: "90 x 150", Material: "castable resin", Cast: 4520, Finished: 4100, Band: 5},
			{ID: "K-207/2b", Part: "head", Alloy: "950 platinum", Tree: "2026-W49-C", Flask: "75 x 100", Material: "carving wax", Cast: 2150, Finished: 1900, Band: 5}},
		Missing: []string{"K-207/s1 was cast on 2026-W48-B"},
		Size:    &tree.Finger{AsTyped: "UK N½", Inside: 17.32, Other: "US 7, ISO 54.4, Japan 14", Gauge: "narrow, house set", Resizable: "up and down", Finishes: 17.25},
		Finish:  "high polish outside, matt inside", Masked: "the inside of the head", Plated: "head only, rhodium", LastStep: "final polish after hallmarking", Hallmark: "wanted",
		Owner: "Mrs Ordway", Notes: "She wears it beside a plain band: keep the lower edge flat.\nRing the day before.",
		Findings: []tree.BagFinding{{Name: "safety pin, 12 mm", Count: 1, Alloy: "750 yellow", Weight: 412, Marked: true, Here: true, From: "drawer 4"}, {Name: "tube", Count: 2, Alloy: "585 white", Here: false, From: "supplier, Tue 1 Dec"}},
		Assembly: []string{"Bring together shank (K-207/2a) from 2026-W49-A, head (K-207/2b) from 2026-W49-C.", "Laser the head to the shank at 0.3 mm depth, then check that it stands square.", "Pickle, rinse, look for pits."},
		Stones:   []tree.BagStone{line("A", "centre", "sapphire", "oval", 6, 4, 1, 0, setting.Claw), line("B", "left shoulder", "diamond", "round", 1.5, 1.5, 3, 1, setting.Bead), line("C", "right shoulder", "diamond", "round", 1.5, 1.5, 3, 1, setting.Bead)},
		Remarks:  []string{"The pattern finishes 0.07 mm smaller than the finger asks."},
		Cautions: []string{"WARNING - Customer's own metal. Solder of another make may spit. Wear glasses."},
		Shank:    []tree.ShankLine{{Part: "shank", Modelled: "2.1 mm", Finished: "2.0 mm"}},
		Weights:  tree.Weights{Cast: 6670, Finished: 6940, Stones: 112, Findings: 412, Metal: 6412},
		Pictures: []tree.Picture{ring, side},
	}
	b.Stones[1].Owner, b.Stones[1].Here, b.Stones[1].Ordered = "Mrs Ordway", false, "stone dealer, expected Tue 1 Dec"
	return b
}

func castOf(bags ...tree.Bag) *tree.Cast {
	return &tree.Cast{Name: "2026-W49", Pour: at(3, 9), AsOf: at(1, 8), Proposal: true, Bags: bags,
		House: tree.House{Name: "Saltmarsh", Series: "A", Decimal: "point", ScaleStep: 10}}
}

// studs is a bag of 24 small identical pieces.
func studs() tree.Bag {
	b := tree.Bag{Job: "K-215", Design: "Stud, plain dome", For: "stock", Due: at(14, 17), Kind: "earrings", Of: 24, Title: "24 pieces together", Owner: "house", Finish: "high polish",
		Weights: tree.Weights{Cast: 17520}}
	for i := 1; i <= 24; i++ {
		b.Castings = append(b.Castings, tree.BagCasting{ID: fmt.Sprintf("K-215/%d", i), Part: "stud", Alloy: "925 silver", Tree: "2026-W49-B", Flask: "90 x 150", Material: "castable resin", Cast: 730})
	}
	return b
}

// bare is a bag in which everything that may be empty is.
func bare() tree.Bag {
	return tree.Bag{Job: "K-300", Design: "rod", Due: at(9, 9), Kind: "stock", Castings: []tree.BagCasting{{ID: "K-300/1"}}}
}

// ordinary is the bag of a week's usual ring: one casting, one stone in claws.
func ordinary() tree.Bag {
	b := full()
	b.Title, b.Piece, b.Of = "", 1, 1
	b.Castings = b.Castings[:1]
	b.Stones, b.Pictures = b.Stones[:1], b.Pictures[:1]
	b.Findings, b.Assembly, b.Missing, b.Cautions = nil, nil, nil, nil
	return b
}

// changed is a bag that was printed before, saying something else.
func changed() tree.Bag {
	b := full()
	b.Job, b.Castings[0].ID, b.Castings[1].ID = "K-208", "K-208/2a", "K-208/2b"
	return b
}

// before is what was printed of that bag earlier: another due day, another
// count of a stone, no notes, and a finding that is gone.
func before() tree.Bag {
	b := changed()
	b.Due = at(17, 16)
	b.Stones = append([]tree.BagStone(nil), b.Stones...)
	b.Stones[1].Count = 4
	b.Notes = ""
	b.Findings = append(append([]tree.BagFinding(nil), b.Findings...), tree.BagFinding{Name: "jump ring", Count: 2, Here: true})
	return b
}

// reprint are the options of a print after that one.
func reprint(t *testing.T, form Form, series string) Options {
	t.Helper()
	o := Options{Form: form, Options: desk.Options{Prints: &record.Prints{Cast: "2026-W49"}}}
	c := castOf(before())
	c.House.Series = series
	if _, _, err := Print(c, o); err != nil {
		t.Fatal(err)
	}
	return o
}

// heavy holds what breaks layouts: long names, 40 lines of stones, 200 steps,
// signs that the fonts lack.
func heavy() tree.Bag {
	b := full()
	b.Job = "WORKSHOP-2026-0412-0003"
	b.Castings[0].ID, b.Castings[1].ID = "WORKSHOP-2026-0412-0003/12a", "WORKSHOP-2026-0412-0003/12b"
	b.Design = strings.Repeat("A ring whose name does not end where a name should end and goes on ", 6)
	b.For = "Bartholomew-Featherstonehaugh-Wolfeschlegelsteinhausenbergerdorff and his whole household"
	b.Notes = strings.Repeat("Keep the edge sharp \U0001F48D and the back soft; שלום עליכם; مرحبا; 100 % of ⌀ 3 mm. ", 60)
	b.Stones = nil
	for i := range 40 {
		m := string(rune('A' + i%26))
		if i >= 26 {
			m += "A"
		}
		s := line(m, fmt.Sprintf("row %d, left of the long and winding scroll that ends at the shoulder", i+1), "ruby", "pear", 3, 2, i+1, 2, setting.Bezel)
		s.Steps, s.Stops = nil, nil
		b.Stones = append(b.Stones, s)
	}
	for i := range 200 {
		b.Stones[0].Steps = append(b.Stones[0].Steps, setting.Step{Text: fmt.Sprintf("Step number %d of a very long list: cut %d.5 mm deep.", i+1, i), Tool: "graver", Source: "common practice, no source"})
	}
	return b
}

// crowd is a bag with every style of setting, two lines of each, all with their
// steps.
func crowd() tree.Bag {
	b := full()
	b.Job, b.Castings[0].ID, b.Castings[1].ID = "K-240", "K-240/2a", "K-240/2b"
	b.Stones = nil
	for i, style := range setting.Styles() {
		cut := "round"
		if style == setting.Points {
			cut = "princess"
		}
		kind := []string{"diamond", "sapphire", "garnet", "opal"}[i%4]
		for n := range 2 {
			mark := string(rune('A' + 2*i + n))
			b.Stones = append(b.Stones, line(mark, fmt.Sprintf("%s, row %d", style, n+1), kind, cut, measure.MM(2+float64(n)/2), measure.MM(2+float64(n)/2), 1+i, n, style))
		}
	}
	return b
}

// foreign has signs that the fonts lack in every field that a person writes.
func foreign() tree.Bag {
	b := full()
	b.Job, b.Castings[0].ID, b.Castings[1].ID = "K-241", "K-241/2a", "K-241/2b"
	n := 0
	odd := func(field *string) { // each its own sign, so that a remark can be told from others
		*field += " שלום " + string(rune(0x1F400+n))
		n++
	}
	for _, field := range []*string{&b.Design, &b.For, &b.Finish, &b.Masked, &b.Plated, &b.LastStep, &b.Owner, &b.Notes, &b.Size.Gauge, &b.Findings[0].Name, &b.Findings[0].From,
		&b.Assembly[1], &b.Remarks[0], &b.Stones[0].Place, &b.Stones[0].Kind, &b.Stones[0].Treatment, &b.Stones[0].Owner, &b.Stones[0].Risk, &b.Stones[0].Parcel, &b.Stones[1].Ordered} {
		odd(field)
	}
	return b
}
