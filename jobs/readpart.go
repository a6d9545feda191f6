package jobs

import (
	"strings"

	"castweek/jobs/setting"
	"castweek/jobs/source"
	"castweek/jobs/workshop"
	"castweek/metal"
	"castweek/metal/measure"
)

func (r *reader) parts(m *source.Map, j *Job) {
	if !m.Has("parts") {
		m.Missing("parts")
	}
	list := m.Maps("parts")
	names := map[string]bool{}
	for _, s := range list {
		p := Part{
			At:      s.At(),
			Name:    source.Maybe(s, "name", "", source.Line),
			Alloy:   r.alloy(s, true),
			Spares:  source.Maybe(s, "spares", 0, source.Within(measure.Whole, 0, maxPieces)),
			Section: source.Maybe(s, "section", "", source.OneOf("thin", "medium", "heavy")),
		}
		switch {
		case p.Name == "" && !s.Has("name") && len(list) > 1:
			s.Missing("name")
		case names[strings.ToLower(p.Name)]:
			s.Bad("name", "name-double", "give one of them another name", "two parts are named %q", p.Name)
		}
		names[strings.ToLower(p.Name)] = p.Name != ""
		p.Pattern = r.pattern(s)
		p.Feeders = r.feeders(s, p.Pattern)
		r.shank(s, j, &p)
		s.Done()
		j.Parts = append(j.Parts, p)
	}
}

// alloy reads the key alloy. One that is cast here needs a melt, a crucible and
// a powder of the house.
func (r *reader) alloy(s *source.Map, cast bool) string {
	name := source.Need(s, "alloy", source.Line)
	if r.shop == nil || name == "" {
		return name
	}
	a, ok := r.shop.Alloys.Find(name)
	switch {
	case !ok:
		s.Bad("alloy", "unknown-alloy", workshop.AlloyRemedy(r.shop.Alloys, name), "unknown alloy %q", name)
	case !cast:
	case strings.HasPrefix(name, "master "):
		s.Bad("alloy", "alloy-master", "write the alloy that is made with it", "%q is for mixing, nothing is cast of it", name)
	case !metal.Covers(r.shop.Melts, a):
		s.Bad("alloy", "alloy-not-melted", "have it cast elsewhere, or add it to melts in workshop.yaml", "the house does not melt %s", name)
	case !r.inCrucible(a):
		s.Bad("alloy", "alloy-no-crucible", "add it to the alloys of a crucible in workshop.yaml", "no crucible of the house may hold %s", name)
	case !r.inPowder(a):
		s.Bad("alloy", "alloy-no-powder", "add it to the alloys of a powder in workshop.yaml", "no investment powder of the house is for %s", name)
	}
	return name
}

func (r *reader) inCrucible(a metal.Alloy) bool {
	for _, c := range r.shop.Crucibles {
		if metal.Covers(c.Alloys, a) {
			return true
		}
	}
	return false
}

func (r *reader) inPowder(a metal.Alloy) bool {
	for _, p := range r.shop.Powders {
		if metal.Covers(p.Alloys, a) {
			return true
		}
	}
	return false
}

// feeders reads "in the mesh", "none" or number x diameter x length.
func (r *reader) feeders(s *source.Map, p Pattern) Feeders {
	f := source.Need(s, "feeders", parseFeeders)
	if f.InMesh && p.Mesh == "" && s.Has("pattern") {
		s.Bad("feeders", "feeders-no-mesh", "write number x diameter x length, such as 2 x 3.2 x 9.5 mm", "there is no mesh that the feeders could be in")
	}
	return f
}

func parseFeeders(text string) (Feeders, error) {
	wrong := &measure.SyntaxError{Code: "feeders-form", Message: "\"" + text + "\" does not tell the feeders",
		Remedy: "write number x diameter x length, such as 2 x 3.2 x 9.5 mm; or: in the mesh; or: none"}
	switch text {
	case "in the mesh":
		return Feeders{InMesh: true}, nil
	case "none":
		return Feeders{}, nil
	}
	number, rest, ok := strings.Cut(text, "x")
	if !ok {
		return Feeders{}, wrong
	}
	n, err := measure.Whole(number)
	if err != nil {
		return Feeders{}, wrong
	}
	l, err := measure.ParseLengths(rest)
	if err != nil {
		return Feeders{}, err
	}
	if len(l) != 2 || n < 1 || n > 20 || l[0] <= 0 || l[0] > 20 || l[1] <= 0 || l[1] > 100 {
		return Feeders{}, wrong
	}
	return Feeders{Count: n, Diameter: l[0], Length: l[1]}, nil
}

// shank reads the finished and modelled section of a ring's shank.
func (r *reader) shank(s *source.Map, j *Job, p *Part) {
	m := s.Map("shank")
	if m == nil {
		return
	}
	p.Shank = &Allowance{
		At:            m.At(),
		Finished:      source.Need(m, "finished", section),
		Modelled:      source.Need(m, "modelled", section),
		FinishedWidth: source.Maybe(m, "finished_width", 0, section),
		ModelledWidth: source.Maybe(m, "modelled_width", 0, section),
	}
	m.Done()
	if j.Kind != Ring && j.Kind != "" {
		s.Bad("shank", "shank-not-ring", "remove it, or write kind: ring", "only a ring has a shank")
	}
	r.allowance(m, "modelled", "shank", p.Shank.Finished, p.Shank.Modelled)
	r.allowance(m, "modelled_width", "width of the shank", p.Shank.FinishedWidth, p.Shank.ModelledWidth)
}

// section bounds the thickness or width of a shank.
var section = source.Within(measure.ParseMM, 0.3, 30)

// allowance judges whether a modelled diameter or thickness leaves enough to
// clean up.
func (r *reader) allowance(m *source.Map, key, what string, finished, modelled measure.MM) {
	if finished > 0 && modelled > 0 && modelled < finished {
		m.Bad(key, "modelled-small", "correct the pattern or the finished size", "%s modelled %s, finished %s: metal cannot be added", what, modelled, finished)
		return
	}
	if r.shop == nil {
		return
	}
	leave := r.shop.Limits.CleanUp
	if c, ok := setting.CleanUp(finished, modelled, leave); ok && !c.Rules[0].Met {
		m.Remark(key, "clean-up", "model it at "+(finished+leave).String()+", or accept it thinner",
			"%s modelled %s for %s finished: %s", what, modelled, finished, checkText(c))
	}
}
