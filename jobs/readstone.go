package jobs

import (
	"strings"

	"castweek/jobs/setting"
	"castweek/jobs/source"
	"castweek/jobs/stone"
	"castweek/metal/measure"
)

// hasClaws tells the styles whose claws have to be told.
func hasClaws(style string) bool {
	return style == string(setting.Claw) || style == string(setting.Points)
}

func parseStyle(text string) (string, error) {
	if s, ok := setting.StyleOf(text); ok {
		return string(s), nil
	}
	var names []string
	for _, s := range setting.Styles() {
		names = append(names, string(s))
	}
	return source.OneOf(names...)(text)
}

func (r *reader) findings(m *source.Map, j *Job) {
	for _, s := range m.Maps("findings") {
		f := Finding{
			At:     s.At(),
			Name:   source.Need(s, "name", source.Line),
			Count:  source.Need(s, "count", source.Within(measure.Whole, 1, maxPieces)),
			Alloy:  r.alloy(s, false),
			Weight: source.Need(s, "weight", source.Positive(measure.ParseGram)),
			Marked: source.Need(s, "marked", source.YesNo),
			Here:   source.Need(s, "here", source.YesNo),
			From:   source.Maybe(s, "from", "", source.Line),
		}
		s.Done()
		if s.Has("here") && !f.Here {
			s.Remark("here", "finding-not-here", "order it; the casting need not wait", "%d × %s per piece not here", f.Count, f.Name)
		}
		j.Findings = append(j.Findings, f)
	}
}

func (r *reader) stones(m *source.Map, j *Job) {
	for _, s := range m.Maps("stones") {
		x := Stone{
			At:        s.At(),
			Place:     source.Need(s, "place", source.Line),
			Kind:      source.Need(s, "kind", source.Line),
			Origin:    source.Maybe(s, "origin", "", source.OneOf("natural", "lab-grown", "simulant")),
			Treatment: source.Maybe(s, "treatment", "", source.Line),
			Count:     source.Need(s, "count", source.Within(measure.Whole, 1, maxStones)),
			Spares:    source.Maybe(s, "spares", 0, source.Within(measure.Whole, 0, maxStones)),
			Style:     source.Need(s, "setting", parseStyle),
			InWax:     source.Need(s, "set", source.OneOf("after casting", "in the wax")) == "in the wax",
			Girdle:    source.Maybe(s, "girdle", 0, source.Within(measure.ParseMM, 0.1, 40)),
			Wall:      source.Maybe(s, "wall", 0, source.Within(measure.ParseMM, 0.1, 5)),
			Owner:     source.Maybe(s, "owner", House, parseOwner),
			Risk:      source.Maybe(s, "risk", "", source.Line),
			Parcel:    source.Maybe(s, "parcel", "", source.Line),
			Here:      source.Need(s, "here", source.YesNo),
			Ordered:   source.Maybe(s, "ordered", "", source.Line),
			Sits:      source.Each(s, "sits", parseSeat),
		}
		x.Part = r.stonePart(s, j)
		r.stoneSize(s, &x)
		r.seat(s, &x)
		r.claws(s, &x)
		r.stoneRules(s, j, x)
		s.Done()
		j.Stones = append(j.Stones, x)
	}
}

// stonePart finds the part that holds the stone.
func (r *reader) stonePart(s *source.Map, j *Job) int {
	name := source.Maybe(s, "part", "", source.Line)
	if !s.Has("part") {
		if len(j.Parts) > 1 {
			s.Missing("part")
		}
		return 0
	}
	var names []string
	for i, p := range j.Parts {
		if p.Name == name {
			return i
		}
		names = append(names, p.Name)
	}
	remedy := "write one of: " + strings.Join(names, ", ")
	if len(j.Parts) == 1 && j.Parts[0].Name == "" {
		remedy = "remove it: the job has one part"
	}
	if name != "" {
		s.Bad("part", "unknown-part", remedy, "no part is named %q", name)
	}
	return 0
}

// stoneSize reads cut, size and depth. A depth that is not given is assumed
// from the cut, and marked.
func (r *reader) stoneSize(s *source.Map, x *Stone) {
	cut := source.Need(s, "cut", parseCut)
	x.Cut = string(cut)
	l := source.Need(s, "size", measure.ParseLengths)
	x.Depth = source.Maybe(s, "depth", 0, source.Within(measure.ParseMM, 0.1, 50))
	for _, v := range l {
		if v < 0.5 || v > 50 {
			s.Bad("size", "number-range", "check the number and its unit", "a stone of %s is not credible", v)
			return
		}
	}
	switch {
	case len(l) == 0:
		return
	case len(l) > 2 || cut.Equal() && len(l) != 1:
		s.Bad("size", "stone-size", "write one length for a round stone, length x width for others, and depth: … for the depth", "%d lengths do not tell the size of a stone cut %s", len(l), cut)
		return
	case len(l) == 1 && cut != "" && !oneLengthDoes(cut):
		s.Bad("size", "stone-size", "write length x width, such as 6 x 4 mm", "a stone cut %s needs length and width", cut)
		return
	}
	x.Length, x.Width = max(l[0], l[len(l)-1]), min(l[0], l[len(l)-1])
	if cut != "" && x.Depth == 0 && !s.Has("depth") {
		x.Depth, _ = stone.AssumedDepth(cut, stone.Find(x.Kind), x.Width)
		x.Assumed = true
	}
	if x.Depth > 1.2*x.Width {
		s.Bad("depth", "stone-deep", "check size and depth", "a stone %s deep and %s wide is not credible", x.Depth, x.Width)
	}
}

// seat reads what the pattern has for the stone: a seat, told as the stone's
// size is, and the metal that a flush stone is let into.
func (r *reader) seat(s *source.Map, x *Stone) {
	l := source.Maybe(s, "seat", nil, measure.ParseLengths)
	x.Metal = source.Maybe(s, "metal", 0, source.Within(measure.ParseMM, 0.1, 30))
	if s.Has("metal") && x.Style != string(setting.Flush) && x.Style != "" {
		s.Bad("metal", "metal-not-here", "remove it, or write setting: flush", "only a flush stone is let into the metal")
	}
	if len(l) == 0 || x.Width <= 0 {
		return
	}
	want := 2
	if x.Length == x.Width {
		want = 1
	}
	if len(l) != want {
		s.Bad("seat", "seat-size", "write it as the size of the stone, such as 6.5 mm or 6 x 4 mm", "%d lengths do not tell a seat for a stone of %s", len(l), sizeWords(x.Length, x.Width))
		return
	}
	x.Seat = setting.Seat{Length: max(l[0], l[len(l)-1]), Width: min(l[0], l[len(l)-1])}
	if x.Seat.Width < x.Width/2 || x.Seat.Length > 1.5*x.Length {
		s.Bad("seat", "number-range", "check the numbers and their unit", "a seat of %s for a stone of %s is not credible", sizeWords(x.Seat.Length, x.Seat.Width), sizeWords(x.Length, x.Width))
	}
}

// sizeWords writes one length for what is round.
func sizeWords(length, width measure.MM) string {
	if length == width {
		return length.String()
	}
	return length.String() + " x " + width.String()
}

// oneLengthDoes tells the cuts whose sides are equal often enough that one
// length is how they are ordered.
func oneLengthDoes(c stone.Cut) bool {
	switch c {
	case stone.Round, stone.Bead, stone.Square, stone.Princess, stone.Cushion, stone.Trilliant, stone.Heart, stone.Cabochon:
		return true
	}
	return false
}

func parseCut(text string) (stone.Cut, error) {
	if c, ok := stone.CutOf(text); ok {
		return c, nil
	}
	var names []string
	for _, c := range stone.Cuts() {
		names = append(names, string(c))
	}
	_, err := source.OneOf(names...)(text)
	return "", err
}

func (r *reader) claws(s *source.Map, x *Stone) {
	m := s.Map("claws")
	switch {
	case m == nil && hasClaws(x.Style) && !s.Has("claws"):
		s.Bad("setting", "claws-missing", "add claws: {count: 4, finished: 1.0 mm, modelled: 1.1 mm}", "a setting with claws needs their count and wire")
	case m != nil && !hasClaws(x.Style) && x.Style != "":
		s.Bad("claws", "claws-not-here", "remove them, or write setting: claw", "%q has no claws", x.Style)
	}
	if m == nil {
		return
	}
	wire := source.Within(measure.ParseMM, 0.2, 5)
	x.Claws = &Claws{
		Count:    source.Need(m, "count", source.Within(measure.Whole, 2, 24)),
		Finished: source.Need(m, "finished", wire),
		Modelled: source.Need(m, "modelled", wire),
		Overlap:  source.Maybe(m, "overlap", 0, source.Within(measure.ParseMM, 0, 5)),
		Height:   source.Maybe(m, "height", 0, source.Within(measure.ParseMM, 0, 30)),
		Shared:   source.Maybe(m, "shared", false, source.YesNo),
	}
	m.Done()
	r.allowance(m, "modelled", "claw wire", x.Claws.Finished, x.Claws.Modelled)
	if x.Claws.Modelled > 0 && x.Claws.Overlap > x.Claws.Modelled {
		m.Bad("overlap", "claw-overlap", "check the overlap", "a claw of %s cannot overlap the girdle by %s", x.Claws.Modelled, x.Claws.Overlap)
	}
}
