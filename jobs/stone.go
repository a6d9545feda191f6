package jobs

import (
	"castweek/jobs/setting"
	"castweek/metal/measure"
	"castweek/metal/problem"
)

// A Stone is one line of a job's stones: so many alike, at one place of each
// piece.
type Stone struct {
	At        problem.Place
	Place     string // "centre", "left shoulder", …
	Part      int    // index of the part that holds it
	Kind      string
	Cut       string
	Origin    string // "natural", "lab-grown", "simulant" or ""
	Treatment string
	Length    measure.MM // diameter of a round stone
	Width     measure.MM // equal to Length for a round stone
	Depth     measure.MM
	Assumed   bool // Depth was assumed from the cut
	Count     int  // per piece
	Spares    int  // for the whole job, above the house rule
	Style     string
	InWax     bool // set in the wax and cast in place
	Claws     *Claws
	Wall      measure.MM // of a bezel, as modelled, 0 unknown
	Girdle    measure.MM // girdle plane above the inside of the shank, 0 unknown
	Seat      setting.Seat
	Metal     measure.MM // that a flush stone is let into, as modelled, 0 unknown
	Owner     string     // House or a name
	Risk      string     // who carries the risk of setting it
	Parcel    string
	Here      bool
	Ordered   string // free text: from whom, expected when
	Sits      []Seat // where each sits on its pattern, none when the job does not say
}

// A Seat is where one stone sits in a view of its pattern, from the left and the
// lower edge of the view.
type Seat struct {
	View string // "front", "side", "top"
	X, Y measure.MM
}

// Claws are those that hold one stone.
type Claws struct {
	Count              int
	Finished, Modelled measure.MM // wire diameter
	Overlap            measure.MM // of the modelled claw with the girdle
	Height             measure.MM // of the modelled claw above the girdle, 0 unknown
	Shared             bool       // a claw holds two stones
}
