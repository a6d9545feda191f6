package stone

import (
	"maps"
	"slices"
)

// Where the numbers of the table are from: gem tables of public gem societies
// for SG and hardness. A care cell that its row's note does not speak of is
// common practice, from memory.
const (
	gemTables     = "gem tables (SG, hardness); care: cited in the note, else common practice, from memory"
	fromMemory    = "from memory"
	unknownSource = "not in the table"
)

// Short forms that keep the table readable: y tolerated, c with care, n keep
// away; the order is torch, ultrasonic, steam, acid.
const (
	y = Tolerated
	c = WithCare
	n = KeepAway
)

var sortedNames = slices.Sorted(maps.Keys(table))

// lastOfAll is the rank of a kind that nobody knows.
const lastOfAll = 11

var table = map[string]Kind{
	"diamond": {SG: 3.52, SGRange: "3.51 to 3.53", Mohs: "10", Care: Care{Torch: c, Ultrasonic: y, Steam: y, Acid: y}, Heat: 1, Source: gemTables,
		Notes: []Note{{"Coat with boric acid before any heat: bare diamond burns from about 700 °C.", "bench forum notes"}, {"Acid only when the stone is cool.", "bench forum notes"}}},
	"ruby":     corundum,
	"sapphire": corundum,
	"emerald": {SG: 2.72, SGRange: "2.68 to 2.74", Mohs: "7.5 to 8", Care: Care{Torch: n, Ultrasonic: n, Steam: n, Acid: n}, Heat: 8, Source: gemTables,
		Notes: []Note{{"Nine in ten are oiled or filled: heat, steam and solvents draw it out.", "makers' care pages"}}},
	"aquamarine": {SG: 2.72, SGRange: "2.68 to 2.74", Mohs: "7.5 to 8", Care: Care{Torch: n, Ultrasonic: c, Steam: c, Acid: c}, Milder: Care{Torch: n, Ultrasonic: y, Steam: c, Acid: c}, Heat: 7, Source: gemTables,
		Notes: []Note{{"Lists part over ultrasonic; the careful one is printed.", "two sellers' care pages"}}},
	"spinel": {SG: 3.60, Mohs: "8", Care: Care{Torch: c, Ultrasonic: y, Steam: c, Acid: y}, Milder: Care{Torch: y, Ultrasonic: y, Steam: c, Acid: y}, Heat: 5, Source: gemTables,
		Notes: []Note{{"Synthetic spinel stands heat; natural spinel may be filled.", "bench forum; treatment guide"}}},
	"topaz": {SG: 3.53, SGRange: "3.53 to 3.56", Mohs: "8", Care: Care{Torch: n, Ultrasonic: n, Steam: n, Acid: c}, Heat: 7, Source: gemTables,
		Notes: []Note{{"Splits along one plane at a knock or a change of heat.", "makers' care pages"}}},
	"tanzanite": {SG: 3.35, Mohs: "6 to 7", Care: Care{Torch: n, Ultrasonic: n, Steam: n, Acid: c}, Heat: 8, Source: gemTables,
		Notes: []Note{{"Shatters in ultrasonic; reports on plating part. Plate before setting.", "care page; bench forum"}}},
	"opal": {SG: 2.15, SGRange: "1.98 to 2.5", Mohs: "5.5 to 6.5", Care: Care{Torch: n, Ultrasonic: n, Steam: n, Acid: n}, Heat: 10, Source: gemTables,
		Notes: []Note{{"Never above 82 °C.", "trade magazine"}}},
	"pearl": {SG: 2.70, Mohs: "2.5 to 4.5", Care: Care{Torch: n, Ultrasonic: n, Steam: n, Acid: n}, Heat: 10, Source: gemTables,
		Notes: []Note{{"Acid, plating bath and even their fumes eat the skin. Plate before setting.", "bench forum"}}},
	"garnet":             garnet(4.05, "3.78 to 4.18"), // the almandine value; name the variety for a better one
	"almandine garnet":   garnet(4.05, ""),
	"rhodolite garnet":   garnet(3.84, ""),
	"pyrope garnet":      garnet(3.78, ""),
	"spessartine garnet": garnet(4.15, "4.12 to 4.18"),
	"amethyst":           quartz,
	"citrine":            quartz,
	"peridot": {SG: 3.34, SGRange: "3.27 to 3.48", Mohs: "6.5 to 7", Care: Care{Torch: n, Ultrasonic: c, Steam: n, Acid: n}, Heat: 7, Source: gemTables,
		Notes: []Note{{"Acid etches it; plating baths too. Plate before setting.", "workshop's warning page; bench forum"}}},
	"tourmaline": {SG: 3.06, SGRange: "2.84 to 3.10", Mohs: "7 to 7.5", Care: Care{Torch: n, Ultrasonic: c, Steam: n, Acid: c}, Heat: 7, Source: gemTables,
		Notes: []Note{{"Brittle at a knock; some change colour in a plating bath.", "bench forum"}}},
	// zircon and cubic zirconia: the middle of the printed range.
	"zircon": {SG: 4.51, SGRange: "4.32 to 4.70", Mohs: "6.5 to 7.5", Care: Care{Torch: n, Ultrasonic: n, Steam: n, Acid: c}, Heat: 7, Source: gemTables,
		Notes: []Note{{"Changes colour with heat; facet edges chip.", "workshop's warning page; bench forum"}}},
	"cubic zirconia": {SG: 5.75, SGRange: "5.50 to 6.00", Mohs: "8 to 8.5", Care: Care{Torch: c, Ultrasonic: y, Steam: y, Acid: c}, Heat: 4, Source: gemTables,
		Notes: []Note{{"After heat let it cool in air, never quench: it hazes or cracks. Acid only cold.", "bench forum"}}},
	"moissanite": {SG: 3.21, Mohs: "9.25", Care: Care{Torch: c, Ultrasonic: y, Steam: y, Acid: c}, Heat: 3, Source: gemTables,
		Notes: []Note{{"Cool slowly, no quench. No borax on the stone: it spoils the polish.", "maker's bench guide"}}},
	"turquoise": {SG: 2.76, SGRange: "2.6 to 2.9", Mohs: "5 to 6", Care: Care{Torch: n, Ultrasonic: n, Steam: n, Acid: n}, Heat: 9, Source: gemTables,
		Notes: []Note{{"Porous: takes up oil and polish. Acid dissolves it.", "encyclopaedia"}}},
	"coral":        delicate(2.65, "3 to 4"),
	"lapis lazuli": delicate(2.75, "5 to 6"),
	"onyx": {SG: 2.60, Mohs: "6.5 to 7", Care: Care{Torch: n, Ultrasonic: c, Steam: n, Acid: n}, Heat: 8, Source: fromMemory,
		Notes: []Note{{"Nearly always dyed: heat and acid take the colour.", fromMemory}}},
	"jade": {SG: 3.33, SGRange: "2.90 to 3.38", Mohs: "6 to 7", Care: Care{Torch: n, Ultrasonic: c, Steam: n, Acid: n}, Heat: 8, Source: fromMemory,
		Notes: []Note{{"Often waxed or filled: heat and acid spoil it.", fromMemory}}},
}

var corundum = Kind{SG: 4.00, SGRange: "3.95 to 4.03", Mohs: "9", Care: Care{Torch: c, Ultrasonic: y, Steam: y, Acid: c}, Heat: 2, Source: gemTables,
	Notes: []Note{
		{"No boric acid and no borax on it: they etch the polish.", "gemmological institute's care guide; bench lesson"},
		{"Ask whether it is filled: a filled stone stands no heat, steam or acid.", "gemmological institute's care guide"},
		{"Never from the torch into the acid: it cracks.", "bench lesson"},
	}}

var quartz = Kind{SG: 2.66, SGRange: "2.63 to 2.68", Mohs: "7", Care: Care{Torch: n, Ultrasonic: y, Steam: c, Acid: y}, Heat: 7, Source: gemTables,
	Notes: []Note{{"Loses or changes its colour with heat.", "workshop's warning page"}}}

func garnet(sg float64, spread string) Kind {
	return Kind{SG: gpcc(sg), SGRange: spread, Mohs: "6.5 to 7.5", Care: Care{Torch: n, Ultrasonic: c, Steam: c, Acid: y}, Milder: Care{Torch: n, Ultrasonic: y, Steam: c, Acid: y}, Heat: 6, Source: gemTables,
		Notes: []Note{{"Cracks at a sudden change of heat.", "care page; trade magazine"}}}
}

func delicate(sg float64, mohs string) Kind {
	return Kind{SG: gpcc(sg), Mohs: mohs, Care: mostDelicate(), Heat: 9, Source: fromMemory,
		Notes: []Note{{"Soft and porous: damp cloth only.", fromMemory}}}
}
