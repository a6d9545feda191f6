package pattern

import (
	"math"
	"slices"
)

// JoinLimit is the widest distance, as a share of the longest side, at which
// two points on open edges are taken for one: 10 µm on a ring of 25 mm, well
// below what a printer can show. Measured need: seams of 0.1 to 1 µm.
const JoinLimit = 4e-4

// joinNear joins points on unbalanced edges that lie closer together than a
// limit, which starts small and is raised while edges stay open. Only what
// lies on an open edge may move, and a round that makes an edge be used more
// often than twice, or leaves more edges open, is taken back. It returns how
// many points were joined.
func (c *chain) joinNear(t *edgeTable, grain float64) int {
	longest := boxOf(c.points).longest()
	limit := JoinLimit * longest
	joined := 0
	for tol := max(limit/10, 4*grain); ; tol = limit {
		tol = min(tol, limit)
		if n := c.joinRound(t, tol); n > 0 {
			joined += n
			t = newEdgeTable(c)
		}
		if tol >= limit || c.unbalanced(t) == 0 {
			return joined
		}
	}
}

func (c *chain) joinRound(t *edgeTable, tol float64) int {
	rim := map[int32]bool{}
	open, many := 0, 0
	t.each(func(low int32, uses []edgeUse) {
		if net(uses) != 0 {
			rim[low], rim[uses[0].high] = true, true
			open++
		}
		if len(uses) > 2 {
			many++
		}
	})
	points := make([]int32, 0, len(rim))
	for p := range rim {
		points = append(points, p)
	}
	slices.Sort(points)
	to := c.nearest(points, tol, c.bodyOfPoints())
	if len(to) == 0 {
		return 0
	}
	trial := chain{points: c.points, faces: make([][3]int32, 0, len(c.faces))}
	for i, f := range c.faces {
		for k, p := range f {
			if q, ok := to[p]; ok {
				f[k] = q
			}
		}
		if f[0] == f[1] || f[1] == f[2] || f[2] == f[0] {
			continue
		}
		trial.faces = append(trial.faces, f)
		if c.body != nil {
			trial.body = append(trial.body, c.body[i])
		}
	}
	openAfter, manyAfter := 0, 0
	newEdgeTable(&trial).each(func(_ int32, uses []edgeUse) {
		if net(uses) != 0 {
			openAfter++
		}
		if len(uses) > 2 {
			manyAfter++
		}
	})
	if openAfter >= open || manyAfter > many {
		return 0
	}
	*c = trial
	return len(to)
}

// bodyOfPoints tells the body of each point; nil when there is one body.
func (c *chain) bodyOfPoints() []int32 {
	if c.body == nil {
		return nil
	}
	b := make([]int32, len(c.points))
	for i, f := range c.faces {
		for _, p := range f {
			b[p] = c.body[i]
		}
	}
	return b
}

// nearest maps points to the lowest-numbered point within tol, by cells of the
// size of tol and their neighbours. A point that others are mapped to stays.
func (c *chain) nearest(points []int32, tol float64, body []int32) map[int32]int32 {
	type cell [3]int64
	at := func(p int32) cell {
		v := c.points[p]
		return cell{int64(math.Floor(v[0] / tol)), int64(math.Floor(v[1] / tol)), int64(math.Floor(v[2] / tol))}
	}
	kept := map[cell][]int32{}
	to := map[int32]int32{}
	for _, p := range points {
		home := at(p)
		best, how := int32(-1), tol
		for n := range 27 {
			near := cell{home[0] + int64(n%3) - 1, home[1] + int64(n/3%3) - 1, home[2] + int64(n/9) - 1}
			for _, q := range kept[near] {
				if body != nil && body[p] != body[q] {
					continue
				}
				if d := Point(c.points[p]).distance(c.points[q]); d < how || d == how && q < best {
					best, how = q, d
				}
			}
		}
		if best >= 0 {
			to[p] = best
		} else {
			kept[home] = append(kept[home], p)
		}
	}
	return to
}
