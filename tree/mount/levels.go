package mount

import (
	"math"
	"sort"
)

// A policy steers how levels are opened. A level at rise above the last one with n
// castings scores n/(rise+bias): a small bias favours close levels, a large one
// full levels. Weights within band of each other may change places.
type policy struct {
	bias, band float64
}

// firstPolicy is that of the quick search's first round.
var firstPolicy = policy{8, 0}

// A refinement is what the quick search goes on to when most castings found a
// place: finer heights, and with mixed also two rows of castings.
var refinements = []struct {
	policy
	mixed bool
}{{firstPolicy, false}, {firstPolicy, true}, {policy{8, WeightBand}, false}, {policy{8, WeightBand}, true}, {policy{20, WeightBand}, false}, {policy{3, 0}, false}}

// overfull is the share of the trunk, by what castings take among their like, from
// which on longer feeders are not tried either: trees have been seen to hang up to
// 1.25. hopeless is the share of castings left over by the first round from which
// on nothing finer is tried, and refinedStyles the number of styles that it is
// tried with.
const (
	overfull      = 1.6
	hopeless      = 0.25
	refinedStyles = 2
)

const (
	fineRise   = 0.5  // mm, the same in refinements and in the thorough search
	riseStep   = 1.0  // mm, to which the height of the next level is tried, by every other step first
	leastRise  = 3.0  // mm, so that two levels can be told apart on the trunk
	mostRise   = 45.0 // mm
	heightStep = 0.5  // mm, to which heights are rounded
	mostMisses = 4    // different outlines that may fail on a level before it is closed
)

// quick tries the styles, those first that by their shares need the least trunk,
// with short feeders before longer ones, until everything hangs.
func (s *search) quick() {
	var order []int
	left := make([]int, len(styles))
	for _, group := range [][2]int{{0, shortStyles}, {shortStyles, len(styles)}} {
		next, need := s.stylesByNeed(group[0], group[1])
		for _, k := range next {
			if left[k] = s.attempt(s.inStyle(k), firstPolicy, riseStep); s.done() {
				return
			}
		}
		order = append(order, next...)
		if need > overfull {
			break
		}
	}
	if float64(s.best.left) > hopeless*float64(len(s.all)) {
		return
	}
	sort.SliceStable(order, func(i, j int) bool { return left[order[i]] < left[order[j]] })
	s.promising = order
	for _, f := range refinements {
		for _, k := range order[:min(refinedStyles, len(order))] {
			choices := s.inStyle(k)
			if f.mixed {
				choices = s.mixed(k)
			}
			if s.attempt(choices, f.policy, fineRise); s.done() {
				return
			}
		}
	}
}

func (s *search) done() bool { return s.best.left == 0 || s.steps >= s.limit }

// mixed is inStyle, with longer feeders allowed where the style's own finds no
// place, so that castings stand in two rows.
func (s *search) mixed(k int) []choice {
	out := s.inStyle(k)
	for i := range out {
		for j := k + shortStyles; j < len(styles); j += shortStyles {
			if h := out[i].poses.in(j); h != nil {
				out[i].other = append(out[i].other, h)
			}
		}
	}
	return out
}

// inStyle gives the choices with each body in one style where it fits so.
func (s *search) inStyle(k int) []choice {
	out := append([]choice(nil), s.all...)
	for i := range out {
		out[i].pose = out[i].poses.orBest(k)
	}
	return out
}

// stylesByNeed orders styles by the trunk that they need, and gives the least need
// as a share of the trunk that there is.
func (s *search) stylesByNeed(from, to int) ([]int, float64) {
	var order []int
	need := make([]float64, len(styles))
	for k := from; k < to; k++ {
		order = append(order, k)
		for _, c := range s.all {
			if h := c.poses.orBest(k); h != nil {
				need[k] += h.share() / h.roots(s.room)
			}
		}
	}
	sort.SliceStable(order, func(i, j int) bool { return need[order[i]] < need[order[j]] })
	return order, need[order[0]]
}

// attempt fills levels from the button upwards with the choices in their order,
// keeps the outcome if it is the best so far, and tells how many were left.
func (s *search) attempt(order []choice, p policy, step float64) int {
	s.puts = s.puts[:0]
	var rest []choice
	for _, c := range order {
		if c.pose != nil {
			rest = append(rest, c)
		}
	}
	lost := len(order) - len(rest)
	last := math.Inf(1)
	for _, c := range rest {
		last = math.Min(last, c.pose.rootLow(s.room))
	}
	last = math.Ceil(last/heightStep-roundOff)*heightStep - leastRise
	level := 0
	for len(rest) > 0 && s.steps < s.limit {
		level++
		height, taken := s.bestLevel(rest, p, last, level, step)
		if len(taken) == 0 {
			break
		}
		s.puts = append(s.puts, taken...)
		last = height
		in := make(map[string]bool, len(taken))
		for _, t := range taken {
			in[t.id] = true
		}
		kept := rest[:0]
		for _, c := range rest {
			if !in[c.body.ID] {
				kept = append(kept, c)
			}
		}
		rest = kept
	}
	s.spread()
	r := result{left: lost + len(rest)}
	for _, q := range s.puts {
		r.trunk = math.Max(r.trunk, q.height+q.rootHalf())
		r.levels = max(r.levels, q.level)
	}
	if r.better(s.best) {
		r.puts = append([]put(nil), s.puts...)
		s.best = r
	}
	return r.left
}

// bestLevel tries heights above the last level and gives the fill that scores best.
func (s *search) bestLevel(rest []choice, p policy, last float64, level int, step float64) (float64, []put) {
	most := 0.0 // a level hardly takes more than the slenderest casting would fill it with
	for _, c := range rest {
		most = math.Max(most, float64(slots/c.pose.girth)+1)
	}
	most = math.Min(most, float64(len(rest)))
	var best levelFill
	try := func(rise float64) (all bool) {
		base := len(s.puts)
		s.fill(rest, p, last+rise, level)
		n := len(s.puts) - base
		if score := float64(n) / (rise + p.bias); score > best.score {
			best.score, best.rise = score, rise
			best.puts = append(best.puts[:0], s.puts[base:]...)
		}
		s.puts = s.puts[:base]
		return n == len(rest)
	}
	for rise := leastRise; rise <= mostRise; rise += 2 * step {
		if most/(rise+p.bias) <= best.score || s.steps >= s.limit || try(rise) {
			break
		}
	}
	if best.rise > leastRise {
		try(best.rise - step)
	}
	return last + best.rise, best.puts
}

// A levelFill is a level as it could be filled, at its rise above the last one.
type levelFill struct {
	score, rise float64
	puts        []put
}

// fill puts as many of the choices as it can on a level, in their order, leaving
// one out only for others within the band of its weight.
func (s *search) fill(rest []choice, p policy, height float64, level int) {
	var missed [mostMisses]*hung
	misses := 0
	floor := 0.0
	start := level * 19 % slots // levels begin at different hours, so that few castings do not all hang on one side
next:
	for _, c := range rest {
		if float64(c.body.Weight) < floor {
			return
		}
		for _, m := range missed[:misses] {
			if m == c.pose {
				floor = math.Max(floor, (1-p.band)*float64(c.body.Weight))
				continue next
			}
		}
		if slot, ok := s.findSlot(c, start, height, level); ok {
			start = slot + c.pose.girth
			continue
		}
		floor = math.Max(floor, (1-p.band)*float64(c.body.Weight))
		missed[misses] = c.pose
		if misses++; misses == mostMisses {
			return
		}
	}
}

// findSlot goes once round the trunk from an hour mark and takes the first place.
func (s *search) findSlot(c choice, start int, height float64, level int) (int, bool) {
	q := put{id: c.body.ID, height: height, level: level}
	for i := -1; i < len(c.other); i++ {
		if q.hung = c.pose; i >= 0 {
			q.hung = c.other[i]
		}
		if !s.inHeight(q.hung, height) {
			continue
		}
		for k := range slots {
			q.slot = (start + k) % slots
			if s.free(&q) {
				s.puts = append(s.puts, q)
				return q.slot, true
			}
			if s.steps >= s.limit {
				return 0, false
			}
		}
	}
	return 0, false
}

// spread moves the castings of each level to even distances round the trunk where
// that keeps all gaps, so that metal and heat are not all on one side.
func (s *search) spread() {
	for from := 0; from < len(s.puts); {
		to := from + 1
		for to < len(s.puts) && s.puts[to].level == s.puts[from].level {
			to++
		}
		s.spreadLevel(from, to)
		from = to
	}
}

func (s *search) spreadLevel(from, to int) {
	n := to - from
	level := s.puts[from:to]
	sort.SliceStable(level, func(i, j int) bool { return level[i].slot < level[j].slot })
	before := make([]int, n)
	for i := range level {
		before[i] = level[i].slot
	}
	for off := range slots / n {
		for i := range level {
			level[i].slot = (before[0] + off + i*slots/n) % slots
		}
		if s.levelClear(from, to) {
			return
		}
		if s.steps >= s.limit {
			break
		}
	}
	for i := range level {
		level[i].slot = before[i]
	}
}

func (s *search) levelClear(from, to int) bool {
	for i := from; i < to; i++ {
		for j := range s.puts {
			if (j < from || j > i) && !s.clear(&s.puts[j], &s.puts[i]) {
				return false
			}
		}
	}
	return true
}
