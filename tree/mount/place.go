package mount

import (
	"castweek/metal/measure"
	"castweek/metal/problem"
)

// Outcome is the kind of answer to "do these hang?".
type Outcome int

const (
	Hangs        Outcome = iota // all castings hang; the tree says where
	CannotProved                // they cannot, wherever and however they are turned
	GaveUp                      // the search found no way, which proves nothing
	BadInput                    // see Problems
)

func (o Outcome) String() string {
	return [...]string{"hangs", "cannot hang", "gave up", "bad input"}[o]
}

// A Verdict is the answer with its reason. Code is stable; Culprit is a casting
// that alone is too large, or "". Steps is what the search took.
type Verdict struct {
	Outcome  Outcome
	Code     string
	Culprit  string
	Message  string
	Remedy   string
	Steps    int
	Problems problem.List
}

// Options of the search. Zero values take the defaults named beside them.
type Options struct {
	TiltDeg  float64 // DefaultTilt; between feeder and the free end of the trunk
	Sound    Sound   // what a hang has to keep to
	Poor     bool    // take hangs that are not sound too
	Steps    int     // DefaultSteps; pairs of castings compared by the quick search at most
	Thorough bool    // after the quick search look for a shorter trunk, never a worse tree
	Memory   *Memory // of earlier searches; nil: this one remembers for itself
}

const (
	// DefaultTilt is common practice, no source: 45° to the trunk, away from the
	// button; centrifugal casting uses 60° to 70°.
	DefaultTilt = 45
	// DefaultLeastTilt and DefaultMostTilt bound the tilts of a sound hang. A flatter
	// feeder runs along the trunk, a steeper one lets part of the casting lie back
	// towards the button: common practice, no source (30° to 75° holds the 45° of
	// most houses and the 60° to 70° of centrifugal casting).
	DefaultLeastTilt = 30
	DefaultMostTilt  = 75
	// DefaultLongest is the longest feeder of a sound hang. Feeders are to be short;
	// published ones are 9.5 mm (a ring of 5 g) and 12 mm (dental casting). Half
	// again as much is common practice, no source.
	DefaultLongest measure.MM = 15
	// DefaultSteps ends the search of a tree that does not fit; a tree of 60 rings
	// that fits takes a tenth of it.
	DefaultSteps = 400_000
	// thoroughFactor is how many times the quick search's steps the thorough search
	// may take while castings are left; else it takes as many as the quick one may.
	thoroughFactor = 5
	// WeightBand is the share by which weights may differ and still count as equal
	// when castings of one order of weight change places. Common practice, no source.
	WeightBand = 0.2
)

func (o Options) tilt() float64 {
	if o.TiltDeg == 0 {
		return DefaultTilt
	}
	return o.TiltDeg
}

// Sound is what a hang has to keep to so that the casting fills: its tilt, and the
// length of a feeder that is added. The tilt and the length that are asked for are
// always sound. Zero values take the defaults.
type Sound struct {
	LeastTilt, MostTilt float64 // degrees
	Longest             measure.MM
}

// sound fills in the defaults, widened to the tilt that is asked for.
func (o Options) sound() Sound {
	s := o.Sound
	if s.LeastTilt == 0 {
		s.LeastTilt = DefaultLeastTilt
	}
	if s.MostTilt == 0 {
		s.MostTilt = DefaultMostTilt
	}
	if s.Longest == 0 {
		s.Longest = DefaultLongest
	}
	s.LeastTilt, s.MostTilt = min(s.LeastTilt, o.tilt()), max(s.MostTilt, o.tilt())
	return s
}

// longest is the longest feeder of a body that is sound.
func (s Sound) longest(b *Body) float64 { return float64(max(s.Longest, b.Feeders.Length)) }

func (s Sound) tilted(deg float64) bool { return s.LeastTilt <= deg && deg <= s.MostTilt }

func (o Options) steps() int {
	if o.Steps == 0 {
		return DefaultSteps
	}
	return o.Steps
}

func (o Options) memory() *Memory {
	if o.Memory == nil {
		return NewMemory()
	}
	return o.Memory
}

func (o Options) faults(l *problem.List) {
	if !finite(o.TiltDeg) || o.TiltDeg < 0 || o.TiltDeg > 90 {
		l.Add(problem.Place{}, "mount-tilt", "give a tilt from 1° to 90°", "a tilt of %v° is not usable", o.TiltDeg)
	}
	for _, x := range []float64{o.Sound.LeastTilt, o.Sound.MostTilt, float64(o.Sound.Longest)} {
		if !finite(x) || x < 0 {
			l.Add(problem.Place{}, "mount-sound", "give tilts from 1° to 90° and a length for the longest feeder", "a limit of %v for a sound hang is not usable", x)
		}
	}
	if o.Steps < 0 {
		l.Add(problem.Place{}, "mount-steps", "give a positive number of steps", "a search of %d steps is not possible", o.Steps)
	}
}

// Place hangs the bodies on the trunk of the flask. Whatever the verdict, the tree
// holds what did find a place, and Left names the rest.
func Place(f Flask, g Gaps, bodies []Body, o Options) (Tree, Verdict) {
	if l := faults(f, g, o, bodies); len(l) > 0 {
		return Tree{}, Verdict{Outcome: BadInput, Code: "mount-input", Message: l[0].Message, Remedy: l[0].Remedy, Problems: l}
	}
	own, at := tracedAll(bodies)
	if at >= 0 {
		var l problem.List
		l.Add(problem.Place{}, "mount-body", "measure the pattern again, or say where its feeder ends", "casting %s %s", own[at].ID, own[at].traced.fault)
		return Tree{}, Verdict{Outcome: BadInput, Code: "mount-input", Culprit: own[at].ID, Message: l[0].Message, Remedy: l[0].Remedy, Problems: l}
	}
	r := roomOf(f, g)
	s := newSearch(r, o, own)
	s.quick()
	if o.Thorough {
		s.limit = s.steps + o.steps()
		if s.best.left > 0 {
			s.limit = s.steps + thoroughFactor*o.steps()
		}
		s.thorough()
	}
	tree := treeOf(f, r, o, own, s.best.puts)
	if len(tree.Left) == 0 {
		return tree, Verdict{Outcome: Hangs, Steps: s.steps}
	}
	if v, ok := refute(r, own); ok {
		v.Steps = s.steps
		return tree, v
	}
	v := Verdict{Outcome: GaveUp, Code: "mount-no-place", Steps: s.steps,
		Message: measure.Decimals(float64(len(tree.Placements)), 0) + " of " + measure.Decimals(float64(len(own)), 0) + " castings found a place",
		Remedy:  "take castings off this tree, or use a larger flask"}
	if s.steps >= s.limit {
		v.Code = "mount-steps"
		v.Message += ", then the search reached its limit of steps"
	}
	for _, c := range s.all {
		if c.poses.orBest(0) == nil {
			v.Culprit, v.Code = c.body.ID, "mount-no-pose"
			v.Message = "casting " + c.body.ID + " fits this flask in none of the ways that were tried"
			v.Remedy = "use a wider or higher flask, or give another attach point"
			break
		}
	}
	return tree, v
}

// tracedAll measures every body, equal ones once. It gives the first body with a
// fault, or -1.
func tracedAll(bodies []Body) ([]Body, int) {
	known := map[mark]*outline{}
	own := make([]Body, len(bodies))
	for i, b := range bodies {
		if b.traced == nil {
			m := b.mark()
			if known[m] == nil {
				known[m] = trace(b)
			}
			b.traced = known[m]
		}
		own[i] = b
		if b.traced.fault != "" {
			return own, i
		}
	}
	return own, -1
}
