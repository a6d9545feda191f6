package pattern

import "math"

const (
	// A negative shell is a hollow when at least this share of its skin lies
	// inside solids, and a solid turned inside out when at most the other share
	// does. Between them only a person can tell; the samples are 64, so that
	// one stray sample at a touching skin does not decide.
	hollowShare    = 0.97
	insideOutShare = 0.5
	skinSamples    = 64
)

// orient decides which way out each shell is meant. A body whose plain sum is
// negative was mirrored or inverted as a whole and is turned as a whole; then
// each shell that is still negative is judged by where its skin lies.
func (c *chain) orient(s *soundness) {
	which := make([]bool, len(s.shells))
	sums := map[int32]float64{}
	for _, h := range s.shells {
		sums[h.body] += h.volume
	}
	some := false
	for k, h := range s.shells {
		which[k] = sums[h.body] < 0
		some = some || which[k]
	}
	if some {
		c.turn(s, which)
	}
	clear(which)
	some = false
	scrap := leastShell * boxVolume(boxOf(c.points))
	var probe *probe
	for k := range s.shells {
		h := &s.shells[k]
		if h.volume >= -scrap {
			continue
		}
		if probe == nil {
			probe = newProbe(c, s)
		}
		h.buried = probe.buried(int32(k))
		switch {
		case h.buried >= hollowShare:
			h.cavity = true
			continue
		case h.buried > insideOutShare:
			h.unsure = true
		}
		which[k], some = true, true
	}
	if some {
		c.turn(s, which)
	}
}

// withCuts is the volume when every solid that may be metal or a cut is a cut: 0
// when there is none.
func (c *chain) withCuts(s *soundness, opt Options, bodies int) float64 {
	which := make([]bool, len(s.shells))
	some := false
	for k, h := range s.shells {
		which[k] = h.unsure
		some = some || h.unsure
	}
	if !some {
		return 0
	}
	other, cut := *s, *c
	other.shells = append([]shell(nil), s.shells...)
	cut.turn(&other, which)
	return cut.unite(&other, opt, bodies).volume
}

func boxVolume(b Box) float64 {
	s := b.Max.sub(b.Min)
	return s[0] * s[1] * s[2]
}

// A probe asks for the winding number of points, by a ray in a fixed generic
// direction. Faces are grouped by shell, and a shell whose shadow does not
// hold the point is skipped.
type probe struct {
	c       *chain
	s       *soundness
	flat    [][3]float64 // points turned so that the ray runs along the third axis
	order   []int32      // faces by shell
	start   []int32
	shadows []Box
}

func newProbe(c *chain, s *soundness) *probe {
	p := &probe{c: c, s: s, flat: make([][3]float64, len(c.points)), order: make([]int32, len(c.faces)),
		start: make([]int32, len(s.shells)+1), shadows: make([]Box, len(s.shells))}
	frame := genericFrame()
	for i, v := range c.points {
		for k := range 3 {
			p.flat[i][k] = frame[k].dot(v)
		}
	}
	for _, k := range s.shellOf {
		p.start[k+1]++
	}
	for k := range s.shells {
		p.start[k+1] += p.start[k]
		p.shadows[k] = Box{Point{math.Inf(1), math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1), math.Inf(-1)}}
	}
	fill := append([]int32(nil), p.start...)
	for i, k := range s.shellOf {
		p.order[fill[k]] = int32(i)
		fill[k]++
		b := &p.shadows[k]
		for _, q := range c.faces[i] {
			for a, v := range p.flat[q] {
				b.Min[a], b.Max[a] = min(b.Min[a], v), max(b.Max[a], v)
			}
		}
	}
	return p
}

// buried is the share of the shell's skin, by area, that lies inside positive
// shells of the same body.
func (p *probe) buried(k int32) float64 {
	faces := p.order[p.start[k]:p.start[k+1]]
	total := 0.0
	for _, f := range faces {
		total += areaVector(p.c.points, p.c.faces[f]).length()
	}
	if total == 0 {
		return 0
	}
	in, asked, sum := 0, 0, 0.0
	for _, f := range faces {
		sum += areaVector(p.c.points, p.c.faces[f]).length()
		for asked < skinSamples && sum >= total*(float64(asked)+0.5)/skinSamples {
			if p.winding(p.sample(f, asked), k) > 0 {
				in++
			}
			asked++
		}
	}
	if asked == 0 {
		return 0
	}
	return float64(in) / float64(asked)
}

// sample is a point of the face, spread by the additive recurrence of the
// plastic number.
func (p *probe) sample(face int32, n int) Point {
	_, u := math.Modf(0.5 + 0.7548776662466927*float64(n))
	_, v := math.Modf(0.5 + 0.5698402909980532*float64(n))
	if u+v > 1 {
		u, v = 1-u, 1-v
	}
	f := p.c.faces[face]
	a, b, q := Point(p.flat[f[0]]), Point(p.flat[f[1]]), Point(p.flat[f[2]])
	return a.add(b.sub(a).scale(u)).add(q.sub(a).scale(v))
}

// winding adds up the crossings above the point of the positive shells other
// than k.
func (p *probe) winding(at Point, k int32) int {
	w := 0
	for j := range p.s.shells {
		h, b := &p.s.shells[j], &p.shadows[j]
		if int32(j) == k || h.volume <= 0 || h.body != p.s.shells[k].body ||
			at[0] < b.Min[0] || at[0] > b.Max[0] || at[1] < b.Min[1] || at[1] > b.Max[1] || at[2] > b.Max[2] {
			continue
		}
		for _, f := range p.order[p.start[j]:p.start[j+1]] {
			w += p.crossing(at, p.c.faces[f])
		}
	}
	return w
}

// crossing is +1 when the ray upward from the point leaves through the face,
// -1 when it enters.
func (p *probe) crossing(at Point, f [3]int32) int {
	a, b, c := &p.flat[f[0]], &p.flat[f[1]], &p.flat[f[2]]
	if (a[1] > at[1]) == (b[1] > at[1]) && (b[1] > at[1]) == (c[1] > at[1]) {
		return 0
	}
	e := func(p, q *[3]float64) float64 { return (q[0]-p[0])*(at[1]-p[1]) - (q[1]-p[1])*(at[0]-p[0]) }
	e1, e2, e3 := e(a, b), e(b, c), e(c, a)
	sign := 0
	switch {
	case e1 > 0 && e2 > 0 && e3 > 0:
		sign = 1
	case e1 < 0 && e2 < 0 && e3 < 0:
		sign = -1
	default:
		return 0
	}
	area := e1 + e2 + e3
	if (e2*a[2]+e3*b[2]+e1*c[2])/area <= at[2] {
		return 0
	}
	return sign
}

// genericFrame is a fixed right-handed frame in which no usual wall, edge or
// row of faces lies along an axis: turns of 0.6423, 0.9127 and 0.3719 radian
// about z, y and x.
func genericFrame() [3]Point {
	rot := func(v Point, i, j int, by float64) Point {
		s, c := math.Sincos(by)
		v[i], v[j] = c*v[i]-s*v[j], s*v[i]+c*v[j]
		return v
	}
	var f [3]Point
	for k := range f {
		f[k][k] = 1
		f[k] = rot(rot(rot(f[k], 0, 1, 0.6423), 0, 2, 0.9127), 1, 2, 0.3719)
	}
	return f
}
