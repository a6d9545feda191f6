package stone

import (
	"fmt"

	"castweek/metal/measure"
)

// Everything a person reads from this package stands in this file, save the
// notes of the table of kinds.

func gpcc(sg float64) measure.GramPerCC { return measure.GramPerCC(sg) }

// Words of the columns of care, in the order of [Care].
var careWords = []string{"torch", "ultrasonic", "steam", "acid"}

var levelWords = map[Level]string{NotSaid: "ask", Tolerated: "yes", WithCare: "with care", KeepAway: "keep away"}

// String is the word for the level: "yes", "with care", "keep away".
func (l Level) String() string { return levelWords[l] }

// A Cell is one line of care: "torch", KeepAway.
type Cell struct {
	Word  string
	Level Level
}

// Cells gives the care in the order torch, ultrasonic, steam, acid.
func (a Care) Cells() []Cell {
	return []Cell{{careWords[0], a.Torch}, {careWords[1], a.Ultrasonic}, {careWords[2], a.Steam}, {careWords[3], a.Acid}}
}

// String writes the care in few words: "no torch, no acid, steam with care".
func (a Care) String() string {
	no, with := "", ""
	for _, cell := range a.Cells() {
		switch cell.Level {
		case KeepAway:
			no = join(no, "no "+cell.Word)
		case WithCare:
			with = join(with, cell.Word+" with care")
		case NotSaid:
			with = join(with, "ask about "+cell.Word)
		}
	}
	switch {
	case no == "" && with == "":
		return "nothing special"
	case with == "":
		return no
	}
	return join(no, with)
}

func join(a, b string) string {
	if a == "" {
		return b
	}
	return a + ", " + b
}

const (
	practice     = "common practice, no source"
	castingHouse = "casting house's page on stones set in wax"
)

var (
	noteUnknown           = Note{"Unknown kind: treat it as the most delicate.", practice}
	noteTreatedMoissanite = Note{"Colour-treated: take it out before any heat. Ultrasonic only cold, steam from 15 cm.", "maker's bench guide"}
	noteIrradiated        = Note{"Irradiated: take it out before any heat, the colour shifts above 500 °C.", "bench forum notes"}
	noteInPlace           = Note{"May be cast in place: hold the burnout low, never quench.", castingHouse}
	noteInPlaceDelicate   = Note{"May be cast in place, but some call it delicate: try a spare first.", castingHouse + "; a school's page"}
	noteInPlaceLab        = Note{"Lab-grown colours may be cast in place: try a spare first.", castingHouse}
	noteInPlaceDisputed   = Note{"Sources part over casting it in place: set it after casting.", castingHouse + "; a gem seller's page"}
	noteNotInPlace        = Note{"Does not stand casting in place: set it after casting.", castingHouse}
	noteNotInPlaceHeat    = Note{"Does not stand the torch: set it after casting.", practice}
	noteInPlaceUnknown    = Note{"No source says whether it stands casting in place: set it after casting.", practice}
)

func noteTreated(t string) Note {
	return Note{"The stone is " + t + ": damp cloth only, no heat, steam or acid.", "gemmological institute's care guide"}
}

func noteTreatmentUnknown(t string) Note {
	return Note{fmt.Sprintf("Treatment %q is not known here: treat it as the most delicate.", t), practice}
}

const chartFormula = "chart by diameter"

func chartWorked(d measure.MM, ct measure.Carat) string {
	return fmt.Sprintf("%s reads %s", d, measure.Decimals(float64(ct), 4)+" ct")
}

// text names the product and the factor: "L × W × depth × SG × 0.0020".
func (f formula) text() string {
	s := "L × W × depth"
	if f.product == meanDiameter {
		s = "mean dia² × depth"
	}
	if !f.diamond {
		s += " × SG"
	}
	return s + " × " + factor(f.factor)
}

// worked has the numbers of the stone in it: "8 × 6 × 4 × 4 × 0.0020".
func (f formula) worked(m Measured, girdle float64) string {
	s := number(m.Length) + " × " + number(m.Width) + " × " + number(m.Depth)
	if f.product == meanDiameter {
		s = number((m.Length+m.Width)/2) + "² × " + number(m.Depth)
	}
	if !f.diamond {
		s += " × " + measure.Decimals(float64(m.Kind.SG), 2)
	}
	s += " × " + factor(f.factor)
	if girdle != 1 {
		s += " × " + measure.Decimals(girdle, 3) + " (girdle)"
	}
	return s
}

func number(v measure.MM) string { return measure.Decimals(float64(v), 2) }

// factor writes four decimals, or five where the fifth counts.
func factor(k float64) string {
	four, five := measure.Decimals(k, 4), measure.Decimals(k, 5)
	if five == four+"0" {
		return four
	}
	return five
}

// String writes the estimate with a tilde, as a range where formulas part:
// "~0.82 ct", "~1.54 to 1.57 ct". Small stones get a third decimal.
func (e Estimate) String() string {
	if len(e.Ways) == 0 {
		return "no estimate"
	}
	n := 2
	if e.High() < 0.2 {
		n = 3
	}
	low, high := measure.Decimals(float64(e.Low()), n), measure.Decimals(float64(e.High()), n)
	if low == high {
		return "~" + low + " ct"
	}
	return "~" + low + " to " + high + " ct"
}
