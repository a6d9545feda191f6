package mark

// europe holds what was seen of the other European countries. Where a metal or
// a figure is not named, it was not seen.
var europe = []Country{
	{
		Code: "NL", Name: "Netherlands", System: Independent, Basis: MetalConcerned, Checked: read,
		Rules: map[Element]Rule{
			Gold:      {listed(585, 750, 833, 916), under(1000), strict},
			Silver:    {listed(800, 835, 925), under(8000), strict},
			Platinum:  {listed(850, 900, 950), under(500), strict},
			Palladium: {unseen, free, untold},
		},
		Notes:   []string{"Gold of 375 is not on the list.", "No shortfall since 1 March 2003.", "Palladium may be marked and need not be."},
		Sources: []string{"Waarborgwet 2019 and its regulation, as published"},
	},
	{
		Code: "FR", Name: "France", System: Independent, Basis: BasisUnknown, Checked: read,
		Rules: map[Element]Rule{
			Gold:     {listed(375, 585, 750, 916, 999), under(3000), untold},
			Silver:   {listed(800, 925, 999), under(30_000), untold},
			Platinum: {listed(850, 900, 950, 999), under(3000), untold},
		},
		Still:   "the maker's mark is due all the same",
		Notes:   []string{"An older page has the exemption of gold for 750 and more only."},
		Sources: []string{"public service page on hallmarks", "tax code, title on the guarantee of precious metals"},
	},
	{
		Code: "ES", Name: "Spain", System: Independent, Basis: BasisUnknown, Checked: read,
		Rules: map[Element]Rule{
			Gold:      {listed(375, 585, 750, 916, 999), noLimit, strict},
			Silver:    {listed(800, 925, 999), noLimit, strict},
			Platinum:  {listed(850, 900, 950, 999), noLimit, strict},
			Palladium: {Legal: uncovered},
		},
		Notes:   []string{"Only what marking would spoil is exempt.", "Up to 5 ‰ of iridium count as platinum; this is not used here."},
		Sources: []string{"Act 17/1985, articles 9 and 10"},
	},
	{
		Code: "IT", Name: "Italy", System: Responsibility, Basis: BasisUnknown, Checked: read,
		Rules: map[Element]Rule{
			Gold:      {listed(375, 585, 750).above(750), unlimited, strict},
			Silver:    {listed(800, 925), unlimited, strict},
			Platinum:  {listed(850, 900, 950), unlimited, forgives(5)},
			Palladium: {listed(500, 950), unlimited, forgives(5)},
		},
		Notes: []string{
			"Platinum and palladium: 5 ‰ in solid pieces, 10 ‰ in soldered ones.",
			"Gold cast by lost wax and centrifuge may be made as 753 with a shortfall of 3 ‰.",
		},
		Sources: []string{"pages on precious metals of two chambers of commerce"},
	},
	{
		Code: "DE", Name: "Germany", System: Voluntary, Basis: BasisUnknown, Checked: read,
		Rules: map[Element]Rule{
			Gold:      {anyFrom(perMille), free, forgives(10)},
			Silver:    {anyFrom(perMille), free, forgives(10)},
			Platinum:  {Legal: uncovered},
			Palladium: {Legal: uncovered},
		},
		Notes: []string{
			"The tolerance is that of jewellery, the whole piece melted with its solder.",
			"Other articles: marked from gold 585 and silver 800 only, tolerance 5 and 8 ‰.",
		},
		Sources: []string{"Act on the fineness of gold and silver wares, 1884, sections 1, 2 and 5"},
	},
	{
		Code: "CH", Name: "Switzerland", System: Responsibility, Basis: BasisUnknown, Checked: read,
		Rules:   map[Element]Rule{},
		Notes:   []string{"Watch cases need an independent hallmark.", "Two alloys of one metal are marked with the lower.", "Platinum and palladium are named beside the figure."},
		Sources: []string{"ordinance on the control of precious metals, articles 46 and 47; its list of finenesses was not seen"},
	},
	{
		Code: "AT", Name: "Austria", System: Responsibility, Basis: BasisUnknown, Checked: read,
		Rules: map[Element]Rule{
			Gold:     {listed(585, 750, 900, 986), upTo(2000), strict},
			Silver:   {listed(800, 835, 900, 925), upTo(30_000), strict},
			Platinum: {listed(950), upTo(2000), strict},
		},
		Notes:   []string{"Gold under 585 is outside the Act; its true figure goes on the label.", "A fineness between two marks gets the lower."},
		Sources: []string{"Punzierungsgesetz, sections 3 and 6", "chamber of commerce, page on marking"},
	},
	{
		Code: "PT", Name: "Portugal", System: Independent, Basis: BasisUnknown, Checked: read,
		Rules: map[Element]Rule{
			Gold:      {listed(375, 585, 750, 800, 916, 999), upTo(500), strict},
			Silver:    {listed(800, 830, 835, 925, 999), upTo(2000), strict},
			Platinum:  {listed(850, 900, 950, 999), upTo(500), strict},
			Palladium: {listed(500, 950, 999), unlimited, strict},
		},
		Notes:   []string{"Text before the change of 2017.", "Platinum 950 and 999 are implied by the text, not listed in what was seen."},
		Sources: []string{"Law 98/2015, articles 9 and 56"},
	},
	{
		Code: "PL", Name: "Poland", System: Independent, Basis: MetalConcerned, Checked: read,
		Rules: map[Element]Rule{
			Gold:      {listed(333, 375, 500, 585, 750, 960, 999), under(1000), strict},
			Silver:    {listed(800, 830, 875, 925, 999), under(5000), strict},
			Platinum:  {listed(850, 950, 999), under(1000), strict},
			Palladium: {listed(500, 850, 999), unlimited, strict},
		},
		Notes: []string{
			"A certificate may stand for the mark.", "The Act before had 2 g for silver.",
			"Pairs are weighed piece by piece (shop pages only).", "Iridium, osmium, rhodium and ruthenium count as platinum; this is not used here.",
		},
		Sources: []string{"hallmarking Act, article 24", "shop pages on the limits"},
	},
	{
		Code: "CZ", Name: "Czechia", System: Independent, Basis: BasisUnknown, Checked: read,
		Rules: map[Element]Rule{
			Gold:     {unseen, under(500), untold},
			Silver:   {listed(800, 835, 900, 925, 959), under(3000), untold},
			Platinum: {unseen, under(500), untold},
		},
		Still:   "the figure of fineness is due all the same",
		Notes:   []string{"There was no mark for palladium in 2017."},
		Sources: []string{"Act 539/1992 as excerpted", "trade pages of 2017"},
	},
	{
		Code: "SE", Name: "Sweden", System: Responsibility, Basis: BasisUnknown, Checked: read,
		Rules: map[Element]Rule{
			Gold:      {atLeast(375), under(1000), forgives(5)},
			Silver:    {atLeast(800), free, forgives(8)},
			Platinum:  {atLeast(850), under(1000), forgives(5)},
			Palladium: {atLeast(500), noLimit, untold},
		},
		Notes:   []string{"The shortfall is part of the Act's definition of a precious metal."},
		Sources: []string{"Act 1999:779 and ordinance 1999:780"},
	},
	{
		Code: "NO", Name: "Norway", System: Responsibility, Basis: BasisUnknown, Checked: read,
		Rules: map[Element]Rule{
			Gold:      {listed(375, 585, 750, 916, 999), unlimited, untold},
			Silver:    {listed(800, 830, 925, 999), unlimited, untold},
			Platinum:  {listed(850, 900, 950, 999), unlimited, untold},
			Palladium: {Legal: uncovered},
		},
		Notes:   []string{"A fineness between two marks gets the lower.", "One page repeats the British limits for Norway; it was not believed."},
		Sources: []string{"regulation of 12 October 2011"},
	},
	{
		Code: "DK", Name: "Denmark", System: Responsibility, Basis: BasisUnknown, Checked: read,
		Rules: map[Element]Rule{
			Gold:      {atLeast(333), under(1000), strict},
			Silver:    {atLeast(800), under(3000), strict},
			Platinum:  {atLeast(850).disputed(500_000), under(1000), strict},
			Palladium: {atLeast(500), under(1000), strict},
		},
		Notes:   []string{"Every part must reach the mark.", "Platinum: 850 in the Act of 1995, 500 on the office's page."},
		Sources: []string{"precious metals office, page on fineness marks", "Act of 1995"},
	},
	{
		Code: "FI", Name: "Finland", System: Responsibility, Basis: BasisUnknown, Checked: read,
		Rules: map[Element]Rule{
			Gold:      {listed(375, 585, 750, 916, 999), under(1000), strict},
			Silver:    {listed(800, 830, 925, 999), under(10_000), strict},
			Platinum:  {listed(850, 900, 950, 999).disputed(500_000), under(1000), strict},
			Palladium: {listed(500, 850, 950, 999), under(1000), strict},
		},
		Notes: []string{
			"A hallmark of an independent office is voluntary.",
			"Platinum: 850 on the convention's page, 500 on the authority's.",
			"Whether the limit itself is exempt was not seen; the stricter reading is used.",
		},
		Sources: []string{"safety authority, page on fineness requirements", "Hallmarking Convention, country profile of Finland"},
	},
}
