package pack

import "slices"

// A try is what came of the compositions of one number of bins.
type try struct {
	f          *filling
	step       string
	metalLower int64 // no composition costs less
	refuted    bool  // all of them
	again      bool
	unhung     bool // some packing was found that only does not hang
}

// mostTries is how many compositions of one number are tried in full, mostRough
// how many where a rough answer is asked for, and mostUnhung after how many that are only too crowded to hang the search turns
// to the roomiest one.
const (
	mostTries  = 400
	mostRough  = 20
	mostUnhung = 4
)

// tries goes through compositions by rising metal: the first that holds the
// units is the cheapest, if all before it are refuted.
func (s *space) tries(v *view, list []composition) try {
	t := try{metalLower: -1, refuted: true}
	unhung := 0
	most := mostTries
	if s.q.Rough {
		most = mostRough
		// What the roomiest composition does not hold, the others hardly ever do.
		if c, ok := s.preferred(v, list); ok {
			if f, _, _, refuted, _ := s.attempt(v, c); f == nil && !refuted {
				return try{metalLower: list[0].metal}
			}
		}
	}
	for n, c := range list {
		if n >= most || s.hang.spent() || s.work >= s.limit {
			t.refuted = false
			break
		}
		if unhung == mostUnhung {
			t.refuted = false
			c = s.roomiest(list[n:])
		}
		f, step, crowded, refuted, again := s.attempt(v, c)
		if again {
			return try{again: true}
		}
		if refuted {
			continue
		}
		t.refuted = false
		if t.metalLower < 0 {
			t.metalLower = c.metal
		}
		t.f, t.step = f, step
		if f != nil || unhung == mostUnhung {
			break
		}
		if crowded {
			t.unhung = true
			unhung++
		}
	}
	if t.metalLower < 0 && len(list) > 0 {
		t.metalLower = list[0].metal
	}
	t.metalLower = max(t.metalLower, 0)
	return t
}

// preferred is the composition of most bins of the kind that all units together
// fill least; false where some unit does not go into it.
func (s *space) preferred(v *view, list []composition) (composition, bool) {
	if len(list) < 2 || s.hang != nil {
		return composition{}, false
	}
	k := v.prefer[0]
	for u := range v.pieces {
		if v.pieces[u].size[k] == nil {
			return composition{}, false
		}
	}
	return slices.MaxFunc(list, func(a, b composition) int { return a.count[k] - b.count[k] }), true
}

// attempt fills one composition: by the cheap ways, and where the units are
// few by every way.
func (s *space) attempt(v *view, c composition) (f *filling, step string, unhung, refuted, again bool) {
	f, step, unhung, again = s.quick(v, c)
	if again || f != nil || len(v.pieces) > mostSmall {
		return f, step, unhung, false, again
	}
	f, refuted = s.small(v.pieces, c.kinds(v.prefer))
	if f != nil {
		f = s.polish(f, v)
	}
	return f, "every way", unhung, refuted, false
}

// roomiest is the composition with most room, all dimensions taken alike.
func (s *space) roomiest(list []composition) composition {
	best, most := 0, -1.0
	for n, c := range list {
		room := 0.0
		for d := range s.dims {
			var sum, largest int64
			for k, m := range c.count {
				sum += int64(m) * s.q.Bins[k].Capacity[d]
				largest = max(largest, s.q.Bins[k].Capacity[d])
			}
			room += share(sum, largest)
		}
		if room > most {
			best, most = n, room
		}
	}
	return list[best]
}

// quick tries the cheap ways to fill the bins of a composition; unhung says that
// one did and its packing does not hang.
func (s *space) quick(v *view, c composition) (f *filling, step string, unhung, again bool) {
	kinds := c.kinds(v.prefer)
	for _, way := range s.ways(v, c, kinds) {
		f := way.fill()
		if f == nil {
			continue
		}
		if f, again = s.finish(f, v); f != nil || again {
			return f, way.name, false, again
		}
		unhung = true
		if s.work >= s.limit {
			break
		}
	}
	return nil, "", unhung, false
}
