package setting

import (
	"strings"

	"castweek/jobs/stone"
	"castweek/metal/measure"
)

// A writer collects the steps and stops of one line of stones.
type writer struct {
	in    Input
	s     Line
	h     stone.Heights
	steps []Step
	stops []Stop
	// caution waits for the step it stands before.
	caution string
}

// Steps writes the ordered steps for a line of stones and the lines that say
// when to stop. Input that is no stone or no style gives no steps and a stop
// with code "input" that says what is missing.
func Steps(in Input) ([]Step, []Stop) {
	if missing := lacks(in); missing != "" {
		return nil, []Stop{{Code: "input", Text: fill(stopWords["input"], map[string]string{"missing": missing}), Source: sources["practice"], Now: true}}
	}
	s := in.Stone
	if s.Width > s.Length {
		s.Length, s.Width = s.Width, s.Length
	}
	s.DepthAssumed = s.DepthAssumed || s.Depth <= 0
	s.Depth = depthOf(s)
	in.Stone = s
	w := &writer{in: in, s: s, h: heights(s)}
	w.suit()
	w.measured()
	w.front()
	if in.InWax {
		w.wax()
	} else {
		map[Style]func(){Claw: w.claw, Points: w.points, Bezel: w.bezel, Bead: w.bead, Pave: w.pave, Channel: w.channel, Flush: w.flush}[in.Style]()
	}
	w.finish()
	return w.steps, w.stops
}

// lacks names what steps cannot be written without.
func lacks(in Input) string {
	s := in.Stone
	known := false
	for _, st := range Styles() {
		known = known || st == in.Style
	}
	_, cut := stone.CutOf(string(s.Cut))
	switch {
	case !known:
		return missingWords["style"]
	case !cut:
		return missingWords["cut"]
	case !(min(s.Length, s.Width) >= smallest) || !(max(s.Length, s.Width) <= largest):
		return missingWords["size"]
	case s.Depth != 0 && !(s.Depth >= min(s.Length, s.Width)/10 && s.Depth <= largest):
		return missingWords["depth"]
	case s.Count < 1:
		return missingWords["count"]
	case !(in.House.Fits >= cent && in.House.Return >= in.House.Fits && in.House.Culet > 0):
		return missingWords["house"]
	}
	return ""
}

// What is taken for a stone: the smallest ever reported set is 0.75 mm. A stone
// less deep than a tenth of its width is a slip of the pen.
const smallest, largest measure.MM = 0.5, 100

// step adds the step of a key, filled with numbers. Numbers that have nothing
// to say are left out beforehand, with [some].
func (w *writer) step(key, source string, numbers ...Number) {
	e := catalogue[key]
	w.steps = append(w.steps, Step{
		Key: key, Text: fill(e.text, values(numbers)), Numbers: numbers, Tool: e.tool,
		Source: sources[source], Caution: w.caution, Tick: true,
	})
	w.caution = ""
}

// warn lets a caution stand before the next step; two are joined.
func (w *writer) warn(text string) {
	w.caution = strings.TrimSpace(w.caution + " " + text)
}

// stop adds a stop line; behind a point, the key tells wordings of one code
// apart.
func (w *writer) stop(key, source string, now bool, numbers ...Number) {
	code, _, _ := strings.Cut(key, ".")
	w.stops = append(w.stops, Stop{code, fill(stopWords[key], values(numbers)), numbers, sources[source], now})
}

// some drops the numbers that are not known.
func some(numbers ...Number) []Number {
	var out []Number
	for _, n := range numbers {
		if n.High > 0 || n.Count > 0 {
			out = append(out, n)
		}
	}
	return out
}

func values(numbers []Number) map[string]string {
	m := map[string]string{}
	for _, n := range numbers {
		m[n.Key] = n.String()
	}
	return m
}

// fill puts values into the braces of a sentence. "{claws|the claws}" falls
// back on what stands behind the bar.
func fill(sentence string, with map[string]string) string {
	var b strings.Builder
	for {
		before, rest, ok := strings.Cut(sentence, "{")
		b.WriteString(before)
		if !ok {
			return b.String()
		}
		inside, after, _ := strings.Cut(rest, "}")
		key, otherwise, fallback := strings.Cut(inside, "|")
		switch v, known := with[key]; {
		case known:
			b.WriteString(v)
		case fallback:
			b.WriteString(otherwise)
		default: // a test looks for braces that were left
			b.WriteString("{" + key + "}")
		}
		sentence = after
	}
}
