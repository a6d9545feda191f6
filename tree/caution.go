package tree

import (
	"fmt"
	"slices"
	"strings"

	"castweek/jobs"
	"castweek/jobs/stone"
	"castweek/jobs/workshop"
	"castweek/metal"
)

// cautions are those that this bag calls for and another might not: what hurts
// people first, then what hurts the piece. Each names the hazard, what comes of
// it and how it is avoided, in at most 20 words (ANSI Z535.4 as makers of signs
// tell it; the number of words is common practice, no source).
func cautions(w *workshop.Workshop, j *jobs.Job, b *Bag) []string {
	var out []string
	say := func(signal, format string, args ...any) { out = append(out, signal+" - "+fmt.Sprintf(format, args...)) }
	alloys := alloysOf(b.Castings)
	joined := len(j.Parts) > 1 && heated(j.Assembly)
	for _, name := range alloys {
		a, _ := w.Alloys.Find(name)
		if joined && a.Family == "platinum" {
			// Common practice, no source.
			say("WARNING", "%s is joined at white heat. Its light burns eyes. Wear welding glasses.", name)
		}
		if nickel, _ := metal.ElementNamed("nickel"); a.Composition.Of(nickel) > 0 {
			// From memory: nickel is a skin sensitiser (EU REACH, annex XVII, entry 27),
			// its dust a hazard to lungs.
			say("CAUTION", "%s holds nickel. Its dust harms skin and lungs. Extraction on, wash hands.", name)
		}
	}
	out = append(out, stoneCautions(b)...)
	if b.Masked != "" && !none(b.Masked) {
		say("NOTICE", "Keep free: %s. Polish or plating there cannot be taken back. Cover it first.", b.Masked)
	}
	if len(alloys) > 1 {
		say("NOTICE", "%s in one bag. Mixed filings are scrap. Clean the bench between them.", strings.Join(alloys, " and "))
	}
	if b.Owner != "" && b.Owner != jobs.House {
		say("NOTICE", "Metal of %s. Mixed, it cannot be given back. All filings and cut-offs into this bag.", b.Owner)
	}
	return out
}

// stoneCautions are those that the stones of a bag ask for, from their care.
func stoneCautions(b *Bag) []string {
	var out, inWax, etched, coated, bath []string
	by := map[string][]string{}
	var order []string
	for i := range b.Stones {
		s := &b.Stones[i]
		name := s.Kind + " (" + s.Mark + ")"
		switch stone.Find(s.Kind).Name {
		case "diamond":
			coated = append(coated, name)
		case "ruby", "sapphire":
			etched = append(etched, name)
		}
		if s.InWax {
			inWax = append(inWax, name)
		}
		if away := keptAway(s); away["torch"] {
			key := strings.Join(listed(away), ", ")
			if by[key] == nil {
				order = append(order, key)
			}
			by[key] = append(by[key], name)
		} else if !bears(s, "acid") {
			bath = append(bath, name)
		}
	}
	if len(inWax) > 0 {
		out = append(out, fmt.Sprintf("NOTICE - Cast in place: %s. A quench or a torch cracks a set stone. Let the flask cool by itself.", strings.Join(inWax, ", ")))
	}
	for _, key := range order {
		out = append(out, fmt.Sprintf("NOTICE - %s: spoiled by %s. %s before setting.", strings.Join(by[key], ", "), key, workBefore(key)))
	}
	if len(coated) > 0 && len(etched) > 0 {
		// A gemmological institute's care guide and bench notes: see the care of
		// both kinds.
		out = append(out, fmt.Sprintf("NOTICE - %s beside %s. Boric acid guards the one and etches the other. No torch once both are set.", strings.Join(coated, ", "), strings.Join(etched, ", ")))
	}
	if b.Plated != "" && !none(b.Plated) && len(bath) > 0 {
		out = append(out, fmt.Sprintf("NOTICE - Plating: %s bears acid only with care. Read the care line before the bath.", strings.Join(bath, ", ")))
	}
	return out
}

// keptAway are the words of care that a stone has to be kept away from.
func keptAway(s *BagStone) map[string]bool {
	out := map[string]bool{}
	for _, c := range s.Stands {
		if c.Level == stone.KeepAway {
			out[c.Word] = true
		}
	}
	return out
}

// listed gives the words of care in their order.
func listed(away map[string]bool) []string {
	var out []string
	for _, word := range []string{"torch", "ultrasonic", "steam", "acid"} {
		if away[word] {
			out = append(out, word)
		}
	}
	return out
}

// workBefore says which work a stone must not see.
func workBefore(away string) string {
	work := []string{"Solder"}
	if strings.Contains(away, "acid") {
		work = append(work, "pickle, plate")
	}
	if strings.Contains(away, "ultrasonic") || strings.Contains(away, "steam") {
		work = append(work, "clean")
	}
	return strings.Join(work, ", ")
}

func bears(s *BagStone, word string) bool {
	return slices.ContainsFunc(s.Stands, func(c stone.Cell) bool { return c.Word == word && c.Level == stone.Tolerated })
}

// alloysOf are the alloys of castings, each once, in their order.
func alloysOf(list []BagCasting) []string {
	var out []string
	for _, c := range list {
		if !slices.Contains(out, c.Alloy) {
			out = append(out, c.Alloy)
		}
	}
	return out
}

// heated tells whether steps of assembly speak of joining by heat.
func heated(steps []string) bool {
	all := strings.ToLower(strings.Join(steps, " "))
	return slices.ContainsFunc([]string{"solder", "weld", "fuse", "braze", "laser"}, func(w string) bool { return strings.Contains(all, w) })
}

// none tells whether a person has written that there is none.
func none(text string) bool {
	first := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r < 'a' || r > 'z' })
	return len(first) > 0 && slices.Contains([]string{"none", "no", "nothing", "nowhere"}, first[0])
}
