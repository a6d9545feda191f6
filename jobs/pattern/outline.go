package pattern

import "math"

// trace chains the cracks between dots, for which the rule holds, into lines.
// Lines shorter than least dots are dropped. Order and direction follow from
// the order of the dots alone.
func (d *dots) trace(rule func(a, b, axis int) bool, least int) []Line {
	t := tracer{w: d.cols + 1, h: d.rows + 1}
	t.links = make([]uint8, t.w*t.h)
	at := func(x, y int) int {
		if x < 0 || y < 0 || x >= d.cols || y >= d.rows {
			return -1
		}
		return y*d.cols + x
	}
	for y := range t.h {
		for x := range t.w {
			// The crack upward from corner (x, y) parts two dots of a row, the
			// crack to the right parts two dots of a column.
			if y < d.rows && rule(at(x-1, y), at(x, y), 0) {
				t.links[y*t.w+x] |= linkUp
				t.links[(y+1)*t.w+x] |= linkDown
			}
			if x < d.cols && rule(at(x, y-1), at(x, y), 1) {
				t.links[y*t.w+x] |= linkRight
				t.links[y*t.w+x+1] |= linkLeft
			}
		}
	}
	var out []Line
	for pass := range 2 {
		for i := range t.links {
			// First the lines that begin or end somewhere, then the loops.
			for t.links[i] != 0 && (pass == 1 || t.degree(i) != 2) {
				if line := t.follow(i); len(line) > least {
					out = append(out, d.smooth(line))
				}
			}
		}
	}
	return out
}

const (
	linkUp = 1 << iota
	linkRight
	linkDown
	linkLeft
)

type tracer struct {
	w, h  int
	links []uint8
}

func (t *tracer) degree(i int) int {
	n := 0
	for l := t.links[i]; l != 0; l &= l - 1 {
		n++
	}
	return n
}

// follow walks from a corner along cracks, and takes them away, until a corner
// where the line ends, branches or closes. At a crossing it goes straight on
// when it can.
func (t *tracer) follow(start int) [][2]int {
	line := [][2]int{{start % t.w, start / t.w}}
	i, last := start, uint8(0)
	for t.links[i] != 0 {
		l := t.links[i]
		go1 := last & l
		if go1 == 0 {
			go1 = l & -l
		}
		t.links[i] &^= go1
		back := uint8(linkDown)
		switch go1 {
		case linkUp:
			i += t.w
		case linkRight:
			i, back = i+1, linkLeft
		case linkDown:
			i, back = i-t.w, linkUp
		case linkLeft:
			i, back = i-1, linkRight
		}
		t.links[i] &^= back
		last = go1
		line = append(line, [2]int{i % t.w, i / t.w})
		if i == start {
			break
		}
	}
	return line
}

// smooth turns the stairs of a line into a clean line: the middles of the
// steps, averaged along it, thinned out where it is straight.
func (d *dots) smooth(steps [][2]int) Line {
	closed := steps[0] == steps[len(steps)-1]
	n := len(steps) - 1
	mid := make(Line, 0, n+2)
	for i := range n {
		mid = append(mid, [2]float64{float64(steps[i][0]+steps[i+1][0]) / 2, float64(steps[i][1]+steps[i+1][1]) / 2})
	}
	const reach = 2
	out := make(Line, 0, n+2)
	for i := range mid {
		var sum [2]float64
		count := 0.0
		for k := i - reach; k <= i+reach; k++ {
			j := k
			if closed {
				j = ((k % n) + n) % n
			} else if k < 0 || k >= n {
				continue
			}
			sum[0] += mid[j][0]
			sum[1] += mid[j][1]
			count++
		}
		out = append(out, [2]float64{sum[0] / count, sum[1] / count})
	}
	if closed {
		out = append(out, out[0])
	} else {
		first, last := steps[0], steps[n]
		out = append(append(Line{{float64(first[0]), float64(first[1])}}, out...), [2]float64{float64(last[0]), float64(last[1])})
	}
	out = simplify(out, 0.3)
	// Samples lie in the middle of the dots, and the first dot at the edge of
	// the box; a crack lies half way between two samples.
	for i := range out {
		out[i][0] *= d.step
		out[i][1] *= d.step
	}
	return out
}

// simplify drops points that lie within tol of the line between those kept
// (D. Douglas, T. Peucker, 1973). A closed line is cut at its farthest point.
func simplify(l Line, tol float64) Line {
	keep := make([]bool, len(l))
	keep[0], keep[len(l)-1] = true, true
	type span struct{ from, to int }
	todo := []span{{0, len(l) - 1}}
	for len(todo) > 0 {
		s := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		far, at := tol, -1
		seg := segment{l[s.from][0], l[s.from][1], l[s.to][0], l[s.to][1], 0}
		for i := s.from + 1; i < s.to; i++ {
			if d := math.Sqrt(seg.distance2(l[i][0], l[i][1])); d > far {
				far, at = d, i
			}
		}
		if at >= 0 {
			keep[at] = true
			todo = append(todo, span{s.from, at}, span{at, s.to})
		}
	}
	var out Line
	for i, k := range keep {
		if k {
			out = append(out, l[i])
		}
	}
	return out
}
