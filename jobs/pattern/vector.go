package pattern

import "math"

func (a Point) add(b Point) Point        { return Point{a[0] + b[0], a[1] + b[1], a[2] + b[2]} }
func (a Point) sub(b Point) Point        { return Point{a[0] - b[0], a[1] - b[1], a[2] - b[2]} }
func (a Point) scale(k float64) Point    { return Point{a[0] * k, a[1] * k, a[2] * k} }
func (a Point) dot(b Point) float64      { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
func (a Point) length() float64          { return math.Sqrt(a.dot(a)) }
func (a Point) distance(b Point) float64 { return a.sub(b).length() }

func (a Point) cross(b Point) Point {
	return Point{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

// unit gives the direction of a; the null vector stays null.
func (a Point) unit() Point {
	l := a.length()
	if l == 0 {
		return a
	}
	return a.scale(1 / l)
}

// across gives two unit vectors that stand on the unit vector a and on each
// other, such that u, v, a are right-handed.
func (a Point) across() (u, v Point) {
	k := 0
	for i := 1; i < 3; i++ {
		if math.Abs(a[i]) < math.Abs(a[k]) {
			k = i
		}
	}
	var e Point
	e[k] = 1
	u = e.sub(a.scale(a[k])).unit()
	return u, a.cross(u)
}
