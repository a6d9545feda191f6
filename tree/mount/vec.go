package mount

import "math"

// vec is a point or a direction in millimetres.
type vec [3]float64

func (a vec) add(b vec) vec              { return vec{a[0] + b[0], a[1] + b[1], a[2] + b[2]} }
func (a vec) sub(b vec) vec              { return vec{a[0] - b[0], a[1] - b[1], a[2] - b[2]} }
func (a vec) times(k float64) vec        { return vec{a[0] * k, a[1] * k, a[2] * k} }
func (a vec) length() float64            { return math.Sqrt(a.dot(a)) }
func (a vec) along(k float64, d vec) vec { return vec{a[0] + k*d[0], a[1] + k*d[1], a[2] + k*d[2]} }

func (a vec) dot(b vec) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

func (a vec) cross(b vec) vec {
	return vec{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

// unit gives the direction of a, or the zero vector for a length of 0.
func (a vec) unit() vec {
	l := a.length()
	if l == 0 {
		return vec{}
	}
	return a.times(1 / l)
}

// square gives a unit vector at right angles to the unit vector u, built on the
// coordinate axis that leans least towards u (the first of equals), so that a
// pattern drawn square to its axes keeps them.
func (u vec) square() vec {
	k := 0
	for i := 1; i < 3; i++ {
		if math.Abs(u[i]) < math.Abs(u[k])-1e-12 {
			k = i
		}
	}
	var e vec
	e[k] = 1
	return e.along(-e.dot(u), u).unit()
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
