package pattern

import (
	"cmp"
	"math"
	"slices"

	"castweek/metal/measure"
)

const (
	// SmallestCluster is the area in mm² below which a thin place or a gap is
	// not reported: about 20 samples on a ring.
	SmallestCluster = 0.05
	// clusterCell is the size in mm of the cells whose neighbours are joined.
	clusterCell = 0.3
	// parallel is how even two skins must be to count as parallel, about 10
	// degrees; knife edges and crevices have hardly any such place.
	parallel      = 0.985
	parallelShare = 0.1
)

// clusters joins samples that lie in neighbouring cells; the largest lists
// come in the order of their first sample.
func clusters(samples []sample, pitch float64) [][]sample {
	size := max(clusterCell, 3*pitch)
	// A cell's three numbers, counted from the first sample, stand in one: there
	// are far fewer than 2^20 along a side.
	type cell uint64
	along := [3]cell{1, 1 << 21, 1 << 42}
	index := map[cell]int32{}
	var cells []cell
	of := make([]int32, len(samples))
	for i, s := range samples {
		var c cell
		for k, v := range s.middle {
			c += along[k] * cell(1<<20+int(math.Floor(float64(v)/size))-int(math.Floor(float64(samples[0].middle[k])/size)))
		}
		j, ok := index[c]
		if !ok {
			j = int32(len(cells))
			index[c] = j
			cells = append(cells, c)
		}
		of[i] = j
	}
	group := newUnions(len(cells))
	for j, c := range cells {
		for n := range 27 {
			near := c + along[0]*cell(n%3) + along[1]*cell(n/3%3) + along[2]*cell(n/9) - along[0] - along[1] - along[2]
			if i, ok := index[near]; ok {
				group.join(int32(j), i)
			}
		}
	}
	slot := map[int32]int{}
	var sizes []int
	for i := range samples {
		root := group.find(of[i])
		k, ok := slot[root]
		if !ok {
			k = len(sizes)
			slot[root] = k
			sizes = append(sizes, 0)
		}
		of[i] = int32(k)
		sizes[k]++
	}
	all := make([]sample, len(samples))
	out := make([][]sample, len(sizes))
	for k, n := range sizes {
		out[k], all = all[:0:n], all[n:]
	}
	for i, s := range samples {
		out[of[i]] = append(out[of[i]], s)
	}
	return out
}

// A clump is what a cluster comes down to.
type clump struct {
	width, mean float64 // 5th percentile and mean, by area
	at          Point
	area        float64
	sharp       bool // runs out to an edge or a crevice
}

func summary(list []sample) clump {
	// Equal widths are ordered by place, so that the order is the same always.
	slices.SortFunc(list, func(a, b sample) int {
		return cmp.Or(cmp.Compare(a.width, b.width), slices.Compare(a.middle[:], b.middle[:]))
	})
	var c clump
	even := 0.0
	for _, s := range list {
		c.area += s.area
		c.mean += s.area * s.width
		if s.even >= parallel {
			even += s.area
		}
	}
	c.mean /= c.area
	sum := 0.0
	for _, s := range list {
		if sum += s.area; sum >= 0.05*c.area {
			c.width, c.at = s.width, s.middle.point()
			break
		}
	}
	// A coarse round wire or hole has few parallel faces too, but one width.
	c.sharp = even < parallelShare*c.area && c.width < c.mean/2
	return c
}

// thin reports walls and gaps, the narrowest first.
func (r *Report) thin(u *united, opt Options) {
	for _, list := range clusters(u.walls.samples, u.pitch) {
		c := summary(list)
		if c.area < SmallestCluster {
			continue
		}
		c.area += u.sheet(list, u.walls.beside).rim(c.area)
		t := Thin{measure.MM(c.width), c.at, measure.SquareMM(c.area), ""}
		if c.sharp {
			r.KnifeEdges = append(r.KnifeEdges, t)
		} else {
			r.Walls = append(r.Walls, t)
		}
	}
	byWidth := func(a, b Thin) int { return cmp.Compare(a.MM, b.MM) }
	slices.SortStableFunc(r.Walls, byWidth)
	slices.SortStableFunc(r.KnifeEdges, byWidth)
	if len(r.Walls) > 0 {
		r.Thinnest = &r.Walls[0]
	}
	for _, list := range clusters(u.gaps.samples, u.pitch) {
		c := summary(list)
		if c.area < SmallestCluster || c.sharp {
			continue
		}
		sheet := u.sheet(list, u.gaps.beside)
		c.area += sheet.rim(c.area)
		if depth := sheet.across(); depth > opt.GapDepth*c.mean {
			r.NarrowGaps = append(r.NarrowGaps, Gap{measure.MM(c.width), c.at, measure.MM(depth), measure.SquareMM(c.area), ""})
		}
	}
	slices.SortStableFunc(r.NarrowGaps, func(a, b Gap) int { return cmp.Compare(a.MM, b.MM) })
}
