package stone

// A Level says how far a stone stands something.
type Level int

const (
	NotSaid   Level = iota // no source says
	Tolerated              // normally tolerated
	WithCare               // under a condition that the notes give
	KeepAway
)

// Care is what a stone stands: the torch, the ultrasonic bath, the steam
// cleaner, and acid (pickle and acid plating baths).
type Care struct{ Torch, Ultrasonic, Steam, Acid Level }

func mostDelicate() Care { return Care{KeepAway, KeepAway, KeepAway, KeepAway} }

// Stricter takes the stricter level of each cell.
func (a Care) Stricter(b Care) Care {
	return Care{max(a.Torch, b.Torch), max(a.Ultrasonic, b.Ultrasonic), max(a.Steam, b.Steam), max(a.Acid, b.Acid)}
}

// CareOf gives the care of a kind under a treatment as it is typed in the job:
// "", "none", "heated", "filled", "dyed", … A treatment makes care stricter,
// never milder; one that is not known makes the stone the most delicate. The
// notes say why.
func CareOf(k Kind, treatment string) (Care, []Note) {
	t := plain(treatment)
	notes := append([]Note(nil), k.Notes...)
	switch {
	case t == "" || harmless[t]:
		return k.Care, notes
	case k.Name == "moissanite" && colourTreated[t]:
		// Colour layers stand neither the torch nor warm ultrasonic.
		return k.Care.Stricter(Care{KeepAway, WithCare, WithCare, WithCare}), append(notes, noteTreatedMoissanite)
	case k.Name == "diamond" && t == "irradiated":
		return k.Care.Stricter(Care{Torch: KeepAway}), append(notes, noteIrradiated)
	case damaging[t] || colourTreated[t]:
		return mostDelicate(), append(notes, noteTreated(t))
	}
	return mostDelicate(), append(notes, noteTreatmentUnknown(treatment))
}

// Treatments by what they do to care. Fillings, oils and dyes stand nothing but
// a damp cloth (gemmological institute's care guide); heating during cutting
// changes nothing at the bench (common practice, no source).
var (
	harmless      = map[string]bool{"none": true, "no": true, "untreated": true, "no treatment": true, "heated": true, "heat treated": true, "heat-treated": true}
	damaging      = map[string]bool{"filled": true, "glass-filled": true, "glass filled": true, "fracture-filled": true, "fracture filled": true, "oiled": true, "waxed": true, "dyed": true, "impregnated": true, "stabilised": true, "stabilized": true, "irradiated": true}
	colourTreated = map[string]bool{"coated": true, "colour-treated": true, "color-treated": true, "colour treated": true, "color treated": true}
)
