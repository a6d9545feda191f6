package setting

import (
	"math"

	"castweek/metal/measure"
)

// A Number is one number of a step: a length or a range of lengths, or a count.
type Number struct {
	Key, Name string     // stable name, and the word for it
	Low, High measure.MM // equal for a single length, 0 for a count
	Count     int        // of Thing, 0 for a length
	Thing     string
	Assumed   bool
	// Piece marks a size of the piece, which may be larger than the stone.
	Piece bool
}

// cent is the finest length that is told to a person.
const cent = 0.01

// Lengths are rounded where they are made: to the nearest hundredth, or in the
// direction that keeps a limit a limit. dust keeps 0.3 from becoming 0.29.
const dust = 1e-6

func about(v measure.MM) measure.MM { return measure.MM(math.Round(float64(v)/cent)) * cent }

func atMost(v measure.MM) measure.MM { return measure.MM(math.Floor(float64(v)/cent+dust)) * cent }

func atLeast(v measure.MM) measure.MM { return measure.MM(math.Ceil(float64(v)/cent-dust)) * cent }

// length is a number that is a single length.
func length(key string, v measure.MM) Number {
	return Number{Key: key, Name: numberWords[key], Low: v, High: v}
}

// span is a number that is a range.
func span(key string, low, high measure.MM) Number {
	return Number{Key: key, Name: numberWords[key], Low: about(low), High: about(high)}
}

// count is a number of things; things names one and several of them.
func count(key string, n int) Number {
	return Number{Key: key, Name: numberWords[key], Count: n, Thing: thing(key, n)}
}

func (n Number) ofPiece() Number {
	n.Piece = true
	return n
}

func (n Number) assumed(yes bool) Number {
	n.Assumed = yes
	return n
}

// share is so many per cent of a length.
func share(v measure.MM, p measure.Percent) measure.MM { return v * measure.MM(p) / 100 }
