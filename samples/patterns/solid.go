package main

import "math"

type vec [3]float64

func (a vec) add(b vec) vec       { return vec{a[0] + b[0], a[1] + b[1], a[2] + b[2]} }
func (a vec) sub(b vec) vec       { return vec{a[0] - b[0], a[1] - b[1], a[2] - b[2]} }
func (a vec) times(f float64) vec { return vec{a[0] * f, a[1] * f, a[2] * f} }
func (a vec) dot(b vec) float64   { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
func (a vec) length() float64     { return math.Sqrt(a.dot(a)) }
func (a vec) unit() vec           { return a.times(1 / a.length()) }
func (a vec) cross(b vec) vec {
	return vec{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

// A solid is a closed skin of triangles, seen from outside counter-clockwise.
type solid [][3]vec

// outward turns the skin when it encloses a negative volume.
func (s solid) outward() solid {
	volume := 0.0
	for _, t := range s {
		volume += t[0].dot(t[1].cross(t[2]))
	}
	if volume < 0 {
		for i, t := range s {
			s[i] = [3]vec{t[0], t[2], t[1]}
		}
	}
	return s
}

// grid closes a skin over a grid of points that wraps round in both directions.
func grid(n, m int, at func(i, k int) vec) solid {
	var s solid
	for i := 0; i < n; i++ {
		for k := 0; k < m; k++ {
			a, b := at(i, k), at((i+1)%n, k)
			c, d := at((i+1)%n, (k+1)%m), at(i, (k+1)%m)
			s = append(s, [3]vec{a, b, c}, [3]vec{a, c, d})
		}
	}
	return s.outward()
}

// ring sweeps a closed outline of (radius, y) points round the y axis.
func ring(outline [][2]float64, steps int) solid {
	return grid(steps, len(outline), func(i, k int) vec {
		a := 2 * math.Pi * float64(i) / float64(steps)
		p := outline[k]
		return vec{p[0] * math.Sin(a), p[1], p[0] * math.Cos(a)}
	})
}

// stack joins rings of points and closes both ends with a fan to its middle.
func stack(layers [][]vec) solid {
	var s solid
	n := len(layers[0])
	for l := 0; l+1 < len(layers); l++ {
		for i := 0; i < n; i++ {
			a, b := layers[l][i], layers[l][(i+1)%n]
			c, d := layers[l+1][(i+1)%n], layers[l+1][i]
			s = append(s, [3]vec{a, b, c}, [3]vec{a, c, d})
		}
	}
	fan := func(layer []vec, turn bool) {
		mid := vec{}
		for _, p := range layer {
			mid = mid.add(p.times(1 / float64(n)))
		}
		for i := 0; i < n; i++ {
			t := [3]vec{mid, layer[(i+1)%n], layer[i]}
			if turn {
				t[1], t[2] = t[2], t[1]
			}
			s = append(s, t)
		}
	}
	fan(layers[0], false)
	fan(layers[len(layers)-1], true)
	return s.outward()
}

// wire is a round bar from p to q, of radius r at p and e at q.
func wire(p, q vec, r, e float64) solid {
	axis := q.sub(p).unit()
	side := axis.cross(vec{0, 1, 0})
	if side.length() < 0.1 {
		side = axis.cross(vec{1, 0, 0})
	}
	side = side.unit()
	up := axis.cross(side)
	circle := func(c vec, r float64) []vec {
		var out []vec
		for i := 0; i < 24; i++ {
			a := 2 * math.Pi * float64(i) / 24
			out = append(out, c.add(side.times(r*math.Cos(a))).add(up.times(r*math.Sin(a))))
		}
		return out
	}
	return stack([][]vec{circle(p, r), circle(q, e)})
}

// plate is an upright slab with an oval outline: half axes rx along x and ry
// along y, from z low to z high, its top domed by dome.
func plate(mid vec, rx, ry, low, high, dome float64) solid {
	oval := func(f, z float64) []vec {
		var out []vec
		for i := 0; i < 64; i++ {
			a := 2 * math.Pi * float64(i) / 64
			out = append(out, mid.add(vec{rx * f * math.Cos(a), ry * f * math.Sin(a), z}))
		}
		return out
	}
	layers := [][]vec{oval(1, low), oval(1, high)}
	if dome > 0 {
		for i := 1; i < 8; i++ {
			a := math.Pi / 2 * float64(i) / 8
			layers = append(layers, oval(math.Cos(a), high+dome*math.Sin(a)))
		}
	}
	return stack(layers)
}

// ball is a sphere, or an ellipsoid with the half axes r.
func ball(mid, r vec) solid {
	rows, columns := 16, 24
	if r.length() < 2 { // a grain needs fewer facets
		rows, columns = 8, 12
	}
	var layers [][]vec
	for k := 1; k < rows; k++ {
		a := math.Pi*float64(k)/float64(rows) - math.Pi/2
		var row []vec
		for i := 0; i < columns; i++ {
			b := 2 * math.Pi * float64(i) / float64(columns)
			row = append(row, mid.add(vec{r[0] * math.Cos(a) * math.Cos(b), r[1] * math.Cos(a) * math.Sin(b), r[2] * math.Sin(a)}))
		}
		layers = append(layers, row)
	}
	return stack(layers)
}

// loop is a round wire bent to a circle of radius big in the plane of u and v.
func loop(mid vec, u, v vec, big, small float64) solid {
	n := u.cross(v)
	return grid(64, 20, func(i, k int) vec {
		a, b := 2*math.Pi*float64(i)/64, 2*math.Pi*float64(k)/20
		out := u.times(math.Cos(a)).add(v.times(math.Sin(a)))
		return mid.add(out.times(big + small*math.Cos(b))).add(n.times(small * math.Sin(b)))
	})
}
