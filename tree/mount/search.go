package mount

import (
	"sort"
)

// slots is the number of hour marks round the trunk: quarters of an hour, which a
// person can keep by eye.
const slots = 48

// A choice is a body with the poses that fit the room: poses[i] is that of
// styles[i], or nil.
type choice struct {
	body  *Body
	poses *poses
	pose  *hung   // the one to begin with; nil when none fits
	other []*hung // tried where that one finds no place
}

// A put is a casting in its place.
type put struct {
	*hung
	id     string
	slot   int
	height float64
	level  int
}

// hourSlot counts 12 o'clock last, as the hour 12.
func (p put) hourSlot() int {
	if p.slot == 0 {
		return slots
	}
	return p.slot
}

// A result is a finished attempt. Fewer left is better, then less trunk, then
// fewer levels.
type result struct {
	puts   []put
	left   int
	trunk  float64
	levels int
}

func (a result) better(b result) bool {
	if a.left != b.left {
		return a.left < b.left
	}
	if a.trunk != b.trunk {
		return a.trunk < b.trunk
	}
	return a.levels < b.levels
}

type search struct {
	room   room
	memory *Memory
	all    []choice // heaviest first
	steps  int      // pairs compared
	limit  int
	puts   []put
	best   result

	promising []int // styles, the best of the quick search first; nil if it did not compare them
}

func newSearch(r room, o Options, bodies []Body) *search {
	s := &search{room: r, limit: o.steps(), memory: o.memory()}
	for i := range bodies {
		b := &bodies[i]
		s.all = append(s.all, choice{body: b, poses: s.memory.of(b, r, o)})
	}
	sort.SliceStable(s.all, func(i, j int) bool {
		a, b := s.all[i], s.all[j]
		if a.body.Weight != b.body.Weight {
			return a.body.Weight > b.body.Weight
		}
		return a.body.ID < b.body.ID
	})
	s.best.left = len(bodies) + 1
	return s
}

// clear says whether two castings in place keep all distances.
func (s *search) clear(a, b *put) bool {
	s.steps++
	return s.memory.clear(a.hung, b.hung, (b.slot-a.slot+slots)%slots, b.height-a.height, s.room.between)
}

// free says whether a casting may go to a place, looking at the last put first.
func (s *search) free(p *put) bool {
	for i := len(s.puts) - 1; i >= 0; i-- {
		if !s.clear(&s.puts[i], p) {
			return false
		}
	}
	return true
}

// inHeight says whether a root at this height keeps clear of button and top.
func (s *search) inHeight(h *hung, height float64) bool {
	return height >= h.rootLow(s.room)-roundOff && height <= h.rootHigh(s.room)+roundOff
}
