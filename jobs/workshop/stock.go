package workshop

import (
	"strings"
	"time"

	"castweek/jobs/source"
	"castweek/metal"
	"castweek/metal/mark"
	"castweek/metal/measure"
)

// Stock is how the house keeps and spends its metal.
type Stock struct {
	Reuse         Reuse            // of alloys without a rule of their own
	Rules         map[string]Reuse // by alloy or family
	Margin        measure.PerMille // that a mix aims above the standard
	StampDiscount measure.PerMille // taken off a fineness known by a stamp only
	TakesStamps   bool             // false: such lots are refused
	LeastTake     measure.Gram     // of a lot, in a charge
	Country       string           // whose law the marks follow
}

// Reuse is how metal that was cast before goes in again.
type Reuse struct {
	Fresh measure.Percent // least share of fresh metal in a charge
	Melts int             // a lot melted more often does not go in again
	Lead  time.Duration   // from the order until the metal is here
}

const (
	// DefaultFresh is the usual rule for carat gold and sterling: at least half
	// of a charge is fresh (two alloy makers' tips).
	DefaultFresh measure.Percent = 50
	// DefaultMelts ends a chain of buttons: common practice, no source. One
	// maker has the whole stock renewed every six months instead.
	DefaultMelts = 10
	// DefaultLead is a refiner's delivery: common practice, no source.
	DefaultLead = 3 * 24 * time.Hour
	// DefaultMargin is what a mix aims above the standard: common practice, no
	// source.
	DefaultMargin measure.PerMille = 1
	// DefaultLeastTake is the least of a lot that is weighed into a charge as a
	// line of its own: common practice, no source.
	DefaultLeastTake measure.Gram = 1
	// DefaultCountry is whose hallmark law is looked up.
	DefaultCountry = "United Kingdom"
)

// defaultReuse differs from the rule where published figures do: white golds
// 70 % fresh (a caster's text); platinum and gold of 22 carat and above up to
// all returned, palladium never twice (a casting machine's manual; another
// maker reports three casts of palladium without fresh metal).
func defaultReuse() map[string]Reuse {
	row := func(fresh measure.Percent, melts int) Reuse { return Reuse{fresh, melts, DefaultLead} }
	return map[string]Reuse{"585 white": row(70, DefaultMelts), "750 white": row(70, DefaultMelts),
		"916 yellow": row(0, DefaultMelts), "999.9 gold": row(0, DefaultMelts), "950 platinum": row(0, DefaultMelts), "palladium": row(100, 0)}
}

// ReuseOf is the rule for an alloy: by its name, else by its family, else the
// house's.
func (s Stock) ReuseOf(a metal.Alloy) Reuse {
	if r, ok := s.Rules[a.Name]; ok {
		return r
	}
	if r, ok := s.Rules[a.Family]; ok {
		return r
	}
	return s.Reuse
}

func readStock(m *source.Map, alloys metal.Alloys) Stock {
	st := Stock{Reuse: Reuse{DefaultFresh, DefaultMelts, DefaultLead}, Rules: defaultReuse(), Margin: DefaultMargin, LeastTake: DefaultLeastTake, Country: DefaultCountry}
	st.Country = source.Maybe(m, "marks", st.Country, parseCountry)
	section(m, "stock", func(s *source.Map) {
		st.Reuse = readReuse(s, st.Reuse)
		st.tighten(s, st.Reuse, func(string) bool { return true })
		st.Margin = source.Maybe(s, "margin", st.Margin, source.Within(measure.ParsePerMille, 0, 20))
		st.LeastTake = source.Maybe(s, "least_take", st.LeastTake, source.Within(measure.ParseGram, 0, 20))
		if s.Has("stamp_discount") {
			st.TakesStamps = true
			st.StampDiscount = source.Maybe(s, "stamp_discount", 0, source.Within(measure.ParsePerMille, 0, 200))
		}
		names := once{}
		for _, a := range s.Maps("alloys") {
			name := source.Need(a, "alloy", source.Line)
			names.check(a, "alloy", name)
			checkAlloys(alloys, "alloy", valuesOf(a, "alloy"))
			x, ok := alloys.Find(name)
			if !ok {
				x.Family = name
			}
			st.Rules[name] = readReuse(a, st.ReuseOf(x))
			st.tighten(a, st.Rules[name], func(general string) bool {
				g, ok := alloys.Find(general)
				return ok && g.Family == name
			})
			a.Done()
		}
	})
	return st
}

// tighten brings the general rows for single alloys up to what the house says
// of all, or of their family; a stricter row stays until the house names it.
func (st *Stock) tighten(s *source.Map, r Reuse, covers func(name string) bool) {
	for name := range defaultReuse() {
		g, ok := st.Rules[name]
		if !ok || !covers(name) {
			continue
		}
		if s.Has("fresh_share") {
			g.Fresh = max(g.Fresh, r.Fresh)
		}
		if s.Has("most_melts") {
			g.Melts = min(g.Melts, r.Melts)
		}
		if s.Has("lead_time") {
			g.Lead = r.Lead
		}
		st.Rules[name] = g
	}
}

func readReuse(s *source.Map, r Reuse) Reuse {
	r.Fresh = source.Maybe(s, "fresh_share", r.Fresh, source.Within(measure.ParsePercent, 0, 100))
	r.Melts = source.Maybe(s, "most_melts", r.Melts, source.Within(measure.Whole, 0, 100))
	r.Lead = source.Maybe(s, "lead_time", r.Lead, parseSpan)
	return r
}

func parseCountry(text string) (string, error) {
	if c, ok := mark.Find(text); ok {
		return c.Name, nil
	}
	var known []string
	for _, c := range mark.Countries() {
		known = append(known, c.Name)
	}
	return "", &measure.SyntaxError{Code: "country-unknown", Message: "the marks of \"" + text + "\" are not on file", Remedy: "write one of: " + strings.Join(known, ", ")}
}
