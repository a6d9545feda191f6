package pack

import (
	"slices"
)

// An improver lowers the later goals of a packing, in their order, while the
// bins and their kinds stay: metal, job splits, the fullest bin. It moves and
// exchanges clumps, which are the units of one job in one tray, and units.
type improver struct {
	*filling
	jobs  [][]int       // by unit: the jobs in it, one entry for each item
	holds []map[int]int // by tray: items by job
	until int64
	// evenOnly: no split and no metal is left to lower.
	evenOnly bool
}

// evenShare: evenness alone is worth this part of what metal and splits are.
const evenShare = 40

// goals of a packing, or of a part of it.
type goals struct {
	metal  int64
	splits int
	full   float64
}

func (g goals) less(h goals) bool {
	switch {
	case g.metal != h.metal:
		return g.metal < h.metal
	case g.splits != h.splits:
		return g.splits < h.splits
	}
	return g.full < h.full-1e-9
}

// improve works on a packing of pieces, for so much work.
func (s *space) improve(f *filling, pieces []unit, work int64) *filling {
	if len(f.trays) < 2 {
		return f
	}
	im := &improver{filling: f, until: min(s.limit, s.work+work)}
	im.jobs = make([][]int, len(pieces))
	for u := range pieces {
		for _, i := range pieces[u].items {
			if j := s.jobs[i]; j >= 0 {
				im.jobs[u] = append(im.jobs[u], j)
			}
		}
	}
	for t := range im.trays {
		im.holds = append(im.holds, map[int]int{})
		for _, u := range im.trays[t].units {
			im.count(t, u, 1)
		}
	}
	if _, split := im.worst(); !split && s.q.Tied == nil {
		im.until = min(im.until, s.work+work/evenShare)
	}
	for s.work < im.until && im.step() {
		continue
	}
	return im.filling
}

// piecewise takes the units of a packing apart; nil if one is where it does not
// go by all that is known, as bounds look past refusals that are not proved.
func (s *space) piecewise(f *filling, pieces []unit) *filling {
	of := make(map[int]int, len(pieces))
	for u := range pieces {
		of[pieces[u].items[0]] = u
	}
	out := &filling{s: s, units: pieces}
	for t := range f.trays {
		if len(f.trays[t].units) == 0 {
			continue
		}
		o := out.open(f.trays[t].kind)
		for _, i := range f.items(t) {
			u, is := of[i]
			if !is {
				continue // not the first item of its unit
			}
			if pieces[u].size[f.trays[t].kind] == nil {
				return nil
			}
			out.add(o, u)
		}
	}
	return out
}

func (im *improver) count(t, u, sign int) {
	for _, j := range im.jobs[u] {
		im.holds[t][j] += sign
		if im.holds[t][j] == 0 {
			delete(im.holds[t], j)
		}
	}
}

// step makes one exchange that lowers the goals; false if it finds none.
func (im *improver) step() bool {
	fullest, split := im.worst()
	im.evenOnly = !split && im.s.q.Tied == nil
	clumps := make([][][]int, len(im.trays))
	for t := range im.trays {
		clumps[t] = im.clumps(t)
	}
	for a := range im.trays {
		// Only metal and splits can be lowered away from the fullest tray.
		if a != fullest && im.s.q.Tied == nil && !split {
			continue
		}
		for b := range im.trays {
			if a == b {
				continue
			}
			before := im.goals(a, b)
			for _, out := range clumps[a] {
				if im.trade(a, b, out, nil, before) {
					return true
				}
				for _, in := range clumps[b] {
					if im.trade(a, b, out, in, before) {
						return true
					}
				}
				if im.s.work >= im.until {
					return false
				}
			}
		}
	}
	return false
}

// worst is the fullest tray, and whether any job is split.
func (im *improver) worst() (fullest int, split bool) {
	full := -1.0
	jobs := map[int]bool{}
	for t := range im.trays {
		if f := im.full(t); f > full {
			fullest, full = t, f
		}
		for j := range im.holds[t] {
			split = split || jobs[j]
			jobs[j] = true
		}
	}
	return fullest, split
}

func (im *improver) full(t int) float64 {
	full := 0.0
	for d, c := range im.s.q.Bins[im.trays[t].kind].Capacity {
		full = max(full, share(im.trays[t].load[d], c))
	}
	return full
}

// clumps of a tray: its jobs, the units without one, and single units of jobs
// of several.
func (im *improver) clumps(t int) [][]int {
	var out [][]int
	at := map[int]int{}
	for _, u := range im.trays[t].units {
		if len(im.jobs[u]) == 0 {
			out = append(out, []int{u})
			continue
		}
		j := im.jobs[u][0]
		if k, seen := at[j]; seen {
			out[k] = append(out[k], u)
			continue
		}
		at[j] = len(out)
		out = append(out, []int{u})
	}
	for _, clump := range out[:len(out):len(out)] {
		if len(clump) > 1 {
			for _, u := range clump {
				out = append(out, []int{u})
			}
		}
	}
	return out
}

// goals of two trays: what an exchange between them can change.
func (im *improver) goals(a, b int) goals {
	g := goals{full: max(im.full(a), im.full(b))}
	if im.s.q.Tied != nil {
		for _, t := range []int{a, b} {
			if len(im.trays[t].units) > 0 {
				g.metal += im.s.q.metal(im.trays[t].kind, im.trays[t].load)
			}
		}
	}
	g.splits = len(im.holds[a]) + len(im.holds[b])
	return g
}

// trade moves out from tray a to b, and in back, if that fits, lowers the goals
// and leaves neither tray empty.
func (im *improver) trade(a, b int, out, in []int, before goals) bool {
	im.s.spend(int64(10 * (len(out) + len(in))))
	if len(in) == 0 && len(out) == len(im.trays[a].units) {
		return false
	}
	full, ok := im.roomy(a, b, out, in)
	if !ok || im.evenOnly && full >= before.full-1e-9 {
		return false
	}
	im.exchange(a, b, out, in)
	if im.goals(a, b).less(before) && im.allowed(a) && im.allowed(b) {
		return true
	}
	im.exchange(b, a, out, in)
	return false
}

// roomy tells whether the limits of both trays allow an exchange, and how full
// the fuller one then is.
func (im *improver) roomy(a, b int, out, in []int) (full float64, ok bool) {
	ka, kb := im.trays[a].kind, im.trays[b].kind
	for _, u := range out {
		if im.units[u].size[kb] == nil {
			return 0, false
		}
	}
	for _, u := range in {
		if im.units[u].size[ka] == nil {
			return 0, false
		}
	}
	for d := range im.s.dims {
		la, lb := im.trays[a].load[d], im.trays[b].load[d]
		for _, u := range out {
			la -= im.units[u].size[ka][d]
			lb += im.units[u].size[kb][d]
		}
		for _, u := range in {
			la += im.units[u].size[ka][d]
			lb -= im.units[u].size[kb][d]
		}
		if la > im.s.q.Bins[ka].Capacity[d] || lb > im.s.q.Bins[kb].Capacity[d] {
			return 0, false
		}
		full = max(full, share(la, im.s.q.Bins[ka].Capacity[d]), share(lb, im.s.q.Bins[kb].Capacity[d]))
	}
	return full, true
}

func (im *improver) exchange(a, b int, out, in []int) {
	shift := func(from, to int, us []int) {
		for _, u := range us {
			im.remove(from, u)
			im.count(from, u, -1)
			im.add(to, u)
			im.count(to, u, 1)
		}
	}
	shift(a, b, out)
	shift(b, a, in)
}

// allowed tells whether the wishes and refusals allow what is in a tray.
func (im *improver) allowed(t int) bool {
	us := im.trays[t].units
	for _, u := range us {
		if len(im.units[u].foes) > 0 && slices.ContainsFunc(us, im.units[u].hates) {
			return false
		}
	}
	return im.s.hang == nil || !im.s.hang.barred(im.trays[t].kind, im.items(t))
}
