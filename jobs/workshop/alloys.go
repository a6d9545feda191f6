package workshop

import (
	"fmt"
	"strings"

	"castweek/jobs/source"
	"castweek/metal"
	"castweek/metal/measure"
	"castweek/metal/problem"
)

// readAlloys adds the workshop's own alloys to the start list, or puts them in
// the place of those of the same name.
func readAlloys(m *source.Map, problems *problem.List) metal.Alloys {
	list := metal.StartList()
	names := once{}
	for _, a := range m.Maps("alloys") {
		own := metal.Alloy{
			Name:     source.Need(a, "name", source.Line),
			Family:   source.Need(a, "family", source.OneOf(list.Families()...)),
			Measured: source.Maybe(a, "density", 0, source.Positive(measure.ParseGramPerCC)),
			Source:   source.Need(a, "source", source.Line),
			Solidus:  source.Maybe(a, "solidus", 0, measure.ParseCelsius),
			Liquidus: source.Maybe(a, "liquidus", 0, measure.ParseCelsius),
		}
		own.Composition = readComposition(a)
		names.check(a, "name", own.Name)
		if len(own.Composition) > 0 {
			for _, f := range own.Check() {
				key := "composition"
				if a.Has("density") && strings.HasPrefix(f.Code, "density") {
					key = "density"
				}
				if f.Refused {
					a.Bad(key, f.Code, f.Remedy, "%s", f.Message)
				} else {
					a.Remark(key, f.Code, f.Remedy, "%s", f.Message)
				}
			}
		}
		checkFineness(a, own)
		if own.Solidus > own.Liquidus {
			a.Bad("solidus", "melting-range", "check the two", "solidus %s above liquidus %s", own.Solidus, own.Liquidus)
		}
		a.Done()
		list = list.With(own)
	}
	return list
}

// checkFineness refuses a name that promises more than the recipe holds: the
// name goes onto bags, and from there into stamps.
func checkFineness(m *source.Map, a metal.Alloy) {
	first, _, _ := strings.Cut(a.Name, " ")
	promised, err := measure.Number(first)
	held := a.Fineness().PerMille()
	if err == nil && promised <= 1000 && len(a.Composition) > 0 && float64(held) < promised {
		m.Bad("composition", "fineness-name", "correct the recipe, or name the alloy for what it holds", "%q holds %s of %s only", a.Name, held, a.Family)
	}
}

// readComposition reads [gold 750, silver 125, copper 125], in thousandths. It
// is empty when one of the shares is wrong, so that no sum is made of the rest.
func readComposition(a *source.Map) metal.Composition {
	if !a.Has("composition") {
		a.Missing("composition")
	}
	var out metal.Composition
	sound := true
	for _, v := range a.Values("composition") {
		s, err := parseShare(v.Text)
		if err != nil {
			v.Bad(err.Code, err.Remedy, "composition: %s", err.Message)
			sound = false
			continue
		}
		if out.Of(s.Element) > 0 {
			v.Bad("name-double", "add the two together", "%s is given twice", s.Element.Name())
			sound = false
			continue
		}
		out = append(out, s)
	}
	if !sound {
		return nil
	}
	return out
}

func parseShare(text string) (metal.Share, *measure.SyntaxError) {
	name, number, ok := strings.Cut(text, " ")
	e, known := metal.ElementNamed(name)
	n, err := measure.Number(strings.TrimSuffix(strings.TrimSpace(number), "‰"))
	switch {
	case !ok || err != nil:
		return metal.Share{}, &measure.SyntaxError{Code: "share-form", Message: fmt.Sprintf("%q is not a share", text), Remedy: "write element and thousandths, such as gold 750"}
	case !known:
		return metal.Share{}, &measure.SyntaxError{Code: "element-unknown", Message: fmt.Sprintf("%q is not an element that is known here", name), Remedy: "write its English name or its symbol"}
	case n <= 0 || n > 1000:
		return metal.Share{}, &measure.SyntaxError{Code: "number-range", Message: fmt.Sprintf("%q is not between 0 and 1000 thousandths", text), Remedy: "write thousandths by mass"}
	}
	return metal.Share{Element: e, Parts: metal.PartsOf(measure.PerMille(n))}, nil
}

// checkAlloys reports names that are neither an alloy nor a family.
func checkAlloys(list metal.Alloys, key string, values []source.Value) []string {
	var out []string
	for _, v := range values {
		out = append(out, v.Text)
		if _, ok := list.Find(v.Text); ok || contains(list.Families(), v.Text) {
			continue
		}
		v.Bad("unknown-alloy", AlloyRemedy(list, v.Text), "%s: %q is not an alloy or a family of alloys that is known here", key, v.Text)
	}
	return out
}

// AlloyRemedy proposes the alloy that was meant, or how to add one.
func AlloyRemedy(list metal.Alloys, text string) string {
	if near, ok := source.Nearest(text, append(list.Names(), list.Families()...)); ok {
		return "write " + near
	}
	return "write one of: " + strings.Join(list.Names(), ", ") + "; or add it to alloys in workshop.yaml"
}

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}
