package jobs

import (
	"io/fs"
	"math"
	"path"
	"strings"

	"castweek/jobs/pattern"
	"castweek/jobs/source"
	"castweek/metal/measure"
)

// A pattern is told in one of these ways.
var patternWays = []string{"mesh", "volume", "weight", "rod"}

func (r *reader) pattern(part *source.Map) Pattern {
	if !part.Has("pattern") {
		part.Missing("pattern")
	}
	s := part.Map("pattern")
	if s == nil {
		return Pattern{}
	}
	p := Pattern{
		At:       s.At(),
		Material: source.Need(s, "material", source.Line),
		Here:     source.Need(s, "here", source.YesNo),
		Mirrored: source.Maybe(s, "mirrored", false, source.YesNo),
		Mesh:     source.Maybe(s, "mesh", "", parseMeshPath),
		Unit:     source.Maybe(s, "unit", string(pattern.Millimetre), source.OneOf("mm", "cm", "inch", "m", "micron", "foot")),
		Volume:   source.Maybe(s, "volume", 0, source.Positive(measure.ParseCubicMM)),
		Weight:   source.Maybe(s, "weight", 0, source.Positive(measure.ParseGram)),
		Outer:    source.Maybe(s, "size", measure.Size{}, parseOuter),
	}
	if v, ok := s.Value("rod"); ok {
		rod := source.Need(s, "rod", parseRod)
		p.Rod = &rod
		if !s.Has("size") && v.Text != "" {
			p.Outer = measure.Size{Length: rod.Length, Width: rod.Diameter, Height: rod.Diameter}
		}
	}
	if s.Has("mesh") {
		p.At = s.Place("mesh")
	}
	r.ways(s)
	r.patternVolume(s, &p)
	s.Done()
	return p
}

// ways checks that the pattern is told in exactly one way, with what belongs
// to it.
func (r *reader) ways(s *source.Map) {
	var told []string
	for _, w := range patternWays {
		if s.Has(w) {
			told = append(told, w)
		}
	}
	switch {
	case len(told) == 0:
		s.Wrong("pattern-none", "write one of mesh, volume, weight or rod", "nothing says how much the pattern is")
	case len(told) > 1:
		s.Bad(told[1], "pattern-many", "keep the one that is true", "%s and %s are given; only one can count", told[0], told[1])
	}
	switch mesh := s.Has("mesh"); {
	case mesh && s.Has("size"):
		s.Bad("size", "outer-with-mesh", "remove it", "the mesh tells the outer size itself")
	case !mesh && !s.Has("rod") && len(told) > 0 && !s.Has("size"):
		s.Wrong("outer-missing", "add size: length x width x height, such as 24 x 22 x 9 mm", "a pattern without a mesh needs its outer size: it has to hang somewhere")
	}
	for _, key := range []string{"unit", "mirrored"} {
		if s.Has(key) && !s.Has("mesh") {
			s.Bad(key, "mesh-only", "remove it", "%q is for a mesh", key)
		}
	}
}

// patternVolume fills in the volume where it follows from weight or rod, and
// checks it against the outer size. A mesh is measured later.
func (r *reader) patternVolume(s *source.Map, p *Pattern) {
	if p.Rod != nil {
		p.Volume = p.Rod.Volume()
	}
	if r.shop != nil && p.Material != "" {
		material, ok := r.shop.Material(p.Material)
		if !ok {
			var names []string
			for _, m := range r.shop.Materials {
				names = append(names, m.Name)
			}
			s.Bad("material", "unknown-material", "write one of: "+strings.Join(names, ", "), "unknown pattern material %q", p.Material)
		} else if p.Weight > 0 {
			p.Volume = p.Weight.At(material.Density)
		}
	}
	box := measure.CubicMM(p.Outer.Length * p.Outer.Width * p.Outer.Height)
	if box > 0 && p.Rod == nil && p.Volume > box {
		s.Bad("size", "volume-over-size", "check size, volume and weight", "a volume of %s does not fit into %s", p.Volume, p.Outer)
	}
	if least := leastVolume(p.Outer); p.Rod == nil && p.Volume > 0 && p.Volume < least {
		s.Bad("size", "volume-under-size", "check size, volume and weight, and their units", "a volume of %.3f mm³ is less than a wire of %s along %s", float64(p.Volume), thinnestWire, p.Outer)
	}
}

// thinnestWire is half of the thinnest wall that model makers advise, 0.8 mm:
// what is finer does not fill. Common practice, no source.
const thinnestWire measure.MM = 0.4

// leastVolume is that of a wire as long as the longest side of a pattern: V =
// π/4 d² l. Less of it is a slip, such as mg for g, and would be poured short.
func leastVolume(o measure.Size) measure.CubicMM {
	return measure.CubicMM(math.Pi / 4 * thinnestWire * thinnestWire * max(o.Length, o.Width, o.Height))
}

// maxOuter bounds an outer size: no flask is as large.
const maxOuter = 300

func parseOuter(text string) (measure.Size, error) {
	o, err := measure.ParseSize(text)
	if err == nil && (min(o.Length, o.Width, o.Height) <= 0 || max(o.Length, o.Width, o.Height) > maxOuter) {
		err = &measure.SyntaxError{Code: "number-range", Message: "\"" + text + "\" is not the size of a pattern", Remedy: "check the numbers"}
	}
	return o, err
}

func parseRod(text string) (Rod, error) {
	l, err := measure.ParseLengths(text)
	if err != nil {
		return Rod{}, err
	}
	if len(l) != 2 || l[0] <= 0 || l[1] < l[0] || l[1] > maxOuter {
		return Rod{}, &measure.SyntaxError{Code: "rod-form", Message: "\"" + text + "\" is not a rod", Remedy: "write diameter x length, such as 2.5 x 40 mm"}
	}
	return Rod{l[0], l[1]}, nil
}

// parseMeshPath takes a path below the job folder, and nothing else.
func parseMeshPath(text string) (string, error) {
	if !fs.ValidPath(text) || text == "." || strings.ContainsAny(text, `\:`) {
		return "", &measure.SyntaxError{Code: "mesh-path", Message: "\"" + text + "\" is not a file below the job folder", Remedy: "write its path from the job folder with forward slashes, such as patterns/K-204.stl"}
	}
	switch strings.ToLower(path.Ext(text)) {
	case ".stl", ".3mf", ".obj":
		return text, nil
	}
	return "", &measure.SyntaxError{Code: "mesh-format", Message: "\"" + text + "\" is not a kind of mesh that is read here", Remedy: "give an .stl, .3mf or .obj file"}
}
