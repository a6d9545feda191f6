package tree

import (
	"castweek/jobs/workshop"
	"castweek/metal/measure"
	"castweek/tree/mount"
	"castweek/tree/pack"
)

// shares count a casting's part of a trunk in millionths.
const shares = 1_000_000

// Work spent on one fill and on a bound, in the packer's steps: with mountings
// to ask for, more of it hardly ever finds a better tree.
const (
	fillLimit  = pack.DefaultLimit / 50
	boundLimit = pack.DefaultLimit / 5
)

// bound is the least number of trees that the group's own castings need, by what
// is proved: the metal of the patterns with the least feeders that they can hang
// on, and of the trunk no more than the proved least share. A tree that stays as
// it was counts as one. Refusals of mounting that prove nothing have no part in
// it, nor has what other groups took: they might leave it to this one.
func (s *packing) bound() (int, []pack.Fault) {
	q := s.bins(s.stock)
	kept := map[int]bool{}
	for _, k := range s.wish.kept {
		for _, i := range k.items {
			kept[i] = true
		}
	}
	needs := s.needs(false)
	var own []int // the others only lessen what is proved: fewer castings never need more trees
	for i, it := range s.group.items {
		if s.group.own(it) && !kept[i] {
			own = append(own, i)
		}
		item := pack.Item{ID: it.casting.ID, Job: it.casting.Job.Number}
		for b := range s.shop.Flasks {
			n := needs[b][i]
			part := int64(0)
			if n.Room > 0 {
				part = int64(float64(n.LeastShare) / float64(n.Room) * shares) // rounded down: a bound may only be low
			}
			item.SizeIn = append(item.SizeIn, []int64{int64(leastMetal(it, n)), part})
		}
		q.Items = append(q.Items, item)
	}
	if len(own) == 0 {
		return len(s.wish.kept), nil
	}
	for b, f := range s.shop.Flasks {
		bin := &q.Bins[b]
		bin.Capacity[0] = max(0, bin.Capacity[0]-int64(s.leastTrunk(b, f)))
		bin.Capacity = append(bin.Capacity, shares)
	}
	q.Limit = boundLimit
	a, faults := pack.Solve(pack.Question(groupQuestion(q).among(own)))
	return len(s.wish.kept) + a.Bound, faults
}

// leastMetal is what a casting puts on a tree at least, with its feeders.
func leastMetal(it *item, n mount.Need) measure.Milligram {
	return it.metal() + n.LeastFeeder.Times(it.density).RoundDown(1)
}

// leastTrunk is the metal of the shortest trunk that any casting of the group
// hangs from in a flask, rounded down.
func (s *packing) leastTrunk(bin int, f workshop.Flask) measure.Milligram {
	needs := s.needs(false)[bin]
	least := needs[0].LeastTrunk
	for _, n := range needs {
		least = min(least, n.LeastTrunk)
	}
	return trunkVolume(f, least).Times(s.group.items[0].density).RoundDown(1)
}

// needs are what the group's items need, by flask and item, with poor hangs or
// without.
func (s *packing) needs(poor bool) [][]mount.Need {
	k := 0
	if poor {
		k = 1
	}
	if s.needed[k] == nil {
		for _, f := range s.shop.Flasks {
			var list []mount.Need
			for _, it := range s.group.items {
				list = append(list, s.traced.need(s.shop, f, it, poor))
			}
			s.needed[k] = append(s.needed[k], list)
		}
	}
	return s.needed[k]
}

// question states the group in the packer's numbers for a fill: the metal of
// the patterns with feeders and trunk as they are mostly mounted, and their part
// of the trunk. Whether a set really hangs, and whether its metal keeps all
// limits, mounting says.
func (s *packing) question(fill float64) groupQuestion {
	q := s.bins(s.free)
	q.Limit, q.Rough = fillLimit, !s.thorough
	if s.thorough {
		q.Limit = pack.DefaultLimit / 10
	}
	most := make([]measure.Milligram, len(q.Bins))
	for b := range q.Bins {
		most[b] = measure.Milligram(q.Bins[b].Capacity[0])
		q.Bins[b].Capacity = []int64{int64(float64(most[b]) * s.metalFill), int64(fill * shares)}
	}
	needs := s.needs(s.poor)
	for i, it := range s.group.items {
		item := pack.Item{ID: it.casting.ID, Job: it.casting.Job.Number}
		for b, f := range s.shop.Flasks {
			n := needs[b][i]
			if !n.Hangs || n.Roots <= 0 {
				item.SizeIn = append(item.SizeIn, nil)
				continue
			}
			// alone it hangs whatever its share and the guess at its feeder
			part := min(int64(float64(n.Share)/float64(n.Roots)*shares), int64(fill*shares))
			metal := it.metal() + (n.Feeder + trunkVolume(f, n.Share)).Times(it.density).RoundUp(1)
			if it.metal() <= most[b] {
				metal = min(metal, measure.Milligram(q.Bins[b].Capacity[0]))
			}
			item.SizeIn = append(item.SizeIn, []int64{int64(metal), part})
		}
		q.Items = append(q.Items, item)
	}
	return groupQuestion(q)
}

// bins are so many of the house's flasks, and the wishes. More of a kind than
// there are castings are of no use to them.
func (s *packing) bins(flasks map[string]int) pack.Question {
	a := s.group.items[0].alloy
	q := pack.Question{Together: s.wish.together, Apart: s.wish.apart, Fixed: s.fixed}
	for b, f := range s.shop.Flasks {
		available := min(flasks[f.Name], len(s.group.items))
		if available <= 0 {
			available = -1
		}
		capacity := metalCapacity(s.shop, a, f)
		if capacity < 0 {
			capacity, available = 0, -1
		}
		trunk := s.leastTrunk(b, f)
		_, button := chargeInput(s.shop, a, f).TotalFor(trunk)
		// of flasks that tie up as much the smaller is to be tried, which takes less powder
		q.Bins = append(q.Bins, pack.Bin{Name: f.Name, Capacity: []int64{int64(capacity)}, Metal: int64(trunk+button) + smaller(s.shop.Flasks, f), Available: available})
	}
	return q
}

// A question about the whole group, to be asked of a part of it.
type groupQuestion pack.Question

// among keeps the items at the rising indices rest. Wishes about others are
// dropped: what is together was kept together.
func (q groupQuestion) among(rest []int) groupQuestion {
	at := map[int]int{}
	var items []pack.Item
	for k, i := range rest {
		at[i] = k
		items = append(items, q.Items[i])
	}
	found := func(set []int) (out []int) {
		for _, i := range set {
			if k, ok := at[i]; ok {
				out = append(out, k)
			}
		}
		return out
	}
	var together [][]int
	for _, t := range q.Together {
		if set := found(t); len(set) > 1 {
			together = append(together, set)
		}
	}
	var apart []pack.Apart
	for _, p := range q.Apart {
		if x, y := found(p.A), found(p.B); len(x) > 0 && len(y) > 0 {
			apart = append(apart, pack.Apart{A: x, B: y})
		}
	}
	q.Items, q.Together, q.Apart, q.Fixed = items, together, apart, nil
	return q
}

// smaller counts the flasks that hold less than one.
func smaller(flasks []workshop.Flask, than workshop.Flask) (n int64) {
	for _, f := range flasks {
		if f.InnerDiameter*f.InnerDiameter*f.Height < than.InnerDiameter*than.InnerDiameter*than.Height {
			n++
		}
	}
	return n
}
