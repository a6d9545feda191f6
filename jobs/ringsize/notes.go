package ringsize

import "castweek/metal/measure"

// A Note is a sentence to print beside a size, with where it is from.
type Note struct{ Text, Source string }

// Notes gives what a person should know before making a ring to the size:
// what the label leaves open, and whether the gauge suits the band. A band
// width of 0 or an empty gauge means not known.
func Notes(s Size, band measure.MM, gauge Gauge, rule WideBand) []Note {
	var out []Note
	if s.System == UK {
		out = append(out, noteUK)
	}
	if s.System == US {
		out = append(out, noteUS)
	}
	if gauge == "" {
		out = append(out, noteNoGauge)
	}
	if band > 0 && (gauge == Narrow || gauge == Wide) && GaugeFor(band) != gauge {
		out = append(out, gaugeNote(band, gauge))
	}
	if wider, ok := rule.Advice(s, band, gauge); ok {
		out = append(out, wideNote(wider, band, rule))
	}
	return out
}
