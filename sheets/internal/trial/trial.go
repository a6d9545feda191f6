// Package trial holds an invented cast that the tests of the sheets print. It
// is worked out with the metal floor's own charge, so that what the sheets
// show can be held against it.
package trial

import (
	"fmt"
	"time"

	"castweek/metal"
	"castweek/metal/measure"
	"castweek/tree"
)

// Zone is the workshop's, an hour ahead of UTC.
var Zone = time.FixedZone("CET", 3600)

// Densities of the pattern materials: resin from a maker's sheet quoted by a
// caster (1.09), wax within the published 0.95 to 0.98.
var Densities = map[string]measure.GramPerCC{"resin": 1.09, "wax": 0.96}

func at(day, hour int) time.Time { return time.Date(2026, 12, day, hour, 0, 0, 0, Zone) }

// job is one invented order.
type job struct {
	number, design, who, kind, alloy, material string
	pieces                                     int
	parts                                      []string
	volume                                     measure.CubicMM
	due                                        time.Time
	stones                                     []tree.BagStone
}

func stone(mark, place, kind, cut string, l, w measure.MM, count, spares int, style, owner, parcel string, here bool) tree.BagStone {
	s := tree.BagStone{Mark: mark, Place: place, Kind: kind, Cut: cut, Origin: "natural", Length: l, Width: w, Depth: l * 0.6, Assumed: true,
		Count: count, Spares: spares, Style: style, Owner: owner, Risk: "house", Parcel: parcel, Here: here,
		Estimate: tree.Estimate{Low: measure.Carat(0.0037 * float64(l*l*l)), High: measure.Carat(0.0039 * float64(l*l*l)), Formula: "L × W × depth × 0.0062"}}
	if !here {
		s.Ordered = "stone dealer, expected Tue 1 Dec"
	}
	return s
}

func orders() []job {
	return []job{
		{"K-201", "Signet ring, oval face", "Mrs Ardley", "ring", "750 yellow", "resin", 1, []string{"ring"}, 412.6, at(10, 17), nil},
		{"K-202", "Solitaire, four claws", "Tomas W.", "ring", "750 yellow", "resin", 1, []string{"shank", "head"}, 231.4, at(8, 12),
			[]tree.BagStone{stone("A", "centre", "sapphire", "oval", 6, 4, 1, 0, "claw", "house", "P-118", true)}},
		{"K-203", "Band with seven stones", "stock", "ring", "750 yellow", "resin", 3, []string{"band"}, 287.9, at(11, 17),
			[]tree.BagStone{stone("A", "top row", "diamond", "round brilliant", 1.5, 1.5, 7, 1, "bead and pavé", "house", "P-096", true)}},
		{"K-204", "Leaf pendant", "Ines Kroll", "pendant", "925 silver", "wax", 2, []string{"leaf"}, 655.2, at(9, 12),
			[]tree.BagStone{stone("A", "stem", "sapphire", "round", 2, 2, 1, 1, "bezel", "house", "P-120", true)}},
		{"K-205", "Stud, plain dome", "stock", "earrings", "925 silver", "resin", 12, []string{"left", "right"}, 58.3, at(14, 17), nil},
		{"K-206", "Wedding bands, pair", "J. and R. Osei", "ring", "585 white", "wax", 2, []string{"band"}, 318, at(18, 10),
			[]tree.BagStone{stone("A", "inside", "diamond", "round brilliant", 1.5, 1.5, 1, 0, "flush", "J. and R. Osei", "P-131", false)}},
		{"K-207", "Ring with a heavy head", "Dr Haldane", "ring", "950 platinum", "resin", 1, []string{"ring"}, 702, at(17, 17), nil},
	}
}

// Cast is the proposal of an invented week: four trees, one of them refused,
// two jobs waiting, one held, one left over and one late.
func Cast() *tree.Cast {
	c := &tree.Cast{Name: "2026-W49", Pour: at(3, 9), CutOff: at(1, 17), AsOf: at(1, 8), Proposal: true,
		House: tree.House{Name: "Saltmarsh & Dory", Series: "A", Decimal: "point", ScaleStep: 10,
			Stone: tree.StoneLimits{Fits: 0.05, Return: 0.15}, BenchTime: 72 * time.Hour}}
	for i, alloy := range []string{"750 yellow", "925 silver", "585 white", "950 platinum"} {
		c.Trees = append(c.Trees, grow(c, i, alloy))
	}
	c.Trees[2].Owner = "J. and R. Osei"
	c.Trees[3].Refused = []string{"950 platinum cannot be poured into gypsum-bonded powder"}
	for _, j := range orders() {
		bags(c, j)
	}
	c.Waiting = []tree.Waiting{
		{Job: "K-208", Design: "Brooch, two birds", For: "Mrs Ardley", Due: at(16, 17), Reason: "not approved yet", Ask: "Mrs Ardley"},
		{Job: "K-209", Design: "Cufflinks, knot", For: "Mr Penrose", Due: at(21, 12), Reason: "the pattern is not here", Ask: "the model maker"}}
	c.Held = []tree.Waiting{{Job: "K-210", Design: "Bangle hinge", For: "stock", Due: at(15, 17), Reason: "the mesh has 12 open edges", Ask: "whoever drew it"}}
	c.LeftOver = []tree.LeftOver{{Job: "K-205", Castings: []string{"K-205/12a", "K-205/12b"}, Reason: "no flask has room for them"}}
	c.Late = []tree.Late{{Job: "K-202", Due: at(8, 12), Ready: at(9, 12)}}
	c.Remarks = []tree.Remark{{Job: "K-201", Code: "finger-size-far", Text: "the finished ring comes out 0.12 mm wide", Remedy: "ask the designer before the cast"}}
	return c
}

// grow hangs every casting of an alloy on one tree and works out its charge.
func grow(c *tree.Cast, i int, alloyName string) tree.Tree {
	alloy, _ := metal.StartList().Find(alloyName)
	t := tree.Tree{Name: fmt.Sprintf("%s-%c", c.Name, 'A'+i), Alloy: alloyName, Fineness: alloy.Fineness().PerMille(), Owner: "house",
		Flask: "90 x 150", FlaskMM: tree.FlaskSize{Diameter: 90, Height: 150}, Crucible: "silica no. " + fmt.Sprint(i+1), Powder: "house gypsum", Bond: "gypsum",
		Section: "medium", Order: i + 1, Button: "10% added", Loss: 0.5, Cavity: 2600,
		Rule: metal.ButtonRule{Kind: metal.ButtonAdded, Share: 10, Minimum: 10}}
	switch i {
	case 1:
		t.Button, t.Rule = "10% of total", metal.ButtonRule{Kind: metal.ButtonOfTotal, Share: 10}
		t.FlaskAt, t.MetalAt = 480, 960
	case 2:
		t.Button, t.Rule = "by flask", metal.ButtonRule{Kind: metal.ButtonByFlask}
	case 3:
		t.Button, t.Rule = "12g", metal.ButtonRule{Kind: metal.ButtonFixed, Fixed: 12}
	}
	volumes := map[string]measure.CubicMM{}
	var list []measure.CubicMM
	for _, j := range orders() {
		if j.alloy != alloyName {
			continue
		}
		for piece := 1; piece <= j.pieces; piece++ {
			for p, part := range j.parts {
				if id := castingID(j, piece, p); !left(id) {
					t.Castings = append(t.Castings, tree.Hanging{Casting: id, Job: j.number, Design: j.design, Part: part, Material: j.material,
						Volume: j.volume, Outer: measure.Size{Length: 21.5, Width: 19, Height: 8.5}, Thickest: 2.4, Feeders: "1 x 3.2 x 9.5 mm"})
					list = append(list, j.volume)
					volumes[j.material] += j.volume
					t.Patterns += j.volume
					t.Feeders += 76.4
					t.Resin = t.Resin || j.material == "resin"
				}
			}
		}
	}
	t.Trunk = 4240.1
	volumes["wax"] += t.Feeders + t.Trunk
	for _, m := range []string{"resin", "wax"} {
		if v := volumes[m]; v > 0 {
			t.Before = append(t.Before, tree.MaterialWeight{Material: m, Density: Densities[m], Volume: v, Weight: v.Times(Densities[m]).Round(1)})
		}
	}
	t.Charge = metal.NewCharge(metal.ChargeInput{Density: alloy.Density(), Castings: list, Feeders: t.Feeders, Trunk: t.Trunk,
		Button: t.Rule, Cavity: t.Cavity, Loss: t.Loss, Step: c.House.ScaleStep})
	for k := range t.Castings {
		t.Castings[k].Metal = t.Charge.Castings[k]
	}
	return t
}

func castingID(j job, piece, part int) string {
	id := fmt.Sprintf("%s/%d", j.number, piece)
	if len(j.parts) > 1 {
		id += string(rune('a' + part))
	}
	return id
}

func left(id string) bool { return id == "K-205/12a" || id == "K-205/12b" }

// bags puts the castings of a job into one bag a piece.
func bags(c *tree.Cast, j job) {
	for piece := 1; piece <= j.pieces; piece++ {
		b := tree.Bag{Job: j.number, Design: j.design, For: j.who, Due: j.due, Kind: j.kind, Piece: piece, Of: j.pieces,
			Title: fmt.Sprintf("piece %d of %d", piece, j.pieces), Owner: "house", Stones: j.stones}
		for p, part := range j.parts {
			id := castingID(j, piece, p)
			for i := range c.Trees {
				for _, h := range c.Trees[i].Castings {
					if h.Casting == id {
						b.Castings = append(b.Castings, tree.BagCasting{ID: id, Part: part, Alloy: j.alloy, Tree: c.Trees[i].Name, Flask: c.Trees[i].Flask, Material: j.material, Cast: h.Metal})
					}
				}
			}
		}
		if len(b.Castings) > 0 {
			c.Bags = append(c.Bags, b)
		}
	}
}
