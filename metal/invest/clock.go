package invest

// A Clock is the working time of a powder and what has to be done within it.
// Minutes count from powder into water.
type Clock struct {
	Gloss   float64 // minute at which the surface loses its gloss
	Margin  float64 // minutes before it at which pouring has to be over
	Mixing  float64
	Bowl    float64 // vacuum on the bowl
	Filling float64
	Flask   float64 // vacuum on the flask
	Source  string
}

// GypsumClock ends 2 minutes before a gloss-off at 9½ minutes (class notes;
// other sheets give about 8); bowl vacuum 1 minute, flask vacuum 1½ minutes,
// tapped during the last half minute (casters' forum).
func GypsumClock() Clock {
	return Clock{Gloss: 9.5, Margin: 2, Mixing: 3, Bowl: 1, Filling: 1.5, Flask: 1.5, Source: "class notes and casters' forums; the maker's sheet wins"}
}

// PhosphateClock is from memory: 3 to 5 minutes of working time.
func PhosphateClock() Clock {
	return Clock{Gloss: 5, Margin: 0.5, Mixing: 1.5, Bowl: 0.5, Filling: 1, Flask: 1, Source: "from memory; use the maker's sheet"}
}

// Steps of mixing, in their order.
const (
	StepMix   = "mix"   // powder into liquid
	StepBowl  = "bowl"  // vacuum on the bowl
	StepFill  = "fill"  // the flask
	StepFlask = "flask" // vacuum on the flask
	StepStill = "still" // top up, then leave it alone until the gloss has gone
)

// A Mark is one step with the minute at which it begins and ends.
type Mark struct {
	Step       string
	From, Till float64
}

// Marks lays the steps out on the clock. The last one ends with the working
// time; late is how many minutes the steps run over it, 0 when they keep it.
func (c Clock) Marks() (marks []Mark, late float64) {
	at := 0.0
	for _, s := range []struct {
		step  string
		takes float64
	}{{StepMix, c.Mixing}, {StepBowl, c.Bowl}, {StepFill, c.Filling}, {StepFlask, c.Flask}} {
		marks = append(marks, Mark{s.step, at, at + s.takes})
		at += s.takes
	}
	end := c.Gloss - c.Margin
	if at > end {
		return marks, at - end
	}
	return append(marks, Mark{StepStill, at, c.Gloss}), 0
}
