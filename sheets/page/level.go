package page

// A Reading is the type of a sheet read at one distance: at most three sizes,
// each 1.5 times the one below, and the small one of a print stamp. Sizes are
// in points.
//
// Words are 0.024 pt for each millimetre of distance, which gives capitals 20
// to 22 minutes of arc in the Go fonts (capitals are 0.723 em); values are 1.5
// times and identity 2.25 times as large. 20 to 22 minutes is what ISO 9241-3
// prefers; its floor is 16. The ratio between levels is that of MIL-STD-1472E,
// 5.5.2.
type Reading struct{ Stamp, Words, Value, Identity float64 }

var (
	Bench = Reading{9, 12, 18, 27}  // 500 mm
	Wall  = Reading{9, 17, 26, 39}  // 700 mm
	Kiln  = Reading{18, 24, 36, 54} // 1000 mm
)

// Smallest is the smallest type of the house, in points.
const Smallest = 9

// PointMM is one point in millimetres.
const PointMM = 25.4 / 72

// Leading is the distance of base lines at a size of type, in millimetres: one
// third over the size (flight-deck typography studies ask for 25 to 33 %).
func Leading(pt float64) float64 { return pt * PointMM * 4 / 3 }

// Heights of the Go fonts, in em (measured).
const (
	capital = 0.723
	xHeight = 0.530
)

// CapMM is the height of capitals at a size of type, in millimetres.
func CapMM(pt float64) float64 { return pt * PointMM * capital }

// A Style is a face at a size in points.
type Style struct {
	Face Face
	Size float64
}
