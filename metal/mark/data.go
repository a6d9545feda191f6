package mark

import "castweek/metal/measure"

// read is when the sources of all countries were read. Most were seen as
// excerpts of unknown age: what is newer than the month is not in here, and
// what is older may have been overtaken.
const read = "2026-11"

// countries in the order in which they are listed: the home country, its
// neighbour, then the others of Europe, those overseas, and the convention.
var countries = append(append([]Country{unitedKingdom, ireland}, europe...), overseas...)

// Short forms for the tables below. Weights are in milligrams, finenesses in
// thousandths.

func listed(thousandths ...Parts) Legal {
	l := Legal{Kind: Listed}
	for _, t := range thousandths {
		l.List = append(l.List, t*perMille)
	}
	return l
}

func atLeast(thousandths Parts) Legal {
	return Legal{Kind: AtLeast, List: []Parts{thousandths * perMille}}
}

func anyFrom(p Parts) Legal { return Legal{Kind: Listed, AnyFrom: p} }

// disputed adds the fineness from which sources disagree.
func (l Legal) disputed(from Parts) Legal {
	l.Disputed = from
	return l
}

// above adds that from a fineness on every whole thousandth is legal.
func (l Legal) above(thousandths Parts) Legal {
	l.AnyFrom = thousandths * perMille
	return l
}

func under(mg measure.Milligram) Limit { return Limit{LessThan, mg} }
func upTo(mg measure.Milligram) Limit  { return Limit{NotOver, mg} }

func forgives(thousandths Parts) Tolerance { return Tolerance{Tolerated, thousandths * perMille} }

var (
	uncovered = Legal{Kind: NotCovered}
	unseen    = Legal{}
	noLimit   = Limit{Kind: EveryWeight}
	free      = Limit{Kind: NeverCompulsory}
	unlimited = Limit{} // no figure was seen
	strict    = Tolerance{Kind: NoTolerance}
	untold    = Tolerance{}
)

var unitedKingdom = Country{
	Code: "GB", Name: "United Kingdom", System: Independent, Basis: AllMetal, Checked: read,
	Rules: map[Element]Rule{
		Gold:      {listed(375, 585, 750, 916, 990, 999), under(1000), strict},
		Silver:    {listed(800, 925, 958, 999), under(7780), strict},
		Platinum:  {listed(850, 900, 950, 999), under(500), strict},
		Palladium: {listed(500, 950, 999), under(1000), strict},
	},
	Notes: []string{
		"A fineness that is overstated to any extent is a false description; understating is allowed.",
		"Work in progress, raw material and goods for dispatch out of the country need no mark.",
		"Each precious metal of a mixed article must reach its least fineness.",
		"The Act as first passed had 5 g for silver; the figure here is the present one.",
	},
	Sources: []string{
		"Hallmarking Act 1973, section 1(4) and schedule 1 part II, as amended",
		"S.I. 2007/872, schedule, paragraphs 6 and 7",
		"Hallmarking Convention, country profile of the United Kingdom",
		"assay offices' leaflet on exemption: weight of the metal alone, stones excluded",
	},
}

var ireland = Country{
	Code: "IE", Name: "Ireland", System: Independent, Basis: BasisUnknown, Checked: read,
	Rules: map[Element]Rule{
		Gold:      {listed(375, 417, 585, 750, 833, 916, 990, 999), noLimit, untold},
		Silver:    {Legal{Kind: Listed, List: []Parts{800_000, 925_000, 958_400, 999_000}}, noLimit, untold},
		Platinum:  {listed(600, 850, 900, 950, 999), noLimit, untold},
		Palladium: {listed(500, 950, 999), noLimit, untold},
	},
	Notes:   []string{"Silver 958 is printed with and without a further 0.4 ‰; the stricter figure is used here."},
	Sources: []string{"Hallmarking Convention, country profile of Ireland", "Dublin assay office, page on legislation"},
}
