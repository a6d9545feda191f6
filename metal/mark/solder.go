package mark

// Grade tells how well a fact is known.
type Grade int

const (
	FromMemory Grade = iota // not found written: verify before it is relied on
	FromLaw                 // read in the law or regulation itself
)

func (g Grade) String() string {
	if g == FromLaw {
		return "from the law"
	}
	return "from memory, verify"
}

// A SolderRule is the least fineness that a country asks of the solder in an
// article. Least is 0 where solder must be as fine as the article.
type SolderRule struct {
	Country string // code
	Metal   Element
	From    Parts // of the article: the rule holds from this fineness on
	White   bool  // white gold only
	Least   Parts
	Grade   Grade
	Source  string
}

const (
	fromMemory = "guidance of the assay offices"
	portugal   = "Law 98/2015, article 56 (1)(e)"
)

// solders: the white gold figures of the two countries differ, and so does the
// standing of the sources; neither fills the gaps of the other. Platinum and
// palladium of Portugal lie beyond the excerpt that was seen.
var solders = []SolderRule{
	{"GB", Gold, 375_000, false, 0, FromMemory, fromMemory},
	{"GB", Gold, 750_000, true, 500_000, FromMemory, fromMemory},
	{"GB", Gold, 916_000, false, 750_000, FromMemory, fromMemory},
	{"GB", Silver, 800_000, false, 650_000, FromMemory, fromMemory},
	{"GB", Platinum, 850_000, false, 800_000, FromMemory, fromMemory},
	{"GB", Palladium, 500_000, false, 700_000, FromMemory, fromMemory},
	{"PT", Gold, 375_000, false, 0, FromLaw, portugal},
	{"PT", Gold, 585_000, true, 585_000, FromLaw, portugal},
	{"PT", Gold, 916_000, false, 750_000, FromLaw, portugal},
	{"PT", Silver, 925_000, false, 650_000, FromLaw, portugal},
}

// Solder gives the rule for the solder of an article of a fineness; false when
// none is on file. Where several hold, it is the one from the highest fineness
// on.
func Solder(country string, metal Element, fineness Parts, white bool) (SolderRule, bool) {
	c, ok := Find(country)
	if !ok {
		return SolderRule{}, false
	}
	var best SolderRule
	found := false
	for _, r := range solders {
		if r.Country == c.Code && r.Metal == metal && r.From <= fineness && (!r.White || white) && (!found || r.From >= best.From) {
			best, found = r, true
		}
	}
	return best, found
}

// LeastFor is the fineness that the solder of an article must reach.
func (r SolderRule) LeastFor(article Parts) Parts {
	if r.Least == 0 {
		return article
	}
	return r.Least
}
