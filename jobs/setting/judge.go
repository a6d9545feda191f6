package setting

import "castweek/metal/measure"

// A Verdict says what happens to a stone that has been measured.
type Verdict string

const (
	SetIt    Verdict = "fits"
	CutToFit Verdict = "cut the seat to the stone"
	SendBack Verdict = "back to the scheduler"
	NotASize Verdict = "not a size"
	edgeDust         = 1e-9 // a difference typed as 0.05 is 0.05
)

// Judge compares a measured size with the size of the job: within Fits it is
// set, beyond Return it goes back, between the seat is cut to the stone.
func (h House) Judge(nominal, measured measure.MM) Verdict {
	off := abs(measured - nominal)
	switch {
	case !(nominal > 0) || !(measured > 0):
		return NotASize
	case off <= h.Fits+edgeDust:
		return SetIt
	case off <= h.Return+edgeDust:
		return CutToFit
	}
	return SendBack
}
