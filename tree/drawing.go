package tree

import (
	"math"

	"castweek/metal/measure"
	"castweek/tree/mount"
)

// A Drawing is a tree as whoever builds it needs to see it, in millimetres.
// Seen from the side, x runs to the viewer's right from the axis of the trunk
// and y up from the button; seen from the top, 12 o'clock is up.
type Drawing struct {
	Trunk  Strokes
	Height measure.MM // of trunk or highest casting
	// The box that no casting leaves, in the side view.
	Half, Bottom, Top measure.MM
	TrunkDiameter     measure.MM
	TrunkLength       measure.MM
	Side              []Shape // those farthest from the viewer first
	Levels            []LevelDrawing
}

// A LevelDrawing is one level seen from the top.
type LevelDrawing struct {
	Number int
	Height measure.MM // of its feeders on the trunk
	Shapes []Shape
}

// A Shape is one casting in a drawing.
type Shape struct {
	Casting string
	Hour    float64
	Lines   Strokes    // closed outlines: the casting, then its feeder
	X, Y    measure.MM // where its id may stand
	Behind  bool       // behind the trunk
}

// seenFrom is the hour mark that the side view is seen from.
const seenFrom = 6

func drawingOf(t mount.Tree) Drawing {
	d := Drawing{Trunk: Strokes{closed(t.TrunkSide())}, Height: t.Height, TrunkDiameter: t.TrunkDiameter, TrunkLength: t.TrunkLength}
	d.Half, d.Bottom, d.Top = t.Limits()
	for _, s := range t.Side(seenFrom) {
		d.Side = append(d.Side, shapeOf(s))
	}
	for _, l := range t.Plans() {
		level := LevelDrawing{Number: l.Number, Height: l.Height}
		for _, s := range l.Castings {
			level.Shapes = append(level.Shapes, shapeOf(s))
		}
		d.Levels = append(d.Levels, level)
	}
	return d
}

func shapeOf(s mount.Silhouette) Shape {
	out := Shape{Casting: s.ID, Hour: s.Hour, X: round(s.Middle.X), Y: round(s.Middle.Y), Behind: s.Depth < 0}
	out.Lines = append(out.Lines, closed(s.Outline))
	if len(s.Feeder) > 0 {
		out.Lines = append(out.Lines, closed(s.Feeder))
	}
	return out
}

// closed turns spots into a line that ends where it begins.
func closed(spots []mount.Spot) [][2]float64 {
	var out [][2]float64
	for _, s := range spots {
		out = append(out, [2]float64{float64(round(s.X)), float64(round(s.Y))})
	}
	if len(out) > 0 {
		out = append(out, out[0])
	}
	return out
}

// round keeps a drawing to hundredths of a millimetre, finer than any printer.
func round(m measure.MM) measure.MM { return measure.MM(math.Round(float64(m)*100) / 100) }
