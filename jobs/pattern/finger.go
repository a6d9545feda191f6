package pattern

import (
	"cmp"
	"math"
	"slices"

	"castweek/metal/measure"
)

const (
	// coarseAxes is how many directions of the half sphere are tried at first,
	// about 10 degrees apart.
	coarseAxes = 220
	// coarsePoints and finePoints are how many points of the skin the coarse
	// and the finer search look at.
	coarsePoints = 4000
	finePoints   = 9000
	// leastHole is the share of the longest side below which an opening is a
	// piercing and no finger hole.
	leastHole = 0.15
	sectors   = 192
)

// finger finds the largest cylinder that passes through the pattern, whatever
// its axis and place: seen along the axis it is the largest empty circle that
// the shadow surrounds. A coarse search over axes on points of the skin is
// refined on the points, then on all sides of the faces.
func (c *chain) finger(skin []spot, box Box) *Hole {
	type start struct {
		axis, centre Point
		radius       float64
	}
	few := thinned(skin, coarsePoints)
	found := make([]start, coarseAxes)
	inParallelAlways(coarseAxes, func(from, to int) {
		s := newShadow()
		for i := from; i < to; i++ {
			axis := fibonacci(i, coarseAxes)
			centre, r := s.hole(few, axis)
			found[i] = start{axis, centre, r}
		}
	})
	slices.SortStableFunc(found, func(a, b start) int { return cmp.Compare(b.radius, a.radius) })
	if found[0].radius < leastHole/2*box.longest() {
		return nil
	}
	middling := thinned(skin, finePoints/4)
	var best cylinder
	for _, s := range found[:3] {
		if s.radius < 0.7*found[0].radius {
			continue
		}
		y := cylinder{s.axis, s.centre, 0}
		y.refine(pointSet(middling), 0.12, 0.015)
		if y.radius > best.radius {
			best = y
		}
	}
	best.refine(pointSet(thinned(skin, finePoints)), 0.015, 0.002)
	best = c.exactCylinder(best)
	if best.radius < leastHole/2*box.longest() || !surrounded(few, best) {
		return nil
	}
	return best.asHole(c)
}

// thinned takes about n of the points, evenly.
func thinned(points []spot, n int) []Point {
	every := len(points)/n + 1
	out := make([]Point, 0, n+1)
	for i := 0; i < len(points); i += every {
		out = append(out, points[i].point())
	}
	return out
}

// fibonacci spreads n directions over the half sphere.
func fibonacci(i, n int) Point {
	z := (float64(i) + 0.5) / float64(n)
	s, c := math.Sincos(float64(i) * math.Pi * (3 - math.Sqrt(5)))
	r := math.Sqrt(1 - z*z)
	return Point{r * c, r * s, z}
}

// A cylinder is an axis, a point on it and the radius that is free.
type cylinder struct {
	axis, centre Point
	radius       float64
}

// A set of obstacles can tell, for each sector around the centre, the nearest
// obstacle in the plane across an axis, as segments (u1,v1)-(u2,v2).
type obstacles interface {
	around(axis, centre Point, out *[sectors]segment)
}

type segment struct {
	u1, v1, u2, v2 float64
	away           float64 // squared; 0: nothing in this sector
}

// distance2 is the squared distance of (x, y) to the segment.
func (s *segment) distance2(x, y float64) float64 {
	du, dv := s.u2-s.u1, s.v2-s.v1
	px, py := x-s.u1, y-s.v1
	if l := du*du + dv*dv; l > 0 {
		t := min(max((px*du+py*dv)/l, 0), 1)
		px, py = px-t*du, py-t*dv
	}
	return px*px + py*py
}

// refine tilts the axis, in steps from wide to fine radians, to where the free
// radius is largest.
func (y *cylinder) refine(o obstacles, wide, fine float64) {
	*y = y.fit(o)
	for step := wide; step > fine; {
		u, v := y.axis.across()
		best := *y
		for k := range 8 {
			s, c := math.Sincos(float64(k) * math.Pi / 4)
			t := cylinder{y.axis.add(u.scale(step * c)).add(v.scale(step * s)).unit(), y.centre, 0}.fit(o)
			if t.radius > best.radius*(1+1e-9) {
				best = t
			}
		}
		if best.radius > y.radius {
			*y = best
		} else {
			step /= 2
		}
	}
}

// fit moves the centre, with the axis fixed, to where the free radius is
// largest; the obstacles are asked again when the centre has moved. A centre
// that gets out from among them is in no hole, and its radius stays 0: outside,
// a circle could grow for ever.
func (y cylinder) fit(o obstacles) cylinder {
	var near [sectors]segment
	u, v := y.axis.across()
	for range 4 {
		near = [sectors]segment{}
		o.around(y.axis, y.centre, &near)
		list := make([]segment, 0, sectors)
		scale := 0.0
		for _, s := range near {
			if s.away > 0 {
				list = append(list, s)
				scale = max(scale, s.away)
			}
		}
		if len(list) == 0 {
			return y
		}
		free := func(x, z float64) float64 {
			d := math.Inf(1)
			for i := range list {
				d = min(d, list[i].distance2(x, z))
			}
			return d
		}
		x, z, r := 0.0, 0.0, free(0, 0)
		among := math.Sqrt(scale)
		for step := math.Sqrt(r)/8 + among*1e-4; step > among*2e-6 && math.Hypot(x, z) < among; {
			bx, bz, br := x, z, r
			for k := range 12 {
				s, c := math.Sincos(float64(k) * math.Pi / 6)
				if q := free(x+step*c, z+step*s); q > br {
					bx, bz, br = x+step*c, z+step*s, q
				}
			}
			if br > r {
				x, z, r = bx, bz, br
			} else {
				step /= 2
			}
		}
		moved := math.Hypot(x, z)
		if moved >= among {
			y.radius = 0
			return y
		}
		y.centre = y.centre.add(u.scale(x)).add(v.scale(z))
		y.radius = math.Sqrt(r)
		if moved < 1e-3*y.radius {
			break
		}
	}
	return y
}

// sectorOf numbers the direction of (x, y) by the diamond angle, which needs
// no arc tangent.
func sectorOf(x, y float64) int {
	a := math.Abs(x) + math.Abs(y)
	if a == 0 {
		return 0
	}
	t := y / a
	switch {
	case x < 0:
		t = 2 - t
	case y < 0:
		t += 4
	}
	return min(int(t*(sectors/4)), sectors-1)
}

type pointSet []Point

func (s pointSet) around(axis, centre Point, out *[sectors]segment) {
	u, v := axis.across()
	for _, p := range s {
		d := p.sub(centre)
		x, y := d.dot(u), d.dot(v)
		keepNearest(out, segment{x, y, x, y, 0})
	}
}

func keepNearest(out *[sectors]segment, s segment) {
	s.away = s.distance2(0, 0)
	k := sectorOf(s.u1+s.u2, s.v1+s.v2)
	if s.away > 0 && (out[k].away == 0 || s.away < out[k].away) {
		out[k] = s
	}
}

// asHole puts the centre into the middle of the pattern and picks one of the
// two ends of the axis.
func (y cylinder) asHole(c *chain) *Hole {
	k := 0
	for i := 1; i < 3; i++ {
		if math.Abs(y.axis[i]) > math.Abs(y.axis[k])+1e-6 {
			k = i
		}
	}
	if y.axis[k] < 0 {
		y.axis = y.axis.scale(-1)
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range c.points {
		d := y.axis.dot(p)
		lo, hi = min(lo, d), max(hi, d)
	}
	at := y.centre.add(y.axis.scale((lo+hi)/2 - y.axis.dot(y.centre)))
	return &Hole{measure.MM(2 * y.radius), y.axis, at}
}
