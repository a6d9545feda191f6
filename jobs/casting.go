package jobs

import (
	"fmt"
	"strings"
)

// A Casting is one physical pattern to be cast, the unit of planning.
type Casting struct {
	ID    string // K-204/2, K-207/2b, K-204/s1
	Job   *Job
	Piece int // from 1; 0 for a spare
	Part  int // index into Job.Parts
	Spare int // from 1; 0 for a piece
}

// Letter names the part at index i: a … z, then aa.
func Letter(i int) string {
	s := ""
	for i++; i > 0; i = (i - 1) / 26 {
		s = string(rune('a'+(i-1)%26)) + s
	}
	return s
}

// Castings lists what has to hang on trees for the job: every part of every
// piece, then the spares.
func (j *Job) Castings() []Casting {
	letter := func(part int) string {
		if len(j.Parts) == 1 {
			return ""
		}
		return Letter(part)
	}
	var out []Casting
	for piece := 1; piece <= j.Pieces; piece++ {
		for part := range j.Parts {
			out = append(out, Casting{fmt.Sprintf("%s/%d%s", j.Number, piece, letter(part)), j, piece, part, 0})
		}
	}
	for part := range j.Parts {
		for spare := 1; spare <= j.Parts[part].Spares; spare++ {
			out = append(out, Casting{fmt.Sprintf("%s/s%d%s", j.Number, spare, letter(part)), j, 0, part, spare})
		}
	}
	return out
}

// FileName is the id as it stands in file names, where "/" can not.
func (c Casting) FileName() string { return strings.ReplaceAll(c.ID, "/", "_") }
