package pattern

import (
	"math"
	"slices"
)

const (
	// mostCells is how many columns of one patch are looked at; of more, every
	// second or third row and column.
	mostCells = 20_000
	// chordWays is how many ways across a gap are tried, 15 degrees apart, beside
	// those along its own axes: the shortest is found to 1 %.
	chordWays = 12
	// longestShare keeps single columns in a corner from deciding the depth.
	longestShare = 0.9
	// widened is how much wider than at its narrowest a run must be at its end
	// for its blunt end to count as the mouth of the gap. A round hole is as wide
	// there as anywhere.
	widened = 1.1
)

// A sheet is one cluster of columns through a thin wall or a narrow gap, cut
// into patches. It tells where the cluster ends.
type sheet struct {
	patches []patch
}

func (u *united) sheet(list []sample, near []beside) sheet {
	var ways [3][]sample
	for i := range list {
		k := list[i].column.way()
		ways[k] = append(ways[k], list[i])
	}
	var s sheet
	for k, of := range ways {
		// A column may meet a curved sheet twice: the near side and the far one
		// are patches of their own.
		for _, part := range clusters(of, u.pitch) {
			s.patches = append(s.patches, newPatch(k, part, near, u.pitch))
		}
	}
	return s
}

// rim is the area that slanting columns miss along the rim: one that meets the
// wall at an angle θ there enters between the skins and leaves beside them.
// With width w, a strip of w·tan θ along the slant is lost in all, half of it at
// either end. A place that is all rim is told no larger than twice what was seen.
func (s sheet) rim(seen float64) float64 {
	sum := 0.0
	for i := range s.patches {
		p := &s.patches[i]
		for _, r := range p.runs([2]float64{p.facing.dot(p.u), p.facing.dot(p.v)}) {
			for end, n := range [2]int{r.first, r.last} {
				if x := &p.list[n]; p.ending(&r, end) == rimEnd {
					square := math.Abs(x.across.point().dot(p.d))
					sum += float64(x.share) * p.pitch() * x.width * math.Sqrt(max(0, 1-square*square)) / (2 * square)
				}
			}
		}
	}
	return min(sum, seen)
}

// across is the length of the shortest way across the cluster, from rim to rim
// or from rim to bottom, where it is longest: the depth of a slit, the length
// of a hole.
func (s sheet) across() float64 {
	depth := 0.0
	for i := range s.patches {
		depth = max(depth, s.patches[i].across())
	}
	return depth
}

func (p *patch) across() float64 {
	slant := p.d.sub(p.facing.scale(p.d.dot(p.facing))).scale(1 / math.Abs(p.d.dot(p.facing))) // tan θ long
	shortest := make([]float64, len(p.list))
	for i := range shortest {
		shortest[i] = math.Inf(1)
	}
	for _, f := range p.chordDirections() {
		along := [2]float64{f.dot(p.u), f.dot(p.v)}
		for _, r := range p.runs(along) {
			length, rims := r.length, 0.0
			for end := range 2 {
				switch far, width, kind := p.beyond(&r, end); kind {
				case thinEnd:
					length = math.Inf(1)
				case rimEnd:
					rims += width * math.Abs(slant.dot(f)) / 2
					length += far
				default:
					length += far
				}
			}
			chord := length/math.Hypot(along[0], along[1]) + rims
			for _, i := range r.members {
				shortest[i] = min(shortest[i], chord)
			}
		}
	}
	shortest = slices.DeleteFunc(shortest, func(c float64) bool { return math.IsInf(c, 1) })
	if len(shortest) == 0 {
		return 0
	}
	slices.Sort(shortest)
	return shortest[int(longestShare*float64(len(shortest)-1))]
}

// chordDirections are the ways across the patch that are tried, in its plane:
// along its length and its width, along the axis of what it bends around, and
// some more all around.
func (p *patch) chordDirections() []Point {
	var middle Point
	for i := range p.list {
		middle = middle.add(p.list[i].middle.point().scale(1 / float64(len(p.list))))
	}
	var spread, across [3][3]float64
	for k := range p.list {
		x := &p.list[k]
		d, a := x.middle.point().sub(middle), x.across.point()
		for i := range 3 {
			for j := range 3 {
				spread[i][j] += d[i] * d[j]
				across[i][j] += a[i] * a[j]
			}
		}
	}
	_, long := eigen(spread)
	_, bent := eigen(across)
	var out []Point
	for _, f := range []Point{long[0], long[0].cross(p.facing), bent[2]} {
		if f = f.sub(p.facing.scale(f.dot(p.facing))); f.length() > 0.1 {
			out = append(out, f.unit())
		}
	}
	a, b := p.facing.across()
	for k := range chordWays {
		sin, cos := math.Sincos(math.Pi * float64(k) / chordWays)
		out = append(out, a.scale(cos).add(b.scale(sin)))
	}
	return out
}
