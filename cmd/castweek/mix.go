package main

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"castweek/jobs/workshop"
	"castweek/metal/book"
	"castweek/metal/measure"
	"castweek/metal/mix"
	"castweek/metal/problem"

	"github.com/spf13/cobra"
)

type mixFlags struct {
	want, grams, margin, discount, within, least, folder string
	lots, costs, bands                                   []string
	weighed, asJSON                                      bool
}

type mixLotJSON struct {
	Name  string  `json:"name"`
	Grams float64 `json:"grams"`
}

// mixAnswer is the JSON answer of the verb. Finenesses are rounded down.
type mixAnswer struct {
	Schema   int                `json:"schema"`
	Want     string             `json:"want"`
	Grams    float64            `json:"grams"`
	Lots     []mixLotJSON       `json:"lots"`
	Fineness float64            `json:"fineness"`
	Worst    float64            `json:"worst_fineness"`
	Short    map[string]float64 `json:"short_g"`
	Problems []problemJSON      `json:"problems"`
}

func mixCmd(s *streams) *cobra.Command {
	var f mixFlags
	c := &cobra.Command{
		Use:   "mix --want ALLOY --grams G --lot LOT...",
		Short: "say what to weigh of which lots to make an alloy of a fineness",
		Long: `Say what to weigh of which lots, so that the mix is fine enough even when the
scale is one step off each time.

A lot is an alloy that the workshop or the start list knows, a lot number of the
metal's book, or a fineness ("585 gold", or "750 stamp" when only a stamp says
so). Grams after a colon limit it; =Au417,Ag100,Cu483 gives a composition.`,
		Example: `  castweek mix --want "750 yellow" --grams 60 --lot "999.9 gold" --lot "585 yellow:22g" --lot "master 750 yellow"
  castweek mix --want "750 yellow" --grams 60 --lot "999.9 gold" --lot "417 scrap:20g=Au417,Ag100,Cu483" --lot copper
  castweek mix --want "750 yellow" --weighed --lot "999.9 gold:45.05g" --lot "master 750 yellow:14.95g"`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return runMix(s, f) },
	}
	c.Flags().StringVar(&f.want, "want", "", `alloy to make, such as "750 yellow", or a fineness, such as "750 gold"`)
	c.Flags().StringVar(&f.grams, "grams", "", "weight of the whole mix in g")
	c.Flags().StringArrayVar(&f.lots, "lot", nil, "lot to take from; may be given again")
	c.Flags().StringVar(&f.margin, "margin", "", "margin over the standard, in ‰ (default the house's; without a folder 1)")
	c.Flags().StringVar(&f.discount, "stamp-discount", "", "‰ to take off a fineness known by a stamp only (default the house's; without one such lots are refused)")
	c.Flags().StringVar(&f.within, "within", "", "keep every element within so many ‰ of the alloy's recipe, so that the colour stays")
	c.Flags().StringArrayVar(&f.bands, "band", nil, `bounds of one element in ‰, such as "Ag=100-150", "Ni=-0" (none) or "Pd=120-" (at least); may be given again`)
	c.Flags().StringVar(&f.least, "least", "fresh", "what to spend least of: fresh (fine metal) or cost")
	c.Flags().StringArrayVar(&f.costs, "cost", nil, `cost per gram of a lot, such as "999.9 gold=85.20"; may be given again`)
	c.Flags().StringVar(&f.folder, "folder", "", "job folder with the workshop's alloys, scale and metal's book")
	c.Flags().BoolVar(&f.weighed, "weighed", false, "the grams of each lot are weighed already: judge them, and say what to add")
	c.Flags().BoolVar(&f.asJSON, "json", false, "answer as JSON")
	return c
}

func runMix(s *streams, f mixFlags) error {
	h, err := openHouse(s, f.folder)
	if err != nil {
		return err
	}
	w, recipe, err := h.want(f)
	if err != nil {
		return err
	}
	var b *book.Book
	if f.folder != "" {
		if b, err = h.readBook(s); err != nil {
			return err
		}
	}
	lots, err := h.lots(w, b, f)
	if err != nil {
		return err
	}
	if err := ownersApart(s, b, lots); err != nil {
		return err
	}
	a, err := makeOrJudge(w, lots, f.weighed)
	if err != nil {
		return err
	}
	if f.asJSON {
		if err := writeJSON(s.out, mixJSON(f.want, w, recipe, lots, a)); err != nil {
			return err
		}
	} else {
		tellMix(s, f.want, w, recipe, h.step, lots, a)
	}
	switch {
	case a.OK():
		return nil
	case strings.HasPrefix(a.Problems.Errors()[0].Code, "lot-"):
		return told(exitRefused) // the lots themselves are in doubt
	}
	return told(exitIncomplete)
}

// makeOrJudge finds a mix, or judges the one that is weighed.
func makeOrJudge(w mix.Want, lots []mix.Lot, weighed bool) (mix.Answer, error) {
	if !weighed {
		return mix.Make(w, lots), nil
	}
	var grams []measure.Milligram
	for _, l := range lots {
		if !l.Limited {
			return mix.Answer{}, wrongUsage("--weighed needs the grams of every lot, such as --lot %q", l.Name+":45g")
		}
		grams = append(grams, l.Limit)
	}
	return mix.Weighed(w, lots, grams), nil
}

// want is what the flags ask for, and the recipe of the alloy if it has one.
func (h *house) want(f mixFlags) (w mix.Want, recipe []mix.Content, err error) {
	if f.weighed && f.grams == "" {
		f.grams = h.step.Number(3) // whatever it comes to
	}
	if f.want == "" || f.grams == "" || len(f.lots) == 0 {
		return w, nil, wrongUsage(`--want, --grams and at least one --lot are needed, such as: castweek mix --want "750 yellow" --grams 60 --lot "999.9 gold" --lot "master 750 yellow"`)
	}
	w.Step = h.step
	if w.Grams, err = weightFlag("--grams", f.grams); err != nil {
		return w, nil, err
	}
	if !f.weighed && w.Grams < h.step {
		return w, nil, wrongUsage("--grams %q is less than the scale shows; make at least %s g, and far more for a fineness that is near the standard", f.grams, inSteps(h.step, h.step))
	}
	f = h.mixDefaults(f)
	if w.Margin, err = perMille(f.margin); err != nil {
		return w, nil, wrongUsage("--margin %q is not in ‰; write such as 1", f.margin)
	}
	if f.discount != "" {
		if w.StampDiscount, err = perMille(f.discount); err != nil {
			return w, nil, wrongUsage("--stamp-discount %q is not in ‰; write such as 10", f.discount)
		}
	}
	switch f.least {
	case "fresh":
	case "cost":
		w.Objective = mix.LeastCost
	default:
		return w, nil, wrongUsage("--least %q is not known; write fresh or cost", f.least)
	}
	if w.Bands, err = bandFlags(f.bands); err != nil {
		return w, nil, err
	}
	if number, name, _ := strings.Cut(f.want, " "); isElement(name) {
		w.Metal = elementSymbol(name)
		if w.Fineness, err = perMille(number); err != nil {
			return w, nil, wrongUsage("--want %q: %q is not a fineness", f.want, number)
		}
		if _, isAlloy := h.alloys.Find(f.want); !isAlloy {
			return w, nil, nil
		}
	}
	a, err := h.alloy(f.want)
	if err != nil {
		return w, nil, err
	}
	if !mix.Precious(string(a.Noble())) {
		return w, nil, wrongUsage("%s has no fineness; name an alloy of a precious metal", a.Name)
	}
	w.Metal, recipe = string(a.Noble()), contents(a.Composition)
	// The standard is what the name promises, not the little more of the recipe.
	number, _, _ := strings.Cut(a.Name, " ")
	if w.Fineness, err = perMille(number); err != nil {
		w.Fineness = big.NewRat(int64(a.Fineness()), 1000)
	}
	if f.within != "" {
		width, err := perMille(f.within)
		if err != nil {
			return w, nil, wrongUsage("--within %q is not in ‰; write such as 20", f.within)
		}
		w.Bands = append(mix.Around(recipe, w.Metal, width), w.Bands...)
	}
	return w, recipe, nil
}

// bandFlags reads bounds of single elements.
func bandFlags(list []string) (out []mix.Band, err error) {
	for _, text := range list {
		name, bounds, _ := strings.Cut(text, "=")
		least, most, ok := strings.Cut(bounds, "-")
		b := mix.Band{Element: elementSymbol(strings.TrimSpace(name))}
		for _, side := range []struct {
			text string
			to   **big.Rat
		}{{least, &b.Low}, {most, &b.High}} {
			if strings.TrimSpace(side.text) == "" {
				continue
			}
			if *side.to, err = perMille(side.text); err != nil {
				ok = false
			}
		}
		if !ok || b.Element == "" || b.Low == nil && b.High == nil {
			return nil, wrongUsage(`--band %q is not an element with its bounds in ‰, such as "Ag=100-150"`, text)
		}
		out = append(out, b)
	}
	return out, nil
}

// mixDefaults fills in what the flags leave to the house.
func (h *house) mixDefaults(f mixFlags) mixFlags {
	margin, discount := workshop.DefaultMargin, measure.PerMille(0)
	if h.shop != nil {
		margin, discount = h.shop.Stock.Margin, h.shop.Stock.StampDiscount
	}
	typed := func(p measure.PerMille) string { return strings.TrimSuffix(p.String(), " ‰") }
	if f.margin == "" {
		f.margin = typed(margin)
	}
	if f.discount == "" && discount > 0 {
		f.discount = typed(discount)
	}
	return f
}

func tellMix(s *streams, asked string, w mix.Want, recipe []mix.Content, step measure.Milligram, lots []mix.Lot, a mix.Answer) {
	if !a.OK() {
		tellProblems(s, a.Problems)
		return
	}
	width := 0
	for _, k := range a.Takes {
		width = max(width, len([]rune(k.Name)))
	}
	fmt.Fprintf(s.out, "%s, weigh on a scale of %s g:\n", asked, inSteps(step, step))
	for _, k := range a.Takes {
		fmt.Fprintf(s.out, "  %-*s %10s g\n", width, k.Name, inSteps(k.Grams, step))
	}
	fmt.Fprintf(s.out, "  %-*s %10s g\n", width, "total", inSteps(a.Total, step))
	fmt.Fprintf(s.out, "%s ‰ of %s; %s ‰ at the least if every weighing is one step off; the standard is %s ‰\n",
		mix.Shown(a.Fineness), mix.ElementName(w.Metal), mix.Shown(a.Worst), shortRat(w.Fineness))
	var parts []string
	for _, c := range mix.Composition(w, lots, a.Takes) {
		parts = append(parts, mix.ElementName(c.Element)+" "+c.PerMille.FloatString(1))
	}
	fmt.Fprintf(s.out, "composition in ‰: %s\n", strings.Join(parts, ", "))
	tellProblems(s, mixRemarks(w, recipe, lots, a))
	fmt.Fprintln(s.out, "make the melt a lot of its own and test it before it is cast")
}

// richerThan is how far above the standard a mix may come out before it is
// remarked: gold is given away without need.
var richerThan = big.NewRat(5, 1) // ‰; common practice, no source

// mixRemarks are what a person should know of a mix that can be made: another
// colour than the recipe's, and metal finer than was asked.
func mixRemarks(w mix.Want, recipe []mix.Content, lots []mix.Lot, a mix.Answer) problem.List {
	if !a.OK() {
		return nil
	}
	var list problem.List
	for _, d := range mix.Departures(w, recipe, lots, a.Takes) {
		list.Remark(problem.Place{File: "mix"}, "mix-colour", "add --within "+shortRat(mix.ColourWidth())+" to keep to the recipe",
			"%s is at %s ‰, the recipe says %s: the colour will be another", mix.ElementName(d.Element), d.Is.FloatString(1), d.Recipe.FloatString(1))
	}
	if over := new(big.Rat).Sub(a.Fineness, w.Fineness); over.Cmp(richerThan) > 0 {
		if mix.CoarseOnly(w, lots, richerThan) {
			list.Remark(problem.Place{File: "mix"}, "mix-coarse", "make more at once, or weigh on a finer scale",
				"it comes out %s ‰ finer than asked, because the scale is coarse for so little metal", shortRat(over))
			return list
		}
		list.Remark(problem.Place{File: "mix"}, "mix-rich", "offer a master alloy, copper or silver to bring it down; less fine metal is then needed",
			"it comes out %s ‰ finer than asked", shortRat(over))
	}
	return list
}

func shortRat(r *big.Rat) string {
	s := strings.TrimRight(r.FloatString(3), "0")
	return strings.TrimSuffix(s, ".")
}

func mixJSON(asked string, w mix.Want, recipe []mix.Content, lots []mix.Lot, a mix.Answer) mixAnswer {
	out := mixAnswer{Schema: schemaVersion, Want: asked, Grams: inGrams(w.Grams), Lots: []mixLotJSON{}, Short: map[string]float64{}, Problems: problemsJSON(append(slices.Clone(a.Problems), mixRemarks(w, recipe, lots, a)...))}
	for i, l := range lots {
		g := measure.Milligram(0)
		for _, k := range a.Takes {
			if k.Lot == i {
				g = k.Grams
			}
		}
		out.Lots = append(out.Lots, mixLotJSON{l.Name, inGrams(g)})
	}
	if a.Fineness != nil {
		out.Grams = inGrams(a.Total)
		out.Fineness, out.Worst = roundedDown(a.Fineness), roundedDown(a.Worst)
	}
	for _, k := range a.Short {
		out.Short[mix.ElementName(k.Element)] = inGrams(k.Grams)
	}
	return out
}

// roundedDown gives thousandths with three decimals, never more than there is.
func roundedDown(r *big.Rat) float64 {
	n := new(big.Rat).Mul(r, big.NewRat(1000, 1))
	whole := new(big.Int).Div(n.Num(), n.Denom())
	return decimals(float64(whole.Int64())/1000, 3)
}
