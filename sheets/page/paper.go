package page

// A Paper is a size of paper in millimetres.
type Paper struct {
	Name string
	W, H float64
}

// ISO 216 sizes; Letter is 8.5 by 11 inches.
var (
	A4         = Paper{"A4", 210, 297}
	A5         = Paper{"A5", 148, 210}
	A6         = Paper{"A6", 105, 148}
	Letter     = Paper{"Letter", 215.9, 279.4}
	HalfLetter = Paper{"half Letter", 139.7, 215.9}
	// QuarterLetter is what four of fit on Letter, as four A6 do on A4.
	QuarterLetter = Paper{"quarter Letter", 107.95, 139.7}
)

// Landscape is the paper turned.
func (p Paper) Landscape() Paper { return Paper{p.Name + " landscape", p.H, p.W} }

// Full is the whole sheet of a series of paper, Half its half.
func Full(series string) Paper {
	if series == "letter" {
		return Letter
	}
	return A4
}

// Half is the half sheet of a series: A5 or half Letter.
func Half(series string) Paper {
	if series == "letter" {
		return HalfLetter
	}
	return A5
}

// Quarter is the quarter sheet of a series: A6 or quarter Letter.
func Quarter(series string) Paper {
	if series == "letter" {
		return QuarterLetter
	}
	return A6
}

// Printers lose 4 to 5 mm at the edges (printer makers' manuals): lines keep
// 7 mm off, words 10 mm. The bottom 15 mm is where a wet thumb holds the page,
// so nothing that matters stands there (common practice, no source).
const (
	LineEdge = 7.0
	WordEdge = 10.0
	Thumb    = 15.0
)

// A Frame is a rectangle of a leaf that words may fill.
type Frame struct{ Left, Top, Right, Bottom float64 }

// Width is the width of the frame.
func (f Frame) Width() float64 { return f.Right - f.Left }

// Height is the height of the frame.
func (f Frame) Height() float64 { return f.Bottom - f.Top }

// Inside is the frame of a paper with its margins: a wider one on the left,
// where a clip or a ring holds it, and the thumb's at the bottom.
func (p Paper) Inside(left float64) Frame {
	return Frame{left, WordEdge, p.W - WordEdge, p.H - Thumb}
}
