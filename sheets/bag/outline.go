package bag

import (
	"math"

	"castweek/jobs/stone"
)

// outline is the shape of a stone from above, around 0, 0, its length along x,
// in millimetres; y downwards. It is a picture to tell stones apart by, not a
// template to cut by.
func outline(cut string, length, width float64) [][2]float64 {
	a, b := length/2, width/2
	c, _ := stone.CutOf(cut)
	switch c {
	case stone.EmeraldCut, stone.Square:
		k := min(a, b) * 0.3
		return [][2]float64{{-a + k, -b}, {a - k, -b}, {a, -b + k}, {a, b - k}, {a - k, b}, {-a + k, b}, {-a, b - k}, {-a, -b + k}}
	case stone.Baguette, stone.Princess:
		return [][2]float64{{-a, -b}, {a, -b}, {a, b}, {-a, b}}
	case stone.TaperedBaguette:
		return [][2]float64{{-a, -b}, {a, -b * 0.6}, {a, b * 0.6}, {-a, b}}
	case stone.Trilliant:
		return around(func(t float64) (float64, float64) {
			// A triangle with its corner at t = 0, its sides bulging a third of
			// the way to the circle around it.
			side := math.Mod(t, 2*math.Pi/3) - math.Pi/3
			r := 0.5 / math.Cos(side)
			r += (1 - r) * 0.35
			return a * r * math.Cos(t), b * 1.15 * r * math.Sin(t)
		})
	case stone.Marquise:
		return around(func(t float64) (float64, float64) {
			x := math.Cos(t)
			return a * x, b * math.Copysign(1-x*x, math.Sin(t))
		})
	case stone.Pear:
		return around(func(t float64) (float64, float64) {
			x := math.Cos(t)
			return a * x, b * math.Sin(t) * math.Sqrt((1-x)/2) * 1.3
		})
	case stone.Heart:
		return around(func(t float64) (float64, float64) {
			x := math.Cos(t)
			notch := 0.25 * math.Exp(-9*(t-math.Pi)*(t-math.Pi))
			return a * (x + notch), b * math.Sin(t) * math.Sqrt((1-x)/2) * 1.3
		})
	case stone.Cushion:
		return around(func(t float64) (float64, float64) {
			return a * soft(math.Cos(t)), b * soft(math.Sin(t))
		})
	}
	return around(func(t float64) (float64, float64) { return a * math.Cos(t), b * math.Sin(t) })
}

// soft squares a circle a little: the outline of a cushion.
func soft(v float64) float64 { return math.Copysign(math.Pow(math.Abs(v), 0.6), v) }

func around(at func(t float64) (x, y float64)) [][2]float64 {
	const steps = 36
	out := make([][2]float64, steps)
	for i := range out {
		out[i][0], out[i][1] = at(2 * math.Pi * float64(i) / steps)
	}
	return out
}

// extent is the width and height of an outline.
func extent(points [][2]float64) (w, h float64) {
	for _, p := range points {
		w, h = max(w, 2*math.Abs(p[0])), max(h, 2*math.Abs(p[1]))
	}
	return w, h
}
