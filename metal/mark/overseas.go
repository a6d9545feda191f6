package mark

// overseas holds what was seen of countries outside Europe, and the convention.
var overseas = []Country{
	{
		Code: "US", Name: "United States", System: Voluntary, Basis: BasisUnknown, Checked: read,
		Rules: map[Element]Rule{
			// 10 parts in 24, the next part per million above.
			Gold:   {anyFrom(416_667).disputed(1), free, forgives(3)},
			Silver: {listed(900, 925), free, untold},
		},
		Notes: []string{
			"Whoever marks a fineness strikes a trade mark too.",
			"Gold: 3 ‰, and 7 ‰ for a piece melted with its solder, since 1 October 1981.",
			"A council of the gold industry names 10 carat as the least; the Act names none.",
		},
		Sources: []string{"15 U.S.C. 295"},
	},
	{
		Code: "IN", Name: "India", System: Independent, Basis: BasisUnknown, Checked: read,
		Rules: map[Element]Rule{
			Gold:   {listed(375, 585, 750, 833, 916, 958, 995, 999), under(2000), untold},
			Silver: {listed(800, 835, 900, 925, 970, 990), free, untold},
		},
		Notes:   []string{"Compulsory in the listed districts only.", "Gold 375 since July 2025."},
		Sources: []string{"trade press on the hallmarking orders"},
	},
	{
		Code: "JP", Name: "Japan", System: Voluntary, Basis: BasisUnknown, Checked: read,
		Rules: map[Element]Rule{
			Gold:     {listed(375, 416, 585, 750, 916, 999), free, strict},
			Silver:   {listed(800, 900, 925, 950, 999), free, strict},
			Platinum: {listed(850, 900, 950, 999), free, strict},
		},
		Notes:   []string{"Least contents since April 2012.", "The lists were completed here from the count of classes: 6, 5 and 4."},
		Sources: []string{"Japan Mint, page on hallmarking"},
	},
	{
		Code: "CCM", Name: "common control mark", System: Independent, Basis: BasisUnknown, Checked: read,
		Rules: map[Element]Rule{
			Gold:      {atLeast(375), noLimit, strict},
			Silver:    {atLeast(800), noLimit, strict},
			Platinum:  {atLeast(850), noLimit, strict},
			Palladium: {atLeast(500), noLimit, strict},
		},
		Notes: []string{
			"For an article that shall bear the common control mark.",
			"Legal in all 19 states of 2012: platinum 950, gold 750 and 585, silver 925 and 800; five of them exempt nothing.",
		},
		Sources: []string{"Convention on the Control and Marking of Articles of Precious Metals, annexes I and II"},
	},
}
